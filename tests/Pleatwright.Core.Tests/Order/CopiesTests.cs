using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Order.Telling;
using Pleatwright.Plate;
using Pleatwright.Plate.Writers;

namespace Pleatwright.Tests.Order;

/// <summary>A table that tells a figure once, counted from its own centre, and where its copies are.</summary>
public class CopiesTests
{
    // Every other copy lies some spaces lower.
    private static Piece Repeated(string[] rows, int count, int gap, Working working, bool square = false, int lower = 0)
    {
        var piece = OrderGen.PieceOf([.. rows], working, square);
        var every = rows[0].Length + gap;
        return piece with
        {
            Cloth = piece.Cloth with { Form = new Panel(Length.FromInches((count * every + 10) / 12.0)) },
            Placements = lower == 0 ? [piece.Placements[0] with { Repeat = new Repeat(count, every) }]
                : [.. Enumerable.Range(0, count).Select(k => piece.Placements[0] with
                {
                    Repeat = Repeat.Once,
                    Centre = Centre.At(new Valley(every / 2 + 3 + k * every)),
                    GatheringRow = new GatheringRow(piece.Placements[0].GatheringRow.Number + k % 2 * lower),
                })],
        } is var laid && lower == 0 ? laid : laid with { Cloth = laid.Cloth with { GatheringRows = piece.Cloth.GatheringRows + lower } };
    }

    internal static readonly Gen<Piece> Pieces =
        from rows in OrderGen.Rows.Where(r => r[0].Length <= 14)
        from count in Gen.Int[2, 5]
        from gap in Gen.Int[0, 9]
        from working in OrderGen.Workings
        from square in Gen.Bool
        from lower in Gen.Frequency((3, Gen.Const(0)), (1, Gen.Int[1, 3]))
        select Repeated([.. rows], count, gap, working, square, lower);

    // Whoever works the lines of a figure about the centre of each of its copies works the order, step for step.
    [Fact]
    public void Every_step_stands_in_the_table_once_and_every_copy_is_as_its_lines_say() => Pieces.Sample(piece =>
    {
        var order = Planner.Plan(Work.Lay(piece));
        var expected = 1; // the step to come next
        List<RunLine> lines = [];
        List<AlikeLine> copies = []; // they are told before their lines
        AlikeOpening? alike = null;
        foreach (var fact in Teller.Of(order, once: true))
        {
            if (fact is AlikeOpening opening)
            {
                Assert.Null(alike);
                (alike, lines, copies) = (opening, [], []);
            }
            if (fact is AlikeLine one)
            {
                Assert.Empty(lines);
                copies.Add(one);
            }
            if (fact is not RunLine line) continue;
            lines.Add(line);
            if (alike is null) Assert.Equal(expected++, line.Step.Number);
            if (line.Step.Number != alike?.Last) continue;
            Assert.Equal(alike.Times, copies.Count);
            foreach (var copy in copies) AsItsLinesSay(copy);
            alike = null;
        }
        Assert.Null(alike);
        Assert.Equal(order.Steps.Length + 1, expected);

        void AsItsLinesSay(AlikeLine copy)
        {
            Assert.Equal((expected, lines.Count), (copy.First, copy.Last - copy.First + 1));
            var own = order.Steps.Slice(copy.First - 1, lines.Count);
            var centre = copy.Between is { } between ? 2 * Pleat(between.Left, order.Work.Pleating.CentreValley) + 1 : 2 * Pleat(copy.Pleat!.Value, order.Work.Pleating.CentreValley);
            foreach (var (told, step) in lines.Zip(own))
            {
                Assert.Equal((told.Step.Thread, told.Step.Row.Index + copy.Lower * copy.PerSpace, told.Step.Turned, told.Step.Starts, told.Step.TieOff, told.Step.Parks, told.Step.CarriedPleats, told.Step.CarriedRows),
                    (step.Thread, step.Row.Index, step.Turned, step.Starts, step.TieOff, step.Parks, step.CarriedPleats, step.CarriedRows));
                Assert.Equal(copy.Swapped, told.Step.HeldBegin != step.HeldBegin);
                var rightward = order.TravelsRight(step);
                Assert.Equal((told.From, told.To), (Middle.Of(centre, 0).To(rightward ? step.From.LeftPleat : step.From.RightPleat, step.Turned), Middle.Of(centre, 0).To(rightward ? step.To.RightPleat : step.To.LeftPleat, step.Turned)));
                if (step.Starts == StartKind.Carry) Assert.Equal(order.LastStepOf(told.Step) - lines[0].Step.Number, order.LastStepOf(step) - copy.First);
            }
            Assert.Equal((own.Sum(s => s.Cables), own.Count(s => s.Threads)), (copy.Cables, copy.Needlefuls));
            expected = copy.Last + 1;
        }
    });

