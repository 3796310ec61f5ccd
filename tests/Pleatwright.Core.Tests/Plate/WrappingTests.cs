using CsCheck;
using Pleatwright.Plate;
using Pleatwright.Plate.Writers;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Plate;

public class WrappingTests
{
    private static readonly TypeStyle Style = new(Face.Text, 10, Colour.Black);

    private static readonly Gen<string> Words = Gen.String[Gen.Char["abcdefgh  é漁&"], 0, 120];

    [Fact]
    public void No_line_is_too_wide_and_no_word_is_lost() => Gen.Select(Words, Gen.Double[8, 80]).Sample((words, width) =>
    {
        var lines = Wrapping.Lines(words, Style, width);
        Assert.NotEmpty(lines);
        Assert.All(lines, line => Assert.True(Typeface.Width(line, Style) <= width + 1e-9));
        Assert.Equal(words.Replace(" ", ""), string.Concat(lines).Replace(" ", ""));
    });

    [Fact]
    public void A_measure_is_not_broken_where_it_fits() => Gen.Select(Gen.Int[1, 40], Gen.Int[1, 7], Gen.Int[0, 30], Gen.Double[24, 80]).Sample((whole, eighths, before, width) =>
    {
        var measure = FormattableString.Invariant($"({whole} {eighths}/8 in)");
        var lines = Wrapping.Lines($"{string.Concat(Enumerable.Repeat("on ", before))}{measure}, more", Style, width);
        Assert.Contains(lines, l => l.Contains(measure, StringComparison.Ordinal));
    });

    [Fact]
    public void A_shortened_line_fits_and_begins_as_the_text_does() => Gen.Select(Words, Gen.Double[8, 80]).Sample((words, width) =>
    {
        var line = Wrapping.Shorten(words, Style, width);
        Assert.True(Typeface.Width(line, Style) <= width + 1e-9);
        Assert.StartsWith(line.TrimEnd('…').TrimEnd(), words);
    });

    // What is printed, measured by an independent reader of the file: letters with a sign in the typeface and without.
    [Theory]
    [InlineData("Harbour morning", "")]
    [InlineData("בוקר בנמל", "בוקרנמל")]
    [InlineData("Утро, 港の朝 🪡!", "Утро港の朝🪡")]
    public void Lettering_is_as_wide_as_it_is_printed(string words, string lacking)
    {
        foreach (var face in Enum.GetValues<Face>())
        {
            var style = Style with { Face = face };
            var sheet = new Sheet("one line", 200, 100, [new Lettering(new Spot(10, 50), words, style)]);
            using var read = UglyToad.PdfPig.PdfDocument.Open(PdfWriter.Write("t", [sheet]));
            var letters = read.GetPage(1).Letters;
            var wide = (letters.Max(l => l.EndBaseLine.X) - letters.Min(l => l.StartBaseLine.X)) * 25.4 / 72;
            Assert.Equal(Typeface.Width(words, style), wide, 0.01 * words.Length);
            Assert.Equal(lacking, Typeface.Lacking([sheet]));
        }
    }

    [Fact]
    public void Lettering_is_as_wide_as_the_font_file_says()
    {
        // Advance widths of the glyphs in hmtx, read with another library: H 761 of 1000 units, i 232.
        Assert.Equal((761 + 232) / 1000.0 * 10 * 25.4 / 72, Typeface.Width("Hi", Style), 3);
    }
}
