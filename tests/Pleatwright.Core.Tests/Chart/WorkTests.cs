using System.Collections.Immutable;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Chart;

public class WorkTests
{
    [Fact]
    public void Every_cable_is_in_exactly_one_run_of_its_own_thread() => PieceGen.Pieces.Sample(piece =>
    {
        var work = Work.Lay(piece);
        var seen = new HashSet<(int, int)>();
        foreach (var run in work.Runs)
            for (var v = run.From.Number; v <= run.To.Number; v++)
            {
                Assert.True(seen.Add((v, run.Row.Index)));
                Assert.Equal(run.Thread, work.ThreadAt(new Valley(v), run.Row));
            }
        var worked = Enumerable.Range(0, work.CableRows).Sum(y => work.CellsOf(new CableRow(y)).ToArray().Count(c => c != 0));
        Assert.Equal(worked, seen.Count);
        Assert.Equal(worked, work.Cables);
    });

    [Fact]
    public void Runs_are_as_long_as_they_can_be() => PieceGen.Pieces.Sample(piece =>
    {
        var work = Work.Lay(piece);
        foreach (var run in work.Runs)
        {
            Assert.NotEqual(run.Thread, work.ThreadAt(new Valley(run.From.Number - 1), run.Row));
            Assert.NotEqual(run.Thread, work.ThreadAt(new Valley(run.To.Number + 1), run.Row));
        }
    });

    [Fact]
    public void Nothing_is_lost_what_is_not_laid_is_a_stray() => PieceGen.Pieces.Sample(piece =>
    {
        var placement = piece.Placements[0];
        var asked = piece.Figures[0].Rows.Sum(r => r.Count(c => c != Figure.Bare)) * placement.Repeat.Count;
        var alone = Work.Lay(piece with { Bands = [] });
        var strays = alone.Strays.Sum(s => s.To.Number - s.From.Number + 1);
        if (placement.Repeat.Every >= piece.Figures[0].Width) Assert.Equal(asked, alone.Cables + strays);
        else Assert.True(asked >= alone.Cables + strays);
    });

    [Fact]
    public void Mirrored_twice_is_the_same() => PieceGen.Figures.Sample(figure =>
    {
        var twice = figure.Mirrored().Mirrored();
        Assert.Equal(figure.Rows, twice.Rows);
        Assert.Equal(figure.Halves, twice.Halves);
    });

    [Fact]
    public void A_mirrored_placement_is_the_reflection_about_its_centre() =>
        Gen.Select(PieceGen.Figures, Gen.Int[20, 40]).Sample((figure, centre) =>
        {
            Work Lay(bool mirror) => Work.Lay(new Piece("", new ClothPlan(new Panel(Length.FromInches(5)), Gauge.Common, 4), PieceGen.Threads, [figure],
                [new Placement("figure", Centre.At(new Valley(centre)), new GatheringRow(2), 0) { Mirror = mirror }]));
            Work plain = Lay(false), mirrored = Lay(true);
            for (var y = 0; y < plain.CableRows; y++)
                for (var off = -15; off <= 15; off++)
                    Assert.Equal(plain.ThreadAt(new Valley(centre + off), new CableRow(y)), mirrored.ThreadAt(new Valley(centre - off), new CableRow(y)));
        });

    [Fact]
    public void Half_stitches_stand_only_where_a_run_ends_beside_bare_pleats() => PieceGen.Pieces.Sample(piece =>
    {
        var work = Work.Lay(piece);
        foreach (var run in work.Runs)
        {
            if (run.HalfLeft) Assert.False(work.IsWorked(new Valley(run.From.Number - 1), run.Row));
            if (run.HalfRight) Assert.False(work.IsWorked(new Valley(run.To.Number + 1), run.Row));
        }
    });

    [Fact]
    public void A_squared_figure_has_a_half_stitch_at_both_ends_of_every_row()
    {
        var work = Work.Lay(Banner(square: true));
        Assert.Equal(3, work.Runs.Length);
        foreach (var run in work.Runs) Assert.Equal(2, run.HalfStitches);
    }

    [Fact]
    public void A_half_stitch_by_name_stands_at_the_end_named()
    {
        var figure = new Figure("banner", ["aaaa", "aaaa", "aaaa"]) { Halves = [new HalfMark(1, RunEnd.Right)] };
        var work = Work.Lay(Banner(false) with { Figures = [figure] });
        Assert.Equal([(false, false), (false, true), (false, false)], work.Runs.ToArray().Select(r => (r.HalfLeft, r.HalfRight)));
        Assert.Empty(work.RefusedHalves);
    }

    [Fact]
    public void A_half_stitch_beside_another_run_is_refused()
    {
        var figure = new Figure("banner", ["aabb"]) { Halves = [new HalfMark(0, RunEnd.Left), new HalfMark(0, RunEnd.Right)] };
        var piece = Banner(false) with
        {
            Figures = [figure, new Figure("post", ["c"])],
        };
        piece = piece with { Placements = piece.Placements.Add(new Placement("post", Centre.At(new Valley(29)), new GatheringRow(2), 0)) };
        var work = Work.Lay(piece);
        var refused = Assert.Single(work.RefusedHalves);
        Assert.Equal((RunEnd.Left, 30), (refused.End, refused.Valley.Number));
    }

    [Fact]
    public void Copies_are_spread_evenly_about_the_centre() => Gen.Select(Gen.Int[1, 50], Gen.Int[1, 50]).Sample((count, every) =>
    {
        var repeat = new Repeat(count, every);
        var offsets = Enumerable.Range(0, count).Select(repeat.OffsetOf).ToArray();
        Assert.All(offsets.Zip(offsets.Skip(1)), pair => Assert.Equal(every, pair.Second - pair.First));
        Assert.InRange(offsets[0] + offsets[^1], -1, 0);
    });

    [Fact]
    public void Layout_takes_later_placements_over_earlier_and_figures_over_bands()
    {
        var piece = Banner(false) with
        {
            Figures = [new Figure("banner", ["aaaa"]), new Figure("post", ["c"])],
            Bands = [new Band("cable", new GatheringRow(2), new ThreadKey('b'))],
        };
        piece = piece with { Placements = piece.Placements.Add(new Placement("post", Centre.At(new Valley(31)), new GatheringRow(2), 0)) };
        var row = Work.Lay(piece).RunsIn(new CableRow(5)).ToArray();
        Assert.Equal("bacab", string.Concat(row.Select(r => r.Thread.ToString())));
    }

    [Fact]
    public void Absurd_sizes_are_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Work.Lay(Banner(false) with
        {
            Cloth = new ClothPlan(new Panel(Length.FromMetres(100)), Gauge.Common, 4),
        }));

    private static Piece Banner(bool square) => new("Banner", new ClothPlan(new Panel(Length.FromInches(5)), Gauge.Common, 4), PieceGen.Threads,
        [new Figure("banner", ["aaaa", "aaaa", "aaaa"]) { Square = square }],
        ImmutableArray.Create(new Placement("banner", Centre.At(new Valley(31)), new GatheringRow(2), 0)));
}
