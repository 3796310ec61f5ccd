using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Order;
using Pleatwright.Picture;
using Pleatwright.Tests.Picture;
using Pleatwright.Thread;

namespace Pleatwright.Perf;

/// <summary>
/// Tracing against a general image tool's resize and palette reduction, given the same picture, the same bricks and the
/// same number of colours, in one run.
/// </summary>
internal static class TraceCost
{
    private const int Valleys = 100, Threads = 8;

    private static readonly string[] Pictures =
        ["boat", "gull", "lighthouse", "crab", "letters", "slant stripes", "gradient", "dusk", "noise", "pebbles", "ball on sand", "net"];

    private const int Times = 5; // the best of so many is told, ours warmed up first

    public static void Measure()
    {
        Console.WriteLine($"{Valleys} valleys, {Threads} colours, pictures of 0.4 to 1.4 megapixels. Difference: mean CIEDE2000 from what lies under each brick.");
        Console.WriteLine("Starts: of the planned order; least: no order of these runs has fewer. Time: from pixels in memory; the tool's, less what it takes to start and do nothing.");
        Console.WriteLine("                      |                    traced here |            a pixel for a cable |  brick means reduced");
        Console.WriteLine("picture          rows |   diff runs starts least    ms |   diff runs starts least    ms |   diff runs starts");
        Sums ours = default, pixel = default, brick = default;
        var idle = Best(() => Reduce(new byte[4], 1, 1, "", 1), out _);
        foreach (var name in Pictures)
        {
            var raster = Enlarged(TestPictures.All[name](), 4);
            var options = new TracingOptions { Width = Valleys, Threads = Threads };
            for (var warm = 0; warm < 10; warm++) Tracer.Trace(raster, options);
            var ms = Best(() => Tracer.Trace(raster, options), out var trace);
            var (samples, height) = (trace.Samples, trace.Samples.Height);
            var toolMs = Best(() => Reduce(raster.Rgba, raster.Width, raster.Height, $"-resize {Valleys}x{height}! +dither -colors {Threads}", Valleys * height), out var pixels) - idle;
            var a = Judge(Labels(trace), samples);
            var b = Judge(pixels, samples);
            var c = Judge(Reduce(BrickMeans(samples), Valleys, height, $"+dither -colors {Threads}", Valleys * height), samples);
            Say($"{name,-16} {height,4} | {a.Difference,6:0.00} {a.Runs,4} {a.Starts,6} {a.Least,5} {ms,5:0.0} | {b.Difference,6:0.00} {b.Runs,4} {b.Starts,6} {b.Least,5} {toolMs,5:0.0} | {c.Difference,6:0.00} {c.Runs,4} {c.Starts,6}");
            ours = ours.And(a, ms);
            pixel = pixel.And(b, toolMs);
            brick = brick.And(c, 0);
        }
        Say($"traced over a pixel for a cable:  difference {ours.Difference / pixel.Difference:0.00}, runs {ours.Runs / pixel.Runs:0.00}, starts {ours.Starts / pixel.Starts:0.00}, time {ours.Ms / pixel.Ms:0.00}");
        Say($"traced over brick means reduced:  difference {ours.Difference / brick.Difference:0.00}, runs {ours.Runs / brick.Runs:0.00}, starts {ours.Starts / brick.Starts:0.00}");
        Sized();
    }

    private static void Sized()
    {
        foreach (var name in new[] { "dusk", "pebbles", "noise" })
        {
            var raster = Enlarged(TestPictures.All[name](), 4);
            var options = new TracingOptions { Width = 160, Height = 75, Threads = Threads };
            for (var warm = 0; warm < 10; warm++) Tracer.Trace(raster, options);
            Say($"160 × 75 cables, {Threads} threads, {name} ({raster.Width} × {raster.Height} pixels): {Best(() => Tracer.Trace(raster, options), out _):0.0} ms");
        }
    }

    private static double Best<T>(Func<T> work, out T result)
    {
        var best = double.MaxValue;
        result = default!;
        for (var i = 0; i < Times; i++)
        {
            var watch = Stopwatch.StartNew();
            result = work();
            best = Math.Min(best, watch.Elapsed.TotalMilliseconds);
        }
        return best;
    }

    private static void Say(FormattableString line) => Console.WriteLine(line.ToString(CultureInfo.InvariantCulture));

