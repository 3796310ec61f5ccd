using System.Collections.Immutable;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Chart.Edit;

/// <summary>One way to make a band's repeats come out.</summary>
/// <param name="Words">What it does, to be pressed: "5 steps", "Cloth of 50 pleats".</param>
/// <param name="Band">The band then.</param>
/// <param name="Cloth">The cloth then.</param>
public sealed record FittingChoice(string Words, Band Band, ClothPlan Cloth);

/// <summary>How a band's repeats fit the cloth, in words, and what may be chosen where they do not come out.</summary>
internal static class Fitting
{
    private const int MostSteps = 3;

    /// <summary>How it fits, as a sentence; empty for a stitch without repeats.</summary>
    public static string Words(ClothPlan cloth, Band band)
    {
        if (Of(cloth, band) is not { Repeat: > 1 } fit) return "";
        var repeats = $"One repeat is {fit.Repeat} valleys; {Counting.Of(fit.Repeats, "whole repeat")}";
        if (fit.IsExact) return $"{repeats} take all {fit.Pleats} pleats, and both ends come out alike.";
        var takes = $"{repeats} take {fit.Pleats - fit.Spare} of {fit.Pleats} pleats";
        return !fit.EndsAlike ? $"{takes}; an odd number of pleats cannot be shared evenly, so the ends are not quite alike."
            : band.Ends == BandEnds.Whole ? $"{takes}; {Counting.Of(fit.Spare / 2, "pleat")} stay bare at each side."
            : $"{takes}; it is cut off within a repeat, alike at both sides.";
    }

    /// <summary>What may be chosen where the repeats do not use up the pleats; nothing where they do.</summary>
    public static ImmutableArray<FittingChoice> Choices(ClothPlan cloth, Band band)
    {
        if (BandStitch.Named(band.Stitch) is not { } stitch || Of(cloth, band) is not { Repeat: > 1, IsExact: false } fit) return [];
        var choices = ImmutableArray.CreateBuilder<FittingChoice>();
        foreach (var steps in fit.StepsThatFit(stitch, band).Take(MostSteps))
            choices.Add(new FittingChoice($"{Counting.Of(steps, "step")} from turn to turn", band with { Steps = steps }, cloth));
        if (fit.EndsAlike && stitch.TakesEnds(band))
        {
            if (band.Ends == BandEnds.Whole) choices.Add(new FittingChoice("Cut off alike at both sides", band with { Ends = BandEnds.Cut }, cloth));
            else if (fit.Repeats > 0) choices.Add(new FittingChoice($"{Counting.Of(fit.Spare / 2, "pleat")} bare at each side", band with { Ends = BandEnds.Whole }, cloth));
        }
        foreach (var pleats in fit.Repeats > 0 ? (ReadOnlySpan<int>)[fit.Fewer, fit.More] : [fit.More])
            if ((band is { From: null, To: null, Panel: null } ? OfCloth(cloth, band, pleats) : OfSpan(cloth, band, fit, pleats)) is { } choice) choices.Add(choice);
        return choices.ToImmutable();
    }

    private static BandFit? Of(ClothPlan cloth, Band band) =>
        BandStitch.Named(band.Stitch) is { OnLattice: false } stitch ? BandFit.Of(stitch, band, new PleatingPlan(cloth)) : null;

    // A form that has its measure from what it is for is not changed for a band.
    private static FittingChoice? OfCloth(ClothPlan cloth, Band band, int pleats)
    {
        if (pleats is < 2 or > PleatingPlan.MostPleats || cloth.Form.OfPleats(cloth, pleats) is not { } form) return null;
        var other = cloth with { Form = form };
        return new PleatingPlan(other).Pleats == pleats ? new FittingChoice($"Cloth of {pleats} pleats", band, other) : null;
    }

    private static FittingChoice? OfSpan(ClothPlan cloth, Band band, BandFit fit, int pleats)
    {
        var pleating = new PleatingPlan(cloth);
        var (first, last) = band.Panel is { } panel && pleating.Panel(panel) is { } share ? (share.First, share.Last) : (1, pleating.Pleats);
        var from = fit.First.Number - (pleats - fit.Pleats) / 2;
        var to = from + pleats - 1;
        return from < first || to > last ? null
            : new FittingChoice($"Pleats {from} to {to}", band with { From = new Pleat(from - first + 1), To = new Pleat(to - first + 1) }, cloth);
    }
}
