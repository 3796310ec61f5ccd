using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Proof.Rules;

/// <summary>
/// Stacked cables where the pleats finish wider than the thread covers: low on a bishop, whose rows spread as the yoke is
/// blocked. A thread too thin even at the gathered pitch is told by <see cref="LineCoverage"/> alone.
/// </summary>
internal sealed class SpreadPleats : Rule
{
    /// <inheritdoc/>
    public override string Name => "spread-pleats";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        var gauge = work.Pleating.Gauge;
        foreach (var thread in work.Piece.Threads)
        {
            if (Coverage.OfLine(thread, gauge.LineHeight) < Coverage.Enough) continue;
            var widest = Coverage.WidestPitch(thread, gauge.LineHeight, gauge.Pitch);
            Place? place = null;
            var most = Length.Zero;
            foreach (var run in work.Runs)
                if (run.Thread == thread.Key && work.Pleating.PitchAt(run.Row.Index) is var pitch && pitch > widest && Stacking.Holds(work, run))
                {
                    place = place?.And(Place.Of(run)) ?? Place.Of(run);
                    if (pitch > most) most = pitch;
                }
            if (place is { } found && findings.Tells(Severity.Warning, found)) Tell(work, findings, thread, widest, found, most);
        }
    }

    private static void Tell(Work work, Findings findings, Floss thread, Length widest, Place place, Length pitch)
    {
        var gauge = work.Pleating.Gauge;
        var covered = Coverage.AtPitch(thread, gauge.LineHeight, gauge.Pitch, pitch);
        var needed = Enumerable.Range(thread.Strands, Floss.MostStrands - thread.Strands + 1)
            .Cast<int?>().FirstOrDefault(n => Coverage.WidestPitch(thread with { Strands = n!.Value }, gauge.LineHeight, gauge.Pitch) >= pitch);
        findings.Add(Severity.Warning, place,
            string.Create(CultureInfo.InvariantCulture,
                $"In {Say.Rows(work, place)} the pleats spread to {Fine(pitch)}; {Say.Strands(thread.Strands)} of {Say.Thread(work, thread.Key)} cover them to {Fine(widest)}, and here only {covered:0.00} of a line: cloth shows between stacked rows."),
            (needed is { } n ? $"Work it with {Say.Strands(n)}, keep" : "Keep") + " stacked rows higher up, or gather more cloth into the panels.",
            needed is { } strands ? new Mend($"Thread {Say.Strands(strands)}", piece => piece.WithThread(thread.Key, f => f with { Strands = strands })) : null);
    }

    private static string Fine(Length length) => string.Create(CultureInfo.InvariantCulture, $"{length.Millimetres:0.00} mm");
}
