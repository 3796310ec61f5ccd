using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>What a skein holds, as far as it is answered; asked of a thread of the piece and of one in the stash alike.</summary>
internal sealed class SkeinDraft(Unread unread, Length length, int strands, double tex)
{
    private const string OfStrands = "Strands on the skein", OfTex = "Fineness of a strand (tex)";

    public Length Length { get; set; } = length;

    public int Strands { get; private set; } = strands;

    public double Tex { get; private set; } = tex;

    /// <summary>What no skein can hold, as a sentence; null when it can.</summary>
    public string? Fault => Strands is < 1 or > Floss.MostStrandsInSkein || !(Tex is >= Floss.LeastTex and <= Floss.MostTex) || Length <= Length.Zero
        ? FormattableString.Invariant($"A skein holds 1 to {Floss.MostStrandsInSkein} strands of {Floss.LeastTex} to {Floss.MostTex:#,0} tex, and has a length.")
        : null;

    public void SetStrands(string? text)
    {
        if (unread.Whole(OfStrands, text, out var n)) Strands = n;
    }

    public void SetTex(string? text)
    {
        if (unread.Number(OfTex, text, out var n)) Tex = n;
    }

    public void Take(StashThread thread)
    {
        unread.Forget(OfStrands);
        unread.Forget(OfTex);
        (Strands, Tex, Length) = (thread.StrandsInSkein, thread.TexPerStrand, thread.SkeinLength);
    }
}
