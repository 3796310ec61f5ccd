using System.Collections.Immutable;
using System.Text;
using Pleatwright.Order.Telling;

namespace Pleatwright.Plate.Writers;

/// <summary>A block of the directions' table in letters of one width.</summary>
internal static class TextTable
{
    private const int Indent = 4; // of what is set beneath a line

    /// <summary>
    /// The lines of a block under the names of its columns, none longer than so many characters. Columns that do not fit are set beneath, so
    /// that what is read line by line is read in order.
    /// </summary>
    /// <param name="block">The block.</param>
    /// <param name="columns">Characters to a line.</param>
    /// <param name="box">What stands before each line, to be ticked.</param>
    public static IEnumerable<string> Lines(TableBlock block, int columns, string box = "")
    {
        if (block.Lines.IsEmpty) yield break;
        var beside = block.Columns.Length - (block.LastBeneath ? 1 : 0);
        var widths = Enumerable.Range(0, beside).Select(i => Math.Max(block.Columns[i].Length, block.Lines.Max(l => l.Cells[i].Length))).ToArray();
        var gap = box.Length + widths.Sum() + 2 * (beside - 1) > columns ? 1 : 2;
        var fit = beside; // columns on the first line
        while (fit > 1 && box.Length + widths[..fit].Sum() + gap * (fit - 1) > columns) fit--;
        if (fit < beside) fit = block.Apart(fit);
        var blank = new string(' ', box.Length);
        yield return Set(block.Columns[..fit], widths[..fit], gap, blank);
        if (fit < beside) yield return Set(block.Columns[fit..beside], widths[fit..], gap, blank + new string(' ', Indent));
        foreach (var row in block.Lines)
        {
            yield return Set(row.Cells[..fit], widths[..fit], gap, box);
            if (fit < beside) yield return Set(row.Cells[fit..beside], widths[fit..], gap, blank + new string(' ', Indent));
            if (!block.LastBeneath) continue;
            foreach (var line in Broken(row.Cells[^1], columns - box.Length - Indent)) yield return blank + new string(' ', Indent) + line;
        }
    }

    private static string Set(ImmutableArray<string> cells, int[] widths, int gap, string before)
    {
        var line = new StringBuilder(before);
        for (var i = 0; i < cells.Length; i++)
        {
            if (i > 0) line.Append(' ', gap);
            line.Append(cells[i].Length > 0 && cells[i].All(char.IsAsciiDigit) ? cells[i].PadLeft(widths[i]) : cells[i].PadRight(widths[i]));
        }
        return line.ToString().TrimEnd();
    }

    /// <summary>Words broken at spaces into lines of so many characters.</summary>
    internal static List<string> Broken(string cell, int width)
    {
        List<string> lines = [];
        var line = "";
        foreach (var word in cell.Split(' '))
        {
            if (line.Length > 0 && line.Length + 1 + word.Length > width)
            {
                lines.Add(line);
                line = word;
            }
            else line = line.Length == 0 ? word : $"{line} {word}";
        }
        lines.Add(line);
        return lines;
    }
}
