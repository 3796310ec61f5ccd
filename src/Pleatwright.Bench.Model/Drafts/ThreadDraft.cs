using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>What the sheet of a thread holds while it is filled in.</summary>
public sealed class ThreadDraft
{
    private readonly Floss? old;

    private ThreadDraft(Floss? old, Floss shown)
    {
        this.old = old;
        (Name, Letter, Colour, Note, Strands) = (shown.Name, shown.Key.ToString(), shown.Colour.ToString(), shown.Note, shown.Strands);
        (StrandsInSkein, Tex, Skein) = (shown.StrandsInSkein, shown.TexPerStrand, shown.SkeinLength);
    }

    /// <summary>The thread as the piece has it; null for one more.</summary>
    public Floss? Old => old;

    public string Name { get; set; }

    public string Letter { get; set; }

    /// <summary>As #rrggbb.</summary>
    public string Colour { get; set; }

    public string Note { get; set; }

    public int Strands { get; set; }

    public int StrandsInSkein { get; set; }

    public double Tex { get; set; }

    public Length Skein { get; set; }

    /// <summary>The name it gets when the maker gives none: plain words for its colour.</summary>
    public string HonestName => Thread.Colour.TryParse(Colour, out var colour) ? ColourWords.For(colour) : "";

    /// <summary>A draft of one of the piece's threads, or of one more.</summary>
    public static ThreadDraft Of(Piece piece, ThreadKey? key)
    {
        var old = key is { } k ? piece.Thread(k) : null;
        return new ThreadDraft(old, old ?? new Floss(Threads.FreeKey(piece) ?? new ThreadKey('a'), "", Thread.Colour.Parse("#8c2f39"), Floss.DefaultStrands));
    }

    /// <summary>Takes over a thread of the stash.</summary>
    public void Take(StashThread thread)
    {
        (Name, Colour, Note) = (thread.Name, thread.Colour.ToString(), thread.Note);
        (StrandsInSkein, Tex, Skein) = (thread.StrandsInSkein, thread.TexPerStrand, thread.SkeinLength);
    }

    /// <summary>The thread it describes; null, and what is wrong, when it describes none.</summary>
    public Floss? Read(Piece piece, out string wrong)
    {
        wrong = "";
        if (!Thread.Colour.TryParse(Colour, out var colour)) wrong = "Write the colour as # and six digits, as in “#b3202c”.";
        else if (Letter.Length != 1 || !char.IsAsciiLetter(Letter[0])) wrong = "The letter is one of a to z or A to Z.";
        else if (Letter[0] != old?.Key.Letter && piece.Thread(new ThreadKey(Letter[0])) is not null) wrong = $"Another thread has the letter {Letter}.";
        else if (Strands is < 1 or > Floss.MostStrands) wrong = $"A needle takes 1 to {Floss.MostStrands} strands.";
        else if (StrandsInSkein is < 1 or > Floss.MostStrandsInSkein) wrong = $"A length has 1 to {Floss.MostStrandsInSkein} strands.";
        else if (!(Tex is >= Floss.LeastTex and <= Floss.MostTex)) wrong = $"A strand's fineness is {Floss.LeastTex} to {Floss.MostTex} tex.";
        else if (Skein <= piece.Working.WorkingLength) wrong = "A skein must hold at least one needleful.";
        if (wrong.Length > 0) return null;
        var key = new ThreadKey(Letter[0]);
        return (old ?? new Floss(key, "", colour, Strands)) with
        {
            Key = key, Name = Name.Trim() is { Length: > 0 } name ? name : HonestName, Colour = colour, Strands = Strands, Note = Note.Trim(),
            SkeinLength = Skein, StrandsInSkein = StrandsInSkein, TexPerStrand = Tex,
        };
    }
}
