using System.Collections.Immutable;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Proof;
using Pleatwright.Recutting;
using Pleatwright.Tests.Chart.Edit;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Recutting;

public class RecutLaws
{
    // Pieces with all that a recut has to carry: bands, accents, sizes, flipped phases, a pinned row, figures named in the order.
    private static readonly Gen<Piece> Pieces =
        from piece in AnyPiece.Pieces
        from bands in Gen.Select(Gen.OneOf("cable", "wave", "trellis", "outline", "wheat", "diamond"), Gen.Int[1, 5], Gen.Int[-2, 3], Gen.Int[0, 4], Gen.Select(Gen.Int[0, 6], Gen.Int[1, 3]))
            .Select((stitch, row, offset, drop, more) => new Band(stitch, new GatheringRow(row), new ThreadKey('b')) { Offset = offset, Drop = drop, From = more.Item1 == 0 ? null : new Pleat(more.Item1), Rows = more.Item2 }).Array[0, 2]
        from accents in Gen.Select(Gen.OneOf("knot", "bullion", "flowerette"), Gen.Int[1, 12], Gen.Int[1, 5], Gen.Int[-2, 3], Gen.Select(Gen.Int[-3, 3], Gen.Int[1, 3], Gen.Int[2, 9], Gen.Bool))
            .Select((accent, centre, row, offset, more) => new AccentMark(accent, more.Item4 ? Centre.Middle : Centre.At(new Valley(centre)), new GatheringRow(row), new ThreadKey('c'))
                { Offset = offset, Drop = more.Item1, Repeat = more.Item2 == 1 ? Repeat.Once : new Repeat(more.Item2, more.Item3) }).Array[0, 2]
        from flips in Gen.Bool.Array[10]
        from sized in Gen.Bool
        from pinned in Gen.Int[-1, 6]
        select piece with
        {
            Bands = [.. piece.Bands, .. bands.Where(b => b.GatheringRow.Number <= piece.Cloth.GatheringRows)],
            Accents = [.. accents.Where(a => a.GatheringRow.Number <= piece.Cloth.GatheringRows)],
            Placements = [.. piece.Placements.Select((p, i) => p with { FlipPhase = flips[i] })],
            Sizes = sized ? [new Pleatwright.Cloth.Size("larger", new Panel(Length.FromMillimetres(120))) { GatheringRows = 6 }] : [],
            Working = piece.Working with { BaseRow = pinned >= 0 && pinned < new PleatingPlan(piece.Cloth).CableRows ? new CableRow(pinned) : null },
        };

    private static readonly Gen<Gauge> Gauges =
        from pitch in Gen.OneOf(1.0, 1.25, 1.6, 2.0, 2.5, 4.0)
        from takeUp in Gen.OneOf(5.0, 6.0, 8.0)
        from spacing in Gen.OneOf(5.0, 8.0, 10.0, 12.5, 20.0)
        from rows in Gen.Int[1, 8]
        select new Gauge(Length.FromMillimetres(pitch), Length.FromMillimetres(takeUp), Length.FromMillimetres(spacing), rows);

    private static readonly Gen<(Piece Piece, Gauge Gauge, RecutKeep Keep)> Recuts = Gen.Select(Pieces, Gauges, Gen.Enum<RecutKeep>());

    [Fact]
    public void The_same_gauge_changes_nothing() => Gen.Select(Pieces, Gen.Enum<RecutKeep>()).Sample((piece, keep) =>
    {
        var recut = Recutter.Recut(piece, piece.Cloth.Gauge, keep);
        Assert.Same(piece, recut.Piece);
        Assert.Empty(recut.Changes);
    });

    [Fact]
    public void Any_piece_recut_can_be_laid_written_and_read_and_its_changes_told() => Recuts.Sample(s =>
    {
        var recut = Recutter.Recut(s.Piece, s.Gauge, s.Keep);
        AnyPiece.Sound(recut.Piece);
        Assert.Equal(s.Gauge, recut.Piece.Cloth.Gauge);
        Assert.Equal(s.Gauge == s.Piece.Cloth.Gauge, recut.Changes.IsEmpty);
        foreach (var line in RecutWords.Of(recut, UnitSystem.Both)) Assert.Matches("^[“A-Z0-9].*\\.$", line);
    });

