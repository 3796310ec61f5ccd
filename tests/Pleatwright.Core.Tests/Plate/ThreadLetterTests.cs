using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Parts;
using Pleatwright.Tests.Chart.Stitches;
using Pleatwright.Tests.Endurance;
using Pleatwright.Tests.Order;

namespace Pleatwright.Tests.Plate;

/// <summary>Every stretch of a thread's colour has its letter on a disc, and nothing that is marked lies under one.</summary>
public class ThreadLetterTests
{
    private static Gen<WorkingOrder> Orders => Gen.OneOf(SomeWorks.Any, OrderGen.Pieces.Select(Work.Lay), BandGen.Pieces.Select(Work.Lay)).Select(work => Planner.Plan(work, Effort.Drawing));

    private static Gen<(WorkingOrder Order, ChartGeometry Geometry, bool Bounded)> Charts =>
        Gen.Select(Orders, Gen.Double[0.95, 3], Gen.Bool).Select((order, share, bounded) => (order, new ChartGeometry(order.Work, 2.2 * share, 2.2), bounded));

    // Curves followed, for their handles lie far outside.
    private static Box Around(Outline outline)
    {
        var (spots, next) = (new List<Spot>(), 0);
        foreach (var stroke in outline.Strokes)
            switch (stroke)
            {
                case Stroke.Curve:
                    var (a, b, c, d) = (spots[^1], outline.Spots[next], outline.Spots[next + 1], outline.Spots[next + 2]);
                    next += 3;
                    for (var t = 0.05; t < 1.001; t += 0.05) spots.Add(new(At(a.X, b.X, c.X, d.X, t), At(a.Y, b.Y, c.Y, d.Y, t)));
                    break;
                case Stroke.Move or Stroke.Line:
                    spots.Add(outline.Spots[next++]);
                    break;
            }
        double left = spots.Min(s => s.X), top = spots.Min(s => s.Y);
        return new Box(left, top, spots.Max(s => s.X) - left, spots.Max(s => s.Y) - top);

        static double At(double a, double b, double c, double d, double t) => (1 - t) * (1 - t) * (1 - t) * a + 3 * (1 - t) * (1 - t) * t * b + 3 * (1 - t) * t * t * c + t * t * t * d;
    }

    private static double Away(Spot spot, Box box) =>
        Math.Sqrt(Math.Pow(Math.Max(0, Math.Max(box.X - spot.X, spot.X - box.Right)), 2) + Math.Pow(Math.Max(0, Math.Max(box.Y - spot.Y, spot.Y - box.Bottom)), 2));

    // Runs of one thread that touch from row to row, found by walking from one to the next.
    private static List<HashSet<int>> Stretches(Work work)
    {
        var found = new List<HashSet<int>>();
        var left = Enumerable.Range(0, work.Runs.Length).ToHashSet();
        while (left.Count > 0)
        {
            var stretch = new HashSet<int>();
            var next = new Stack<int>([left.First()]);
            while (next.TryPop(out var i))
            {
                if (!left.Remove(i)) continue;
                stretch.Add(i);
                var run = work.Runs[i];
                foreach (var j in left)
                {
                    var other = work.Runs[j];
                    if (other.Thread == run.Thread && Math.Abs(other.Row.Index - run.Row.Index) == 1 && other.FirstPleat.Number <= run.LastPleat.Number && other.LastPleat.Number >= run.FirstPleat.Number) next.Push(j);
                }
            }
            found.Add(stretch);
        }
        return found;
    }

    private static IEnumerable<(int Run, Spot Middle)> Cables(ChartGeometry geometry, HashSet<int> stretch, ChartWindow window)
    {
        foreach (var i in stretch)
        {
            var run = geometry.Work.Runs[i];
            for (var v = run.From.Number; v <= run.To.Number; v++)
                if (v >= window.FirstPleat && v < window.LastPleat && run.Row.Index >= window.FirstRow && run.Row.Index <= window.LastRow)
                    yield return (i, new Spot(v * geometry.Pitch, geometry.Middle(run.Row)));
        }
    }

