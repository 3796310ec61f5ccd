using System.Text;
using Pleatwright.Chart;
using Pleatwright.Cloth;

namespace Pleatwright.Files;

/// <summary>Reads figure files, format number 1.</summary>
public static class FigureReader
{
    /// <summary>The format number this program writes, and the newest it reads.</summary>
    public const int FormatNumber = 1;

    /// <summary>The largest file read, in bytes: as large as a piece, whose figure it may be.</summary>
    public const int MostBytes = PieceReader.MostBytes;

    /// <summary>What the name of every figure file ends with.</summary>
    internal const string Ending = ".figure.json";

    /// <summary>Reads a figure from text.</summary>
    /// <exception cref="PieceFormatException">The text is not a figure; says where and what would serve.</exception>
    public static KeptFigure Read(string text) => Read(Encoding.UTF8.GetBytes(text));

    /// <summary>Reads a figure from UTF-8.</summary>
    /// <exception cref="PieceFormatException">The text is not a figure; says where and what would serve.</exception>
    public static KeptFigure Read(ReadOnlySpan<byte> utf8)
    {
        if (utf8.Length > MostBytes)
            throw new PieceFormatException(1, 1, $"the file is larger than {MostBytes / 1024 / 1024} MB, which no figure needs.");
        var (text, root) = JsonText.Read(utf8);
        var keys = new KeyReader(text, root, "a figure");
        keys.Format("figure", FormatNumber, "figure");
        var parts = new PieceReader.Reading(text);
        var nameAt = keys.Required("name");
        var name = keys.AsString(nameAt, "name", Figure.LongestName);
        if (name.Trim().Length == 0) throw keys.Wrong(nameAt, "name", "the name you call it by");
        var id = keys.OptionalMark("id");
        var threads = parts.Threads(keys.Optional("threads"));
        var figure = parts.Stitches(name, keys);
        var gauge = keys.Optional("gauge") is { } g ? parts.GaugeOf(g) : Gauge.Common;
        var kept = new KeptFigure(figure, threads, gauge) { Credit = CreditReader.Read(text, keys) };
        kept = kept with { Id = id ?? kept.State };
        if (keys.Optional("baseRow") is { } row) kept = kept with { BaseRow = keys.AsWhole(row, "baseRow", 0, figure.Height - 1) };
        keys.NothingElse();
        return kept;
    }

    /// <summary>Whether a text is meant to be a figure: JSON whose first level has the key "figure".</summary>
    public static bool IsFigure(ReadOnlySpan<byte> utf8)
    {
        try
        {
            return JsonText.Read(utf8).Root is LocatedObject root && root.Members.Exists(m => m.Name == "figure");
        }
        catch (PieceFormatException)
        {
            return false;
        }
    }
}
