using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Parts;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Plate;

public class StitchDrawingsTests
{
    private static readonly Gen<Band> Bands = Gen.Select(Gen.OneOf([.. BandStitch.All]), Gen.Int[0, 40], Gen.Int[0, 40], Gen.Bool).Select((stitch, steps, height, upsideDown) => new Band(stitch.Name, new GatheringRow(1), new ThreadKey('r'))
    {
        Steps = stitch.Steps is { } s ? Math.Clamp(steps, s.Least, s.Most) : null,
        Height = stitch.Height is { } h ? Math.Clamp(height, h.Least, h.Most) : null,
        UpsideDown = upsideDown,
    });

    private static readonly Gen<AccentMark> Accents = Gen.Select(Gen.OneOf([.. Accent.All]), Gen.Int[0, 12], Gen.Bool).Select((accent, size, upright) => new AccentMark(accent.Name, Centre.Middle, new GatheringRow(3), new ThreadKey('r'))
    {
        Size = accent.Size is { } s ? Math.Clamp(size, s.Least, s.Most) : null,
        Upright = upright && accent.Size is not null,
    });

    private static readonly Gen<Work> Works = Gen.Select(Bands.Array[0, 4], Accents.Array[0, 3], Gen.Int[1, 20], Gen.Select(Gen.Bool, Gen.Bool, Gen.Bool)).Select((bands, accents, rows, flags) =>
    {
        var cloth = new ClothPlan(new Panel(Length.FromInches(4)), new Gauge(Gauge.Common.Pitch, Gauge.Common.TakeUp, Gauge.Common.RowSpacing, rows), 8);
        return Work.Lay(new Piece("", cloth, SomeWorks.Threads, [new Figure("f", ["rrrr", "brr."]) { Square = flags.Item1 }], flags.Item2 ? [] : [new Placement("f", Centre.Middle, new GatheringRow(6), 0)])
        {
            Bands = [.. bands],
            Accents = [.. accents],
            Working = new Working { Hand = flags.Item3 ? Hand.Left : Hand.Right },
        });
    });

    private static List<DrawnStitch> Of(Work work, Look look) => [.. StitchDrawings.Of(work, Planner.Plan(work, Effort.Drawing), LevelWords.UpDown, look)];

    [Fact]
    public void Each_stitch_used_is_drawn_once_and_no_other() => Works.Sample(work =>
    {
        var names = Of(work, Look.Booklet).ConvertAll(d => d.Name);
        var rope = work.Bands.Where(b => b.Stitch.Name == "outline").ToList();
        Assert.Equal(work.Cables > 0, names.Contains("Cable"));
        Assert.Equal(work.Runs.ToArray().Any(r => r.HalfStitches > 0), names.Contains("Half stitch"));
        Assert.Equal(!Planner.Plan(work, Effort.Drawing).Backsmock.Rows.IsEmpty, names.Contains("Backsmocking"));
        Assert.Equal(rope.Any(b => !b.Band.UpsideDown), names.Contains("Outline"));
        Assert.Equal(rope.Any(b => b.Band.UpsideDown), names.Contains("Stem"));
        Assert.Equal(work.Bands.Select(b => b.Stitch.Name).Where(n => n != "outline").Concat(work.Accents.Select(a => a.Accent.Name)).Select(n => n.Capital()).ToHashSet(),
            names.Except(["Cable", "Half stitch", "Backsmocking", "Outline", "Stem"]).ToHashSet());
        Assert.All(work.Accents, a => Assert.Single(names, n => n == a.Accent.Name.Capital()));
    }, iter: 60);