    [Fact]
    public void Every_stretch_of_a_colour_has_its_letter_once_on_a_disc_of_one_size() => Charts.Sample(chart =>
    {
        var (order, geometry, bounded) = chart;
        foreach (var excerpt in Excerpts.Of(order))
        {
            var window = excerpt.Window;
            var steps = new StepMarks(geometry, order, excerpt.Steps, window, Look.Booklet, bounded) { Bands = excerpt.Bands };
            var letters = steps.LettersOf(window);
            Assert.True(letters.Select(l => l.Radius).Distinct().Count() <= 1);
            var tags = steps.Draw().OfType<Lettering>().Where(l => l.Style.Face == Face.TextBold && l.Text.Length == 1 && char.IsLetter(l.Text[0])).ToList();
            var smallest = Math.Min(Math.Min(geometry.RowHeight * 0.47, geometry.Pitch * 0.9), 1.905) * 0.7;
            foreach (var stretch in Stretches(order.Work))
            {
                var cables = Cables(geometry, stretch, window).ToList();
                if (cables.Count == 0) continue;
                var thread = order.Work.Runs[stretch.First()].Thread;
                var here = letters.Where(l => cables.Any(c => c.Middle == l.Centre)).ToList();
                Assert.All(here, l => Assert.Equal(thread, l.Thread.Key));
                var riding = tags.Where(t => t.Text == thread.ToString() && cables.Any(c => Math.Abs(c.Middle.X - t.At.X) < geometry.Pitch * 1.6 && Math.Abs(c.Middle.Y - t.At.Y) < geometry.LineHeight)).ToList();
                if (here.Count == 0 && riding.Count == 0)
                {
                    // only where no place on it is free, even for the smallest
                    var box = geometry.BoxOf(window).Grown(-smallest);
                    Assert.DoesNotContain(cables, c => box.Holds(c.Middle) && steps.Taken.All(t => Away(c.Middle, t) > smallest + 0.3)
                        && letters.All(l => l.Centre.Y != c.Middle.Y || Math.Abs(l.Centre.X - c.Middle.X) > 2 * l.Radius));
                    continue;
                }
                Assert.True(here.Count <= 1);
            }
            Assert.Equal(letters.Length, letters.Select(l => l.Patch).Distinct().Count());
        }
    }, iter: Long.Of(40, 1000));

    [Fact]
    public void No_letter_lies_over_a_mark_and_none_over_a_crossing_nor_does_anything_written() => Charts.Sample(chart =>
    {
        var (order, geometry, bounded) = chart;
        foreach (var excerpt in Excerpts.Of(order))
        {
            var steps = new StepMarks(geometry, order, excerpt.Steps, excerpt.Window, Look.Booklet, bounded) { Bands = excerpt.Bands };
            var letters = steps.LettersOf(excerpt.Window);
            var discs = steps.Draw().OfType<Shape>().Where(s => s.Means is Sign.ThreadStarts or Sign.ThreadEnds or Sign.ThreadWaits or Sign.ThreadTakenUp or Sign.RunWithin or Sign.FigureStarts || (s.Fill == Pleatwright.Thread.Colour.White && s.Pen is null)).Select(s => (s.Means, Box: Around(s.Outline))).ToList();
            foreach (var letter in letters)
            {
                foreach (var (_, box) in discs) Assert.True(Away(letter.Centre, box.Within(0.1)) >= letter.Radius - 0.01);
                foreach (var other in letters)
                    if (other != letter) Assert.True(Math.Sqrt(Math.Pow(other.Centre.X - letter.Centre.X, 2) + Math.Pow(other.Centre.Y - letter.Centre.Y, 2)) >= 2 * letter.Radius - 0.01);
            }
            var written = discs.Where(d => d.Means is null or Sign.RunWithin or Sign.FigureStarts).Select(d => d.Box.Grown(-0.02)).ToList();
            foreach (var line in steps.Crossings().OfType<Shape>().Where(s => s.Means == Sign.Crossing))
                for (var i = 0; i + 1 < line.Outline.Spots.Length; i += 2)
                {
                    var (a, b) = (line.Outline.Spots[i], line.Outline.Spots[i + 1]);
                    var along = Enumerable.Range(0, 41).Select(n => new Spot(a.X + (b.X - a.X) * n / 40, a.Y + (b.Y - a.Y) * n / 40)).ToList();
                    if (steps.CrossingLines.Any(c => c == (a, b))) continue; // drawn whole, for else too little would be seen of it; or nothing lies over it
                    Assert.DoesNotContain(along, s => letters.Any(l => Away(s, new Box(l.Centre.X, l.Centre.Y, 0, 0)) < l.Radius - 0.02) || written.Any(w => w.Holds(s)));
                }
            // those drawn whole have nothing over them, but where less than can be seen would be left
            foreach (var (a, b) in steps.CrossingLines)
            {
                var length = Math.Sqrt(Math.Pow(b.X - a.X, 2) + Math.Pow(b.Y - a.Y, 2));
                bool Over(Spot s) => letters.Any(l => Away(s, new Box(l.Centre.X, l.Centre.Y, 0, 0)) < l.Radius) || written.Any(w => w.Holds(s));
                var bare = Enumerable.Range(0, 201).Count(n => !Over(new Spot(a.X + (b.X - a.X) * n / 200, a.Y + (b.Y - a.Y) * n / 200))) / 201.0 * length;
                if (bare > StepMarks.LeastSeen + length * 0.06 + 1 && bare < length * 0.97)
                    Assert.DoesNotContain(steps.Crossings().OfType<Shape>(), s => s.Means == Sign.Crossing && Enumerable.Range(0, s.Outline.Spots.Length / 2).Any(i => s.Outline.Spots[2 * i] == a && s.Outline.Spots[2 * i + 1] == b));
            }
        }
    }, iter: Long.Of(40, 1000));

