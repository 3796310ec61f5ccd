using System.Collections.Concurrent;
using System.Text;

namespace Pleatwright.Plate;

/// <summary>Running text broken into lines.</summary>
internal static class Wrapping
{
    /// <summary>
    /// Lines no wider than so many millimetres, broken at spaces; a word wider than a line is broken where it must be.
    /// Always at least one line.
    /// </summary>
    public static IReadOnlyList<string> Lines(string text, TypeStyle style, double width)
    {
        // A page is tried in several ways, so the same words are broken to the same width again and again.
        var key = (text, style.Face, style.Points, width);
        if (Known.TryGetValue(key, out var known)) return known;
        if (Known.Count > MostKnown) Known.Clear();
        return Known[key] = Broken(text, style, width);
    }

    /// <summary>The same, broken as evenly as may be in as few lines: the last holds no word alone.</summary>
    public static IReadOnlyList<string> Even(string text, TypeStyle style, double width)
    {
        var lines = Lines(text, style, width);
        if (lines.Count < 2) return lines;
        double narrow = width / 2, wide = width;
        while (wide - narrow > 1)
        {
            var middle = (narrow + wide) / 2;
            if (Lines(text, style, middle) is var tried && tried.Count <= lines.Count && tried.All(l => Typeface.Width(l, style) <= width)) (wide, lines) = (middle, tried);
            else narrow = middle;
        }
        return lines;
    }

    private const int MostKnown = 4000;

    private static readonly ConcurrentDictionary<(string, Face, double, double), IReadOnlyList<string>> Known = new();

    // Words as they are kept together: a measure stands on one line, "3 3/8 in".
    private static List<string> Words(string text)
    {
        List<string> words = [];
        foreach (var word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (words.Count > 0 && words[^1].Length < LongestMeasure && char.IsAsciiDigit(words[^1][^1]) && (IsFraction(word) || word.TrimEnd(')', ',', '.', ';', ':') is "in" or "cm" or "mm" or "m" or "yd")) words[^1] += " " + word;
            else words.Add(word);
        }
        return words;

        static bool IsFraction(string word) => word.Length >= 3 && char.IsAsciiDigit(word[0]) && word.IndexOf('/') is 1 or 2;
    }

    private const int LongestMeasure = 12; // characters before its last word

    private static List<string> Broken(string text, TypeStyle style, double width)
    {
        List<string> lines = [];
        var line = new StringBuilder();
        var used = 0.0;
        var space = Typeface.Width(" ", style);
        foreach (var word in Words(text))
        {
            var wide = Typeface.Width(word, style);
            if (line.Length > 0 && used + space + wide <= width)
            {
                line.Append(' ').Append(word);
                used += space + wide;
                continue;
            }
            if (line.Length > 0) Break();
            if (wide <= width)
            {
                line.Append(word);
                used = wide;
                continue;
            }
            foreach (var rune in word.EnumerateRunes())
            {
                var one = Typeface.Width(rune.ToString(), style);
                if (line.Length > 0 && used + one > width) Break();
                line.Append(rune.ToString());
                used += one;
            }
        }
        if (line.Length > 0 || lines.Count == 0) Break();
        return lines;

        void Break()
        {
            lines.Add(line.ToString());
            line.Clear();
            used = 0;
        }
    }

    /// <summary>The text on one line, cut short with an ellipsis when it is too wide.</summary>
    public static string Shorten(string text, TypeStyle style, double width)
    {
        if (Typeface.Width(text, style) <= width) return text;
        var kept = new StringBuilder();
        var used = Typeface.Width("…", style);
        foreach (var rune in text.EnumerateRunes())
        {
            used += Typeface.Width(rune.ToString(), style);
            if (used > width) break;
            kept.Append(rune.ToString());
        }
        return kept.ToString().TrimEnd() + "…";
    }
}
