using CsCheck;
using Pleatwright.Bench.Model.Tracing;
using Pleatwright.Picture;
using Pleatwright.Tests.Drafts;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Tracing;

/// <summary>A picture traced beside the page: whatever is asked and stopped and whatever answers when, what is shown is of what was asked last, or of what stood before it was stopped.</summary>
public class GlassLaws
{
    private sealed record Job(string Options, Action<string> Told, CancellationToken Cancel)
    {
        public TaskCompletionSource<(string, double, string)> Answer { get; } = new();
    }

    private sealed class Room : ITracingRoom
    {
        public List<Job> Jobs { get; } = [];

        public Task<(string Traced, double Took, string Fault)> TraceAsync(Raster picture, string options, Action<string> told, CancellationToken cancel)
        {
            var job = new Job(options, told, cancel);
            Jobs.Add(job);
            Assert.True(Jobs.Count(j => !j.Cancel.IsCancellationRequested) <= 1, "one at a time");
            return job.Answer.Task;
        }
    }

    // A figure as wide as was asked for.
    private static string Traced(string options) => TraceText.Write(new TracedFigure(
        new Pleatwright.Chart.Figure("boat", [new string('r', TraceText.Options(options).Width)]), [new Floss(new ThreadKey('r'), "red", default, 4)], 0, Pleatwright.Chart.Phase.Even, 1, 1));

    [Fact]
    public void Whatever_is_asked_and_stopped_what_is_shown_is_of_the_last() =>
        Gen.Select(Gen.Int[0, 7], Gen.Int[0, 9]).Array[1, 40].Sample(acts =>
        {
            var thread = new OneThread();
            var (desk, _) = Tables.Set(Tables.Empty);
            var room = new Room();
            var glass = new Glass(desk, null!, room, thread.Time);
            thread.Do(() => glass.Lay(new Raster(30, 20, new byte[30 * 20 * 4]), "boat"));
            TracedFigure? before = null;
            foreach (var (act, n) in acts)
            {
                var job = room.Jobs.Count == 0 ? null : room.Jobs[n % room.Jobs.Count];
                var late = job?.Cancel.IsCancellationRequested ?? false;
                before = glass.Traced;
                thread.Do(() =>
                {
                    switch (act)
                    {
                        case 0: glass.Set(glass.Options with { Width = 10 + n }); break;
                        case 1:
                            var could = glass.Progress.Length > 0;
                            Assert.Equal(could, glass.Stop());
                            Assert.Equal("", glass.Progress);
                            Assert.DoesNotContain(room.Jobs, j => !j.Cancel.IsCancellationRequested);
                            Assert.Same(before, glass.Traced);
                            break;
                        case 2 when job is not null:
                            var words = glass.Progress;
                            job.Told($"Smoothing {n}");
                            Assert.Equal(late ? words : $"Smoothing {n}", glass.Progress);
                            break;
                        case 3 when job is not null: End(job, (Traced(job.Options), 5, "")); break;
                        case 4 when job is not null: End(job, ("", 0, "It shows nothing.")); break;
                        case 5 when glass.WasStopped: glass.GoOn(); break;
                        default: break;
                    }
                });
                if (act is 6 or 7) thread.Pass(0.15);
                if (late && act is (3 or 4)) Assert.Same(before, glass.Traced); // nothing of what was stopped is shown
                if (glass.Progress.Length == 0 && !glass.WasStopped && glass.Trouble.Length == 0) Assert.Equal(glass.Options.Width, glass.Traced!.Figure.Width);
                Assert.False(glass.WasStopped && glass.Progress.Length > 0);
            }
            // and in the end it is traced
            thread.Do(() => glass.Set(glass.Options with { Width = 61 }));
            thread.Pass(0.2);
            thread.Do(() => End(room.Jobs.Single(j => !j.Cancel.IsCancellationRequested), (Traced(room.Jobs[^1].Options), 1, "")));
            Assert.Equal(61, glass.Traced!.Figure.Width);
            Assert.Equal("", glass.Progress);

            void End(Job job, (string, double, string) answer)
            {
                room.Jobs.Remove(job);
                job.Answer.SetResult(answer);
            }
        }, iter: 1_000, threads: 1);

    [Fact]
    public void In_the_page_it_is_traced_as_by_the_command_and_what_comes_of_it_is_read_as_it_was_written()
    {
        var thread = new OneThread();
        var rgba = new byte[40 * 40 * 4];
        for (var i = 0; i < 1600; i++) (i / 40 is > 5 and < 30 && i % 40 is > 8 and < 33 ? new byte[] { 200, 30, (byte)(i % 40 > 20 ? 200 : 40), 255 } : [255, 255, 255, 255]).CopyTo(rgba, 4 * i);
        var picture = new Raster(40, 40, rgba);
        foreach (var options in (TracingOptions[])
        [
            new() { Width = 30, Threads = 3, Background = Background.Auto, Name = "a boat, “red”" },
            new() { Width = 24, Threads = 2, Fidelity = 0.35, Mirror = true, HalfStitches = false, Crop = new Crop(3, 2, 31, 30), Background = Background.Of(Colour.Parse("#ffffff")) with { Tolerance = 7, Enclosed = true } },
            new() { Width = 20, Stash = [new Floss(new ThreadKey('q'), "berry", Colour.Parse("#c81e28"), 3) { Note = "shelf two", SkeinLength = Measure.Length.FromInches(8.75), TexPerStrand = 33.3, StrandsInSkein = 8 }] },
        ])
        {
            var (text, _, fault) = thread.Do(() => new HereTracing(thread.Time).TraceAsync(picture, TraceText.Write(options), _ => { }, default));
            Assert.Equal("", fault);
            TracedFigure by = Tracer.Trace(picture, options), read = TraceText.Traced(text);
            Assert.Equal((by.Figure.Rows, by.Figure.Name, by.Figure.Square), (read.Figure.Rows, read.Figure.Name, read.Figure.Square), EqualRows);
            Assert.Equal(by.Figure.Halves, read.Figure.Halves);
            Assert.Equal(by.Threads, read.Threads);
            Assert.Equal((by.BaseRow, by.Phase, by.Cables, by.Runs), (read.BaseRow, read.Phase, read.Cables, read.Runs));
        }
        Assert.EndsWith(".", thread.Do(() => new HereTracing(thread.Time).TraceAsync(new Raster(4, 4, new byte[64]), TraceText.Write(new TracingOptions()), _ => { }, default)).Fault);

        static bool EqualRows((System.Collections.Immutable.ImmutableArray<string> Rows, string Name, bool Square) a, (System.Collections.Immutable.ImmutableArray<string> Rows, string Name, bool Square) b) =>
            a.Rows.SequenceEqual(b.Rows) && a.Name == b.Name && a.Square == b.Square;
    }
}
