using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>A thread's letter on a chart: its disc on a stretch of the thread's colour.</summary>
/// <param name="Thread">The thread.</param>
/// <param name="Patch">The stretch, as an index among those of the work.</param>
/// <param name="Centre">Where its disc lies, in millimetres of the chart.</param>
/// <param name="Radius">Radius of the disc in millimetres, ring and all; of all letters of a chart the same.</param>
internal readonly record struct ThreadLetter(Floss Thread, int Patch, Spot Centre, double Radius);

/// <summary>
/// Puts every thread's letter once on every stretch of its colour that a chart shows, all of one size: in the row nearest to where the stretch is begun,
/// and where it lies over no thread that crosses the back and over nothing that is written or marked.
/// </summary>
internal static class ThreadLetters
{
    /// <summary>Letters smaller than this many points are left out: nobody could read them.</summary>
    public const double SmallestLetter = 4.5;

    /// <summary>Of a disc's radius in points of its letter.</summary>
    private const double Disc = 0.6 * Typeface.MillimetresPerPoint;

    private const double Clear = 0.25; // millimetres between a disc and what it keeps clear of

    // Discs are smaller where only then every stretch has room for one (our own choice).
    private static readonly ImmutableArray<double> Shares = [1, 0.85, 0.7];

    private static double Most(Look look) => look.Large ? 14 : 9; // points

    /// <summary>The letters of a part of a chart.</summary>
    /// <param name="geometry">Where everything lies.</param>
    /// <param name="window">The part.</param>
    /// <param name="look">How it is dressed.</param>
    /// <param name="steps">What is written and marked on it, or null.</param>
    /// <returns>The letters, and the stretches that show but have no room for one.</returns>
    public static (ImmutableArray<ThreadLetter> Letters, ImmutableArray<int> Crowded) Of(ChartGeometry geometry, ChartWindow window, Look look, StepMarks? steps)
    {
        var largest = Math.Min(Math.Min(geometry.RowHeight * 0.47, geometry.Pitch * 0.9), Most(look) * Disc);
        if (largest / Disc < SmallestLetter) return ([], []);
        var shown = Patches.Of(geometry.Work).ShownIn(window).ToList();
        var taken = new Taken(geometry, steps);
        (ImmutableArray<ThreadLetter> Letters, ImmutableArray<int> Crowded)? best = null;
        foreach (var share in Shares)
        {
            if (largest * share / Disc < SmallestLetter) break;
            var here = Placed(geometry, window, shown, taken, largest * share);
            if (best is null || here.Crowded.Length < best.Value.Crowded.Length) best = here;
            if (best.Value.Crowded.IsEmpty) break;
        }
        return best!.Value;
    }

    private static (ImmutableArray<ThreadLetter> Letters, ImmutableArray<int> Crowded) Placed(ChartGeometry geometry, ChartWindow window, List<int> patches, Taken taken, double radius)
    {
        var letters = ImmutableArray.CreateBuilder<ThreadLetter>(patches.Count);
        var crowded = ImmutableArray.CreateBuilder<int>();
        var box = geometry.BoxOf(window);
        var inRow = new Dictionary<double, List<double>>();
        foreach (var patch in patches)
        {
            Spot? clear = null, over = null;
            var thread = geometry.Work.Piece.Thread(geometry.Work.Runs[Patches.Of(geometry.Work).RunsOf(patch)[0]].Thread)!;
            foreach (var spot in Candidates(geometry, window, patch))
            {
                if (!box.Grown(-radius).Holds(spot) || !taken.IsFree(spot, radius + Clear)) continue;
                if (inRow.TryGetValue(spot.Y, out var beside) && beside.Any(x => Math.Abs(x - spot.X) < 2 * radius)) continue; // where two colours meet
                over ??= spot; // a thread that crosses there is drawn up to the disc on either side
                if (!taken.IsUncrossed(spot, radius + Clear)) continue;
                clear = spot;
                break;
            }
            if ((clear ?? over) is not { } at)
            {
                crowded.Add(patch);
                continue;
            }
            letters.Add(new(thread, patch, at, radius));
            if (!inRow.TryGetValue(at.Y, out var there)) inRow[at.Y] = there = [];
            there.Add(at.X);
        }
        return (letters.ToImmutable(), crowded.ToImmutable());
    }

