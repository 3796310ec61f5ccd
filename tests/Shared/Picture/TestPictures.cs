using Pleatwright.Picture;

namespace Pleatwright.Tests.Picture;

/// <summary>
/// Pictures drawn here for tests and measurements: shapes painted over one another on a canvas from (0, 0) to (1, 1), each
/// pixel the mean of 16 spots, so that edges are as soft as those of a drawing program.
/// </summary>
public static class TestPictures
{
    /// <summary>Red, green, blue and alpha, 0 to 1.</summary>
    private readonly record struct Paint(double R, double G, double B, double A = 1);

    private delegate Paint? Layer(double x, double y);

    private static readonly Paint White = Hex(0xffffff);

    /// <summary>Every picture, by name; each is drawn once.</summary>
    public static IReadOnlyDictionary<string, Func<Raster>> All { get; } = Once(new()
    {
        ["boat"] = () => Draw(320, 260, Boat(White)),
        ["boat on clear"] = () => Draw(320, 260, Boat(null)),
        ["gull"] = () => Draw(360, 180, Gull()),
        ["lighthouse"] = () => Draw(200, 320, Lighthouse()),
        ["crab"] = () => Draw(340, 220, Crab()),
        ["kite"] = () => Draw(220, 330, Kite()),
        ["letters"] = () => Draw(360, 140, Letters()),
        ["stripes"] = () => Draw(240, 240, (x, y) => (int)(x * 12) % 2 == 0 ? Hex(0x1f4e79) : Hex(0xf2e6c9)),
        ["slant stripes"] = () => Draw(240, 240, (x, y) => ((int)((x + y) * 9) % 3) switch { 0 => Hex(0xb3202c), 1 => Hex(0xf2c84b), _ => Hex(0x2f6f66) }),
        ["gradient"] = () => Draw(300, 160, (x, y) => Mix(Hex(0x10306a), Hex(0xf6b26b), x)),
        ["dusk"] = () => Draw(400, 200, Dusk()),
        ["wide dusk"] = () => Draw(430, 180, Dusk()),
        ["noise"] = () => Draw(200, 120, Noise(7)),
        ["pebbles"] = () => Draw(360, 200, Pebbles(23, 90)),
        ["ball"] = () => Draw(240, 240, Ball()),
        ["ball on sand"] = () => Draw(240, 240, [(x, y) => Mix(Hex(0xe9d8b4), Hex(0xcdb58a), y), .. Ball()]),
        ["net"] = () => Draw(300, 200, (x, y) => Hex(0xe8eef2), (x, y) => Frac(x * 15) < 0.12 || Frac(y * 10) < 0.12 ? Hex(0x33414e) : null),
        ["ring"] = () => Draw(200, 200, (x, y) => Between(Away(x, y, 0.5, 0.5), 0.25, 0.45) ? Hex(0xc2571a) : null),
        ["tiny"] = () => Draw(2, 2, (x, y) => x < 0.5 ? Hex(0xb3202c) : Hex(0x1f4e79)),
        ["one pixel"] = () => Draw(1, 1, (x, y) => Hex(0x2f6f66)),
        ["half clear"] = () => Draw(160, 100, (x, y) => Hex(0x7a3b6b) with { A = x }),
    });

    private static Dictionary<string, Func<Raster>> Once(Dictionary<string, Func<Raster>> pictures) => pictures.ToDictionary(p => p.Key, p =>
    {
        var drawn = new Lazy<Raster>(p.Value);
        return (Func<Raster>)(() => drawn.Value);
    });

    /// <summary>A picture of nothing.</summary>
    public static Raster Clear(int width, int height) => new(width, height, new byte[width * height * 4]);

    private static Raster Draw(int width, int height, params Layer[] layers)
    {
        const int n = 4;
        var rgba = new byte[width * height * 4];
        for (var py = 0; py < height; py++)
            for (var px = 0; px < width; px++)
            {
                double r = 0, g = 0, b = 0, a = 0;
                for (var s = 0; s < n * n; s++)
                {
                    double x = (px + (s % n + 0.5) / n) / width, y = (py + (s / n + 0.5) / n) / height;
                    Paint top = default;
                    foreach (var layer in layers) if (layer(x, y) is { } paint) top = paint;
                    r += top.R * top.A;
                    g += top.G * top.A;
                    b += top.B * top.A;
                    a += top.A;
                }
                var at = (py * width + px) * 4;
                if (a == 0) continue;
                rgba[at] = Byte(r / a);
                rgba[at + 1] = Byte(g / a);
                rgba[at + 2] = Byte(b / a);
                rgba[at + 3] = Byte(a / (n * n));
            }
        return new Raster(width, height, rgba);
    }

