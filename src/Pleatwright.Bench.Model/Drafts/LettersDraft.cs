using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;
using Pleatwright.Letters;
using Pleatwright.Picture;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>A name to be put on the cloth in letters: what it says, which letters, how high, how they stand, in which thread.</summary>
public sealed class LettersDraft : PieceDraft
{
    private const string High = "Rows high", Wide = "Valleys to fill", On = "Base line on gathering row";

    /// <summary>The ways letters stand, as they are chosen, each with its words.</summary>
    public static IReadOnlyList<(string Name, string Words)> Arrangements { get; } =
        [("row", "on a row"), ("band", "along a band"), ("down", "one below the other"), ("monogram", "as a monogram")];

    /// <summary>The alphabets, by their names, each with its words.</summary>
    public static IReadOnlyList<(string Name, string Words)> Alphabets { get; } = [.. Alphabet.All.Select(a => (a.Name, a.About))];

    /// <summary>The choice of a font that was brought in, beside the alphabets.</summary>
    public const string FontChoice = "font";

    private LetteredPiece? made;
    private DrawnFont? font;
    private (Cloth.Gauge Gauge, FontLetters Letters)? traced; // kept, for a letter is traced once
    private GatheringRow? row;
    private int? height, across;

    private LettersDraft(Desk desk, ThreadKey thread) : base(desk) => (Thread, BorderThread) = (thread, thread);

    /// <summary>Letters in the thread in hand; null when the piece has none.</summary>
    public static LettersDraft? Open(Desk desk, Needle needle) =>
        (needle.Thread ?? desk.Piece.Threads.FirstOrDefault()?.Key) is { } thread ? new LettersDraft(desk, thread) : null;

    /// <summary>What is to be stitched; lines one under the other.</summary>
    public string Text { get; private set; } = "";

    /// <summary>The font that was brought in, by its name; null while there is none.</summary>
    public string? FontName => font?.Name;

    /// <summary>Why a font could not be taken, as a sentence; empty when it could.</summary>
    public string FontFault { get; private set; } = "";

    /// <summary>The alphabet by its name, or <see cref="FontChoice"/>.</summary>
    public string AlphabetName { get; private set; } = Alphabet.All[0].Name;

    /// <summary>How they stand, by its name.</summary>
    public string Arrangement { get; private set; } = Arrangements[0].Name;

    /// <summary>Whether they are drawn apart.</summary>
    public bool IsAlong => Arrangement == "band";

    /// <summary>Whether a border goes round.</summary>
    public bool Border { get; private set; }

    /// <summary>The band they go along, from 0; null for none.</summary>
    public int? Band { get; private set; }

    /// <summary>The thread.</summary>
    public ThreadKey Thread { get; private set; }

    /// <summary>The border's thread.</summary>
    public ThreadKey BorderThread { get; private set; }

    /// <summary>The most characters of <see cref="Text"/>.</summary>
    public static int MostCharacters => Figure.MostLetters;

    /// <summary>How high capitals come out, in cable rows: what stands in the field until the maker says.</summary>
    public int Rows
    {
        get
        {
            var (perSpace, zones) = (Desk.Piece.Cloth.Gauge.CableRowsPerSpace, Source(Desk.Piece).Zones);
            return (height is { } rows ? LetterSize.For(perSpace, zones, rows) : LetterSize.Least(perSpace)).Capitals(zones);
        }
    }

    /// <summary>What it comes to, as sentences; empty while it comes to nothing.</summary>
    public string Comes => Laid is null || made is null ? "" : made.Words + (made.IsFree ? ""
        : $" There is no room for it: it lies in the middle{(made.Over.IsEmpty ? "" : $", over {string.Join(" and ", made.Over)}")}.");

    public void SetText(string? text) => Set(() => Text = text ?? "");

    public void SetAlphabet(string? name)
    {
        if (name is not null && (Alphabet.Named(name) is not null || (name == FontChoice && font is not null))) Set(() => AlphabetName = name);
    }