    [Fact]
    public void A_drawing_is_no_higher_than_it_may_be_and_its_letters_run_on() => Gen.Select(Works, Gen.Bool).Sample((work, large) =>
    {
        var times = large ? StitchDrawings.LargeTimes : 1;
        Assert.All(Of(work, large ? Look.LargePrint : Look.Booklet), drawn =>
        {
            Assert.Equal(times * StitchDrawings.Width, drawn.Drawing.View.Width);
            Assert.InRange(drawn.Drawing.View.Height, 6, times * StitchDrawings.MostHeight);
            var letters = drawn.Drawing.Marks.OfType<Lettering>().ToList();
            var said = letters.SelectMany(l => l.Text.Split(' ')).Order(StringComparer.Ordinal).ToList();
            Assert.Equal(Enumerable.Range('A', said.Count).Select(c => ((char)c).ToString()), said);
            Assert.All(letters, l =>
            {
                var half = Typeface.Width(l.Text, l.Style) / 2;
                Assert.InRange(l.At.X, half, times * StitchDrawings.Width - half);
                Assert.True(drawn.Drawing.View.Holds(l.At));
            });
            // no plate of letters over another
            var plates = letters.ConvertAll(l => new Box(l.At.X - Typeface.Width(l.Text, l.Style) / 2, l.At.Y - Typeface.CapHeight(l.Style), Typeface.Width(l.Text, l.Style), Typeface.CapHeight(l.Style)));
            for (var i = 0; i < plates.Count; i++)
                for (var j = 0; j < i; j++)
                    Assert.False(plates[i].X < plates[j].Right && plates[j].X < plates[i].Right && plates[i].Y < plates[j].Bottom && plates[j].Y < plates[i].Bottom, $"{drawn.Name}: {letters[i].Text} over {letters[j].Text}");
        });
    }, iter: 60);

    [Fact]
    public void Words_say_on_which_side_the_thread_stays()
    {
        string Words(string stitch, bool upsideDown, LevelWords levels)
        {
            var work = SomeWorks.Of(false, "r");
            work = Work.Lay(work.Piece with { Bands = [new Band(stitch, new GatheringRow(1), new ThreadKey('r')) { UpsideDown = upsideDown }] });
            return StitchDrawings.Of(work, Planner.Plan(work, Effort.Drawing), levels, Look.Booklet).Single(d => d.Name is not ("Cable" or "Backsmocking")).Words;
        }
        Assert.EndsWith(" Keep the thread below the needle.", Words("outline", false, LevelWords.UpDown), StringComparison.Ordinal);
        Assert.EndsWith(" Keep the thread above the needle.", Words("outline", true, LevelWords.UpDown), StringComparison.Ordinal);
        Assert.EndsWith(" Keep the thread right of the needle for the first.", Words("wheat", false, LevelWords.LeftRight), StringComparison.Ordinal);
        Assert.Equal(BandStitch.Named("wave")!.Manner, Words("wave", false, LevelWords.UpDown));
    }

    // The lattice says where a half stitch lies: over the run's last pleat, on the line opposite the end cable.
    [Fact]
    public void The_half_stitch_drawn_lies_where_the_lattice_says() => Gen.Select(Gen.Int[2, 8], Gen.Bool).Sample((half, left) =>
    {
        var row = LaidBand.Lay(0, new Band("cable", new GatheringRow(2), default), new CableStitch(), 2 * half, 5, left ? Hand.Left : Hand.Right).Passes[0];
        var last = row.Stitches[^1];
        var cableRow = new GatheringRow(2).CableRow(5);
        var phase = Lattice.LevelAt(last.Valley, cableRow, Phase.Even) == last.Level ? Phase.Even : Phase.Odd;
        var shape = StitchDrawing.Shapes(StitchDrawings.WithHalf(row), 5).Last();
        Assert.Equal(Lattice.HalfStitchLine(last.Valley, cableRow, phase).Index + 0.5, shape.From.Down);
        Assert.Equal(Lattice.HalfStitchPleat(last.Valley, left ? RunEnd.Left : RunEnd.Right).Number, Math.Max(shape.From.Across, shape.To.Across));
        Assert.Equal(1, Math.Abs(shape.To.Across - shape.From.Across));
    });
}