    private static Layer[] Boat(Paint? ground) =>
    [
        (x, y) => ground,
        (x, y) => y is > 0.12 and < 0.7 && x < 0.52 && x > 0.52 - (y - 0.12) * 0.62 ? Hex(0xb3202c) : null, // foresail
        (x, y) => y is > 0.06 and < 0.7 && x > 0.55 && x < 0.55 + (y - 0.06) * 0.55 ? Hex(0xd9a441) : null, // mainsail
        (x, y) => Between(x, 0.52, 0.55) && y is > 0.03 and < 0.74 ? Hex(0x5b3a21) : null,
        (x, y) => y is > 0.72 and < 0.92 && Math.Abs(x - 0.5) < 0.46 - (y - 0.72) * 0.7 ? Hex(0x1f4e79) : null,
        (x, y) => y is > 0.72 and < 0.76 && Math.Abs(x - 0.5) < 0.46 - (y - 0.72) * 0.7 ? Hex(0xe8eef2) : null,
    ];

    private static Layer[] Gull() =>
    [
        (x, y) => Mix(Hex(0x9cc4e0), Hex(0xd7e8f2), y),
        (x, y) => Between(Away(x, (y - 0.78) * 0.55 + 0.78, 0.27, 0.78), 0.2, 0.245) && y < 0.8 ? Hex(0x3d4650) : null,
        (x, y) => Between(Away(x, (y - 0.78) * 0.55 + 0.78, 0.73, 0.78), 0.2, 0.245) && y < 0.8 ? Hex(0x3d4650) : null,
        (x, y) => Away(x, y * 0.5 + 0.36, 0.5, 0.76) < 0.07 ? Hex(0xfafafa) : null,
        (x, y) => Away(x, y, 0.53, 0.76) < 0.014 ? Hex(0x101010) : null,
        (x, y) => Between(x, 0.56, 0.62) && Math.Abs(y - 0.8) < (0.62 - x) * 0.6 ? Hex(0xe39b2d) : null,
    ];

    private static Layer[] Lighthouse() =>
    [
        (x, y) => Mix(Hex(0x2a4d7c), Hex(0xbcd7ea), y),
        (x, y) => y > 0.86 ? Hex(0x4a6b46) : null,
        (x, y) => y is > 0.2 and < 0.9 && Math.Abs(x - 0.5) < 0.1 + y * 0.13 ? (int)(y * 10) % 2 == 0 ? Hex(0xc1272d) : Hex(0xf7f4ec) : null,
        (x, y) => y is > 0.12 and < 0.2 && Math.Abs(x - 0.5) < 0.1 ? Hex(0xf5d76e) : null,
        (x, y) => y is > 0.04 and < 0.12 && Math.Abs(x - 0.5) < (y - 0.04) * 1.5 ? Hex(0x33302e) : null,
        (x, y) => y is > 0.74 and < 0.9 && Math.Abs(x - 0.5) < 0.05 ? Hex(0x33302e) : null,
    ];

    private static Layer[] Crab() =>
    [
        (x, y) => White,
        (x, y) => y is > 0.5 and < 0.97 && Math.Abs(x - 0.5) is > 0.15 and < 0.46 && Between(LegAt(x, y), 0, 3) && Frac(LegAt(x, y)) < 0.45 ? Hex(0xb93a20) : null,
        (x, y) => Away(x, (y - 0.62) * 1.2 + 0.5, 0.5, 0.5) < 0.26 ? Hex(0xd2502f) : null,
        (x, y) => Away(Math.Abs(x - 0.5), y, 0.36, 0.26) < 0.11 && !(Math.Abs(Math.Abs(x - 0.5) - 0.36) < 0.03 && y < 0.26) ? Hex(0xb93a20) : null,
        (x, y) => Math.Abs(Math.Abs(x - 0.5) - 0.24 - (0.5 - y) * 0.4) < 0.03 && y is > 0.3 and < 0.55 ? Hex(0xb93a20) : null,
        (x, y) => Away(Math.Abs(x - 0.5), y, 0.08, 0.45) < 0.03 ? Hex(0x1b1b1b) : null,
    ];

    // Three legs on either side, sloping down and outward.
    private static double LegAt(double x, double y) => (y - 0.52 - Math.Abs(x - 0.5) * 0.25) * 8;

    private static Layer[] Kite() =>
    [
        (x, y) => Math.Abs(x - 0.5) / 0.42 + Math.Abs(y - 0.3) / (y < 0.3 ? 0.28 : 0.42) < 1
            ? (x < 0.5, y < 0.3) switch { (true, true) => Hex(0xe0572b), (false, true) => Hex(0xf1c232), (true, false) => Hex(0x2a7f9e), _ => Hex(0x7b3f8c) }
            : null,
        (x, y) => y is > 0.7 and < 0.98 && Math.Abs(x - 0.5 - 0.08 * Math.Sin(y * 22)) < 0.02 ? Hex(0x444444) : null,
        (x, y) => y > 0.72 && Frac(y * 11) < 0.45 && Math.Abs(x - 0.5 - 0.08 * Math.Sin(y * 22)) < 0.07 ? Hex(0xf1c232) : null,
    ];

