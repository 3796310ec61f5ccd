using System.Collections.Immutable;
using System.Text;
using Pleatwright.Order;
using Pleatwright.Order.Telling;

namespace Pleatwright.Plate.Writers;

/// <summary>Directions as lines of text for a terminal: the table, or the long words.</summary>
internal static class DirectionsText
{
    private const int Columns = 110;

    /// <summary>The table, a line a run.</summary>
    public static string Of(DirectionTable table)
    {
        var text = new StringBuilder();
        foreach (var paragraph in table.Lead) text.Append(paragraph).Append('\n');
        foreach (var block in table.Blocks)
        {
            if (block.Heading.Length > 0) text.Append('\n').Append(block.Heading).Append('\n');
            foreach (var note in block.Notes) text.Append(note).Append('\n');
            foreach (var line in TextTable.Lines(block, Columns, "  ")) text.Append(line).Append('\n');
            foreach (var after in block.After) text.Append(after).Append('\n');
        }
        return text.ToString();
    }

    /// <summary>The long words, a paragraph a step.</summary>
    public static string Of(ImmutableArray<Direction> directions)
    {
        var text = new StringBuilder();
        foreach (var direction in directions)
            text.Append(direction.Kind switch
            {
                DirectionKind.Step => $"{direction.Step?.Number,5}  {direction.Text}",
                DirectionKind.Heading => "\n" + direction.Text,
                _ => $"       {direction.Text}",
            }).Append('\n');
        return text.ToString();
    }
}
