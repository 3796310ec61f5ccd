using System.Globalization;
using System.Text.RegularExpressions;
using Pleatwright.Stitched;

namespace Pleatwright.Tests.Stitched;

/// <summary>The numbers handed to a graphics card are those that the core paints with, and the card's own text states none.</summary>
public class GraphicsNumbersTests
{
    private static string Painting(string name) => File.ReadAllText(Repository.Path("src", "Pleatwright.Bench", "wwwroot", "painting", name));

    // Mathematics (a turn, half, double, the powers of a polynomial's slope), how textures hold numbers, what is next to nothing, and sRGB (IEC 61966-2-1).
    private static readonly string[] NoneOfOurs = ["0.0", "0.5", "1.0", "2.0", "3.0", "4.0", "6.0", "7.0", "6.2831853", "16.0", "255.0", "256.0", "2147483647.0", "0.999", "1e-3", "1e-5", "1e-6", "12.92", "0.0031308", "1.055", "2.4", "0.055", "3.00"];

    [Fact]
    public void No_number_of_light_or_form_stands_in_the_cards_own_text()
    {
        var shaders = Regex.Replace(Painting("shaders.js"), @"//[^\n]*", "");
        var said = Regex.Matches(shaders, @"(?<![\w.])(\d+\.\d*|\d+e-?\d+)(e-?\d+)?").Select(m => m.Value).Distinct().Except(NoneOfOurs).ToList();
        Assert.True(said.Count == 0, $"shaders.js states {string.Join(", ", said)}; state it in the core, and say it in GraphicsNumbers.");
    }

    [Fact]
    public void Every_constant_is_of_use_on_the_card_and_named_once()
    {
        var text = Painting("shaders.js") + Painting("card.js");
        var names = Regex.Matches(GraphicsNumbers.Of(new StitchedPiece(StitchedWorks.Example("harbour-morning"))), @"const \w+ (\w+)").Select(m => m.Groups[1].Value).ToList();
        Assert.Equal(names.Distinct(), names);
        Assert.All(names, name => Assert.Matches($@"\b{name}\b", text));
    }

    [Fact]
    public void Every_constant_is_a_number_that_a_shader_reads_whatever_the_language_of_the_machine()
    {
        var before = CultureInfo.CurrentCulture;
        var commas = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        commas.NumberFormat.NumberDecimalSeparator = ",";
        CultureInfo.CurrentCulture = commas;
        try
        {
            foreach (var name in (string[])["harbour-morning", "quay-bishop", "net-float"])
                Assert.All(GraphicsNumbers.Of(new StitchedPiece(StitchedWorks.Example(name))).TrimEnd().Split('\n'), line => Assert.Matches(new Regex(@"^const (float|int|vec3) \w+(\[\d+\])? = (vec3\(|float\[\d+\]\()?-?\d+(\.\d+)?(, -?\d+\.\d+)*\)?;$"), line));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
