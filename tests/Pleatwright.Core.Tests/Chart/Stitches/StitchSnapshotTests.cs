using System.Globalization;
using System.Text;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Tests.Chart.Stitches;

/// <summary>
/// Every stitch written out over a few pleats. The snapshot was read through stitch by stitch; what changes in it is read again.
/// </summary>
public class StitchSnapshotTests
{
    [Fact]
    public void Every_stitch_is_worked_as_written() => Snapshot.Check("Chart", "stitches.snap.txt", string.Concat(BandStitch.All.Select(Write)));

    // Pass by pass: pleat@quarter spaces from the top, then each stitch's kind, level and next bite.
    private static string Write(BandStitch stitch)
    {
        var text = new StringBuilder();
        var laid = LaidBand.Lay(0, BandGen.Band(stitch.Name), stitch, 14, 5, Hand.Right);
        text.Append(CultureInfo.InvariantCulture, $"{stitch.Name}: repeat {laid.Fit.Repeat}\n");
        foreach (var pass in laid.Passes)
        {
            text.Append(CultureInfo.InvariantCulture, $"  journey {pass.Journey + 1}{(pass.Turned ? ", turned" : "")}: {At(pass.Stitches[0].From, laid)}");
            foreach (var s in pass.Stitches) text.Append(CultureInfo.InvariantCulture, $" {s.Kind.ToString().ToLowerInvariant()} {(s.Level == Level.Up ? "up" : "down")} {At(s.To, laid)}");
            text.Append('\n');
        }
        return text.ToString();
    }

    private static string At(Bite bite, LaidBand laid) =>
        string.Create(CultureInfo.InvariantCulture, $"{bite.Pleat.Number}@{Math.Round((bite.Depth - laid.Top) * 4, 2)}");
}
