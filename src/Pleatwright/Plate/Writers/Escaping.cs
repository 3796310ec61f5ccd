using System.Text;

namespace Pleatwright.Plate.Writers;

/// <summary>Words made safe inside markup. Titles and names come from anyone's file.</summary>
internal static class Escaping
{
    /// <summary>Words as XML or HTML text, or inside a quoted attribute; what XML 1.0 cannot hold becomes U+FFFD.</summary>
    public static string Xml(string words)
    {
        var text = new StringBuilder(words.Length + 16);
        foreach (var rune in words.EnumerateRunes())
            switch (rune.Value)
            {
                case '<': text.Append("&lt;"); break;
                case '>': text.Append("&gt;"); break;
                case '&': text.Append("&amp;"); break;
                case '"': text.Append("&quot;"); break;
                case '\'': text.Append("&#39;"); break;
                case < 0x20 and not ('\t' or '\n' or '\r') or 0xFFFE or 0xFFFF: text.Append('\uFFFD'); break;
                default: text.Append(rune.ToString()); break;
            }
        return text.ToString();
    }
}
