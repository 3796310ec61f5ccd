using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>A thread of the piece, or one more: its name, colour, letter and strands, and what a skein of it holds.</summary>
public sealed class ThreadDraft : PieceDraft
{
    private readonly Needle needle;
    private readonly Floss? old;
    private readonly SkeinDraft skein;

    private ThreadDraft(Desk desk, Needle needle, Floss? old) : base(desk)
    {
        (this.needle, this.old) = (needle, old);
        var shown = old ?? new Floss(Threads.FreeKey(desk.Piece) ?? new ThreadKey('a'), "", Colour.Parse("#8c2f39"), Floss.DefaultStrands);
        (Name, Letter, ColourText, Note, Strands) = (shown.Name, shown.Key.ToString(), shown.Colour.ToString(), shown.Note, shown.Strands);
        skein = new SkeinDraft(Unread, shown.SkeinLength, shown.StrandsInSkein, shown.TexPerStrand);
    }

    /// <summary>Asks about a thread of the piece; about one more when it has none of this letter.</summary>
    public static ThreadDraft Open(Desk desk, Needle needle, ThreadKey? key) => new(desk, needle, key is { } k ? desk.Piece.Thread(k) : null);

    /// <summary>Reads a thread's letter.</summary>
    public static bool TryKey(string? text, out ThreadKey key)
    {
        key = default;
        if (text is not { Length: 1 } || !char.IsAsciiLetter(text[0])) return false;
        key = new ThreadKey(text[0]);
        return true;
    }

    /// <summary>Whether it is one more, not one of the piece.</summary>
    public bool IsNew => old is null;

    /// <summary>Why it was not kept, as a sentence; empty until that was tried.</summary>
    public string Told { get; private set; } = "";

    public string Name { get; private set; }

    /// <summary>The name it gets when the maker gives none: plain words for its colour.</summary>
    public string HonestName => Colour.TryParse(ColourText, out var colour) ? ColourWords.For(colour) : "";

    public string Letter { get; private set; }

    public string ColourText { get; private set; }

    public string Note { get; private set; }

    public int Strands { get; private set; }

    public Length Skein => skein.Length;

    public int StrandsInSkein => skein.Strands;

    public double Tex => skein.Tex;

    /// <summary>Whether it is worked somewhere, so that something must take its place when it goes.</summary>
    public bool InUse => old is not null && Threads.InUse(Desk.Piece, old.Key);

    /// <summary>The threads that could take its place.</summary>
    public IEnumerable<Floss> Others => Desk.Piece.Threads.Where(t => t.Key != old?.Key);

    /// <summary>The letter of the thread that takes its place when it goes; empty for none.</summary>
    public string Instead { get; set; } = "";

    public void SetName(string? text) => Set(() => Name = text ?? "");

    public void SetLetter(string? text) => Set(() => Letter = text ?? "");

    public void SetColour(string? text) => Set(() => ColourText = text ?? "");

    public void SetNote(string? text) => Set(() => Note = text ?? "");

    public void SetStrands(string? text) => Set(() => { if (Unread.Whole("Strands in the needle", text, out var n)) Strands = n; });

    public void SetSkein(Length length) => Set(() => skein.Length = length);

    public void SetStrandsInSkein(string? text) => Set(() => skein.SetStrands(text));

    public void SetTex(string? text) => Set(() => skein.SetTex(text));

    /// <summary>Takes over what the stash says of a thread; the letter and the strands in the needle stay.</summary>
    public void TakeFrom(StashThread thread) => Set(() =>
    {
        (Name, ColourText, Note) = (thread.Name, thread.Colour.ToString(), thread.Note);
        skein.Take(thread);
    });

    /// <summary>Keeps it and takes it in the needle.</summary>
    /// <returns>False when it cannot be; <see cref="Told"/> says why.</returns>
    public bool KeepAndTake()
    {
        Told = Fault;
        if (!Keep()) return false;
        if (TryKey(Letter, out var key)) needle.TakeThread(key);
        return true;
    }

    /// <summary>Takes the thread away; what was worked in it is worked in <see cref="Instead"/>, or cleared.</summary>
    public void Remove()
    {
        if (old is not null && Desk.Piece.Thread(old.Key) is not null)
            Desk.Edit("a thread taken away", p => Threads.Remove(p, old.Key, TryKey(Instead, out var other) ? other : null));
    }

    private protected override string Edit => IsNew ? "another thread" : "a thread changed";

    private protected override string? Wrong(Piece piece) =>
        !Colour.TryParse(ColourText, out _) ? Said.Colour
        : !TryKey(Letter, out var key) ? "The letter is one of a to z or A to Z."
        : old is not null && piece.Thread(old.Key) != old ? "This thread was changed or taken away meanwhile."
        : key != old?.Key && piece.Thread(key) is not null ? $"Another thread has the letter {key}."
        : Name.Trim().Length > Floss.LongestName || Note.Trim().Length > Floss.LongestNote ? Said.TooLong
        : Strands is < 1 or > Floss.MostStrands ? $"A needle takes 1 to {Floss.MostStrands} strands."
        : skein.Fault ?? (Cutting.LengthsPerSkein(Made(key), piece.Working.WorkingLength) < 1 ? "A skein must hold at least one needleful." : null);

    private protected override Piece With(Piece piece)
    {
        TryKey(Letter, out var key);
        return old is null ? Threads.Add(piece, Made(key)) : Threads.Change(piece, old.Key, Made(key));
    }

    private Floss Made(ThreadKey key)
    {
        var colour = Colour.Parse(ColourText);
        return (old ?? new Floss(key, "", colour, Strands)) with
        {
            Key = key, Name = Named, Colour = colour, Strands = Strands, Note = Said.Trimmed(Note, old?.Note),
            SkeinLength = skein.Length, StrandsInSkein = skein.Strands, TexPerStrand = skein.Tex,
        };
    }

    private string Named => Said.Trimmed(Name, old?.Name).Length > 0 || Name == old?.Name ? Said.Trimmed(Name, old?.Name) : HonestName;

    private void Set(Action change)
    {
        change();
        Told = "";
        Answered();
    }
}