    // A white thread's disc had a white rim on white stitches.
    [Fact]
    public void A_pale_thread_s_letter_has_a_ring_that_shows()
    {
        foreach (var hex in (string[])["#ffffff", "#f4efe3", "#000000", "#b3202c"])
        {
            var floss = new Pleatwright.Thread.Floss(new Pleatwright.Thread.ThreadKey('w'), "w", Pleatwright.Thread.Colour.Parse(hex), 4);
            var rings = ThreadLetters.Draw(floss, default, 1.5, Look.Booklet).OfType<Shape>().Select(s => s.Pen!.Colour).ToList();
            Assert.Contains(rings, ring => Pleatwright.Thread.ColourDifference.Between(ring, floss.Colour) > 20);
        }
    }

    [Fact]
    public void A_step_on_the_stitches_has_a_shape_that_no_letter_and_no_other_mark_has() => Charts.Sample(chart =>
    {
        var (order, geometry, _) = chart;
        foreach (var excerpt in Excerpts.Of(order))
        {
            var steps = new StepMarks(geometry, order, excerpt.Steps, excerpt.Window, Look.Booklet, bounded: true);
            var tags = steps.Draw().OfType<Shape>().Where(s => s.Means is Sign.RunWithin or Sign.FigureStarts).ToList();
            Assert.All(tags, t => Assert.DoesNotContain(Stroke.Curve, t.Outline.Strokes)); // letters, ends and gathering rows are round
            Assert.All(tags, t => Assert.Equal(5, t.Outline.Spots.Length));                // counts are square, arrows have three corners
        }
    }, iter: Long.Of(20, 400));

    [Fact]
    public void The_start_of_every_figure_that_a_chart_shows_is_marked() => Charts.Sample(chart =>
    {
        var (order, geometry, bounded) = chart;
        foreach (var excerpt in Excerpts.Of(order))
        {
            var steps = new StepMarks(geometry, order, excerpt.Steps, excerpt.Window, Look.Booklet, bounded);
            var firsts = excerpt.Steps.GroupBy(s => order.Parts.InOrder[order.Parts.Of(s.RunIndex)].Figure).Select(g => g.First()).Where(s => order.Steps.First(o => order.Parts.InOrder[order.Parts.Of(o.RunIndex)].Figure == order.Parts.InOrder[order.Parts.Of(s.RunIndex)].Figure) == s)
                .Count(s => (order.TravelsRight(s) ? s.From.LeftPleat : s.From.RightPleat).Number is var pleat && pleat >= excerpt.Window.FirstPleat && pleat <= excerpt.Window.LastPleat);
            Assert.Equal(firsts, steps.Draw().Count(m => m.Means == Sign.FigureStarts));
        }
    }, iter: Long.Of(40, 1000));
}

file static class Boxes
{
    // Without the pen's own width.
    public static Box Within(this Box box, double by) => box.Grown(-Math.Min(by, Math.Min(box.Width, box.Height) / 2));
}
