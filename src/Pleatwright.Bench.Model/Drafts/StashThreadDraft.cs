using Pleatwright.Measure;
using Pleatwright.Shopping;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>A thread of the stash, or one more.</summary>
public sealed class StashThreadDraft
{
    private readonly StashThread old;
    private readonly Unread unread = new();
    private readonly SkeinDraft skein;

    public StashThreadDraft(StashThread thread)
    {
        old = thread;
        (Name, ColourText, Note, Skeins) = (thread.Name, thread.Colour.ToString(), thread.Note, thread.Skeins);
        skein = new SkeinDraft(unread, thread.SkeinLength, thread.StrandsInSkein, thread.TexPerStrand);
    }

    public string Name { get; set; }

    public string ColourText { get; set; }

    public string Note { get; set; }

    /// <summary>Skeins left.</summary>
    public double Skeins { get; private set; }

    public Length Skein { get => skein.Length; set => skein.Length = value; }

    public int StrandsInSkein => skein.Strands;

    public double Tex => skein.Tex;

    public void SetSkeins(string? text)
    {
        if (unread.Number("Skeins left", text, out var n)) Skeins = n;
    }

    public void SetStrandsInSkein(string? text) => skein.SetStrands(text);

    public void SetTex(string? text) => skein.SetTex(text);

    /// <summary>Why it cannot be kept, as a sentence; empty when it can.</summary>
    public string Fault => unread.Fault
        ?? (Name.Trim().Length == 0 ? Said.Name
        : Name.Trim().Length > Stash.LongestName || Note.Trim().Length > Stash.LongestNote ? Said.TooLong
        : !Colour.TryParse(ColourText, out _) ? Said.Colour
        : !(Skeins is >= 0 and <= StashThread.MostSkeins) ? $"Skeins left are 0 to {Words.Of((int)StashThread.MostSkeins)}; a part of one is a fraction, as 0.5."
        : skein.Fault ?? "");

    /// <summary>The thread as answered; null when it cannot be kept.</summary>
    public StashThread? Made => Fault.Length > 0 ? null : old with
    {
        Name = Name.Trim(), Colour = Colour.Parse(ColourText), Skeins = Skeins, Note = Note.Trim(), SkeinLength = skein.Length, StrandsInSkein = skein.Strands, TexPerStrand = skein.Tex,
    };
}
