using System.Globalization;
using System.Text;

namespace Pleatwright.Plate.Writers;

/// <summary>The typefaces as style sheets know them, embedded whole.</summary>
internal static class Fonts
{
    private const string DisplayFamily = "Plate Display";
    private const string TextFamily = "Plate Text";

    /// <summary>A font shorthand with a fallback, as "italic 400 12px 'Family', serif".</summary>
    public static string Shorthand(Face face, string size) =>
        $"{(Italic(face) ? "italic " : "")}{Weight(face)} {size} {Family(face)}";

    /// <summary>The family of a face, with a fallback.</summary>
    public static string Family(Face face) =>
        face is Face.Display or Face.DisplayItalic ? $"'{DisplayFamily}',Georgia,serif" : $"'{TextFamily}',system-ui,sans-serif";

    /// <summary>Rules that embed these faces.</summary>
    public static string Css(IEnumerable<Face> faces)
    {
        var css = new StringBuilder();
        foreach (var face in faces)
            css.Append(CultureInfo.InvariantCulture,
                $"@font-face{{font-family:'{(face is Face.Display or Face.DisplayItalic ? DisplayFamily : TextFamily)}';font-weight:{Weight(face)};font-style:{(Italic(face) ? "italic" : "normal")};src:url(data:font/ttf;base64,{Convert.ToBase64String(Typeface.File(face))})format('truetype')}}\n");
        return css.ToString();
    }

    private static bool Italic(Face face) => face is Face.DisplayItalic or Face.TextItalic;

    private static int Weight(Face face) => face == Face.TextBold ? 700 : 400;
}
