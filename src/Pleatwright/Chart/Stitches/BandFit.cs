using System.Collections.Immutable;
using Pleatwright.Cloth;

namespace Pleatwright.Chart.Stitches;

/// <summary>
/// How the repeats of a band fit its pleats. The pattern is centred on the centre valley; so many whole repeats and the
/// stitch that closes the last one take repeats × valleys + 2 pleats.
/// </summary>
/// <param name="First">First pleat it may use.</param>
/// <param name="Last">Last pleat it may use.</param>
/// <param name="Repeat">Valleys from one repeat to the next.</param>
public readonly record struct BandFit(Pleat First, Pleat Last, int Repeat)
{
    /// <summary>Pleats it may use, 0 or more.</summary>
    public int Pleats => Math.Max(0, Last.Number - First.Number + 1);

    /// <summary>The valley it is centred on; the left one of the middle pair when its pleats are odd in number.</summary>
    public Valley Centre => new((First.Number + Last.Number - 1) / 2);

    /// <summary>Whole repeats that fit.</summary>
    public int Repeats => Math.Max(0, (Pleats - 2) / Repeat);

    /// <summary>Pleats left over, both sides together.</summary>
    public int Spare => Math.Max(0, Pleats - 2 - Repeats * Repeat);

    /// <summary>Whether both ends come out alike: the pleats can be shared evenly about the centre valley.</summary>
    public bool EndsAlike => (Pleats & 1) == 0;

    /// <summary>Whether whole repeats use every pleat, with both ends alike.</summary>
    public bool IsExact => Spare == 0;

    /// <summary>Fewest pleats not below the present count that whole repeats use up.</summary>
    public int More => IsExact ? Pleats : Pleats - Spare + Repeat;

    /// <summary>Most pleats not above the present count that whole repeats use up, at least one repeat.</summary>
    public int Fewer => IsExact ? Pleats : Math.Max(Repeat + 2, Pleats - Spare);

    /// <summary>First pleat worked when its ends are such.</summary>
    public Pleat FirstWorked(BandEnds ends) => ends == BandEnds.Whole ? new Pleat(First.Number + Spare / 2) : First;

    /// <summary>Last pleat worked when its ends are such.</summary>
    public Pleat LastWorked(BandEnds ends) => ends == BandEnds.Whole ? new Pleat(Last.Number - (Spare - Spare / 2)) : Last;

    /// <summary>The fit of a band on so many pleats.</summary>
    public static BandFit Of(BandStitch stitch, Band band, int pleats) => new(
        new Pleat(Math.Max(1, band.From?.Number ?? 1)), new Pleat(Math.Min(pleats, band.To?.Number ?? pleats)), stitch.RepeatOf(band));

    /// <summary>The fit of a band on a cloth, on its panel when it hangs on one.</summary>
    /// <exception cref="ArgumentException">The cloth has no such panel.</exception>
    internal static BandFit Of(BandStitch stitch, Band band, PleatingPlan pleating) => Of(stitch, band.On(pleating), pleating.Pleats);

    /// <summary>Other counts of steps whose repeats use up these very pleats, nearest to the present count first.</summary>
    public ImmutableArray<int> StepsThatFit(BandStitch stitch, Band band)
    {
        if (stitch.Steps is not { } choice) return [];
        var (pleats, now) = (Pleats, stitch.StepsOf(band));
        return
        [
            .. Enumerable.Range(choice.Least, choice.Most - choice.Least + 1)
                .Where(s => s != now && stitch.RepeatOf(band with { Steps = s }) is var r && pleats > r + 1 && (pleats - 2) % r == 0)
                .OrderBy(s => Math.Abs(s - now)).ThenBy(s => s),
        ];
    }
}
