using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Moves;
using Pleatwright.Tests.Chart.Stitches;
using Pass = Pleatwright.Chart.Stitches.Pass;

namespace Pleatwright.Tests.Moves;

/// <summary>
/// The moves of the five basic stitches as the handbooks of <see cref="HandbookTests"/> describe them: "1916" is a clothing-construction textbook for home economics,
/// c. 1916, "Smocking", Fig. 253; "1911" is Educational Needlecraft, 1911, "Smocking".
/// </summary>
public class HandbookMoveTests
{
    private static List<Move> Stitches(string stitch, int pleats) => [.. Sewing.Stitches(BandGen.Lay(BandGen.Band(stitch) with { WorkFrom = WorkFrom.Side }, pleats).Passes[0], Gauge.Common).Where(m => m.Stitch >= 0)];

    // 1916: one plait is taken up on the needle in each stitch
    private static void TakesUpOnePleat(IEnumerable<Move> moves)
    {
        var taken = moves.Select(m => m.In.Pleat!.Value.Number).ToList();
        Assert.Equal(Enumerable.Range(taken[0], taken.Count), taken);
        Assert.All(moves, m => Assert.Equal(m.In.Pleat, m.Out.Pleat));
    }

    [Fact] // 1916: the thread drops below the needle all along
    public void Outline()
    {
        var moves = Stitches("outline", 10);
        TakesUpOnePleat(moves);
        Assert.All(moves, m => Assert.Equal((MoveKind.Rope, Level.Down), (m.Kind, m.Level)));
        Assert.Single(moves.Select(m => m.In.Height.Millimetres).Distinct());
    }

    [Fact] // 1916: the thread is thrown below for the first stitch, above for the second, below for the third
    public void Cable()
    {
        var moves = Sewing.Stitches(new Pass(0, 0, false, false, [.. new Running([0], Hold.Alternate).Work(new Leg(new Valley(5), 1, new Pleat(1), new Pleat(10), false, false))]), Gauge.Common).Where(m => m.Stitch >= 0).ToList();
        TakesUpOnePleat(moves);
        Assert.All(moves.Zip(moves.Skip(1)), pair => Assert.NotEqual(pair.First.Level, pair.Second.Level));
        Assert.All(moves, m => Assert.Equal(MoveKind.Cable, m.Kind));
    }

    [Fact] // 1916: outline stitches rising with the thread below; the thread is reversed, and as many fall with it above
    public void Wave()
    {
        var moves = Stitches("wave", 26);
        TakesUpOnePleat(moves);
        Assert.All(moves.Where(m => m.Kind == MoveKind.Step), m => Assert.Equal(m.In.Height < m.From.Height ? Level.Down : Level.Up, m.Level));
        Assert.Contains(moves, m => m.Kind == MoveKind.Cable);
    }

    [Fact] // 1911: two folds caught together by two small stitches, the needle then directed along underneath one of the folds, about half an inch
    public void Honeycomb()
    {
        var laid = BandGen.Lay(BandGen.Band("honeycomb"), 12);
        var gauge = new Gauge(Gauge.Common.Pitch, Gauge.Common.TakeUp, Length.FromInches(0.5), 5);
        var moves = Sewing.Stitches(laid.Passes[0], gauge).Where(m => m.Stitch >= 0).ToList();
        Assert.Equal([MoveKind.Catch, MoveKind.Slip], moves.Take(2).Select(m => m.Kind));
        Assert.All(moves.Where(m => m.Kind is MoveKind.Catch), m => Assert.Equal((2, 2), ((int)Math.Abs(m.In.Across - m.From.Across), (int)Math.Abs(m.Out.Across - m.In.Across))));
        foreach (var slip in moves.Where(m => m.Kind == MoveKind.Slip))
        {
            Assert.Equal(slip.In.Pleat, slip.Out.Pleat); // inside one fold
            Assert.Equal(0.5, Math.Abs((slip.Out.Height - slip.In.Height).Inches), 6);
            Assert.Equal(2, Math.Abs(slip.In.Across - slip.From.Across)); // the second small stitch is over both
        }
    }

    [Fact] // 1911: feather, the thread held under the needle's point, each stitch taking up one new fold
    public void Feather()
    {
        var moves = Stitches("feather", 12);
        Assert.All(moves, m => Assert.Equal(MoveKind.Loop, m.Kind));
        Assert.Equal(Enumerable.Range(0, 11).Select(i => 10.0 - i), moves.Select(m => m.Out.Across));
        Assert.All(moves, m => Assert.Equal(-2, m.Out.Across - m.In.Across)); // through two folds, along the way, of which one is new
    }
}
