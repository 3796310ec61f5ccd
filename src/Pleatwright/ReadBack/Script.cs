using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Pleatwright.ReadBack;

/// <summary>Printed words with a finger on the next one. Line breaks are spaces: nothing may hang on where a line ends.</summary>
internal sealed class Script
{
    private readonly string words;
    private int at;

    /// <summary>Words to be read.</summary>
    public Script(string printed)
    {
        var text = new StringBuilder(printed.Length);
        foreach (var c in printed)
            if (!char.IsWhiteSpace(c)) text.Append(c);
            else if (text.Length > 0 && text[^1] != ' ') text.Append(' ');
        words = text.ToString();
        Skip();
    }

    /// <summary>Whether all is read.</summary>
    public bool IsDone => at >= words.Length;

    /// <summary>The next few words, for a fault.</summary>
    public string Next => words.Substring(at, Math.Min(60, words.Length - at));

    /// <summary>Reads what a pattern says, if it comes next; patterns begin with \G.</summary>
    public Match? Read(Regex pattern)
    {
        var match = pattern.Match(words, at);
        if (!match.Success || match.Index != at) return null;
        at += match.Length;
        Skip();
        return match;
    }

    /// <summary>Reads a sentence, if it comes next, in whatever case.</summary>
    public bool Read(string sentence)
    {
        if (string.Compare(words, at, sentence, 0, sentence.Length, StringComparison.OrdinalIgnoreCase) != 0) return false;
        var end = at + sentence.Length;
        if (end < words.Length && words[end] != ' ') return false;
        at = end;
        Skip();
        return true;
    }

    private void Skip()
    {
        while (at < words.Length && words[at] == ' ') at++;
    }

    /// <summary>A number as printed, "1,200" too; -1 where the digits are too many.</summary>
    public static int Number(string digits) =>
        int.TryParse(digits, NumberStyles.AllowThousands, CultureInfo.InvariantCulture, out var number) ? number : -1;

    /// <summary>The number a group of a match holds; 0 where it holds none.</summary>
    public static int Number(Match match, string group) => match.Groups[group] is { Success: true } found ? Number(found.Value) : 0;
}
