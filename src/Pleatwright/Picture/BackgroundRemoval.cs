using Pleatwright.Thread;

namespace Pleatwright.Picture;

/// <summary>Makes a picture's background transparent.</summary>
internal static class BackgroundRemoval
{
    /// <summary>
    /// The picture with its background transparent; the same picture when there is none. Pixels on the border of what
    /// went, where drawing programs and cameras blend the two, keep the figure's colour and the share of it they show.
    /// </summary>
    public static Raster WithoutBackground(this Raster raster, Background background)
    {
        Colour? colour = background.Kind switch
        {
            BackgroundKind.None => null,
            BackgroundKind.Auto => EdgeColour(raster, background.Tolerance),
            _ => background.Colour,
        };
        if (colour is not { } c) return raster;
        var near = new Nearness(c, background.Tolerance);
        var gone = background.Enclosed ? Everywhere(raster, near) : FromEdges(raster, near);
        return Cleared(raster, gone, near);
    }

    /// <summary>The colour that at least two thirds of the picture's edge shows within a tolerance; null when none does.</summary>
    public static Colour? EdgeColour(Raster raster, double tolerance)
    {
        var edge = new List<int>(2 * (raster.Width + raster.Height));
        for (var x = 0; x < raster.Width; x++)
        {
            edge.Add(x);
            if (raster.Height > 1) edge.Add((raster.Height - 1) * raster.Width + x);
        }
        for (var y = 1; y < raster.Height - 1; y++)
        {
            edge.Add(y * raster.Width);
            if (raster.Width > 1) edge.Add(y * raster.Width + raster.Width - 1);
        }
        // The fullest of 16 × 16 × 16 boxes, then the middle of what lies in it: a speck of noise cannot win.
        var boxes = new int[4096];
        var pixels = raster.Rgba;
        var seen = 0;
        foreach (var i in edge)
        {
            if (pixels[i * 4 + 3] < 128) continue;
            boxes[Box(pixels, i)]++;
            seen++;
        }
        if (seen * 3 < edge.Count) return null; // mostly transparent already: what is left is the figure
        var fullest = Array.IndexOf(boxes, boxes.Max());
        long r = 0, g = 0, b = 0;
        foreach (var i in edge)
        {
            if (pixels[i * 4 + 3] < 128 || Box(pixels, i) != fullest) continue;
            r += pixels[i * 4];
            g += pixels[i * 4 + 1];
            b += pixels[i * 4 + 2];
        }
        var n = boxes[fullest];
        var colour = new Colour((byte)(r / n), (byte)(g / n), (byte)(b / n));
        var near = new Nearness(colour, tolerance);
        var alike = 0;
        foreach (var i in edge)
            if (pixels[i * 4 + 3] < 128 || near.Is(pixels, i)) alike++;
        return alike * 3 >= edge.Count * 2 ? colour : null;
    }

    private static int Box(ReadOnlySpan<byte> p, int i) => p[i * 4] >> 4 << 8 | p[i * 4 + 1] >> 4 << 4 | p[i * 4 + 2] >> 4;

    private static bool[] Everywhere(Raster raster, Nearness near)
    {
        var gone = new bool[raster.Width * raster.Height];
        var pixels = raster.Rgba;
        for (var i = 0; i < gone.Length; i++) gone[i] = pixels[i * 4 + 3] == 0 || near.Is(pixels, i);
        return gone;
    }

    // Whole stretches of a row at a time: the stack stays short however large the picture.
    private static bool[] FromEdges(Raster raster, Nearness near)
    {
        int w = raster.Width, h = raster.Height;
        var gone = new bool[w * h];
        var pixels = raster.Rgba;
        var seeds = new Stack<int>();
        for (var x = 0; x < w; x++) { seeds.Push(x); seeds.Push((h - 1) * w + x); }
        for (var y = 0; y < h; y++) { seeds.Push(y * w); seeds.Push(y * w + w - 1); }
        while (seeds.TryPop(out var seed))
        {
            if (!Goes(pixels, seed)) continue;
            var start = seed / w * w;
            int from = seed, to = seed;
            while (from > start && Goes(pixels, from - 1)) from--;
            while (to < start + w - 1 && Goes(pixels, to + 1)) to++;
            gone.AsSpan(from, to - from + 1).Fill(true);
            if (start > 0) Seed(pixels, from - w, to - w);
            if (start + w < gone.Length) Seed(pixels, from + w, to + w);
        }
        return gone;

        bool Goes(ReadOnlySpan<byte> p, int i) => !gone[i] && (p[i * 4 + 3] == 0 || near.Is(p, i));

        void Seed(ReadOnlySpan<byte> p, int from, int to)
        {
            for (var i = from; i <= to; i++)
                if (Goes(p, i) && (i == from || !Goes(p, i - 1))) seeds.Push(i);
        }
    }

    private static Raster Cleared(Raster raster, bool[] gone, Nearness near)
    {
        int w = raster.Width, h = raster.Height;
        var from = raster.Rgba;
        var to = from.ToArray();
        for (var i = 0; i < gone.Length; i++)
        {
            if (gone[i]) { to[i * 4 + 3] = 0; continue; }
            int x = i % w, y = i / w;
            var border = x > 0 && gone[i - 1] || x < w - 1 && gone[i + 1] || y > 0 && gone[i - w] || y < h - 1 && gone[i + w];
            if (border) Unblend(from, to, gone, near, x, y, w, h);
        }
        return new Raster(w, h, to);
    }

    // A border pixel is taken as a blend of the background and the least background-like pixel within two steps of it.
    private static void Unblend(ReadOnlySpan<byte> from, byte[] to, bool[] gone, Nearness near, int x, int y, int w, int h)
    {
        var i = y * w + x;
        double own = near.Distance(from, i), farthest = own;
        var figure = i;
        for (var ny = Math.Max(0, y - 2); ny <= Math.Min(h - 1, y + 2); ny++)
            for (var nx = Math.Max(0, x - 2); nx <= Math.Min(w - 1, x + 2); nx++)
            {
                var n = ny * w + nx;
                if (gone[n] || near.Distance(from, n) is var d && d <= farthest) continue;
                (figure, farthest) = (n, d);
            }
        if (figure == i) return;
        from.Slice(figure * 4, 3).CopyTo(to.AsSpan(i * 4));
        to[i * 4 + 3] = (byte)(from[i * 4 + 3] * own / farthest);
    }

    // Nearness to one colour, remembered for the colours met last: flat backgrounds ask the same few again and again.
    private sealed class Nearness(Colour colour, double tolerance)
    {
        private readonly Oklab centre = Oklab.From(colour);
        private readonly double reach = tolerance / 100;
        private readonly int[] keys = NewKeys();
        private readonly double[] distances = new double[4096];

        public bool Is(ReadOnlySpan<byte> pixels, int i) => Distance(pixels, i) <= reach;

        public double Distance(ReadOnlySpan<byte> pixels, int i)
        {
            var key = pixels[i * 4] << 16 | pixels[i * 4 + 1] << 8 | pixels[i * 4 + 2];
            var slot = (int)((uint)key * 2654435761u >> 20);
            if (keys[slot] == key) return distances[slot];
            keys[slot] = key;
            return distances[slot] = Math.Sqrt(Oklab.From(new Colour(pixels[i * 4], pixels[i * 4 + 1], pixels[i * 4 + 2])).DistanceSquared(centre));
        }

        private static int[] NewKeys()
        {
            var keys = new int[4096];
            Array.Fill(keys, -1);
            return keys;
        }
    }
}
