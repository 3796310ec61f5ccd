using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Tests.Chart.Stitches;

/// <summary>The stitch of docs/adding-a-stitch.md works as the page says.</summary>
public class WorkedExampleTests
{
    [Fact]
    public void The_page_shows_the_stitch_as_it_is()
    {
        var source = File.ReadAllText(Repository.Path("tests", "Pleatwright.Core.Tests", "Chart", "Stitches", "CrossedWaveStitch.cs")).ReplaceLineEndings("\n");
        var page = File.ReadAllText(Repository.Path("docs", "adding-a-stitch.md")).ReplaceLineEndings("\n");
        Assert.Contains(source[source.IndexOf("/// <summary>", StringComparison.Ordinal)..].TrimEnd(), page, StringComparison.Ordinal);
    }

    [Fact]
    public void Its_turns_lie_over_each_other_and_its_steps_cross() => Gen.Select(Gen.Int[1, 16], Gen.Int[3, 60]).Sample((height, half) =>
    {
        var laid = LaidBand.Lay(0, BandGen.Band("crossed wave") with { Height = height }, new CrossedWaveStitch(), 2 * half, 5, Hand.Right);
        var valleys = laid.Passes.SelectMany(p => p.Stitches.Select(s => (p.Journey, Stitch: s))).ToLookup(s => s.Stitch.Valley.Number);
        for (var v = 1; v < 2 * half; v++)
        {
            var (first, second) = (valleys[v].Single(s => s.Journey == 0).Stitch, valleys[v].Single(s => s.Journey == 1).Stitch);
            Assert.Equal(first.IsLevel, second.IsLevel);
            Assert.Equal(first.Level.Opposite(), second.Level);
        }
    });
}
