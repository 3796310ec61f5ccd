using CsCheck;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Thread;

public class CoverageTests
{
    private static readonly Length CommonLine = Length.FromInches(0.375) / 5 / 2;

    // Common practice, no source: at 3/8 in between gathering rows and five cable rows to the space the trade stacks
    // with four strands because three let the cloth show.
    [Fact]
    public void Four_strands_hide_the_cloth_and_three_do_not()
    {
        Assert.InRange(Coverage.OfLine(Some.Floss('a', "#000000", 4), CommonLine), Coverage.Enough, 1);
        Assert.InRange(Coverage.OfLine(Some.Floss('a', "#000000", 3), CommonLine), 0.5, 0.75);
        Assert.Equal(4, Coverage.StrandsNeeded(Some.Floss('a', "#000000", 1), CommonLine));
    }

    private static readonly Gen<(Floss Thread, Length Line)> Cases =
        from strands in Gen.Int[1, 12]
        from tex in Gen.Double[5, 200]
        from line in Gen.Double[0.1, 6]
        select (Some.Floss('a', "#000000", strands) with { TexPerStrand = tex }, Length.FromMillimetres(line));

    [Fact]
    public void The_strands_needed_cover_and_one_fewer_does_not() => Cases.Sample(c =>
    {
        switch (Coverage.StrandsNeeded(c.Thread, c.Line))
        {
            case { } n:
                Assert.True(Coverage.OfLine(c.Thread with { Strands = n }, c.Line) >= Coverage.Enough);
                if (n > 1) Assert.True(Coverage.OfLine(c.Thread with { Strands = n - 1 }, c.Line) < Coverage.Enough);
                break;
            default:
                Assert.True(Coverage.OfLine(c.Thread with { Strands = Floss.MostStrands }, c.Line) < Coverage.Enough);
                break;
        }
    });
}
