using System.Globalization;
using System.Reflection;
using System.Text.RegularExpressions;
using Pleatwright.Stitched;

namespace Pleatwright.Tests.Stitched;

/// <summary>The numbers handed to a graphics card are those that the core paints with.</summary>
public class GraphicsNumbersTests
{
    [Fact]
    public void What_is_said_again_is_what_the_core_says()
    {
        foreach (var (of, name, value) in GraphicsNumbers.Said)
            Assert.Equal(Assert.IsType<float>(of.GetField(name, BindingFlags.NonPublic | BindingFlags.Static)?.GetRawConstantValue()), value);
        Assert.Equal((float[])typeof(Shading).GetField("ShadowSteps", BindingFlags.NonPublic | BindingFlags.Static)!.GetValue(null)!, GraphicsNumbers.ShadowSteps);
        Assert.Equal(GraphicsNumbers.LeastSamples, (float)(double)typeof(Painter).GetField("LeastSamples", BindingFlags.NonPublic | BindingFlags.Static)!.GetRawConstantValue()!);
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
