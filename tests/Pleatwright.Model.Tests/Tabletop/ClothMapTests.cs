using CsCheck;
using Pleatwright.Bench.Model.Tabletop;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Tests.Drafts;

namespace Pleatwright.Tests.Tabletop;

public class ClothMapTests
{
    private static readonly Gen<ClothPlan> Cloths =
        from form in Gen.Int[0, 2]
        from inches in Gen.Double[1, 60]
        from rows in Gen.Int[2, 60]
        from perInch in Gen.Double[4, 20]
        from perSpace in Gen.Int[2, 9]
        select new ClothPlan(
            form switch { 0 => new Panel(Length.FromInches(inches)), 1 => new Ball(Length.FromInches(1 + inches / 4)), _ => new Round(Length.FromInches(4 + inches / 4), Angle.FullTurn, [new RoundPanel("front", Length.FromInches(40 + inches))]) },
            Gauge.FromPleatsPerInch(perInch, Length.FromInches(2 / perInch), Length.FromInches(0.375), perSpace), rows);

    [Fact]
    public void A_map_of_any_cloth_keeps_its_place_and_its_numbers_apart()
    {
        var maps = 0;
        Cloths.Sample(cloth =>
        {
            PleatingPlan plan;
            try { plan = new PleatingPlan(cloth); }
            catch (ArgumentException) { return; } // cloth that cannot be pleated so
            Interlocked.Increment(ref maps);
            var map = ClothMap.Of(plan);
            Assert.InRange(map.Width, ClothMap.LeastWidth, ClothMap.MostWidth + 1e-9);
            Assert.InRange(map.Height, ClothMap.LeastHeight, ClothMap.MostHeight + 1e-9);
            // The cloth fills it from edge to edge.
            Assert.Equal(map.Width, map.Across * plan.Pleats * Enumerable.Range(0, plan.CableRows).Max(y => plan.PitchAt(y).Millimetres), 6);
            Assert.Equal(map.Height, map.Down * plan.CableRows * 2 * plan.Gauge.LineHeight.Millimetres, 6);
            Assert.Equal(1, map.Rows[0].Row);
            foreach (var ((row, y), (next, below)) in map.Rows.Zip(map.Rows.Skip(1)))
            {
                Assert.True(row < next);
                Assert.InRange(below - y, ClothMap.LeastGap - 1e-9, double.MaxValue);
            }
            Assert.All(map.Rows, r => Assert.InRange(r.Y, 0, map.Height));
        });
        Assert.True(maps > 50, $"only {maps} cloths could be pleated");
    }

    [Fact]
    public void The_table_opens_on_a_figure_and_always_on_the_cloth()
    {
        foreach (var piece in Tables.All)
        {
            var (desk, needle) = Tables.Set(piece);
            var (valley, row) = Opening.At(desk, needle);
            Assert.True(desk.Work.OnCloth(valley, row));
            if (piece.Placements.IsEmpty) Assert.Equal((needle.Valley, needle.Row), (valley, row));
            else Assert.NotNull(Pleatwright.Chart.Edit.Spot.Within(piece, desk.Work.Pleating, valley, row));
            // A hand that has gone somewhere else is found there again.
            needle.GoTo(new Valley(1), new CableRow(0));
            if (needle.Spot is null) Assert.Equal((new Valley(1), new CableRow(0)), Opening.At(desk, needle));
        }
    }

    [Fact]
    public void A_figure_that_lies_off_the_cloth_opens_the_table_at_the_edge()
    {
        var (desk, needle) = Tables.Set(Tables.Full with { Placements = [new Placement("boat", Centre.At(new Valley(500)), new GatheringRow(60), 0)] });
        var (valley, row) = Opening.At(desk, needle);
        Assert.True(desk.Work.OnCloth(valley, row));
    }
}
