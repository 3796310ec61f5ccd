using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Proof.Rules;

/// <summary>
/// Stacked cables in a thread too thin to hide the cloth between their lines. A row on its own, such as a band, may be as
/// thin as it likes.
/// </summary>
internal sealed class LineCoverage : Rule
{
    /// <inheritdoc/>
    public override string Name => "coverage";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        var height = work.Pleating.Gauge.LineHeight;
        for (var t = 0; t < work.Piece.Threads.Length; t++)
        {
            var thread = work.Piece.Threads[t];
            if (Coverage.OfLine(thread, height) >= Coverage.Enough) continue;
            if (Stacked(work, thread.Key) is not { } found || !findings.Tells(Severity.Warning, found.Place)) continue;
            Tell(work, findings, thread, height, found.Place, found.Areas);
        }
    }

    private static void Tell(Work work, Findings findings, Floss thread, Length height, Place place, int areas)
    {
        var needed = Coverage.StrandsNeeded(thread, height);
        findings.Add(Severity.Warning, place,
            string.Create(CultureInfo.InvariantCulture,
                $"{Say.Strands(thread.Strands)} of {Say.Thread(work, thread.Key)} cover {Coverage.OfLine(thread, height):0.00} of a line where rows are stacked; under {Coverage.Enough:0.0} the cloth shows. ")
            + (areas == 1 ? $"It is stacked in {Say.Where(work, place)}." : $"It is stacked in {Counting.Of(areas, "place")}, first in {Say.Where(work, place)}."),
            needed is { } n ? $"Work it with {Say.Strands(n)}, or with more cable rows to the space."
                : "Set the gathering rows closer, or work more cable rows to the space; no number of strands will do.",
            needed is { } strands ? new Mend($"Thread {Say.Strands(strands)}", piece => piece.WithThread(thread.Key, f => f with { Strands = strands })) : null);
    }

    // The place of the thread's stacked runs in the first area that has any, and how many areas have some.
    private static (Place Place, int Areas)? Stacked(Work work, ThreadKey thread)
    {
        var seen = new HashSet<int>();
        Place? place = null;
        var first = -1;
        for (var i = 0; i < work.Runs.Length; i++)
        {
            var run = work.Runs[i];
            if (run.Thread != thread || !Stacking.Holds(work, run)) continue;
            var area = work.Areas.AreaOf(i);
            if (seen.Add(area) && first < 0) first = area;
            if (area == first) place = place?.And(Place.Of(run)) ?? Place.Of(run);
        }
        return place is { } found ? (found, seen.Count) : null;
    }
}
