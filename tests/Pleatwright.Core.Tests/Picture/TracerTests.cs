using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Picture;
using Pleatwright.Proof;
using Pleatwright.Tests.Endurance;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Picture;

/// <summary>Whole traces: what they promise whatever the picture.</summary>
public class TracerTests
{
    public static TheoryData<string> Pictures => [.. TestPictures.All.Keys];

    private static readonly Gen<Raster> GenRaster =
        from width in Gen.Int[1, 14]
        from height in Gen.Int[1, 14]
        from pixels in Gen.Select(Gen.Byte, Gen.Byte, Gen.Byte, Gen.OneOf<byte>(0, 0, 90, 160, 255, 255, 255)).Array[width * height]
        select new Raster(width, height, [.. pixels.SelectMany(p => new[] { p.Item1, p.Item2, p.Item3, p.Item4 })]);

    private static readonly Gen<TracingOptions> GenOptions =
        from width in Gen.Int[3, 40]
        from height in Gen.Int[1, 25]
        from threads in Gen.Int[1, 6]
        from fidelity in Gen.Double[0, 1]
        from mirror in Gen.Bool
        from background in Gen.OneOf(Background.None, Background.Auto)
        select new TracingOptions { Width = width, Height = height, Threads = threads, Fidelity = fidelity, Mirror = mirror, Background = background };

    private static Traced? TraceIfAny(Raster raster, TracingOptions options)
    {
        try
        {
            return Tracer.Trace(raster, options);
        }
        catch (ArgumentException e) when (e.Message.StartsWith("the picture shows nothing") || e.Message.StartsWith("nothing is left"))
        {
            return null;
        }
    }

    [Theory, MemberData(nameof(Pictures))]
    public void A_traced_picture_has_no_proof_errors(string picture)
    {
        var raster = TestPictures.All[picture]();
        foreach (var (fidelity, mirror) in new[] { (0, false), (0.5, false), (1, false), (0.5, true) })
            AssertStitchable(Tracer.Trace(raster, new TracingOptions { Width = 61, Fidelity = fidelity, Mirror = mirror, Background = Background.Auto }));
    }

    [Fact]
    public void Nor_has_any_other() => Gen.Select(GenRaster, GenOptions).Sample((raster, options) =>
    {
        if (TraceIfAny(raster, options) is { } trace) AssertStitchable(trace);
    }, iter: Long.Of(60, 200));

    private static void AssertStitchable(Traced trace)
    {
        var piece = TracedPiece.Around(trace, Gauge.Common, "traced");
        var work = Work.Lay(piece);
        var errors = Proofreading.Read(work).Where(f => f.Severity == Severity.Error).ToArray();
        Assert.True(errors.Length == 0, string.Join("\n", errors.Take(5)) + "\n" + string.Join("\n", trace.Figure.Rows));
        Assert.Empty(work.Strays);
        Assert.Empty(work.RefusedHalves);
        Assert.Equal(trace.Cables, work.Cables);
        Assert.Equal(trace.Runs, work.Runs.Length);
        foreach (var run in work.Runs) Assert.True(run.Cables > 1, $"a lone cable in row {run.Row}, valley {run.From}");
    }

    [Fact]
    public void The_energy_never_rises_and_is_the_energy_of_the_figure() => Gen.Select(GenRaster, GenOptions).Sample((raster, options) =>
    {
        if (TraceIfAny(raster, options) is not { } trace) return;
        Assert.True(trace.Energies.Length >= 2);
        Assert.Equal(trace.Energies.OrderDescending(), trace.Energies);
    }, iter: Long.Of(60, 200));

    [Fact]
    public void The_same_picture_gives_the_same_figure() => Gen.Select(GenRaster, GenOptions).Sample((raster, options) =>
    {
        if (TraceIfAny(raster, options) is not { } one) return;
        var other = Tracer.Trace(raster, options);
        Assert.Equal(Written(one), Written(other));
        Assert.Equal(one.Energies, other.Energies);
    }, iter: Long.Of(20, 50));

    private static string Written(Traced trace) => PieceWriter.Write(TracedPiece.Around(trace, Gauge.Common, "traced"));

    [Fact]
    public void A_mirrored_trace_is_its_own_image() => Gen.Select(GenRaster, GenOptions).Sample((raster, options) =>
    {
        if (TraceIfAny(raster, options with { Mirror = true }) is not { } trace) return;
        Assert.Equal(trace.Figure.Rows, trace.Figure.Mirrored().Rows);
        Assert.Equal(trace.Figure.Halves.Order(ByMark), trace.Figure.Mirrored().Halves.Order(ByMark));
    }, iter: Long.Of(60, 200));

