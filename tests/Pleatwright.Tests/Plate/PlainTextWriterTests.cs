using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Plate.Writers;

namespace Pleatwright.Tests.Plate;

public class PlainTextWriterTests
{
    [Fact]
    public void Every_cable_is_one_letter_of_the_chart_and_no_line_is_too_long() => SomeWorks.Any.Sample(work =>
    {
        var text = PlainTextWriter.Write(Plates.Of(work, findings: []));
        Assert.All(text.Split('\n'), line => Assert.InRange(line.Length, 0, 80));
        var rows = text.Split("\nChart\n-----\n")[1].Split("\nDirections\n")[0].Split('\n')
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
    }, iter: 40);

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
}
