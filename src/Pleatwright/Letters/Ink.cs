using Pleatwright.Picture;

namespace Pleatwright.Letters;

/// <summary>Where a letter's picture has ink, pixel by pixel.</summary>
/// <param name="Width">Pixels across.</param>
/// <param name="Height">Pixels down.</param>
/// <param name="Cells">By row, then column.</param>
internal sealed record Ink(int Width, int Height, bool[] Cells)
{
    /// <summary>Whether there is ink; there is none past the picture.</summary>
    public bool Has(int x, int y) => x >= 0 && y >= 0 && x < Width && y < Height && Cells[y * Width + x];
}

/// <summary>Makes the strokes of a letter as wide as can be stitched.</summary>
internal static class Sturdy
{
    /// <summary>A letter's ink, made sturdy.</summary>
    /// <param name="raster">Its picture; what is opaque by half is ink.</param>
    /// <param name="stroke">The least width of a stroke, in pixels across.</param>
    /// <param name="counter">The least width of what lies between two strokes, in pixels across.</param>
    /// <param name="hairline">The least height of a stroke, in pixels down.</param>
    /// <param name="widest">How many times as wide it may become at the most, 1 or more.</param>
    public static Ink Of(Raster raster, double stroke, double counter, double hairline, double widest)
    {
        var drawn = new bool[raster.Width * raster.Height];
        for (var i = 0; i < drawn.Length; i++) drawn[i] = raster.Rgba[4 * i + 3] >= 128;
        var ink = new Ink(raster.Width, raster.Height, drawn);
        ink = Wider(ink, Math.Clamp(Needed(ink, stroke, counter), 1, widest), (int)Math.Ceiling(stroke));
        return Across(Down(ink, hairline), stroke, counter);
    }

    // How many times as wide the letter must be for its strokes and counters to have their least width, in nine rows of ten.
    private static double Needed(Ink ink, double stroke, double counter)
    {
        var times = new List<double>();
        for (var y = 0; y < ink.Height; y++)
        {
            var runs = Runs(ink.Width, x => ink.Has(x, y)).ToList();
            if (runs.Count < 2) continue;
            double needed = 0, gaps = 0;
            for (var i = 0; i < runs.Count; i++)
            {
                needed += Math.Max(stroke, runs[i].To - runs[i].From);
                if (i == 0) continue;
                gaps += Math.Max(counter, runs[i].From - runs[i - 1].To);
            }
            times.Add((needed + gaps) / (runs[^1].To - runs[0].From));
        }
        times.Sort();
        return times.Count == 0 ? 1 : times[(times.Count - 1) * 9 / 10];
    }

    // Made wider, with room left at both sides for strokes to grow into.
    private static Ink Wider(Ink ink, double times, int room)
    {
        var width = (int)Math.Ceiling(ink.Width * times) + 2 * room;
        var cells = new bool[width * ink.Height];
        for (var y = 0; y < ink.Height; y++)
            for (var x = 0; x < width; x++) cells[y * width + x] = ink.Has((int)Math.Floor((x - room + 0.5) / times), y);
        return new Ink(width, ink.Height, cells);
    }

    private static Ink Down(Ink ink, double least)
    {
        var cells = (bool[])ink.Cells.Clone();
        for (var x = 0; x < ink.Width; x++)
            foreach (var (from, to) in Runs(ink.Height, y => ink.Has(x, y)))
                if (to - from < least)
                    for (var y = Math.Max(0, (int)Math.Round((from + to - least) / 2)); y < Math.Min(ink.Height, Math.Round((from + to + least) / 2)); y++) cells[y * ink.Width + x] = true;
        return ink with { Cells = cells };
    }

    // Strokes grow to both sides alike, but not into a counter beyond its half of what is more than the least.
    private static Ink Across(Ink ink, double stroke, double counter)
    {
        var cells = (bool[])ink.Cells.Clone();
        for (var y = 0; y < ink.Height; y++)
        {
            var runs = Runs(ink.Width, x => ink.Has(x, y)).ToList();
            for (var i = 0; i < runs.Count; i++)
            {
                var (from, to) = runs[i];
                var lacking = stroke - (to - from);
                if (lacking <= 0) continue;
                var roomLeft = i == 0 ? double.MaxValue : Math.Max(0, (from - runs[i - 1].To - counter) / 2);
                var roomRight = i == runs.Count - 1 ? double.MaxValue : Math.Max(0, (runs[i + 1].From - to - counter) / 2);
                var left = Math.Min(lacking / 2, roomLeft);
                var right = Math.Min(lacking - left, roomRight);
                left = Math.Min(lacking - right, roomLeft);
                for (var x = Math.Max(0, (int)Math.Round(from - left)); x < Math.Min(ink.Width, Math.Round(to + right)); x++) cells[y * ink.Width + x] = true;
            }
        }
        return ink with { Cells = cells };
    }

    // Stretches of ink along a line of pixels, their ends not counted in.
    private static IEnumerable<(int From, int To)> Runs(int length, Func<int, bool> has)
    {
        for (var i = 0; i < length; i++)
        {
            if (!has(i)) continue;
            var from = i;
            while (i < length && has(i)) i++;
            yield return (from, i);
        }
    }
}