    private static int Pleat(Away pleat, int centre) => pleat.Flank == Flank.Left ? centre + 1 - pleat.Count : centre + pleat.Count;

    [Theory]
    [InlineData(4, false)] // nine valleys apart: the levels of the middle one, worked last, change places
    [InlineData(5, true)]
    public void Three_triangles_are_told_once(int gap, bool alike)
    {
        var order = Planner.Plan(Work.Lay(Repeated(["..a..", ".aaa.", "aaaaa"], 3, gap, new Working())));
        var told = Teller.Of(order, once: true);
        Assert.Equal((3, 3), (told.OfType<RunLine>().Count(), told.OfType<AlikeLine>().Count()));
        Assert.All(told.OfType<AlikeLine>(), c => Assert.Equal(!alike && c.First == 7, c.Swapped));
        var table = Directions.Table(order, LevelWords.UpDown);
        Assert.Equal(!alike, table.Lines.Any(l => l.Cells.Contains("up and down swapped")));
        if (alike) DirectionsTests.Matches("three-triangles", DirectionsText.Of(table));
    }

    [Theory, InlineData(LevelWords.UpDown), InlineData(LevelWords.LeftRight)]
    public void Two_alike_on_different_gathering_rows_are_told_once_and_read_back(LevelWords levels)
    {
        var order = Planner.Plan(Work.Lay(Repeated(["a...a", "aa.aa", ".aaa."], 2, 5, new Working(), lower: 2)));
        var told = Teller.Of(order, once: true);
        Assert.Equal([0, 2], told.OfType<AlikeLine>().Select(c => c.Lower));
        var table = Directions.Table(order, levels);
        Assert.Contains(table.Lines, l => l.Cells.Contains("10 added to every row, 2 to every G"));
        Assert.Empty(PrintedWords.Differences(DirectionsText.Of(table), order));
    }

    // Twelve alike are told in the lines of one, though every other could be begun without turning the work back first.
    [Theory, InlineData(WayOfWorking.RowByRow), InlineData(WayOfWorking.SpaceBySpace), InlineData(WayOfWorking.FewestStarts)]
    public void However_many_are_alike_they_are_told_once(WayOfWorking way)
    {
        var told = Teller.Of(Planner.Plan(Work.Lay(Repeated(["..a..", ".aaa.", "aaaaa", ".aaa."], 12, 5, new Working { Way = way }))), once: true);
        Assert.Equal((4, 12), (told.OfType<RunLine>().Count(), told.OfType<AlikeLine>().Count()));
    }

    [Fact]
    public void Figures_that_differ_are_told_in_full()
    {
        var piece = Repeated(["..a..", ".aaa.", "aaaaa"], 2, 5, new Working());
        piece = piece with
        {
            Figures = [.. piece.Figures, new Figure("other", ["..b..", ".bbb.", "bbbbb"])],
            Placements = [piece.Placements[0] with { Repeat = Repeat.Once, Centre = Centre.At(new Valley(5)) }, piece.Placements[0] with { Figure = "other", Repeat = Repeat.Once, Centre = Centre.At(new Valley(15)) }],
        };
        Assert.Empty(Teller.Of(Planner.Plan(Work.Lay(piece)), once: true).OfType<AlikeLine>());
    }
}