    private static readonly Comparer<HalfMark> ByMark = Comparer<HalfMark>.Create((a, b) => (a.Row, a.End).CompareTo((b.Row, b.End)));

    [Fact]
    public void A_traced_piece_reads_back_and_its_base_row_lies_on_a_gathering_row() => Gen.Select(GenRaster, GenOptions).Sample((raster, options) =>
    {
        if (TraceIfAny(raster, options) is not { } trace) return;
        var piece = TracedPiece.Around(trace, Gauge.Common, "traced");
        Assert.Equal(PieceWriter.Write(piece), PieceWriter.Write(PieceReader.Read(PieceWriter.Write(piece))));
        var work = Work.Lay(piece);
        var widest = Enumerable.Range(0, work.CableRows).MaxBy(y => CablesIn(work, y)); // the first of several
        Assert.Equal(0, widest % piece.Cloth.Gauge.CableRowsPerSpace);
        Assert.True(widest > 0 && CablesIn(work, 0) == 0 && CablesIn(work, work.CableRows - 1) == 0);
    }, iter: Long.Of(40, 100));

    private static int CablesIn(Work work, int row)
    {
        var cables = 0;
        foreach (var run in work.RunsIn(new CableRow(row))) cables += run.Cables;
        return cables;
    }

    [Fact]
    public void The_piece_lays_every_brick_where_it_was_sampled() => Gen.Select(GenRaster, GenOptions).Sample((raster, options) =>
    {
        if (TraceIfAny(raster, options) is not { } trace) return;
        var work = Work.Lay(TracedPiece.Around(trace, Gauge.Common, "traced"));
        var (left, top) = Corner(work, trace);
        for (var y = 0; y < trace.Figure.Height; y++)
            for (var x = 0; x < trace.Figure.Width; x++)
                Assert.Equal(
                    Lattice.LevelAt(new Valley(x + trace.Offset.Columns), new CableRow(y + trace.Offset.Rows), trace.Samples.Phase),
                    Lattice.LevelAt(new Valley(left + x), new CableRow(top + y), work.Piece.Phase));
    }, iter: Long.Of(40, 100));

    private static (int Left, int Top) Corner(Work work, Traced trace)
    {
        var placed = work.Piece.Placements[0];
        return (work.Pleating.CentreValley - trace.Figure.Middle,
            placed.GatheringRow.CableRow(work.Pleating.Gauge.CableRowsPerSpace).Index - placed.FigureRow);
    }

    [Fact]
    public void What_is_transparent_stays_bare()
    {
        // Red, clear, clear and red over 80 pleats: the middle forty are bare, and so the valleys between them.
        var trace = Tracer.Trace(new Raster(4, 2, [.. Enumerable.Range(0, 2).SelectMany(_ => (byte[])[200, 30, 40, 255, 0, 0, 0, 0, 0, 0, 0, 0, 200, 30, 40, 255])]),
            new TracingOptions { Width = 79, Height = 20, Fidelity = 1 });
        foreach (var row in trace.Figure.Rows)
        {
            Assert.Equal(new string(Figure.Bare, 37), row[21..58]);
            Assert.DoesNotContain(Figure.Bare, row[..18]);
        }
        // what is clear at the edge is cut off first: red alone is stretched over the width
        Assert.Equal(79, Tracer.Trace(new Raster(2, 1, [0, 0, 0, 0, 200, 30, 40, 255]), new TracingOptions { Width = 79, Height = 3 }).Figure.Width);
    }

    [Fact]
    public void Added_to_a_piece_it_shares_its_threads_and_keeps_what_was_there()
    {
        var trace = Tracer.Trace(TestPictures.All["boat"](), new TracingOptions { Width = 41, Background = Background.Auto });
        var once = TracedPiece.Into(PieceReader.Read(File.ReadAllBytes(Repository.Path("examples", "harbour-morning.piece.json"))), trace).Piece;
        var twice = TracedPiece.Into(once, trace).Piece;
        Assert.Equal(once.Threads, twice.Threads);
        Assert.Equal(once.Threads.Length, once.Threads.Select(t => t.Key).Distinct().Count());
        Assert.Equal(once.Figures.Length + 1, twice.Figures.Length);
        var colours = trace.Threads.ToDictionary(t => t.Key.Letter, t => t.Colour);
        foreach (var (own, added) in trace.Figure.Rows.Zip(twice.Figures[^1].Rows))
            for (var x = 0; x < own.Length; x++)
            {
                Assert.Equal(own[x] == Figure.Bare, added[x] == Figure.Bare);
                // a thread of the piece that no eye tells from the one that comes is taken for it
                if (own[x] != Figure.Bare) Assert.InRange(ColourDifference.Between(colours[own[x]], twice.Thread(new ThreadKey(added[x]))!.Colour), 0, 1);
            }
        Assert.Equal(once.Figures, twice.Figures[..^1]);
        Assert.Equal(PieceWriter.Write(twice), PieceWriter.Write(PieceReader.Read(PieceWriter.Write(twice))));
    }

