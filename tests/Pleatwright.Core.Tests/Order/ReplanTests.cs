using System.Collections.Immutable;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Order;
using Pleatwright.Tests.Endurance;

namespace Pleatwright.Tests.Order;

public class ReplanTests
{
    private static readonly ImmutableArray<string> Boat = ["...a...", "..aab..", ".aaabb.", "bbbbbbb", ".bbbbb."];

    [Theory]
    [InlineData(Effort.Drawing)]
    [InlineData(Effort.Resting)]
    public void Planning_anew_after_an_edited_row_gives_what_planning_afresh_gives(Effort effort) =>
        Gen.Select(OrderGen.Pieces, Gen.Int[0, 1000], Gen.Int[0, 1000]).Sample((piece, at, over) =>
        {
            var rows = piece.Figures[0].Rows;
            var row = rows[at % rows.Length].ToCharArray();
            row[over % row.Length] = row[over % row.Length] == 'a' ? '.' : 'a';
            var edited = Work.Lay(piece with { Figures = [new Figure("figure", rows.SetItem(at % rows.Length, new string(row)))] });
            Assert.Equal(Planner.Plan(edited, effort).Steps, Planner.Replan(Planner.Plan(Work.Lay(piece), effort), edited, effort).Steps);
        }, iter: Long.Of(12, 40));

    [Fact]
    public void Planning_anew_in_another_way_of_working_gives_what_planning_afresh_gives() =>
        Gen.Select(OrderGen.Pieces, Gen.Int[0, 2], Gen.Int[0, 2]).Sample((piece, was, way) =>
        {
            Work In(int w) => Work.Lay(piece with { Working = piece.Working with { Way = (WayOfWorking)w } });
            Assert.Equal(Planner.Plan(In(way)).Steps, Planner.Replan(Planner.Plan(In(was)), In(way)).Steps);
        }, iter: Long.Of(12, 40));

    [Fact]
    public void A_quick_order_works_every_run_once_and_a_searched_one_starts_no_oftener() =>
        OrderGen.Pieces.Sample(piece =>
        {
            var work = Work.Lay(piece);
            WorkingOrder quick = Planner.Plan(work, Effort.Drawing), searched = Planner.Plan(work, Effort.Resting);
            Assert.Equal(Enumerable.Range(0, work.Runs.Length), quick.Steps.Where(s => !s.Continues).Select(s => s.RunIndex).Order());
            Assert.InRange(searched.Starts, quick.LowerBoundStarts, quick.Starts);
        }, iter: Long.Of(25, 60));

    [Fact]
    public void Copies_of_a_figure_are_worked_alike()
    {
        var piece = OrderGen.PieceOf(Boat, new Working());
        var order = Planner.Plan(Work.Lay(piece with { Placements = [piece.Placements[0] with { Repeat = new Repeat(3, 18) }] }));
        var copies = order.Steps.GroupBy(s => order.Work.Areas.AreaOf(s.RunIndex)).Select(g => g.Select(s => (s.Row, s.Cables, s.Thread, s.Starts)).ToArray()).ToArray();
        Assert.Equal(3, copies.Length);
        Assert.Equal(copies[0], copies[1]);
        Assert.Equal(copies[0], copies[2]);
    }

    [Fact]
    public void A_run_fixed_to_a_place_is_worked_there_and_the_rest_round_it() =>
        Gen.Select(OrderGen.Pieces, Gen.Int[0, 1000], Gen.Int[0, 1000]).Sample((piece, which, place) =>
        {
            var work = Work.Lay(piece);
            if (work.Runs.Length == 0) return;
            var run = work.Runs[which % work.Runs.Length];
            var pin = new FixedPlace(run.Row, run.To, place % work.Runs.Length + 1);
            var order = Planner.Plan(Work.Lay(piece with { Working = piece.Working with { Places = [pin] } }));
            var visits = order.Steps.Where(s => !s.Continues).Select(s => s.RunIndex).ToArray();
            Assert.Empty(order.UnkeptPlaces);
            Assert.Equal(which % work.Runs.Length, visits[pin.Place - 1]);
            Assert.Equal(Enumerable.Range(0, work.Runs.Length), visits.Order());
            Assert.InRange(order.LowerBoundStarts, 1, order.Starts);
        }, iter: Long.Of(25, 60));

    [Fact]
    public void A_place_that_cannot_be_kept_is_told()
    {
        FixedPlace bare = new(new CableRow(0), new Valley(1), 1), late = new(new CableRow(8), new Valley(30), 999);
        var order = Planner.Plan(Work.Lay(OrderGen.PieceOf(Boat, new Working { Places = [bare, late] })));
        Assert.Equal([bare, late], order.UnkeptPlaces);
        Assert.Contains(Directions.Write(order, LevelWords.UpDown), d => d.Text.Contains("cannot be kept", StringComparison.Ordinal));
    }

    [Fact]
    public void Ways_of_working_are_kept_by_the_piece_file()
    {
        var working = new Working
        {
            ParkedThreads = 5,
            SplitRuns = false,
            BaseRow = new CableRow(7),
            Places = [new FixedPlace(new CableRow(8), new Valley(30), 2)],
        };
        var piece = PieceReader.Read(PieceWriter.Write(OrderGen.PieceOf(Boat, working)));
        Assert.Equal(working with { Places = [] }, piece.Working with { Places = [] });
        Assert.Equal(working.Places, piece.Working.Places);
        Assert.Equal(7, Planner.Plan(Work.Lay(piece)).BaseRow.Index);
    }

    [Fact]
    public void Planning_tells_how_far_it_is_and_stops_when_asked()
    {
        var work = Work.Lay(OrderGen.PieceOf(Boat, new Working()));
        var told = new Told();
        Planner.Plan(work, progress: told);
        Assert.Equal(told.Values.Order(), told.Values);
        Assert.Equal(1, told.Values[^1]);
        Assert.Throws<OperationCanceledException>(() => Planner.Plan(work, cancel: new CancellationToken(canceled: true)));
    }

    // One cluster is all there is: what hangs together by carries is searched or scheduled whole.
    [Theory]
    [InlineData(3, 11, Effort.Plate)] // few runs, searched
    [InlineData(60, 40, Effort.Resting)] // too many to be searched
    public void Within_one_tangled_cluster_planning_tells_how_far_it_is(int width, int height, Effort effort)
    {
        var random = new Random(5);
        string[] rows = [.. Enumerable.Range(0, height).Select(_ => new string([.. Enumerable.Range(0, width).Select(_ => ".ab"[random.Next(3)])]))];
        var piece = OrderGen.PieceOf([.. rows], new Working { ParkedThreads = 12, Way = WayOfWorking.FewestStarts });
        piece = piece with { Cloth = piece.Cloth with { Form = new Pleatwright.Cloth.Panel(Pleatwright.Measure.Length.FromInches(6)), GatheringRows = 12 } };
        var told = new Told();
        Planner.Plan(Work.Lay(piece), effort, told);
        Assert.Equal(told.Values.Order(), told.Values);
        Assert.Equal(told.Values.Distinct(), told.Values);
        Assert.True(told.Values.Count(v => v is > 0 and < 0.5) >= 3 && told.Values.Count(v => v is > 0 and < 1) >= 4, string.Join(" ", told.Values));
        if (effort == Effort.Plate) Assert.True(told.Values.Count(v => v is > 0.5 and < 1) > 20, string.Join(" ", told.Values));
    }

    private sealed class Told : IProgress<double>
    {
        public List<double> Values { get; } = [];

        public void Report(double value) => Values.Add(value);
    }
}