    /// <summary>Takes the letters of a font.</summary>
    /// <param name="name">What it is called.</param>
    /// <param name="capitalHeight">Pixels of a capital's height as it is drawn, more than 0.</param>
    /// <param name="draw">Draws a character: its picture, and the pixels from its top down to its base line; null where the font has none.</param>
    public void TakeFont(string name, double capitalHeight, Func<string, (Raster Raster, int BaseLine)?> draw) => Set(() =>
    {
        font = new DrawnFont(name, capitalHeight, draw);
        traced = null;
        (AlphabetName, FontFault) = (FontChoice, "");
    });

    /// <summary>A font could not be taken; the letters there were stay.</summary>
    public void RefuseFont(string why) => Set(() => FontFault = why);

    public void SetArrangement(string? name)
    {
        if (Arrangements.Any(a => a.Name == name)) Set(() => Arrangement = name!);
    }

    public void TurnBorder() => Set(() => Border = !Border);

    public void SetHeight(string? text)
    {
        if (Unread.MaybeWhole(High, text, out var rows)) height = rows;
        Answered();
    }

    public void SetAcross(string? text)
    {
        if (Unread.MaybeWhole(Wide, text, out var valleys)) across = valleys;
        Answered();
    }

    /// <summary>The gathering row that the base line lies on; nothing for any that is free.</summary>
    public void SetGatheringRow(string? text)
    {
        if (Unread.MaybeWhole(On, text, out var number)) row = number is { } n ? new GatheringRow(n) : null;
        Answered();
    }

    /// <summary>The band they go along, from 0; nothing for none.</summary>
    public void SetBand(string? text) => Set(() => Band = int.TryParse(text, out var band) && band >= 0 && band < Desk.Piece.Bands.Length ? band : null);

    public void SetThread(string? letter)
    {
        if (ThreadDraft.TryKey(letter, out var key)) Set(() => Thread = key);
    }

    public void SetBorderThread(string? letter)
    {
        if (ThreadDraft.TryKey(letter, out var key)) Set(() => BorderThread = key);
    }

    private protected override string Edit => "letters";

    private protected override string? Wrong(Piece piece)
    {
        if (string.IsNullOrWhiteSpace(Text)) return "Type what is to be stitched.";
        if (piece.Thread(Thread) is null) return $"There is no thread {Thread} any more.";
        if (Border && piece.Thread(BorderThread) is null) return $"There is no thread {BorderThread} any more.";
        return row is { } r && (r.Number < 1 || r.Number > piece.Cloth.GatheringRows) ? $"The cloth has gathering rows 1 to {piece.Cloth.GatheringRows}." : null;
    }

    private protected override Piece With(Piece piece)
    {
        var options = new LetteringOptions
        {
            Text = Text,
            Source = Source(piece),
            Height = height,
            Arrangement = Arrangement switch { "band" => Letters.Arrangement.Along, "down" => Letters.Arrangement.Down, "monogram" => Letters.Arrangement.Monogram, _ => Letters.Arrangement.Row },
            Across = IsAlong ? across : null,
            Border = Border,
        };
        made = LetteredPiece.Into(piece, options, piece.Thread(Thread)!, piece.Thread(BorderThread), IsAlong && Band < piece.Bands.Length ? Band : null, row);
        return made.Piece;
    }

    private ILetterSource Source(Piece piece)
    {
        if (Alphabet.Named(AlphabetName) is { } alphabet) return alphabet;
        if (traced is not { } known || known.Gauge != piece.Cloth.Gauge) traced = known = (piece.Cloth.Gauge, new FontLetters(font!, piece.Cloth.Gauge));
        return known.Letters;
    }

    private sealed class DrawnFont(string name, double capitalHeight, Func<string, (Raster Raster, int BaseLine)?> draw) : ILetterPictures
    {
        public string Name => name;

        public double CapitalHeight => capitalHeight;

        public LetterPicture? Of(string character) => draw(character) is { } drawn ? new LetterPicture(drawn.Raster, drawn.BaseLine) : null;

        public void Dispose() { }
    }

    private void Set(Action answer)
    {
        answer();
        Answered();
    }
}
