using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Order;

/// <summary>A shape of a band as the hands see it.</summary>
/// <param name="Stitch">The stitch of the step it belongs to, from 0; less for one worked before the step, more for one after it.</param>
/// <param name="Shape">Pleats from the left as held, and lines down as held.</param>
public readonly record struct HeldShape(int Stitch, StitchShape Shape);

/// <summary>A step of a band as the hands hold it: turned, what lay at the bottom left lies at the top right.</summary>
internal sealed class HeldBand
{
    private readonly BandStep step;

    private HeldBand(BandStep step, ImmutableArray<HeldShape> shapes, ImmutableArray<double> gatheringRows)
    {
        this.step = step;
        Shapes = shapes;
        GatheringRows = gatheringRows;
    }

    /// <summary>All shapes of the pass the step belongs to, in the order worked.</summary>
    public ImmutableArray<HeldShape> Shapes { get; }

    /// <summary>How far down the gathering rows lie that the pass reaches, in lines as held.</summary>
    public ImmutableArray<double> GatheringRows { get; }

    /// <summary>A step as held.</summary>
    public static HeldBand Of(Work work, BandStep step)
    {
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        var (top, bottom) = Stitch.Reach(step.Pass.Stitches.AsSpan());
        var rows = Enumerable.Range(0, work.Piece.Cloth.GatheringRows).Where(g => g >= top - 0.5 && g <= bottom + 0.5).Select(g => StitchDrawing.Down(g, perSpace));
        return new HeldBand(step,
            [.. StitchDrawing.OfStitches(step.Pass, perSpace).Select(s => new HeldShape(s.Stitch - step.First, s.Shape with { From = Held(s.Shape.From), To = Held(s.Shape.To) }))],
            [.. rows.Select(r => Held(new ChartPlace(0, r)).Down)]);

        ChartPlace Held(ChartPlace place) => step.Pass.Turned ? new(work.Pleating.Pleats - place.Across, -place.Down) : place;
    }

    /// <summary>Whether a stitch lies at the bottom as held: a down cable, a turn at the bottom.</summary>
    /// <param name="stitch">The stitch of the step, from 0.</param>
    public bool IsLow(int stitch)
    {
        var s = step.Pass.Stitches[step.First + stitch];
        return s.IsLevel && s.Level == Level.Down != step.Pass.Turned;
    }

    /// <summary>What the needle does next, in two words or three: "up cable", "step down", "catch", "slip up".</summary>
    /// <param name="stitch">The stitch of the step, from 0.</param>
    /// <param name="words">Which words name the levels.</param>
    public string Word(int stitch, LevelWords words)
    {
        var s = step.Pass.Stitches[step.First + stitch];
        var turned = step.Pass.Turned;
        var held = Phrases.Level(turned ? s.Level.Opposite() : s.Level, words);
        var way = Phrases.Level(s.Rises != turned ? Level.Up : Level.Down, words);
        return s.Kind switch
        {
            StitchKind.Over => s.IsLevel ? held : $"step {way}",
            StitchKind.Catch => "catch",
            StitchKind.Slip => $"slip {way}",
            StitchKind.Bar => $"straight {way}",
            _ => $"loop {way}",
        };
    }
}
