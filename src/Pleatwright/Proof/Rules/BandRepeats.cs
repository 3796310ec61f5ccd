using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Measure;

namespace Pleatwright.Proof.Rules;

/// <summary>Bands whose repeats do not use up their pleats: the ends come out alike, but cut off; and what would fit.</summary>
internal sealed class BandRepeats : Rule
{
    private const int MostOffered = 3;

    /// <inheritdoc/>
    public override string Name => "band-repeats";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        foreach (var laid in work.Bands)
        {
            var fit = laid.Fit;
            if (fit.IsExact || laid.Passes.IsEmpty) continue;
            var place = Place.Of(work, laid);
            if (!findings.Tells(Severity.Note, place)) continue;
            var steps = fit.StepsThatFit(laid.Stitch, laid.Band);
            findings.Add(Severity.Note, place, Message(work, laid), Remedy(laid, steps), MendOf(work, laid, steps));
        }
    }

    private static string Message(Work work, LaidBand laid)
    {
        var fit = laid.Fit;
        var whole = $"{Counting.Of(fit.Repeats, "whole repeat")} of {Counting.Of(fit.Repeat, "valley")} use {fit.Pleats - fit.Spare} of {Counting.Of(fit.Pleats, "pleat")}";
        return $"The {Say.Band(work, laid)}: {whole}; " + (
            !fit.EndsAlike ? "an odd number of pleats cannot be shared evenly, so its ends are not quite alike."
            : laid.Band.Ends == BandEnds.Whole ? $"{Counting.Of(fit.Spare / 2, "pleat")} {(fit.Spare / 2 == 1 ? "stays" : "stay")} bare at each side."
            : "it is cut off within a repeat, alike at both sides.");
    }

    private static string Remedy(LaidBand laid, IReadOnlyList<int> steps)
    {
        var fit = laid.Fit;
        List<string> choices = [];
        if (fit.Repeats > 0) choices.Add($"{Counting.Of(fit.Pleats - fit.Fewer, "pleat")} fewer ({fit.Fewer})");
        choices.Add($"{Counting.Of(fit.More - fit.Pleats, "pleat")} more ({fit.More})");
        choices.AddRange(steps.Take(MostOffered).Select(s => Counting.Of(s, "step")));
        return $"For whole repeats take {string.Join(", ", choices[..^1])}{(choices.Count > 1 ? " or " : "")}{choices[^1]}"
            + (laid.Band.Ends == BandEnds.Cut && fit.Repeats > 0 ? $", or leave {Counting.Of(fit.Spare / 2, "pleat")} bare at each side." : ", or let it run on and be cut off alike at both sides.");
    }

    // The nearest count of steps that fits, unless its turns would reach where the band may not: over a figure, off the cloth, or
    // among pleats too close for a needle.
    private static Mend? MendOf(Work work, LaidBand laid, IReadOnlyList<int> steps)
    {
        if (steps.Count == 0) return null;
        var band = laid.Band with { Steps = steps[0] };
        var then = LaidBand.Lay(laid.Index, band, laid.Stitch, work.Pleating, work.Piece.Working.Hand);
        CableRow top = Place.RowAt(work, then.Highest), bottom = Place.RowAt(work, then.Lowest);
        var onCloth = then.Highest > -Stitch.Hair && then.Lowest < work.Piece.Cloth.GatheringRows - 1 + Stitch.Hair;
        return !onCloth || Crowding.IsTooClose(work, top) || Crowding.IsTooClose(work, bottom) || BandOverFigure.Hits(work, then).Count > 0 ? null
            : new Mend($"Work it with {Counting.Of(steps[0], "step")}", piece => piece with { Bands = piece.Bands.SetItem(laid.Index, band) });
    }
}
