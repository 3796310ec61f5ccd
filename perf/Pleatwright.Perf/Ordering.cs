using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using System.Text;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Thread;

namespace Pleatwright.Perf;

/// <summary>The working order: how near its starts come to the bound, how long it takes, and how that grows.</summary>
internal static class Ordering
{
    private static readonly int[] Sizes = [1_000, 2_500, 6_000, 16_000, 40_000, 100_000];

    private static readonly (string Name, Func<int, int, int, char> Cell)[] Kinds =
    [
        ("one colour, whole", (_, _, _) => 'a'),
        ("pennants set apart", (x, y, _) => Math.Abs(x % 36 - 15) <= y % 24 && y % 24 < 15 ? 'a' : '.'),
        ("pennants close", (x, y, _) => Math.Abs(x % 30 - 15) <= y % 20 && y % 20 < 15 ? 'a' : '.'),
        ("diamonds, two colours", (x, y, _) => Math.Abs(x % 24 - 12) + Math.Abs(y % 24 - 12) > 10 ? '.' : y % 24 < 12 ? 'a' : 'b'),
        ("hollow squares", (x, y, _) => x % 40 is < 4 or > 36 || y % 40 is < 4 or > 36 ? '.' : x % 40 is > 12 and < 28 && y % 40 is > 12 and < 28 ? '.' : 'b'),
        ("slanted stripes", (x, y, _) => "abc"[(x + y / 3) / 9 % 3]),
        ("patches", Patch),
        ("islands", (x, y, seed) => Hills(x, y, seed, 17) > 0.55 ? "ab"[Hills(x, y, seed + 9, 31) > 0.5 ? 1 : 0] : '.'),
        ("scattered specks", (x, y, seed) => ".ab"[(int)(Noise(x, y, seed) * 3)]),
    ];

    // Starts and bound before there were ways of working, on the same pieces in the same order.
    private static readonly (int Starts, int Bound)[] Before =
    [
        (20, 20), (50, 50), (119, 118), (314, 313), (784, 784), (1959, 1958), (22, 22), (58, 58), (130, 130), (362, 361), (899, 897), (2182, 2182),
        (21, 20), (55, 49), (130, 120), (361, 321), (897, 806), (2202, 1962), (31, 29), (78, 69), (173, 155), (466, 419), (1176, 1033), (2935, 2557),
        (23, 21), (54, 51), (122, 114), (341, 323), (841, 796), (2104, 1978), (28, 24), (59, 57), (141, 128), (355, 325), (881, 818), (2164, 2011),
        (24, 21), (60, 55), (130, 122), (342, 319), (837, 797), (2103, 1987), (18, 16), (57, 51), (172, 160), (373, 342), (839, 779), (2070, 1903),
        (57, 26), (127, 63), (319, 150), (883, 393), (2149, 977), (5541, 2456),
    ];

    /// <summary>Measures pieces of up to so many cables, of the kinds whose name holds a word; the picture is drawn of all alone.</summary>
    public static void Measure(int most, string word)
    {
        Planner.Plan(Work.Lay(Make(4, 6_000, 1)));
        Console.WriteLine("                                          |    before    |          fewest starts          |       row by row");
        Console.WriteLine("piece                      cables   runs  | starts bound | starts bound   over    plan ms | starts  hang  wait   plan ms  drawing ms");
        var points = new List<(int Kind, int Cables, double Milliseconds)>();
        var (starts, bounds, startsThen, boundsThen, least) = (0, 0, 0, 0, 0);
        var slowest = (Name: "", Milliseconds: 0.0);
        for (var kind = 0; kind < Kinds.Length; kind++)
            for (var size = 0; size < Sizes.Length; size++)
                if (Sizes[size] <= most && Kinds[kind].Name.Contains(word, StringComparison.Ordinal)) One(kind, size);
        Console.WriteLine($"up to 2,500 cables, specks aside: {startsThen} starts over {boundsThen} then, {starts} over {bounds} now, {(double)starts / bounds - 1:0.0%}; {least} of 16 proved the fewest");
        if (slowest.Milliseconds > 0) Console.WriteLine($"{Sizes[^1]:N0} cables: at the most {slowest.Milliseconds:0} ms ({slowest.Name}) of 1000 allowed, ratio {slowest.Milliseconds / 1000:0.00}");
        if (word.Length == 0)
        {
            SmallSpecks();
            Examples();
        }
        if (most < Sizes[^1] || word.Length > 0) return;
        foreach (var group in points.GroupBy(p => p.Kind))
        {
            var ordered = group.OrderBy(p => p.Cables).ToArray();
            var (first, last) = (ordered[0], ordered[^1]);
            Console.WriteLine($"{Kinds[group.Key].Name,-24} time grows as cables to the power {Math.Log(last.Milliseconds / first.Milliseconds) / Math.Log((double)last.Cables / first.Cables):0.00}");
        }
        var file = Path.Combine("docs", "pictures", "order-growth.svg");
        if (Directory.Exists(Path.GetDirectoryName(file))) File.WriteAllText(file, Plot(points));

        void One(int kind, int size)
        {
            var piece = Make(kind, Sizes[size], 1);
            Work plain = Work.Lay(piece), free = Work.Lay(piece with { Working = piece.Working with { Way = WayOfWorking.FewestStarts } });
            WorkingOrder fewest = null!, byRow = null!;
            double fewestTime = Time(() => fewest = Planner.Plan(free, Effort.Plate)), byRowTime = Time(() => byRow = Planner.Plan(plain, Effort.Plate));
            var drawing = Enumerable.Range(0, 3).Select(_ => Time(() => Planner.Plan(plain, Effort.Drawing))).Order().ElementAt(1);
            var then = Before[kind * Sizes.Length + size];
            var bound = fewest.LowerBoundStarts;
            Console.WriteLine($"{Kinds[kind].Name,-24} {plain.Cables,8} {plain.Runs.Length,6}  | {then.Starts,6} {then.Bound,5} | {fewest.Starts,6} {bound,5} {(double)fewest.Starts / bound - 1,6:0.0%} {fewestTime,10:0} | {byRow.Starts,6} {byRow.TakeUps,5} {byRow.LongestWaitRows,5} {byRowTime,9:0} {drawing,11:0.0}");
            points.Add((kind, plain.Cables, byRowTime));
            if (Sizes[size] == Sizes[^1] && Math.Max(fewestTime, byRowTime) > slowest.Milliseconds) slowest = (Kinds[kind].Name, Math.Max(fewestTime, byRowTime));
            if (Sizes[size] > 2_500 || kind == Kinds.Length - 1) return;
            (starts, bounds, startsThen, boundsThen) = (starts + fewest.Starts, bounds + bound, startsThen + then.Starts, boundsThen + then.Bound);
            if (fewest.Starts == bound) least++;
        }
    }