    [Theory]
    [InlineData("net")]
    [InlineData("noise")]
    [InlineData("slant stripes")]
    [InlineData("pebbles")]
    public void A_picture_that_fills_its_frame_leaves_nothing_bare(string picture)
    {
        foreach (var fidelity in new[] { 0, 0.5, 1 })
        {
            var trace = Tracer.Trace(TestPictures.All[picture](), new TracingOptions { Width = 60, Threads = 3, Fidelity = fidelity });
            Assert.All(trace.Figure.Rows, row => Assert.DoesNotContain(Figure.Bare, row));
            Assert.True(trace.Figure.Square);
        }
    }

    [Fact]
    public void A_picture_of_nothing_is_refused()
    {
        var e = Assert.Throws<ArgumentException>(() => Tracer.Trace(TestPictures.Clear(30, 20), new TracingOptions()));
        Assert.StartsWith("the picture shows nothing", e.Message);
    }

    [Fact]
    public void Fewer_runs_as_fidelity_falls()
    {
        var raster = TestPictures.All["pebbles"]();
        var runs = new[] { 1, 0.75, 0.5, 0.25, 0 }.Select(f => Tracer.Trace(raster, new TracingOptions { Fidelity = f }).Runs).ToArray();
        Assert.Equal(runs.OrderDescending(), runs);
        Assert.True(runs[^1] * 3 < runs[0]);
    }

    [Fact]
    public void Threads_come_from_the_stash_with_their_letters()
    {
        Floss[] stash = [Some.Floss('q', "#b02030"), Some.Floss('r', "#1f4e79"), Some.Floss('s', "#d9a441"), Some.Floss('t', "#00ff00"), Some.Floss('u', "#503820"), Some.Floss('v', "#e8eef2")];
        var trace = Tracer.Trace(TestPictures.All["boat"](), new TracingOptions { Stash = [.. stash], Threads = 5, Background = Background.Auto });
        Assert.All(trace.Threads, t => Assert.Contains(t, stash));
        Assert.DoesNotContain(stash[3], trace.Threads);
        Assert.True(trace.Threads.Length >= 4);
    }

    [Fact]
    public void Asking_for_too_much_is_refused_in_words()
    {
        var raster = TestPictures.All["ring"]();
        foreach (var (options, word) in new (TracingOptions, string)[]
        {
            (new() { Width = 2 }, "valleys wide"),
            (new() { Width = 5000 }, "valleys wide"),
            (new() { Height = 0 }, "cable rows high"),
            (new() { Width = 4000 }, "too many stitches"),
            (new() { Threads = 53 }, "threads"),
            (new() { Threads = 0 }, "threads"),
            (new() { Fidelity = double.NaN }, "fidelity"),
            (new() { Crop = new Crop(100, 100, 101, 10) }, "past the picture"),
            (new() { Crop = new Crop(0, 0, 0, 10) }, "crop is empty"),
        })
            Assert.Contains(word, Assert.Throws<ArgumentException>(() => Tracer.Trace(raster, options)).Message);
    }

    [Fact]
    public void It_tells_its_progress_and_stops_when_asked()
    {
        var told = new List<TraceProgress>();
        Tracer.Trace(TestPictures.All["ring"](), new TracingOptions(), new Listener(told.Add));
        Assert.Equal(TraceStage.Preparing, told[0].Stage);
        Assert.Equal(TraceStage.Done, told[^1].Stage);
        using var stop = new CancellationTokenSource();
        Assert.Throws<OperationCanceledException>(() => Tracer.Trace(TestPictures.All["ring"](), new TracingOptions(),
            new Listener(p => { if (p.Stage == TraceStage.Smoothing) stop.Cancel(); }), stop.Token));
    }

    private sealed class Listener(Action<TraceProgress> hear) : IProgress<TraceProgress>
    {
        public void Report(TraceProgress value) => hear(value);
    }
}
