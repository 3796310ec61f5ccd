using System.Globalization;
using System.Runtime.CompilerServices;
using System.Security.Cryptography;
using System.Text;
using Pleatwright.Thread;

namespace Pleatwright.Chart;

/// <summary>Marks by which states of a figure are told apart, made of the figure itself, so that no clock and no file's spaces can confuse them.</summary>
internal static class FigureMark
{
    /// <summary>Hexadecimal digits in a mark.</summary>
    public const int Length = 32;

    private static readonly ConditionalWeakTable<Figure, string> Shapes = [];
    private static readonly ConditionalWeakTable<KeptFigure, string> States = []; // worked out once, for they are asked for with every stroke

    /// <summary>Whether a text is a mark.</summary>
    public static bool Is(string text) => text.Length == Length && text.All(char.IsAsciiHexDigitLower);

    /// <summary>The mark of a figure's stitches, whatever its threads' letters and colours.</summary>
    public static string OfStitches(Figure figure) => Shapes.GetValue(figure, f => Digest(Stitches(f, out _)));

    /// <summary>The mark of a figure with what shows of its threads.</summary>
    public static string OfState(KeptFigure kept) => States.GetValue(kept, k => Of(k.Figure, k.Threads));

    private static string Of(Figure figure, IReadOnlyCollection<Floss> threads)
    {
        var text = Stitches(figure, out var letters);
        foreach (var letter in letters)
        {
            var thread = threads.First(t => t.Key.Letter == letter);
            text.Append(CultureInfo.InvariantCulture, $"{thread.Colour} {thread.Strands} {thread.TexPerStrand:R}\n");
        }
        return Digest(text);
    }

    /// <summary>The mark of a text.</summary>
    public static string OfText(string text) => Digest(new StringBuilder(text));

    // Letters by the order in which they come, so that the same stitches under other letters are the same.
    private static StringBuilder Stitches(Figure figure, out List<char> letters)
    {
        var text = new StringBuilder();
        var order = new List<char>();
        foreach (var row in figure.Rows)
        {
            foreach (var c in row)
            {
                if (c == Figure.Bare) { text.Append(c); continue; }
                var at = order.IndexOf(c);
                if (at < 0)
                {
                    at = order.Count;
                    order.Add(c);
                }
                text.Append((char)('A' + at));
            }
            text.Append('\n');
        }
        if (figure.Square) text.Append("square\n");
        foreach (var half in figure.Halves.Distinct().OrderBy(h => h.Row).ThenBy(h => h.End)) text.Append(CultureInfo.InvariantCulture, $"{half.Row} {half.End}\n");
        letters = order;
        return text;
    }

    private static string Digest(StringBuilder text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())).AsSpan(0, Length / 2));
}
