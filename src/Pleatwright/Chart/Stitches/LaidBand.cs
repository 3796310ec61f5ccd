using System.Collections.Immutable;
using Pleatwright.Cloth;

namespace Pleatwright.Chart.Stitches;

/// <summary>Stitches of a band worked in one go and one direction.</summary>
/// <param name="Row">Which time the band is worked, from 0 at the top.</param>
/// <param name="Journey">Which journey of the stitch it belongs to, from 0.</param>
/// <param name="Turned">Whether the work is turned top to bottom for it.</param>
/// <param name="GoesOn">Whether it goes on with the tail left at the centre by the pass before.</param>
/// <param name="Stitches">Its single stitches, in the order worked; at least one.</param>
public sealed record Pass(int Row, int Journey, bool Turned, bool GoesOn, ImmutableArray<Stitch> Stitches);

/// <summary>A band laid on the cloth stitch by stitch, off the lattice of cables.</summary>
public sealed class LaidBand
{
    private readonly ImmutableArray<(Journey Journey, Leg Leg)> ways; // of each pass

    private LaidBand(int index, Band band, BandStitch stitch, BandFit fit, double top, ImmutableArray<Pass> passes, ImmutableArray<(Journey, Leg)> ways)
    {
        this.ways = ways;
        Index = index;
        Band = band;
        Stitch = stitch;
        Fit = fit;
        Top = top;
        Passes = passes;
        Highest = double.PositiveInfinity;
        Lowest = double.NegativeInfinity;
        foreach (var pass in passes)
        {
            var (highest, lowest) = Chart.Stitches.Stitch.Reach(pass.Stitches.AsSpan());
            (Highest, Lowest) = (Math.Min(Highest, highest), Math.Max(Lowest, lowest));
        }
    }

    /// <summary>Its place among the piece's bands, from 0.</summary>
    public int Index { get; }

    /// <summary>The band asked for.</summary>
    public Band Band { get; }

    /// <summary>Its stitch.</summary>
    public BandStitch Stitch { get; }

    /// <summary>How its repeats fit.</summary>
    public BandFit Fit { get; }

    /// <summary>Spaces below gathering row 1 at which its height 0 lies.</summary>
    public double Top { get; }

    /// <summary>What is worked, in order.</summary>
    public ImmutableArray<Pass> Passes { get; }

    /// <summary>Its highest bite, in spaces below gathering row 1; infinite when nothing is worked.</summary>
    public double Highest { get; }

    /// <summary>Its lowest bite, in spaces below gathering row 1.</summary>
    public double Lowest { get; }

    /// <summary>Single stitches in all.</summary>
    public int Stitches => Passes.Sum(p => p.Stitches.Length);

    /// <summary>
    /// The same stitches worked back from the other side with the work turned top to bottom; null for a half of a band
    /// worked from the centre, and for a stitch that is not worked back.
    /// </summary>
    /// <param name="pass">One of <see cref="Passes"/>.</param>
    public Pass? WorkedBack(Pass pass)
    {
        var at = Passes.IndexOf(pass);
        if (at < 0 || !Stitch.MayWorkBack || Stitch.StartOf(Band) == WorkFrom.Centre) return null;
        var (journey, leg) = ways[at];
        return pass with { Turned = !pass.Turned, Stitches = [.. journey.Work(leg with { First = leg.Last, Last = leg.First, Turned = !leg.Turned })] };
    }

    /// <summary>The two heights a pass goes to and fro between, in spaces below gathering row 1, whether or not it reaches both, and the stitches from one to the other.</summary>
    /// <param name="pass">A pass of one of its rows and journeys.</param>
    internal (double Highest, double Lowest, int Slope) HeightsOf(Pass pass)
    {
        for (var i = 0; i < ways.Length; i++)
            if ((Passes[i].Row, Passes[i].Journey) == (pass.Row, pass.Journey) && ways[i] is var (journey, leg))
                return (leg.Top + journey.Highest / 4, leg.Top + journey.Bottom / 4, journey.Slope);
        throw new ArgumentException("The pass is of another band.", nameof(pass));
    }

    /// <summary>Spaces below gathering row 1 at which a band's height 0 lies.</summary>
    public static double TopOf(Band band, int cableRowsPerSpace) =>
        band.GatheringRow.Number - 1 + band.Offset / 4.0 + (double)band.Drop / cableRowsPerSpace;

    /// <summary>Lays a band on a cloth.</summary>
    /// <param name="index">Its place among the piece's bands.</param>
    /// <param name="band">The band.</param>
    /// <param name="stitch">Its stitch.</param>
    /// <param name="pleats">Pleats of the cloth.</param>
    /// <param name="cableRowsPerSpace">Cable rows in one space.</param>
    /// <param name="hand">The hand that works it.</param>
    public static LaidBand Lay(int index, Band band, BandStitch stitch, int pleats, int cableRowsPerSpace, Hand hand) =>
        Lay(index, band, stitch, BandFit.Of(stitch, band, pleats), cableRowsPerSpace, hand);

    /// <summary>Lays a band on a cloth, on its panel when it hangs on one.</summary>
    /// <exception cref="ArgumentException">The cloth has no such panel.</exception>
    internal static LaidBand Lay(int index, Band band, BandStitch stitch, PleatingPlan pleating, Hand hand) =>
        Lay(index, band, stitch, BandFit.Of(stitch, band, pleating), pleating.Gauge.CableRowsPerSpace, hand);

    private static LaidBand Lay(int index, Band band, BandStitch stitch, BandFit fit, int cableRowsPerSpace, Hand hand)
    {
        var top = TopOf(band, cableRowsPerSpace);
        Pleat first = fit.FirstWorked(band.Ends), last = fit.LastWorked(band.Ends);
        var passes = ImmutableArray.CreateBuilder<Pass>();
        var ways = ImmutableArray.CreateBuilder<(Journey, Leg)>();
        if (last.Number > first.Number)
        {
            var right = hand == Hand.Right != stitch.Backward;
            var (quarters, rows) = stitch.Nest(stitch.HeightOf(band));
            var journeys = stitch.JourneysOf(band);
            for (var row = 0; row < band.Rows; row++)
                for (var j = 0; j < journeys.Length; j++)
                {
                    var depth = top + row * quarters / 4 + (double)(row * rows + journeys[j].Drop) / cableRowsPerSpace;
                    foreach (var leg in Legs(stitch.StartOf(band), fit.Centre, depth, first, last, right))
                    {
                        if (leg.First == leg.Last) continue;
                        passes.Add(new Pass(row, j, leg.Turned, leg.GoesOn, [.. journeys[j].Work(leg)]));
                        ways.Add((journeys[j], leg));
                    }
                }
        }
        return new LaidBand(index, band, stitch, fit, top, passes.ToImmutable(), ways.ToImmutable());
    }

    private static IEnumerable<Leg> Legs(WorkFrom start, Valley centre, double top, Pleat first, Pleat last, bool right)
    {
        if (start == WorkFrom.Side)
        {
            yield return new Leg(centre, top, right ? first : last, right ? last : first, false, false);
            yield break;
        }
        var middle = right ? centre.LeftPleat : centre.RightPleat;
        yield return new Leg(centre, top, middle, right ? last : first, false, false);
        yield return new Leg(centre, top, middle, right ? first : last, true, true);
    }
}