    // The middles of its cables, a few from the end of a run first.
    private static IEnumerable<Spot> Candidates(ChartGeometry geometry, ChartWindow window, int patch)
    {
        foreach (var index in Patches.Of(geometry.Work).RunsOf(patch))
        {
            var run = geometry.Work.Runs[index];
            if (run.Row.Index < window.FirstRow || run.Row.Index > window.LastRow) continue;
            var (first, last) = (Math.Max(run.From.Number, window.FirstPleat), Math.Min(run.To.Number, window.LastPleat - 1));
            var from = Math.Clamp(run.From.Number + Math.Min(2, run.Cables / 2), first, Math.Max(first, last));
            for (var off = 0; off <= last - first; off++)
                foreach (var valley in off == 0 ? (int[])[from] : [from + off, from - off])
                    if (valley >= first && valley <= last) yield return new Spot(geometry.Across(new Valley(valley)), geometry.Middle(run.Row));
        }
    }

    /// <summary>A letter on its disc: a white rim and an edge in the thread's own shade, so that it shows on its own colour, be it white or black.</summary>
    public static IEnumerable<Mark> Draw(Floss thread, Spot centre, double radius, Look look)
    {
        var style = new TypeStyle(Face.TextBold, Math.Round(radius / Disc, 2), thread.Colour.LetterOn);
        yield return new Shape(Outline.Circle(centre, radius * 0.94), Colour.White, new Pen(Colour.White, radius * 0.12));
        yield return new Shape(Outline.Circle(centre, radius * 0.88), thread.Colour, new Pen(Edge(thread.Colour, look), radius * 0.08));
        yield return new Lettering(new Spot(centre.X, centre.Y + Typeface.CapHeight(style) / 2), thread.Key.ToString(), style, Anchor.Middle);
    }

    // Dark round a pale thread, pale round a dark one.
    private static Colour Edge(Colour colour, Look look) => colour.LetterOn == Colour.White ? Look.Lighter(colour, 0.5) : Look.Mix(colour, look.Ink, 0.75);

    // What is written and marked, found by its rows.
    private sealed class Taken
    {
        private readonly ILookup<int, Box> boxes;
        private readonly ILookup<int, (Spot From, Spot To)> crossings;
        private readonly double row;

        public Taken(ChartGeometry geometry, StepMarks? steps)
        {
            row = geometry.RowHeight;
            boxes = (steps?.Taken ?? []).SelectMany(b => Enumerable.Range(Row(b.Y), Row(b.Bottom) - Row(b.Y) + 1).Select(r => (Row: r, Box: b))).ToLookup(b => b.Row, b => b.Box);
            crossings = (steps?.CrossingLines ?? []).SelectMany(c => Enumerable.Range(Row(Math.Min(c.From.Y, c.To.Y)), Row(Math.Max(c.From.Y, c.To.Y)) - Row(Math.Min(c.From.Y, c.To.Y)) + 1)
                .Select(r => (Row: r, Line: c))).ToLookup(c => c.Row, c => c.Line);
        }

        private int Row(double y) => (int)Math.Floor(y / row);

        public bool IsFree(Spot spot, double radius) => boxes[Row(spot.Y)].All(b => Distance(spot, b) >= radius);

        public bool IsUncrossed(Spot spot, double radius) => crossings[Row(spot.Y)].All(c => Distance(spot, c.From, c.To) >= radius);
    }

    private static double Distance(Spot spot, Box box) =>
        Math.Sqrt(Math.Pow(Math.Max(0, Math.Max(box.X - spot.X, spot.X - box.Right)), 2) + Math.Pow(Math.Max(0, Math.Max(box.Y - spot.Y, spot.Y - box.Bottom)), 2));

    private static double Distance(Spot spot, Spot from, Spot to)
    {
        double dx = to.X - from.X, dy = to.Y - from.Y, square = dx * dx + dy * dy;
        var at = square > 0 ? Math.Clamp(((spot.X - from.X) * dx + (spot.Y - from.Y) * dy) / square, 0, 1) : 0;
        return Math.Sqrt(Math.Pow(spot.X - from.X - at * dx, 2) + Math.Pow(spot.Y - from.Y - at * dy, 2));
    }
}