    [Fact]
    public void Recut_and_back_is_the_same_piece_when_nothing_is_told_as_lost() => Recuts.Sample(s =>
    {
        var recut = Recutter.Recut(s.Piece, s.Gauge, s.Keep);
        if (recut.Loses) return;
        AssertSame(s.Piece, Recutter.Recut(recut.Piece, s.Piece.Cloth.Gauge, s.Keep).Piece);
    });

    // What hangs off the cloth may come to lie on it when rows are added, and is then held there.
    private static bool AllOnCloth(Piece piece) => piece.Placements.All(p => p.Top(new(piece.Cloth)).Index >= 0 && p.Top(new(piece.Cloth)).Index + piece.Figure(p.Figure)!.Height <= new PleatingPlan(piece.Cloth).CableRows)
        && !Proofreading.Read(Work.Lay(piece)).Any(f => f.Rule is "off-cloth" or "band-off-cloth" or "accent-off-cloth");

    // Fewer cable rows to a space, or as many, and any pitch and spacing: nothing that is counted is lost. (Geometric bands are counted in quarter spaces,
    // accents rounded to rows: of these what is not told as lost comes back, by the law above.)
    [Fact]
    public void Keeping_the_count_goes_and_comes_back_whatever_the_pitch_and_spacing() => Recuts.Sample(s =>
    {
        var rows = Math.Min(s.Gauge.CableRowsPerSpace, s.Piece.Cloth.Gauge.CableRowsPerSpace);
        var gauge = new Gauge(s.Gauge.Pitch, s.Gauge.TakeUp, s.Gauge.RowSpacing, rows);
        var recut = Recutter.Recut(s.Piece, gauge, RecutKeep.Count);
        foreach (var (one, other) in s.Piece.Figures.Zip(recut.Piece.Figures)) Assert.Same(one, other);
        Assert.Equal(new PleatingPlan(s.Piece.Cloth).Pleats, new PleatingPlan(recut.Piece.Cloth).Pleats);
        Assert.Equal(WorkedCables(s.Piece, Placed(s.Piece)), WorkedCables(recut.Piece, Placed(recut.Piece)));
        if (AllOnCloth(s.Piece) && s.Piece.Working.BaseRow is null && s.Piece.Bands.All(b => b is { Stitch: "cable", Offset: 0 }) && s.Piece.Accents.All(a => a.Offset == 0)) AssertSame(s.Piece, Recutter.Recut(recut.Piece, s.Piece.Cloth.Gauge, RecutKeep.Count).Piece);
    });

    // By hand: figures on gathering rows 1, 2, 3, 4 and 5 of five cable rows each lie, at four rows to a space, on rows 1, 3, 4, 5 and 6, the next
    // that leaves room; and back on the very rows they came from.
    [Fact]
    public void From_five_rows_a_space_to_four_each_row_goes_to_the_next_that_leaves_room_and_back()
    {
        var five = Drawn.Piece(5, [.. Enumerable.Repeat(new string('.', 19), 20), "...aaaaaaa........."]);
        five = five with
        {
            Figures = [new Figure("bar", ["aaaaa"])],
            Placements = [.. Enumerable.Range(1, 5).Select(g => new Placement("bar", Centre.Middle, new GatheringRow(g), 0))],
            Cloth = five.Cloth with { GatheringRows = 5, Gauge = new Gauge(five.Cloth.Gauge.Pitch, five.Cloth.Gauge.TakeUp, five.Cloth.Gauge.RowSpacing, 5) },
            Bands = [], Accents = [],
        };
        var gauge = new Gauge(five.Cloth.Gauge.Pitch, five.Cloth.Gauge.TakeUp, five.Cloth.Gauge.RowSpacing, 4);
        var four = Recutter.Recut(five, gauge, RecutKeep.Count).Piece;
        Assert.Equal([1, 3, 4, 5, 6], four.Placements.Select(p => p.GatheringRow.Number));
        Assert.Equal(6, four.Cloth.GatheringRows);
        AssertSame(five, Recutter.Recut(four, five.Cloth.Gauge, RecutKeep.Count).Piece);
    }