    private static Raster Enlarged(Raster raster, int times)
    {
        var to = new byte[raster.Rgba.Length * times * times];
        var width = raster.Width * times;
        for (var i = 0; i < width * raster.Height * times; i++)
            raster.Rgba.Slice((i / width / times * raster.Width + i % width / times) * 4, 4).CopyTo(to.AsSpan(i * 4));
        return new Raster(width, raster.Height * times, to);
    }

    private readonly record struct Sums(double Difference, double Runs, double Starts, double Ms)
    {
        public Sums And(Verdict v, double ms) => new(Difference + v.Difference, Runs + v.Runs, Starts + v.Starts, Ms + ms);
    }

    private readonly record struct Verdict(double Difference, int Runs, int Starts, int Least);

    private static byte[] Labels(Traced trace)
    {
        var colours = trace.Threads.ToDictionary(t => t.Key.Letter, t => t.Colour);
        var rgba = new byte[trace.Samples.Width * trace.Samples.Height * 4];
        for (var y = 0; y < trace.Figure.Height; y++)
            for (var x = 0; x < trace.Figure.Width; x++)
                if (colours.TryGetValue(trace.Figure.Rows[y][x], out var colour))
                    Put(rgba, (y + trace.Offset.Rows) * trace.Samples.Width + x + trace.Offset.Columns, colour);
        return rgba;
    }

    private static byte[] BrickMeans(BrickSamples samples)
    {
        var rgba = new byte[samples.Width * samples.Height * 4];
        for (var y = 0; y < samples.Height; y++)
            for (var x = 0; x < samples.Width; x++) Put(rgba, y * samples.Width + x, samples.Cable(x, y).Light.ToColour());
        return rgba;
    }

    private static void Put(byte[] rgba, int i, Colour c) => (rgba[i * 4], rgba[i * 4 + 1], rgba[i * 4 + 2], rgba[i * 4 + 3]) = (c.Red, c.Green, c.Blue, 255);

    private static Verdict Judge(byte[] rgba, BrickSamples samples)
    {
        var keys = new Dictionary<Colour, char>();
        var rows = new string[samples.Height];
        double apart = 0;
        int cables = 0, runs = 0;
        for (var y = 0; y < samples.Height; y++)
        {
            var row = new char[samples.Width];
            for (var x = 0; x < samples.Width; x++)
            {
                var i = (y * samples.Width + x) * 4;
                row[x] = Figure.Bare;
                if (rgba[i + 3] < 128) continue;
                var colour = new Colour(rgba[i], rgba[i + 1], rgba[i + 2]);
                if (!keys.TryGetValue(colour, out var key)) keys[colour] = key = (char)('a' + keys.Count);
                row[x] = key;
                apart += ColourDifference.Between(Lab.From(samples.Cable(x, y).Light), Lab.From(colour));
                cables++;
                if (x == 0 || row[x - 1] != key) runs++;
            }
            rows[y] = new string(row);
        }
        var figure = new Figure("f", [.. rows]);
        var threads = keys.Select(k => new Floss(new ThreadKey(k.Value), k.Key.ToString(), k.Key, Floss.DefaultStrands)).ToImmutableArray();
        var pleats = samples.Width + 3 & ~1;
        var plan = new ClothPlan(new Panel(Gauge.Common.Pitch * pleats), Gauge.Common, (samples.Height + 4) / 5 + 1);
        var work = Work.Lay(new Piece("", plan, threads, [figure], [new Placement("f", Centre.Middle, new GatheringRow(1), 0)]));
        var order = Planner.Plan(work);
        return new Verdict(apart / cables, runs, order.Starts, order.LowerBoundStarts);
    }

    private static byte[] Reduce(ReadOnlySpan<byte> rgba, int width, int height, string operations, int pixels)
    {
        var start = new ProcessStartInfo("convert", $"-size {width}x{height} -depth 8 rgba:- -colorspace sRGB {operations} -depth 8 rgba:-")
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
        };
        using var tool = Process.Start(start)!;
        tool.StandardInput.BaseStream.Write(rgba);
        tool.StandardInput.Close();
        var result = new byte[pixels * 4];
        tool.StandardOutput.BaseStream.ReadExactly(result);
        tool.WaitForExit();
        return result;
    }
}
