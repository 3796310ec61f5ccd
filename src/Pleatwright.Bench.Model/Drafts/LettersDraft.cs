using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;
using Pleatwright.Letters;
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

    private LetteredPiece? made;
    private GatheringRow? row;
    private int? height, across;

    private LettersDraft(Desk desk, ThreadKey thread) : base(desk) => (Thread, BorderThread) = (thread, thread);

    /// <summary>Letters in the thread in hand; null when the piece has none.</summary>
    public static LettersDraft? Open(Desk desk, Needle needle) =>
        (needle.Thread ?? desk.Piece.Threads.FirstOrDefault()?.Key) is { } thread ? new LettersDraft(desk, thread) : null;

    /// <summary>What is to be stitched; lines one under the other.</summary>
    public string Text { get; private set; } = "";

    /// <summary>The alphabet by its name.</summary>
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
            var (perSpace, zones) = (Desk.Piece.Cloth.Gauge.CableRowsPerSpace, Alphabet.Named(AlphabetName)!.Zones);
            return (height is { } rows ? LetterSize.For(perSpace, zones, rows) : LetterSize.Least(perSpace)).Capitals(zones);
        }
    }

    /// <summary>What it comes to, as sentences; empty while it comes to nothing.</summary>
    public string Comes => Laid is null || made is null ? "" : made.Words + (made.IsFree ? ""
        : $" There is no room for it: it lies in the middle{(made.Over.IsEmpty ? "" : $", over {string.Join(" and ", made.Over)}")}.");

    public void SetText(string? text) => Set(() => Text = text ?? "");

    public void SetAlphabet(string? name)
    {
        if (name is not null && Alphabet.Named(name) is not null) Set(() => AlphabetName = name);
    }

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
            Source = Alphabet.Named(AlphabetName)!,
            Height = height,
            Arrangement = Arrangement switch { "band" => Letters.Arrangement.Along, "down" => Letters.Arrangement.Down, "monogram" => Letters.Arrangement.Monogram, _ => Letters.Arrangement.Row },
            Across = IsAlong ? across : null,
            Border = Border,
        };
        made = LetteredPiece.Into(piece, options, piece.Thread(Thread)!, piece.Thread(BorderThread), IsAlong && Band < piece.Bands.Length ? Band : null, row);
        return made.Piece;
    }

    private void Set(Action answer)
    {
        answer();
        Answered();
    }
}