    [Fact]
    public void Keeping_the_count_every_cable_of_a_figure_by_itself_keeps_its_level() => Gen.Select(AnyPiece.Singles, Gauges).Sample((piece, gauge) =>
    {
        if (piece.Placements.Length != 1) return;
        var recut = Recutter.Recut(piece, gauge, RecutKeep.Count).Piece;
        Assert.Equal(Level(piece), Level(recut));

        static Level Level(Piece piece)
        {
            var seat = Seat.Of(piece.Placements[0], piece.Figures[0], new PleatingPlan(piece.Cloth), 0);
            return Lattice.LevelAt(seat.ValleyOf(0), new CableRow(seat.Top), piece.Placements[0].FlipPhase ? piece.Phase.Opposite() : piece.Phase);
        }
    });

    // A knot on a figure is where the same part of the figure is then, to half a valley and half a row and what rounds them.
    [Fact]
    public void An_accent_on_a_figure_goes_with_it() => Gen.Select(AnyPiece.Singles, Gauges, Gen.Int[0, 8], Gen.Int[0, 6], Gen.Enum<RecutKeep>()).Sample((piece, gauge, column, row, keep) =>
    {
        if (piece.Placements.Length != 1) return;
        var (placement, figure) = (piece.Placements[0], piece.Figures[0]);
        (column, row) = (column % figure.Width, row % figure.Height);
        var seat = Seat.Of(placement, figure, new PleatingPlan(piece.Cloth), 0);
        var (valley, y) = (seat.ValleyOf(column), seat.Top + row);
        if (valley.Number < 1 || y < 0) return;
        var perSpace = piece.Cloth.Gauge.CableRowsPerSpace;
        var space = Math.Min(y / perSpace, piece.Cloth.GatheringRows - 1);
        piece = piece with { Accents = [new AccentMark("knot", Centre.At(valley), new GatheringRow(space + 1), new ThreadKey('a')) { Drop = y - space * perSpace }] };
        var recut = Recutter.Recut(piece, gauge, keep).Piece;
        var (then, mark) = (Seat.Of(recut.Placements[0], recut.Figures[0], new PleatingPlan(recut.Cloth), 0), recut.Accents[0]);
        var at = mark.Centre.On(new PleatingPlan(recut.Cloth));
        if (at.Number == 1 || at.Number == PleatingPlan.MostPleats || Math.Abs(mark.Drop) == Band.MostOffset) return; // held at the edge
        Assert.InRange(then.ColumnAt(at), (column + 1.0) * (then.Width + 1) / (figure.Width + 1) - 1.51, (column + 1.0) * (then.Width + 1) / (figure.Width + 1) - 0.49);
        var depth = LaidAccent.DepthOf(mark, gauge.CableRowsPerSpace) * gauge.CableRowsPerSpace - then.Top;
        Assert.InRange(depth, (row + 0.5) * then.Height / figure.Height - 1.01, (row + 0.5) * then.Height / figure.Height + 0.01);
    });

    // Runs of three cables and more in figures of odd width: what a hand would stitch.
    private static readonly Gen<Piece> Stitchable =
        from piece in AnyPiece.Pieces
        from half in Gen.Int[1, 5]
        from runs in Gen.Select(Gen.Int[0, 3], Gen.Int[3, 5]).Array[40]
        from rows in Gen.Int[1, 6]
        select piece with
        {
            Figures = [.. piece.Figures.Select((f, i) => Runs(f, 2 * half + 1, rows, runs.AsSpan(i * 10)))],
            Placements = [.. piece.Placements.Select(p => p with { FigureRow = p.FigureRow % rows, Repeat = p.Repeat.Count == 1 ? Repeat.Once : p.Repeat with { Every = p.Repeat.Every + 12 } })],
            Bands = [],
        };

