using CsCheck;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Tests.Cloth;

public class JoiningTests
{
    private static ClothPlan PanelOf(double inches) => new(new Panel(Length.FromInches(inches)), Gauge.Common, 9) { SeamPleats = 0 };

    [Theory]
    [InlineData(11, 1)] // 33 in of cloth
    [InlineData(14, 1)] // 42 in
    [InlineData(15, 2)] // 45 in
    [InlineData(29, 2)] // 87 in
    [InlineData(30, 3)] // 90 in
    public void Widths_of_cloth_44_in_wide(double finished, int widths) =>
        Assert.Equal(widths, new PleatingPlan(PanelOf(finished)).FabricWidths);

    [Fact]
    public void Two_widths_are_one_whole_between_two_halves()
    {
        // 24 in finished: 288 pleats, 72 in: 14 in, 44 in, 14 in, joined in valleys 56 and 232.
        Assert.Equal([56, 232], new PleatingPlan(PanelOf(24)).Joins.Select(j => j.Valley));
    }

    [Fact]
    public void Three_widths_are_equal()
    {
        // 30 in finished: 360 pleats, 90 in, joined every 30 in.
        Assert.Equal([120, 240], new PleatingPlan(PanelOf(30)).Joins.Select(j => j.Valley));
    }

    [Fact]
    public void Seam_allowances_take_their_share_of_the_cloth()
    {
        // 88 in of cloth fill two widths exactly; with allowances a third is needed.
        Assert.Equal(2, new PleatingPlan(PanelOf(88.0 / 3) with { Seam = Length.Zero }).FabricWidths);
        Assert.Equal(3, new PleatingPlan(PanelOf(88.0 / 3) with { Seam = Length.FromInches(0.25) }).FabricWidths);
    }

    [Fact]
    public void Joins_lie_alike_on_both_sides_and_never_in_the_middle() =>
        Gen.Select(Gen.Double[1, 100], Gen.Double[0, 1], Gen.Int[0, 6]).Sample((width, seam, seamPleats) =>
        {
            var plan = new PleatingPlan(PanelOf(width) with { Seam = Length.FromInches(seam), SeamPleats = seamPleats });
            var joins = plan.Joins.Select(j => j.Valley).ToArray();
            Assert.Equal(plan.FabricWidths == 1 ? 0 : plan.FabricWidths % 2 == 0 ? plan.FabricWidths : plan.FabricWidths - 1, joins.Length);
            for (var i = 0; i < joins.Length; i++)
                Assert.InRange(joins[i] + joins[^(i + 1)], plan.Pleats - 1, plan.Pleats + 1);
            Assert.DoesNotContain(plan.CentreValley, joins);
            Assert.Equal(joins.Order(), joins);
            var cloth = (plan.CutWidth + plan.Cloth.Seam * (2 * joins.Length)) / plan.Cloth.FabricWidth;
            Assert.InRange(cloth, 0, plan.FabricWidths + 1e-9);
        });

    [Fact]
    public void A_bishop_joins_its_panels_and_cuts_small_ones_from_one_width()
    {
        var round = new Round(Length.FromInches(11), Angle.FullTurn,
        [
            new("back", Length.FromInches(20)), new("sleeve", Length.FromInches(16)), new("front", Length.FromInches(50)),
            new("sleeve", Length.FromInches(16)), new("back", Length.FromInches(20)),
        ]);
        var plan = new PleatingPlan(new ClothPlan(round, Gauge.Common, 6) { SeamPleats = 0 });
        // The front takes two widths; 20 + 20 share one, 16 + 16 another.
        Assert.Equal(4, plan.FabricWidths);
        // Panels end at 80, 144, 344 and 408 quarter inches; the front's own joins lie 44 in apart about its middle, 244.
        Assert.Equal([80, 144, 156, 332, 344, 408], plan.Joins.Select(j => j.Valley));
        Assert.Equal("two widths of front", plan.Joins[2].Between);
    }

    [Theory]
    [InlineData(11, "1-11+0")]
    [InlineData(16, "1-16+0")]
    [InlineData(17, "1-16+0 17-17+1")]
    [InlineData(40, "1-16+0 17-31+1 32-40+1")]
    public void Passes_of_a_pleater_of_sixteen_rows(int rows, string passes) =>
        Assert.Equal(passes, string.Join(' ', new Pleater(16, 1).Passes(rows).Select(p => $"{p.First}-{p.Last}+{p.Again}")));

    [Fact]
    public void Passes_gather_every_row_once_and_never_more_than_the_pleater_takes() =>
        Gen.Select(Gen.Int[2, 40], Gen.Int[0, 39], Gen.Int[1, 200]).Where((rows, overlap, _) => overlap < rows).Sample((rows, overlap, wanted) =>
        {
            var passes = new Pleater(rows, overlap).Passes(wanted);
            Assert.Equal(Enumerable.Range(1, wanted), passes.SelectMany(p => Enumerable.Range(p.First, p.Rows)));
            Assert.All(passes, p => Assert.InRange(p.Needles, 1, rows));
        });
}
