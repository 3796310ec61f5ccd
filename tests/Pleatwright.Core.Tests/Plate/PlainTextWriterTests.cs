using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Plate.Writers;
using Pleatwright.Tests.Chart.Stitches;
using Pleatwright.Tests.Endurance;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Plate;

public class PlainTextWriterTests
{
    [Fact]
    public void Every_cable_is_one_letter_of_the_chart_and_no_line_is_too_long() => SomeWorks.Any.Sample(work =>
    {
        var text = PlainTextWriter.Write(Plates.Of(work, findings: []));
        Assert.All(text.Split('\n'), line => Assert.InRange(line.Length, 0, 80));
        var rows = ChartOf(text).Split('\n')
            .Where(l => l.Length > 10 && int.TryParse(l.AsSpan(5, 4), out _) && l[9] == ' ').Select(l => l[10..]);
        var cells = string.Concat(rows);
        foreach (var thread in work.Piece.Threads)
        {
            var cables = 0;
            foreach (var run in work.Runs) if (run.Thread == thread.Key) cables += run.Cables;
            Assert.Equal(cables, cells.Count(c => c == thread.Key.Letter));
        }
        int lefts = 0, rights = 0;
        foreach (var run in work.Runs)
        {
            if (run.HalfLeft) lefts++;
            if (run.HalfRight) rights++;
        }
        Assert.Equal(lefts, cells.Count(c => c is '(' or '|'));
        Assert.Equal(rights, cells.Count(c => c is ')' or '|'));
    }, iter: Long.Of(12, 40));

    [Fact]
    public void The_ruler_stands_over_the_valleys_it_numbers()
    {
        var work = Plates.Example("quay-yoke");
        var lines = PlainTextWriter.Write(Plates.Of(work)).Split('\n');
        var strips = 0;
        for (var i = 0; i + 2 < lines.Length; i++)
        {
            if (!lines[i].StartsWith("valley  ", StringComparison.Ordinal)) continue;
            strips++;
            var plus = lines[i + 1].IndexOf('+', StringComparison.Ordinal);
            var number = int.Parse(lines[i].AsSpan(plus - 2, 3));
            for (var y = i + 2; y < lines.Length && lines[y].Length > 9 && int.TryParse(lines[y].AsSpan(5, 4), out var row); y++)
                Assert.Equal(work.ThreadAt(new Valley(number), new CableRow(row))?.Letter ?? '.', lines[y].ElementAtOrDefault(plus) is var c && c != default ? c : '.');
        }
        Assert.True(strips > 1);
    }

    // What stands between the chart's heading and the next.
    private static string ChartOf(string text) => text.Split("\nChart\n-----\n") is [_, var rest] ? rest.Split("\nThe stitches\n")[0] : "";

    // Every stitch of the trade under the other, and every accent: a page to be read.
    [Fact]
    public void Bands_and_accents_are_drawn_with_signs_and_told_in_words()
    {
        var row = 1;
        Band[] bands =
        [
            .. BandStitch.All.Select(s =>
            {
                var band = BandGen.Band(s.Name) with { GatheringRow = new GatheringRow(row) };
                row += s.HeightOf(band) > 2 ? 2 : 1;
                return band;
            }),
        ];
        var accents = Accent.All.Select((a, i) => new AccentMark(a.Name, Centre.At(new Valley(4 + 5 * i)), new GatheringRow(row), new ThreadKey('b')));
        var piece = BandGen.Alone(bands[0], 24, row + 1) with { Bands = [.. bands], Accents = [.. accents] };
        var text = PlainTextWriter.Write(Plates.Of(Work.Lay(piece), findings: []));
        Snapshot.Check("Plate", "bands-chart.snap.txt", "Chart\n-----\n" + ChartOf(text));
    }

    [Fact]
    public void Every_band_has_a_sign_in_each_of_its_valleys_and_cables_keep_their_letters() => BandGen.Pieces.Sample(piece =>
    {
        var work = Work.Lay(piece with { Accents = [] });
        var text = PlainTextWriter.Write(Plates.Of(work, findings: []));
        Assert.All(text.Split('\n'), line => Assert.InRange(line.Length, 0, 80));
        var cells = ChartOf(text).Split('\n')
            .Where(l => l.Length > 10 && int.TryParse(l.AsSpan(5, 4), out _) && l[9] == ' ').Select(l => l[10..]);
        Assert.Equal(work.Cables, string.Concat(cells).Count(char.IsAsciiLetter));
        var signs = new TextStitches(work);
        foreach (var stitch in work.Bands.SelectMany(b => b.Passes).SelectMany(p => p.Stitches).Where(s => s.From.Pleat != s.To.Pleat))
            Assert.True(signs.AnyIn(stitch.Valley.Number, stitch.Valley.Number));
    }, iter: Long.Of(12, 40));
}