    // S E A, from bars and arcs.
    private static Layer[] Letters() =>
    [
        (x, y) => Hex(0xfbf7ee),
        (x, y) => Between(Away(x * 2.57, y, 0.45, 0.3), 0.13, 0.24) && !(x * 2.57 > 0.45 && y > 0.3) ? Hex(0x17365d) : null,
        (x, y) => Between(Away(x * 2.57, y, 0.45, 0.66), 0.13, 0.24) && !(x * 2.57 < 0.45 && y < 0.66) ? Hex(0x17365d) : null,
        (x, y) => Between(x, 0.38, 0.42) && Between(y, 0.08, 0.9) || Between(x, 0.38, 0.58) && (Between(y, 0.08, 0.2) || Between(y, 0.43, 0.55) || Between(y, 0.78, 0.9)) ? Hex(0x17365d) : null,
        (x, y) => Between(y, 0.08, 0.9) && Math.Abs(Math.Abs(x - 0.8) - (y - 0.02) * 0.14) < 0.022 || Between(y, 0.55, 0.66) && Math.Abs(x - 0.8) < 0.08 ? Hex(0x17365d) : null,
    ];

    private static Layer[] Dusk() =>
    [
        (x, y) => Mix(Mix(Hex(0x26305f), Hex(0xe98a5b), Math.Clamp(y * 1.6, 0, 1)), Hex(0xf6d28c), Math.Max(0, 1 - Away(x, y * 0.5, 0.68, 0.28) * 4)),
        (x, y) => Away(x, y * 0.5, 0.68, 0.28) < 0.05 ? Hex(0xfff1c4) : null,
        (x, y) => y > 0.62 + 0.05 * Math.Sin(x * 17) * Math.Sin(x * 5 + 1) ? Mix(Hex(0x3d4f6d), Hex(0x1b2940), (y - 0.62) * 2.4) : null,
        (x, y) => y > 0.66 && Math.Sin(y * 90 + 6 * Math.Sin(x * 9)) > 0.75 - 0.7 * Math.Max(0, 1 - Math.Abs(x - 0.68) * 6) ? Mix(Hex(0xe9a16b), Hex(0x3d4f6d), Math.Min(1, Math.Abs(x - 0.68) * 3)) : null,
        (x, y) => y is > 0.52 and < 0.68 && Math.Abs(x - 0.25) < 0.13 - (y - 0.52) * 0.4 && y > 0.62 || Math.Abs(x - 0.25) < 0.006 && y is > 0.3 and < 0.64 ? Hex(0x151a26) : null,
    ];

    private static Layer[] Pebbles(ulong seed, int count)
    {
        var random = new Sequence(seed);
        var stones = Enumerable.Range(0, count).Select(_ => (X: random.Next(), Y: random.Next(), R: 0.02 + 0.06 * random.Next(),
            Paint: Mix(Mix(Hex(0x8a8478), Hex(0xd8cfbd), random.Next()), Hex(0x4d5a63), random.Next() * random.Next()))).ToArray();
        return
        [
            (x, y) => Hex(0x4b4238),
            (x, y) =>
            {
                Paint? paint = null;
                foreach (var s in stones)
                    if (Away(x, y * 0.55, s.X, s.Y * 0.55) is var d && d < s.R) paint = Mix(s.Paint, Hex(0x2e2a26), Math.Pow(d / s.R, 3) * 0.7);
                return paint;
            },
        ];
    }

    private static Layer[] Ball() =>
    [
        (x, y) => Away(x, y, 0.5, 0.5) < 0.46 ? Mix(Hex(0xf3b49f), Hex(0x5d1f1a), Math.Min(1, Away(x, y, 0.36, 0.34) * 1.6)) : null,
    ];

    private static Layer Noise(ulong seed) => (x, y) =>
    {
        var random = new Sequence(seed + (ulong)(x * 200) * 7919 + (ulong)(y * 120) * 104729);
        return new Paint(random.Next(), random.Next(), random.Next());
    };

    private static Paint Hex(int rgb) => new((rgb >> 16) / 255.0, (rgb >> 8 & 255) / 255.0, (rgb & 255) / 255.0);

    private static Paint Mix(Paint a, Paint b, double t) => new(a.R + (b.R - a.R) * t, a.G + (b.G - a.G) * t, a.B + (b.B - a.B) * t);

    private static double Away(double x, double y, double cx, double cy) => Math.Sqrt((x - cx) * (x - cx) + (y - cy) * (y - cy));

    private static bool Between(double v, double low, double high) => v > low && v < high;

    private static double Frac(double v) => v - Math.Floor(v);

    private static byte Byte(double v) => (byte)Math.Round(Math.Clamp(v, 0, 1) * 255);

    // Numbers that look like chance and are the same everywhere (SplitMix64).
    private sealed class Sequence(ulong state)
    {
        public double Next()
        {
            state += 0x9e3779b97f4a7c15;
            var z = state;
            z = (z ^ z >> 30) * 0xbf58476d1ce4e5b9;
            z = (z ^ z >> 27) * 0x94d049bb133111eb;
            return ((z ^ z >> 31) >> 11) * (1.0 / (1ul << 53));
        }
    }
}
