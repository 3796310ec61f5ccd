using CsCheck;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Shopping;
using Pleatwright.Tests.Files;

namespace Pleatwright.Tests.Cloth;

/// <summary>How deep cloth is cut, what wings it needs, and what is bought of it.</summary>
public class ClothToBuyTests
{
    private static ClothPlan Panel(double width = 11, double garment = 0) => new(new Panel(Length.FromInches(width)) { GarmentWidth = Length.FromInches(garment) }, Gauge.Common, 9);

    private static readonly Gen<ClothPlan> Cloths =
        from form in Gen.Int[0, FormKind.All.Length - 1]
        from lengths in Gen.Double[0, 30].Array[4]
        from sold in Gen.Double[1, 40]
        from says in Gen.Bool
        from metric in Gen.Bool
        from garment in Gen.Double[0, 60]
        let kind = FormKind.All[form]
        let made = new NewCloth(kind, kind.Measure.Begin).Plan()
        let cloth = made with { Form = kind.Make(made.Form.Values.With(PanelKind.GarmentKey, Length.FromInches(garment))) }
        select cloth with
        {
            SeamAbove = Length.FromInches(lengths[0]), LengthBelow = Length.FromInches(lengths[1]), SeamBelow = Length.FromInches(lengths[2]), Seam = Length.FromInches(lengths[3] / 30),
            SoldBy = says ? Length.FromCentimetres(sold) : null, FabricWidth = metric ? Length.FromCentimetres(112) : Length.FromInches(44),
        };

    [Fact]
    public void What_is_bought_is_whole_steps_and_enough_and_no_step_too_many() => Cloths.Sample(cloth =>
    {
        var needed = ClothCutting.Of(ClothToBuy.Strips("", cloth), cloth.FabricWidth).Length;
        var bought = ClothToBuy.Of(cloth);
        Assert.Equal(0, Math.IEEERemainder(bought / cloth.Step, 1), 6);
        Assert.InRange((bought - needed) / cloth.Step, -1.1e-9, 1 - 0.9e-9);
        Assert.Equal(cloth.SoldBy ?? (cloth.FabricWidth.Unit == LengthUnit.Inch ? Length.FromInches(36 / 8.0) : Length.FromCentimetres(10)), cloth.Step);
        // The list for this piece alone buys the same, and once it is bought nothing is wanting.
        var list = ShoppingList.Of([new PieceNeeds("it", [], new ClothNeed("it", cloth), 0)], Stash.Empty);
        Assert.Equal(bought.Millimetres, list.ClothToBuy.Millimetres, 6);
        Assert.Equal(Length.Zero, ShoppingList.Of(list.Pieces, list.Bought(Stash.Empty)).ClothToBuy);
    });

    [Fact]
    public void Depth_is_what_is_gathered_and_what_the_maker_gives() => Cloths.Sample(cloth =>
    {
        var edges = cloth.Form.EdgeSeam * 2;
        Assert.Equal((cloth.Gauge.RowSpacing * (cloth.GatheringRows + cloth.HoldingRowsAbove + cloth.HoldingRowsBelow) + edges + cloth.SeamAbove + cloth.LengthBelow + cloth.SeamBelow).Millimetres, cloth.CutDepth.Millimetres, 6);
        Assert.All(ClothToBuy.Strips("", cloth), s => Assert.Equal(cloth.CutDepth, s.Length));
        var piece = new Pleatwright.Chart.Piece("it", cloth, [], [], []);
        Assert.Equal(cloth, PieceReader.Read(PieceWriter.Write(piece)).Cloth);
        Assert.True(Schemas.FitsPiece(PieceWriter.Write(piece)));
        Assert.Equal(cloth.IsDepthWhole, ClothWords.Of(new PleatingPlan(cloth), UnitSystem.Both).Any(l => l.Label == "Buy"));
    }, iter: 40);

    [Fact]
    public void Wings_make_up_what_a_panel_wants_of_the_garment_piece() => Gen.Select(Gen.Double[2, 20], Gen.Double[0, 30], Gen.Double[0, 1]).Sample((width, garment, seam) =>
    {
        var cloth = Panel(width, garment) with { Seam = Length.FromInches(seam) };
        var finished = new PleatingPlan(cloth).FinishedWidth;
        if (Wings.Of(cloth) is not { } wings)
        {
            Assert.True(garment == 0 || finished.Inches >= garment - 1e-6);
            return;
        }
        Assert.Equal(garment, (finished + wings.Each * 2).Inches, 6);
        Assert.Equal((wings.Each + cloth.Seam * 2).Millimetres, wings.CutWidth.Millimetres, 9);
        Assert.Equal(Joining.Strips(cloth).Length + 2, ClothToBuy.Strips("", cloth).Count());
    });

    // By hand: 132 pleats at 12 an inch are 11 in; 14 in want 3, so 1 1/2 in a wing, and 3/8 in at each of its sides. 11 rows of 3/8 in are 4 1/8 in deep, 3/8 in seam,
    // 14 in skirt and 2 in hem make 20 1/2 in. 34 1/2 in and both wings, 39 in, lie side by side in 44 in; five eighths of a yard are 22 1/2 in.
    [Fact]
    public void A_skirt_worked_by_hand()
    {
        var cloth = Panel(11, 14) with { Seam = Length.FromInches(0.375), SeamAbove = Length.FromInches(0.375), LengthBelow = Length.FromInches(14), SeamBelow = Length.FromInches(2) };
        var lines = ClothWords.Of(new PleatingPlan(cloth), UnitSystem.Inches).Select(l => $"{l.Label}: {l.Words}").ToList();
        Assert.Equal(
        [
            "Cloth: cut 34 1/2 in wide and 20 1/2 in deep, from cloth 44 in wide",
            "Depth: 3/8 in seam above, 4 1/8 in gathered, 11 rows with half a space beyond the outer ones, 14 in skirt or bodice below it, 2 in hem or seam below",
            "Wings: a plain wing at each side, 1 1/2 in wide when finished: cut two 2 1/4 in wide and 20 1/2 in deep",
            "Buy: 22 1/2 in (5/8 yd) of cloth 44 in wide, which is sold in steps of 4 1/2 in (1/8 yd)",
        ], lines.Take(4));
        Assert.Equal("34 1/2 in wide, 20 1/2 in deep; and a plain wing at each side, 1 1/2 in wide when finished: cut two 2 1/4 in wide and 20 1/2 in deep", CutForWords.Cloth(CutFor.Of(new PleatingPlan(cloth)), UnitSystem.Inches));
        Assert.Equal("30 cm", ClothToBuy.Say((cloth with { FabricWidth = Length.FromCentimetres(112), LengthBelow = Length.FromInches(5) }).Bought(Length.FromCentimetres(21)), UnitSystem.Metric));
    }

    [Theory]
    [InlineData(4.5, "4 1/2 in (1/8 yd)")]
    [InlineData(9, "9 in (1/4 yd)")]
    [InlineData(18, "18 in (1/2 yd)")]
    [InlineData(27, "27 in (3/4 yd)")]
    [InlineData(36, "36 in (1 yd)")]
    [InlineData(40.5, "40 1/2 in (1 1/8 yd)")]
    [InlineData(10, "10 in")]
    public void Eighths_of_a_yard_are_said_as_a_shop_says_them(double inches, string words) => Assert.Equal(words, ClothToBuy.Say(Length.FromInches(inches), UnitSystem.Inches));

    [Fact]
    public void In_both_units_there_is_one_bracket() => Assert.Equal("114.3 cm (45 in, 1 1/4 yd)", ClothToBuy.Say(Length.FromInches(45), UnitSystem.Both));
}