    // Specks from so few that all orders are looked through (the tests hold that with a constraint solver) upward: what they need beside the bound.
    private static void SmallSpecks()
    {
        foreach (var (cables, count) in ((int, int)[])[(20, 100), (40, 20), (80, 10), (160, 5), (320, 3)])
        {
            var (pieces, runs, starts, bounds) = (0, 0, 0, 0);
            for (var seed = 1; pieces < count; seed++)
            {
                var piece = Make(Kinds.Length - 1, cables, seed);
                var work = Work.Lay(piece with { Working = piece.Working with { Way = WayOfWorking.FewestStarts } });
                if (cables == 20 && work.Runs.Length > 14) continue;
                var order = Planner.Plan(work, Effort.Plate);
                (pieces, runs, starts, bounds) = (pieces + 1, runs + work.Runs.Length, starts + order.Starts, bounds + order.LowerBoundStarts);
            }
            Console.WriteLine($"specks, {pieces} pieces of {runs / pieces} runs: {starts} starts over {bounds}, {(double)starts / bounds:0.00} of the bound");
        }
    }

    // The examples in every way, and row by row without a thread left hanging.
    private static void Examples()
    {
        if (!Directory.Exists("examples")) return;
        Console.WriteLine("example                  | row by row: starts lengths hang wait turns | none hangs: starts | space by space: starts hang wait | fewest starts: starts hang wait");
        foreach (var path in Directory.GetFiles("examples", "*.piece.json").Order(StringComparer.Ordinal))
        {
            var piece = Smocking.Read(File.ReadAllBytes(path));
            var ways = Planner.InEveryWay(Planner.Plan(Work.Lay(piece with { Working = piece.Working with { Way = WayOfWorking.RowByRow } }), Effort.Plate));
            var none = Planner.Plan(Work.Lay(piece with { Working = piece.Working with { Way = WayOfWorking.RowByRow, ParkedThreads = 0 } }), Effort.Plate);
            Console.WriteLine($"{Path.GetFileName(path)[..^11],-24} | {ways[0].Starts,18} {ways[0].CutLengths,7} {ways[0].TakeUps,4} {ways[0].LongestWaitRows,4} {ways[0].Turns,5} | {none.Starts,18} | {ways[1].Starts,22} {ways[1].TakeUps,4} {ways[1].LongestWaitRows,4} | {ways[2].Starts,21} {ways[2].TakeUps,4} {ways[2].LongestWaitRows,4}");
        }
    }

    private static double Time(Action work)
    {
        var watch = Stopwatch.StartNew();
        work();
        return watch.Elapsed.TotalMilliseconds;
    }

    private static Piece Make(int kind, int cables, int seed)
    {
        var fill = 0;
        for (var i = 0; i < 40_000; i++) fill += Kinds[kind].Cell(i % 200, i / 200, seed) == '.' ? 0 : 1;
        var cells = cables * 40_000.0 / fill;
        var width = (int)Math.Sqrt(cells * 1.6) | 1;
        var height = Math.Max(1, (int)Math.Round(cells / width));
        var rows = ImmutableArray.CreateBuilder<string>(height);
        for (var y = 0; y < height; y++) rows.Add(string.Create(width, y, (row, at) =>
        {
            for (var x = 0; x < row.Length; x++) row[x] = Kinds[kind].Cell(x, at, seed);
        }));
        return new Piece(Kinds[kind].Name,
            new ClothPlan(new Panel(Length.FromInches((width + 1) / 12.0)), Gauge.Common, (height + 4) / 5 + 1),
            [.. "abc".Select(c => new Floss(new ThreadKey(c), $"thread {c}", new Colour((byte)(40 * (c - 'a')), 60, 120), 4))],
            [new Figure("figure", rows.ToImmutable())], [new Placement("figure", Centre.Middle, new GatheringRow(1), 0)]);
    }