    private static Figure Runs(Figure figure, int width, int rows, ReadOnlySpan<(int Thread, int Length)> runs)
    {
        var drawn = new List<string>();
        for (var (y, at) = (0, 0); y < rows; y++)
        {
            var row = "";
            while (row.Length < width) row += new string(".abc"[runs[at % 10].Thread], runs[at++ % 10].Length);
            row = row[..width];
            // What is cut off at the right may be a cable or two: the run before goes on there.
            drawn.Add(width > 3 ? row[..^2] + row[^3] + row[^3] : new string(row[0], width));
        }
        return new Figure(figure.Name, [.. drawn]) { Square = figure.Square };
    }

    [Theory]
    [InlineData(2, 1), InlineData(1, 2), InlineData(2, 2), InlineData(3, 1)]
    public void Keeping_the_size_goes_and_comes_back_where_pleats_and_rows_are_whole_times_as_many(int across, int down) => Stitchable.Sample(piece =>
    {
        if (!AllOnCloth(piece)) return;
        var now = piece.Cloth.Gauge;
        var gauge = new Gauge(now.Pitch / across, now.TakeUp, now.RowSpacing, now.CableRowsPerSpace * down);
        var recut = Recutter.Recut(piece, gauge, RecutKeep.Size);
        if (recut.Piece.Cloth.GatheringRows > piece.Cloth.GatheringRows) // a figure that reaches the very last row takes a space more
            Assert.Contains(recut.Changes, c => c is RecutChange.ClothLost);
        else AssertSame(piece, Recutter.Recut(recut.Piece, now, RecutKeep.Size).Piece);
    });

    [Fact]
    public void Keeping_the_size_keeps_each_figures_width_within_half_a_brick_and_its_height_within_half_a_row() => Recuts.Sample(s =>
    {
        var recut = Recutter.Recut(s.Piece, s.Gauge, RecutKeep.Size).Piece;
        var now = s.Piece.Cloth.Gauge;
        foreach (var (one, other) in s.Piece.Figures.Zip(recut.Figures))
        {
            Assert.Equal(one.Width & 1, other.Width & 1);
            double width = ((one.Width + 1) * now.Pitch).Millimetres, height = (one.Height * now.CableRowHeight).Millimetres;
            // Half a brick is a pleat; a figure one valley wide cannot be narrower.
            if (other.Width > 2) Assert.InRange(((other.Width + 1) * s.Gauge.Pitch).Millimetres, width - s.Gauge.Pitch.Millimetres - 1e-6, width + s.Gauge.Pitch.Millimetres + 1e-6);
            if (other.Height > 1) Assert.InRange((other.Height * s.Gauge.CableRowHeight).Millimetres, height - s.Gauge.CableRowHeight.Millimetres / 2 - 1e-6, height + s.Gauge.CableRowHeight.Millimetres / 2 + 1e-6);
        }
        Assert.Equal(s.Piece.Cloth.Form, recut.Cloth.Form);
    });

    [Fact]
    public void A_row_that_lay_on_a_gathering_row_lies_on_one_again_and_copies_keep_their_levels() => Recuts.Sample(s =>
    {
        var recut = Recutter.Recut(s.Piece, s.Gauge, s.Keep).Piece;
        var pleating = new PleatingPlan(recut.Cloth);
        foreach (var (one, other) in s.Piece.Placements.Zip(recut.Placements))
        {
            Assert.InRange(other.FigureRow, 0, recut.Figure(other.Figure)!.Height - 1);
            Assert.Equal(0, (other.Top(pleating).Index + other.FigureRow) % s.Gauge.CableRowsPerSpace);
            Assert.Equal(one.Repeat.Count, other.Repeat.Count);
            if (one.Repeat.Every > s.Piece.Figure(one.Figure)!.Width || s.Keep != RecutKeep.Size) Assert.Equal(one.Repeat.Every & 1, other.Repeat.Every & 1);
            Assert.Equal(one.FlipPhase, other.FlipPhase);
        }
    });

    // The rules that ask whether the lattice can be stitched at all: off-cloth, phases that cannot nest, half stitches that cannot be made.
    private static readonly string[] OfTheLattice = ["unlike-phases", "half-stitch", "off-cloth"];

