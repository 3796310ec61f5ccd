using CsCheck;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Tests.Cloth;

public class ClothCuttingTests
{
    private static Length Mm(int value) => Length.FromMillimetres(value);

    private static readonly Gen<(int Across, int Along)[]> Few = Gen.Select(Gen.Int[1, 12], Gen.Int[1, 9]).Array[0, 6];

    private static ClothCutting Cut((int Across, int Along)[] strips) =>
        ClothCutting.Of(strips.Select((s, i) => new Strip($"strip {i}", Mm(s.Across), Mm(s.Along))), Mm(12));

    // Every way to put every strip into a width of its own or one begun.
    private static int BruteForce((int Across, int Along)[] strips, int next, List<(int Left, int Along)> widths)
    {
        if (next == strips.Length) return widths.Sum(w => w.Along);
        var (across, along) = strips[next];
        var best = int.MaxValue;
        for (var w = 0; w <= widths.Count; w++)
        {
            List<(int Left, int Along)> tried = [.. widths];
            if (w == widths.Count) tried.Add((12 - across, along));
            else if (tried[w].Left >= across) tried[w] = (tried[w].Left - across, Math.Max(tried[w].Along, along));
            else continue;
            best = Math.Min(best, BruteForce(strips, next + 1, tried));
        }
        return best;
    }

    [Fact]
    public void No_way_of_cutting_takes_less_cloth() => Few.Sample(strips =>
    {
        var cutting = Cut(strips);
        Assert.True(cutting.IsLeast);
        Assert.Equal(BruteForce(strips, 0, []), cutting.Length.Millimetres, 6);
    }, iter: 300);

    [Fact]
    public void Every_strip_is_cut_once_and_no_width_gives_more_than_it_has() => Gen.Select(Gen.Int[1, 12], Gen.Int[1, 9]).Array[0, 30].Sample(strips =>
    {
        var cutting = Cut(strips);
        Assert.Equal(strips.Select((_, i) => $"strip {i}").Order(), cutting.Widths.SelectMany(w => w.Strips).Select(s => s.For).Order());
        Assert.All(cutting.Widths, w => Assert.True(w.Strips.Sum(s => s.Width.Millimetres) <= 12 + 1e-6));
        Assert.All(cutting.Widths, w => Assert.Equal(w.Strips.Max(s => s.Length), w.Length));
        Assert.Equal(cutting.Length.Millimetres, cutting.Widths.Sum(w => w.Length.Millimetres), 6);
    });

    [Fact]
    public void One_piece_by_itself_takes_no_more_widths_than_its_plan_says() => Tests.Chart.PieceGen.Pieces.Sample(piece =>
    {
        var strips = Joining.Strips(piece.Cloth);
        var cutting = ClothCutting.Of(strips.Select(s => new Strip("", s, Mm(100))), piece.Cloth.FabricWidth);
        Assert.InRange(cutting.Widths.Length, 1, Joining.Widths(piece.Cloth));
    });

    [Fact]
    public void A_strip_wider_than_the_cloth_is_refused() => Assert.Throws<ArgumentException>(() => Cut([(13, 1)]));
}