    private static char Patch(int x, int y, int seed) =>
        (Hills(x, y, seed, 23), Hills(x, y, seed + 5, 23)) switch { ( > 0.58, _) => 'a', (_, > 0.55) => 'b', _ => 'c' };

    // Smooth heights between 0 and 1, from noise at the corners of a coarse grid.
    private static double Hills(int x, int y, int seed, int grain)
    {
        int i = x / grain, j = y / grain;
        double u = (double)(x % grain) / grain, v = (double)(y % grain) / grain;
        (u, v) = (u * u * (3 - 2 * u), v * v * (3 - 2 * v));
        double top = Noise(i, j, seed) * (1 - u) + Noise(i + 1, j, seed) * u, bottom = Noise(i, j + 1, seed) * (1 - u) + Noise(i + 1, j + 1, seed) * u;
        return top * (1 - v) + bottom * v;
    }

    private static double Noise(int x, int y, int seed)
    {
        var h = (uint)(x * 374761393 + y * 668265263 + seed * 974634749);
        h = (h ^ h >> 13) * 1274126177;
        return ((h ^ h >> 16) & 0xffffff) / (double)0x1000000;
    }

    // Both axes logarithmic; the dashed lines are growth in step with the cables.
    private static string Plot(List<(int Kind, int Cables, double Milliseconds)> points)
    {
        const double left = 60, top = 20, width = 480, height = 300;
        double X(double cables) => left + (Math.Log10(cables) - 2.9) / 2.3 * width;
        double Y(double ms) => top + height - (Math.Log10(ms) + 1.5) / 4.5 * height;
        var svg = new StringBuilder("""
            <svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 760 370" font-family="sans-serif" font-size="12">
            <rect width="760" height="370" fill="#fff"/>

            """);
        foreach (var ms in (double[])[0.1, 1, 10, 100, 1000])
            svg.Append(CultureInfo.InvariantCulture, $"<line x1=\"{left}\" x2=\"{left + width}\" y1=\"{Y(ms):0.0}\" y2=\"{Y(ms):0.0}\" stroke=\"#ddd\"/><text x=\"{left - 6}\" y=\"{Y(ms) + 4:0.0}\" text-anchor=\"end\">{ms} ms</text>\n");
        foreach (var cables in (int[])[1_000, 10_000, 100_000])
            svg.Append(CultureInfo.InvariantCulture, $"<line x1=\"{X(cables):0.0}\" x2=\"{X(cables):0.0}\" y1=\"{top}\" y2=\"{top + height}\" stroke=\"#ddd\"/><text x=\"{X(cables):0.0}\" y=\"{top + height + 18}\" text-anchor=\"middle\">{cables:N0} cables</text>\n");
        foreach (var ms in (double[])[0.1, 1, 10])
            svg.Append(CultureInfo.InvariantCulture, $"<line x1=\"{X(1000):0.0}\" y1=\"{Y(ms):0.0}\" x2=\"{X(100_000):0.0}\" y2=\"{Y(ms * 100):0.0}\" stroke=\"#999\" stroke-dasharray=\"4 4\"/>\n");
        string[] colours = ["#b3202c", "#1f4e79", "#2f7f48", "#b07800", "#6b3fa0", "#00838f", "#c2185b", "#444444", "#8d6e63"];
        string[] dashes = ["", "8 3", "2 3", "10 3 2 3", "", "8 3", "2 3", "10 3 2 3", ""];
        for (var kind = 0; kind < Kinds.Length; kind++)
        {
            var line = string.Join(' ', points.Where(p => p.Kind == kind).OrderBy(p => p.Cables).Select(p => string.Create(CultureInfo.InvariantCulture, $"{X(p.Cables):0.0},{Y(p.Milliseconds):0.0}")));
            svg.Append(CultureInfo.InvariantCulture, $"<polyline points=\"{line}\" fill=\"none\" stroke=\"{colours[kind]}\" stroke-width=\"2\" stroke-dasharray=\"{dashes[kind]}\"/>\n");
            var y = top + 14 + 20 * kind;
            svg.Append(CultureInfo.InvariantCulture, $"<line x1=\"556\" x2=\"586\" y1=\"{y - 4}\" y2=\"{y - 4}\" stroke=\"{colours[kind]}\" stroke-width=\"2\" stroke-dasharray=\"{dashes[kind]}\"/><text x=\"592\" y=\"{y}\">{Kinds[kind].Name}</text>\n");
        }
        return svg.Append("</svg>\n").ToString();
    }
}
