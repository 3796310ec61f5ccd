using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Tests.Chart.Stitches;
using Pleatwright.Files;
using Pleatwright.Proof;
using Pleatwright.Order;
using Pleatwright.Tests.Endurance;

namespace Pleatwright.Tests.Chart;

/// <summary>What a piece costs is known before any of it is laid, and what a few lines may ask for is asked back.</summary>
public class OutlayTests
{
    private const string Cloth = """ "cloth": { "form": "panel", "finishedWidth": "@W in", "gatheringRows": @R } """;

    /// <summary>Small files that ask for much, each in its own way.</summary>
    public static TheoryData<string, string> Greedy => new()
    {
        { "cloth", Text(400, 1000, """ "figures": {} """) },
        { "place", Text(40, 100, """ "figures": { "f": { "rows": [SPECKLE] } }, "place": [ { "figure": "f", "centre": "middle", "gatheringRow": 1, "repeat": { "count": 2500, "every": 1 } } ] """) },
        { "place", Text(40, 100, """ "figures": { "f": { "rows": [WIDE], "square": true } }, "place": [ { "figure": "f", "centre": 1, "gatheringRow": 1, "repeat": { "count": 2500, "every": 5000 } } ] """) },
        { "place", Text(40, 100, $$""" "figures": { "f": { "rows": [SOLID] } }, "place": [ {{Many(300, """{ "figure": "f", "centre": "middle", "gatheringRow": 1, "repeat": { "count": 50, "every": 1 } }""")}} ] """) },
        { "bands", Text(40, 100, $$""" "bands": [ {{Many(2100, """{ "stitch": "cable", "gatheringRow": 1, "rows": 20, "thread": "a" }""")}} ] """) },
        { "bands", Text(400, 100, $$""" "bands": [ {{Many(30, """{ "stitch": "honeycomb", "gatheringRow": 2, "thread": "a" }""")}} ] """) },
        { "accents", Text(40, 100, $$""" "accents": [ {{Many(11, """{ "accent": "knot", "gatheringRow": 2, "centre": "middle", "thread": "a", "repeat": { "count": 2000, "every": 1 } }""")}} ] """) },
    };

    private static string Text(int wide, int rows, string rest) => "{ \"pleatwright\": 1,\n" + Cloth.Replace("@W", $"{wide}", StringComparison.Ordinal).Replace("@R", $"{rows}", StringComparison.Ordinal)
        + ",\n\"threads\": { \"a\": { \"colour\": \"#b3202c\" } },\n" + rest
            .Replace("SPECKLE", Many(40, $"\"{string.Concat(Enumerable.Repeat("a.", 20))}\""), StringComparison.Ordinal)
            .Replace("WIDE", $"\"{string.Concat(Enumerable.Repeat("a.", 400))}\"", StringComparison.Ordinal)
            .Replace("SOLID", Many(20, $"\"{new string('a', 40)}\""), StringComparison.Ordinal) + " }";

    private static string Many(int times, string one) => string.Join(',', Enumerable.Repeat(one, times));

    [Theory]
    [MemberData(nameof(Greedy))]
    public void What_a_few_lines_ask_for_is_told_with_its_place_in_a_moment(string key, string text)
    {
        var utf8 = System.Text.Encoding.UTF8.GetBytes(text);
        var before = GC.GetAllocatedBytesForCurrentThread();
        var piece = PieceReader.Read(utf8);
        var dear = Outlay.Of(piece);
        Assert.Equal(key, dear?.Key);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 16L * 1024 * 1024);
        var told = PieceReader.Located(utf8, dear!.Value, "say so");
        Assert.True(told.Line > 1, told.Message);
        Assert.EndsWith("say so.", told.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void No_example_is_dear_to_open_or_to_print()
    {
        foreach (var file in Directory.GetFiles(Repository.Path("examples"), "*.piece.json"))
            foreach (var deed in Enum.GetValues<Deed>())
                Assert.Null(Outlay.Of(PieceReader.Read(File.ReadAllBytes(file)), deed));
    }

    // What is laid is never more than was reckoned: else a limit would be no limit.
    [Fact]
    public void No_work_has_more_than_was_reckoned() => BandGen.Pieces.Sample(piece =>
    {
        var most = Outlay.Reckon(piece);
        var work = Work.Lay(piece);
        Assert.True(work.Runs.Length <= 2 * most.Stretches + 1, $"{work.Runs.Length} runs of {most.Stretches}");
        Assert.True(work.Accents.Length <= most.Accents, $"{work.Accents.Length} accents of {most.Accents}");
        Assert.True(work.Strays.Length <= 3 * most.Stretches, $"{work.Strays.Length} strays of {most.Stretches}");
    }, iter: Long.Of(300, 20_000));

    // The dearest that opens unasked: speckles up to the limit. Of the whole only the memory is told, for another machine is slower.
    [Fact]
    public void The_dearest_piece_that_is_opened_unasked_takes_less_than_half_a_gigabyte()
    {
        var rows = Outlay.MostStretches / 250;
        var piece = PieceReader.Read(Text(50, rows / 5 + 2, $$""" "figures": { "f": { "rows": [ {{Many(rows, $"\"{string.Concat(Enumerable.Repeat("a.", 250))}\"")}} ] } }, "place": [ { "figure": "f", "centre": "middle", "gatheringRow": 1 } ] """));
        Assert.Null(Outlay.Of(piece));
        var before = GC.GetAllocatedBytesForCurrentThread();
        var work = Work.Lay(piece);
        Assert.True(work.Runs.Length > Outlay.MostStretches * 9 / 10, $"{work.Runs.Length} runs");
        Proofreading.Read(work);
        _ = Planner.Plan(work, Effort.Drawing).ThreadUses();
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 512L * 1024 * 1024);
    }
}
