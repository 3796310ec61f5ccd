using System.Collections.Concurrent;
using System.Text;
using PdfSharp.Drawing;
using PdfSharp.Fonts;
using PdfSharp.Pdf;
using Pleatwright.Typefaces;

namespace Pleatwright.Plate;

/// <summary>The plate's typefaces.</summary>
public enum Face
{
    /// <summary>Titles and headings.</summary>
    Display,

    /// <summary>Titles and captions, sloped.</summary>
    DisplayItalic,

    /// <summary>Running text.</summary>
    Text,

    /// <summary>Running text, sloped.</summary>
    TextItalic,

    /// <summary>Running text, strong.</summary>
    TextBold,
}

/// <summary>
/// The embedded open typefaces: their files, and how wide their characters run. No font of the machine is ever used, so
/// a plate is the same everywhere.
/// </summary>
internal static class Typeface
{
    /// <summary>Millimetres in a typographic point, 1/72 in.</summary>
    public const double MillimetresPerPoint = 25.4 / 72;

    private const double CapShare = 0.7; // of the type's size, in both families
    private const double Em = 1000;

    private static readonly string[] Files =
        ["Fraunces-Regular.ttf", "Fraunces-Italic.ttf", "NunitoSans-Regular.ttf", "NunitoSans-Italic.ttf", "NunitoSans-Bold.ttf"];

    private static readonly ConcurrentDictionary<(Face, int), double> Advances = new();
    private static readonly XGraphics Measuring;
    private static readonly Lock MeasuringLock = new();

    static Typeface()
    {
        GlobalFontSettings.FontResolver ??= new EmbeddedFonts();
        Measuring = XGraphics.CreateMeasureContext(new XSize(Em, Em), XGraphicsUnit.Point, XPageDirection.Downwards);
    }

    /// <summary>Width of a line of lettering in millimetres; no kerning is applied.</summary>
    public static double Width(string text, TypeStyle style)
    {
        double sum = 0;
        foreach (var rune in text.EnumerateRunes()) sum += Advance(style.Face, rune);
        return sum * style.Points * MillimetresPerPoint;
    }

    /// <summary>Height of a capital letter in millimetres.</summary>
    public static double CapHeight(TypeStyle style) => CapShare * style.Points * MillimetresPerPoint;

    /// <summary>The size in points at which a capital letter is so many millimetres high.</summary>
    public static double PointsOfCap(double millimetres) => millimetres / CapShare / MillimetresPerPoint;

    /// <summary>
    /// The characters on the sheets, each once, that the typefaces have no sign for: they hold Latin letters alone. A box
    /// is printed in the place of each.
    /// </summary>
    public static string Lacking(IEnumerable<Sheet> sheets)
    {
        var lacking = new StringBuilder();
        var seen = new HashSet<(Face, Rune)>();
        Look(sheets.SelectMany(s => s.Marks));
        return lacking.ToString();

        void Look(IEnumerable<Mark> marks)
        {
            foreach (var mark in marks)
                if (mark is Inset inset) Look(inset.Marks);
                else if (mark is Lettering lettering)
                    foreach (var rune in lettering.Text.EnumerateRunes())
                        if (seen.Add((lettering.Style.Face, rune)) && !Has(lettering.Style.Face, rune) && !lacking.ToString().Contains(rune.ToString(), StringComparison.Ordinal))
                            lacking.Append(rune.ToString());
        }
    }

    private static bool Has(Face face, Rune rune)
    {
        lock (MeasuringLock) return GlyphHelper.GlyphIndexFromCodePoint(rune.Value, Font(face, Em)) != 0;
    }

    /// <summary>The embedded font file of a face, as TrueType.</summary>
    public static byte[] File(Face face) => FontFile.Read(Files[(int)face]);

    internal static XFont Font(Face face, double points) =>
        new(face.ToString(), points, XFontStyleEx.Regular, new XPdfFontOptions(PdfFontEncoding.Unicode, PdfFontEmbedding.TryComputeSubset));

    private static double Advance(Face face, Rune rune) => Advances.GetOrAdd((face, rune.Value), static key =>
    {
        // The box for a character without a sign is an em wide: the width of what a font does not list (ISO 32000-1, table 117, DW).
        if (!Has(key.Item1, new Rune(key.Item2))) return 1;
        lock (MeasuringLock)
            return Measuring.MeasureString(new Rune(key.Item2).ToString(), Font(key.Item1, Em)).Width / Em;
    });

    private sealed class EmbeddedFonts : IFontResolver
    {
        public FontResolverInfo? ResolveTypeface(string familyName, bool isBold, bool isItalic) =>
            Enum.TryParse<Face>(familyName, out var face) ? new FontResolverInfo(face.ToString()) : null;

        public byte[]? GetFont(string faceName) => File(Enum.Parse<Face>(faceName));
    }
}
