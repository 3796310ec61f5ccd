using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Proof.Rules;

/// <summary>A thread too much like the cloth for its stitching to be seen.</summary>
internal sealed class ThreadLikeCloth : Rule
{
    /// <summary>Thread and cloth differ by at least so much, CIEDE2000 (common practice, no source: a figure must be read across a room).</summary>
    public const double LeastDifference = 10;

    /// <inheritdoc/>
    public override string Name => "thread-like-cloth";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        for (var t = 0; t < work.Piece.Threads.Length; t++)
        {
            var thread = work.Piece.Threads[t];
            var difference = ColourDifference.Between(thread.Colour, work.Piece.Cloth.Colour);
            if (difference >= LeastDifference || First(work, thread.Key) is not { } place || !findings.Tells(Severity.Warning, place)) continue;
            findings.Add(Severity.Warning, place,
                string.Create(CultureInfo.InvariantCulture,
                    $"{Say.Thread(work, thread.Key).Capital()} is so like the cloth that it will hardly show: they differ by {difference:0.0} (CIEDE2000). It is first used in {Say.Where(work, place)}."),
                "Choose a lighter, darker or clearer colour; for stitching tone on tone leave it as it is.");
        }
    }

    // In a run if there is one, else in a band, else in an accent.
    private static Place? First(Work work, ThreadKey thread)
    {
        foreach (ref readonly var run in work.Runs)
            if (run.Thread == thread)
                return Place.Of(run);
        foreach (var band in work.Bands)
            if (band.Band.Thread == thread && !band.Passes.IsEmpty)
                return Place.Of(work, band);
        foreach (var accent in work.Accents)
            if (accent.Mark.Thread == thread && accent.IsOnCloth(work))
                return Place.Of(work, accent);
        return null;
    }
}
