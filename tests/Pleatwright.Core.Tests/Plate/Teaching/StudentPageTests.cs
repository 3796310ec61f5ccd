using System.Text.Json;
using System.Text.RegularExpressions;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Plate.Teaching;
using Pleatwright.Tests.Endurance;

namespace Pleatwright.Tests.Plate.Teaching;

/// <summary>What the students' page is told: the order's own directions and stitches, for either hand.</summary>
public partial class StudentPageTests
{
    private static ClassPack Pack(Work work) => ClassPack.Make(Plates.Of(work, findings: []), new ClassOptions(2));

    [GeneratedRegex("<script type=\"application/json\" id=\"plate\">(.*?)</script>")]
    private static partial Regex DataBlock();

    private static JsonElement Data(ClassPack pack) => JsonDocument.Parse(DataBlock().Match(StudentPage.Write(pack)).Groups[1].Value).RootElement;

    private static void Told_as_ordered(ClassPack pack)
    {
        var data = Data(pack);
        foreach (var hand in (Hand[])[Hand.Right, Hand.Left])
        {
            var order = pack.OrderOf(hand);
            Assert.Equal(hand, order.Work.Piece.Working.Hand);
            var items = data.GetProperty("hands").GetProperty(hand == Hand.Left ? "left" : "right").GetProperty("items").EnumerateArray().ToList();
            foreach (var (words, name) in new[] { (LevelWords.UpDown, "said"), (LevelWords.LeftRight, "saidSideways") })
            {
                var said = items.SelectMany(i => (i.TryGetProperty(name, out var own) ? own : i.GetProperty("said")).EnumerateArray()).Select(w => w[1].GetString());
                var told = Directions.Write(order, words).Where(d => d.Kind != DirectionKind.Heading).Select(d => d.Text).ToList();
                Assert.Equal(told, said);
            }
            var steps = items.Where(i => i.TryGetProperty("step", out _)).ToList();
            Assert.Equal(order.Steps.Length, steps.Count);
            foreach (var (step, item) in order.Steps.Zip(steps))
            {
                var stitches = item.GetProperty("stitches").GetString()!;
                Assert.Equal((step.Number, step.Cables, step.HalfStitches),
                    (item.GetProperty("step").GetInt32(), stitches.Count(char.IsAsciiLetterUpper), stitches.Count(char.IsAsciiLetterLower)));
                Assert.Equal(step.HeldBegin == Level.Up ? 'U' : 'D', stitches.First(char.IsAsciiLetterUpper));
                Assert.Equal(stitches.Length, item.GetProperty("ticks").GetInt32());
                // as held, a right hand goes from left to right and a left hand the other way, turned or not
                Assert.Equal(hand == Hand.Right, item.GetProperty("forward").GetBoolean());
            }
            // what waits at the back is what was left there and not yet taken up, and the runs of a row are counted through
            var waiting = new List<Step>();
            (int Run, int Of) place = (0, 0);
            foreach (var (step, item) in order.Steps.Zip(steps))
            {
                waiting.RemoveAll(w => w.Needleful == step.Needleful);
                Assert.Equal(waiting.Select(w => (w.Thread.ToString(), w.Number)), item.TryGetProperty("waits", out var waits) ? waits.EnumerateArray().Select(w => (w[0].GetString()!, w[1].GetInt32())) : []);
                if (step.Parks) waiting.Add(step);
                (int, int) run = item.TryGetProperty("run", out var told) ? (told[0].GetInt32(), told[1].GetInt32()) : (1, 1);
                Assert.True(place.Run == place.Of ? run.Item1 == 1 : run == (place.Run + 1, place.Of), "a row's runs are counted through");
                place = run;
                if (place.Run > 1) Assert.Equal(order.Steps[step.Number - 2].Row, step.Row);
            }
            Assert.Equal(order.Backsmock.Rows.Length, items.TakeWhile(i => i.TryGetProperty("back", out _)).Count());
            Assert.Equal(order.Backsmock.Rows.Length, items.Count(i => i.TryGetProperty("back", out _)));
            foreach (var item in items.Where(i => i.TryGetProperty("shapes", out _)))
                foreach (var list in (string[])["words", "wordsSideways"]) Assert.Equal(item.GetProperty("ticks").GetInt32(), item.GetProperty(list).GetArrayLength());
        }
    }

    [Fact]
    public void Every_direction_and_stitch_of_the_order_is_on_the_page_for_either_hand() => SomeWorks.Any.Sample(work => Told_as_ordered(Pack(work)), iter: Long.Of(15, 40));

    [Theory]
    [InlineData("harbour-wall")]
    [InlineData("quay-bishop")]
    [InlineData("quay-banner")]
    public void So_it_is_of_the_examples(string example) => Told_as_ordered(Pack(Plates.Example(example)));

    [Theory, MemberData(nameof(HostileNameTests.Names), MemberType = typeof(HostileNameTests))]
    public void Names_are_data_and_never_markup(string name)
    {
        var work = SomeWorks.Of(true, ".rr.", "bbbb");
        var pack = Pack(Work.Lay(work.Piece with { Title = name, Threads = [work.Piece.Threads[0] with { Name = name }, work.Piece.Threads[1]] }));
        var page = StudentPage.Write(pack);
        Assert.Equal(pack.Plate.Threads[0].Name, Data(pack).GetProperty("threads").GetProperty("r").GetProperty("name").GetString());
        Assert.Equal(2, Scripts().Count(page)); // the data and ours
        Assert.Equal(2, Regex.Count(page, "</script"));
        Assert.DoesNotContain("<img", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotMatch("\\son\\w+=\"", page);
        Assert.DoesNotMatch("(src|href)=\"(?!#)", page);
    }

    [GeneratedRegex("<script")]
    private static partial Regex Scripts();

    [Fact]
    public void Nothing_but_its_own_script_may_run_and_nothing_be_fetched()
    {
        var page = StudentPage.Write(Pack(SomeWorks.Of(true, "rrrr")));
        var script = page[(page.LastIndexOf("<script>", StringComparison.Ordinal) + 8)..page.LastIndexOf("</script>", StringComparison.Ordinal)];
        var hash = Convert.ToBase64String(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(script)));
        Assert.Contains($"content=\"default-src 'none'; script-src 'sha256-{hash}'; style-src 'unsafe-inline'; font-src data:; img-src data:\"", page, StringComparison.Ordinal);
    }
}