    [Fact]
    public void What_could_be_stitched_can_be_stitched_when_recut_or_it_is_told() => Recuts.Sample(s =>
    {
        static int Errors(Piece piece) => Proofreading.Read(Work.Lay(piece)).Count(f => f.Severity == Severity.Error && OfTheLattice.Contains(f.Rule));
        if (s.Piece.Placements.Any(p => p.FlipPhase) || Errors(s.Piece) > 0) return;
        var recut = Recutter.Recut(s.Piece, s.Gauge, s.Keep);
        Assert.True(Errors(recut.Piece) == 0 || recut.Changes.Any(c => c is RecutChange.FallsOff or RecutChange.HalvesRefused or RecutChange.RunsInto));
    });

    [Fact]
    public void Keeping_the_proportions_keeps_the_pleats_and_each_figures_height_to_its_width() => Recuts.Sample(s =>
    {
        var recut = Recutter.Recut(s.Piece, s.Gauge, RecutKeep.Proportions).Piece;
        Assert.Equal(new PleatingPlan(s.Piece.Cloth).Pleats, new PleatingPlan(recut.Cloth).Pleats);
        foreach (var (one, other) in s.Piece.Figures.Zip(recut.Figures))
        {
            Assert.Equal(one.Width, other.Width);
            var ratio = s.Piece.Cloth.Gauge.CableRowHeight / s.Piece.Cloth.Gauge.Pitch;
            var then = s.Gauge.CableRowHeight / s.Gauge.Pitch;
            if (other.Height > 1) Assert.InRange(other.Height * then, one.Height * ratio - then / 2 - 1e-6, one.Height * ratio + then / 2 + 1e-6);
        }
    });

    [Fact]
    public void Scaling_a_figure_leaves_all_others_and_the_cloth() => Gen.Select(Pieces, Gen.Int[1, 20], Gen.Int[0, 12]).Sample((piece, width, height) =>
    {
        if (piece.Figures.IsEmpty) return;
        var name = piece.Figures[0].Name;
        var scaled = Recutter.Scale(piece, name, width, height == 0 ? null : height);
        AnyPiece.Sound(scaled.Piece);
        Assert.InRange(scaled.Piece.Figures[0].Width, width - 1, width + 1);
        Assert.Equal(piece.Cloth, scaled.Piece.Cloth);
        Assert.Equal(piece.Figures.Skip(1), scaled.Piece.Figures.Skip(1));
        Assert.Equal(piece.Bands, scaled.Piece.Bands);
        Assert.Equal(piece.Placements.Where(p => p.Figure != name), scaled.Piece.Placements.Where(p => p.Figure != name));
        Assert.Equal(piece.Placements.Select(p => (p.GatheringRow, p.Centre)), scaled.Piece.Placements.Select(p => (p.GatheringRow, p.Centre)));
    });

    [Fact]
    public void A_figure_that_is_alike_at_both_sides_stays_so() => Gen.Select(AnyPiece.Pieces, Gauges).Sample((piece, gauge) =>
    {
        var alike = piece with { Figures = [.. piece.Figures.Select(f => new Figure(f.Name, [.. f.Rows.Select(r => r + new string([.. r[..^1].Reverse()]))]))] };
        foreach (var figure in Recutter.Recut(alike, gauge, RecutKeep.Size).Piece.Figures)
            Assert.All(figure.Rows, r => Assert.Equal(r, new string([.. r.Reverse()])));
    });

    private static IEnumerable<(Placement, Figure)> Placed(Piece piece) => piece.Placements.Select(p => (p, piece.Figure(p.Figure)!));

    private static int WorkedCables(Piece piece, IEnumerable<(Placement Placement, Figure Figure)> placed) => placed.Sum(p => p.Placement.Repeat.Count * p.Figure.Rows.Sum(r => r.Count(c => c != Figure.Bare)));

    private static void AssertSame(Piece one, Piece other) => Assert.Equal(PieceWriter.Write(one), PieceWriter.Write(other));
}
