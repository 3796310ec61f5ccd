using System.Globalization;
using System.Text;

namespace Pleatwright.Plate;

/// <summary>Words of the maker's made fit to print on one line.</summary>
internal static class Tidy
{
    /// <summary>
    /// The words with line breaks and other controls as spaces, and without marks that turn the direction of writing or
    /// cannot be seen at all. Half a surrogate pair becomes U+FFFD.
    /// </summary>
    public static string Line(string words)
    {
        var text = new StringBuilder(words.Length);
        foreach (var rune in words.EnumerateRunes())
            switch (Rune.GetUnicodeCategory(rune))
            {
                case UnicodeCategory.Control or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator: text.Append(' '); break;
                case UnicodeCategory.Format: break;
                default: text.Append(rune.ToString()); break;
            }
        return text.ToString().Trim();
    }
}
