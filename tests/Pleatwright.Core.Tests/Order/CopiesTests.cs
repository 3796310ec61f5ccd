using System.Text.RegularExpressions;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Order;

namespace Pleatwright.Tests.Order;

/// <summary>Directions that say a figure once and point to its copies.</summary>
public partial class CopiesTests
{
    private static Piece Repeated(string[] rows, int count, int gap, Working working, bool square = false)
    {
        var piece = OrderGen.PieceOf([.. rows], working, square);
        var every = rows[0].Length + gap;
        return piece with
        {
            Cloth = piece.Cloth with { Form = new Panel(Length.FromInches((count * every + 10) / 12.0)) },
            Placements = [piece.Placements[0] with { Repeat = new Repeat(count, every) }],
        };
    }

    private static readonly Gen<Piece> Pieces =
        from rows in OrderGen.Rows.Where(r => r[0].Length <= 14)
        from count in Gen.Int[2, 5]
        from gap in Gen.Int[0, 9]
        from working in OrderGen.Workings
        from square in Gen.Bool
        select Repeated([.. rows], count, gap, working, square);

    [GeneratedRegex(@"^To step (\d+): every pleat (\d+) further (right|left), from pleat (\d+) .* to pleat (\d+) .*, centred on (valley|pleat) (\d+)\.( Here .* change places throughout\.)? ([\d,]+) cables? with ([\d,]+|no) new needlefuls?\. So far ([\d,]+) cables?, ([\d,]+) needlefuls?\.$")]
    private static partial Regex CopyWords();

    [GeneratedRegex(@"So far ([\d,]+) cables?, ([\d,]+) needlefuls?\.$")]
    private static partial Regex SoFar();

    [GeneratedRegex(@"^Work as steps (\d+) to (\d+),")]
    private static partial Regex AsSteps();

    private static int Number(Group group) => int.Parse(group.Value, System.Globalization.NumberStyles.AllowThousands, System.Globalization.CultureInfo.InvariantCulture);

    [Fact]
    public void Grouped_directions_hold_every_step_once_and_every_copy_is_as_told() => Pieces.Sample(piece =>
    {
        var order = Planner.Plan(Work.Lay(piece));
        var said = Directions.Write(order, LevelWords.UpDown, grouped: true);
        var expected = 1; // the step to come next
        int cables = 0, needlefuls = 0, first = 0, last = 0;
        foreach (var paragraph in said)
        {
            if (AsSteps().Match(paragraph.Text) is { Success: true } pointed) (first, last) = (Number(pointed.Groups[1]), Number(pointed.Groups[2]));
            if (paragraph.Kind is not (DirectionKind.Step or DirectionKind.Copy)) continue;
            Assert.Equal(expected, paragraph.Step!.Number);
            var to = expected;
            if (paragraph.Kind == DirectionKind.Copy)
            {
                var told = CopyWords().Match(paragraph.Text);
                Assert.True(told.Success, paragraph.Text);
                to = Number(told.Groups[1]);
                Assert.Equal(last - first, to - expected);
                var shift = Number(told.Groups[2]) * (told.Groups[3].Value == "right" ? 1 : -1);
                var own = order.Steps.Slice(expected - 1, to - expected + 1);
                foreach (var (i, copy) in own.Index())
                {
                    var original = order.Steps[first - 1 + i];
                    Assert.Equal((original.Thread, original.Row, original.Turned, original.Starts, original.TieOff, original.Parks, original.CarriedPleats, original.CarriedRows),
                        (copy.Thread, copy.Row, copy.Turned, copy.Starts, copy.TieOff, copy.Parks, copy.CarriedPleats, copy.CarriedRows));
                    Assert.Equal((original.From.Number + shift, original.To.Number + shift), (copy.From.Number, copy.To.Number));
                    Assert.Equal(told.Groups[8].Success, original.HeldBegin != copy.HeldBegin);
                    if (copy.Starts == StartKind.Carry) Assert.Equal(order.LastStepOf(original) - first, order.LastStepOf(copy) - expected);
                }
                Assert.Equal((own.Min(s => Math.Min(s.From.Number, s.To.Number)), own.Max(s => Math.Max(s.From.Number, s.To.Number)) + 1), (Number(told.Groups[4]), Number(told.Groups[5])));
                Assert.Equal(Number(told.Groups[4]) + Number(told.Groups[5]) - (told.Groups[6].Value == "valley" ? 1 : 0), 2 * Number(told.Groups[7]));
                Assert.Equal((own.Sum(s => s.Cables), own.Count(s => s.Threads)), (Number(told.Groups[9]), told.Groups[10].Value == "no" ? 0 : Number(told.Groups[10])));
            }
            for (var n = expected; n <= to; n++)
            {
                cables += order.Steps[n - 1].Cables;
                if (order.Steps[n - 1].Threads) needlefuls++;
            }
            var soFar = SoFar().Match(paragraph.Text);
            Assert.Equal((cables, needlefuls), (Number(soFar.Groups[1]), Number(soFar.Groups[2])));
            expected = to + 1;
        }
        Assert.Equal(order.Steps.Length + 1, expected);
        // What is said in full is said as ever.
        var full = Directions.Write(order, LevelWords.UpDown).Where(d => d.Kind == DirectionKind.Step).ToDictionary(d => d.Step!.Number, d => d.Text);
        Assert.All(said.Where(d => d.Kind == DirectionKind.Step), d => Assert.Equal(full[d.Step!.Number], d.Text));
    });

    [Theory]
    [InlineData(4, false)] // nine valleys apart: the levels of the middle one, worked last, change places
    [InlineData(5, true)]
    public void Three_triangles_are_said_once(int gap, bool alike)
    {
        var order = Planner.Plan(Work.Lay(Repeated(["..a..", ".aaa.", "aaaaa"], 3, gap, new Working())));
        var said = Directions.Write(order, LevelWords.UpDown, grouped: true);
        Assert.Equal(3, said.Count(d => d.Kind == DirectionKind.Step));
        Assert.Equal(2, said.Count(d => d.Kind == DirectionKind.Copy));
        Assert.All(said.Where(d => d.Kind == DirectionKind.Copy), d => Assert.Equal(!alike && d.Step!.Number == 7, d.Text.Contains("up and down change places")));
        if (alike) DirectionsTests.Matches("three-triangles", DirectionsTests.Text(said));
    }

    [Fact]
    public void Figures_that_differ_are_said_in_full()
    {
        var piece = Repeated(["..a..", ".aaa.", "aaaaa"], 2, 5, new Working());
        piece = piece with
        {
            Figures = [.. piece.Figures, new Figure("other", ["..b..", ".bbb.", "bbbbb"])],
            Placements = [piece.Placements[0] with { Repeat = Repeat.Once, Centre = Centre.At(new Valley(5)) }, piece.Placements[0] with { Figure = "other", Repeat = Repeat.Once, Centre = Centre.At(new Valley(15)) }],
        };
        Assert.DoesNotContain(Directions.Write(Planner.Plan(Work.Lay(piece)), LevelWords.UpDown, grouped: true), d => d.Kind == DirectionKind.Copy);
    }
}
