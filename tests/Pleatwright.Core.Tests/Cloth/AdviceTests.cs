using CsCheck;
using Pleatwright.Cloth;
using Pleatwright.Tests.Chart;

namespace Pleatwright.Tests.Cloth;

/// <summary>The figures are common practice, no source: batiste 4 to 5 for pictures, broadcloth 3 to 4, corduroy 2.5.</summary>
public class AdviceTests
{
    [Theory]
    [InlineData(4.5, "Batiste, lawn or voile, commonly gathered 4 to 5 to 1.")]
    [InlineData(4, "Batiste, lawn or voile, commonly gathered 4 to 5 to 1.|Broadcloth, fine poplin or gingham, commonly gathered 3 to 4 to 1.")]
    [InlineData(3, "Broadcloth, fine poplin or gingham, commonly gathered 3 to 4 to 1.")]
    [InlineData(2.5, "Fine-wale corduroy or flannel, commonly gathered 2.5 to 1.")]
    [InlineData(2.7, "Fine-wale corduroy or flannel, commonly gathered 2.5 to 1: the nearest kind to this fullness.")]
    [InlineData(2.9, "Broadcloth, fine poplin or gingham, commonly gathered 3 to 4 to 1: the nearest kind to this fullness.")]
    [InlineData(1, "Fine-wale corduroy or flannel, commonly gathered 2.5 to 1: the nearest kind to this fullness.")]
    [InlineData(7, "Batiste, lawn or voile, commonly gathered 4 to 5 to 1: the nearest kind to this fullness.")]
    public void Cloth_by_its_fullness(double fullness, string words) => Assert.Equal(words.Split('|'), Advice.Cloths(fullness).Select(AdviceWords.Of));

    [Fact]
    public void A_new_cloth_begins_in_the_middle_of_its_kinds_fullness() => Assert.All(Enum.GetValues<ClothKind>(), kind =>
    {
        var (least, most) = Practice.FullnessRange(kind);
        Assert.Equal((least + most) / 2, Practice.FullnessOf(kind));
        if (kind != ClothKind.CoarseCheck) Assert.Contains(Advice.Cloths(Practice.FullnessOf(kind)), c => c.Kind == kind && c.Holds);
    });

    [Theory]
    [InlineData(1, 35, 10, 9)]
    [InlineData(2, 35, 10, 9)]
    [InlineData(3, 35, 8, 8)]
    [InlineData(4, 35, 7, 7)]
    [InlineData(5, 35, 6, 5)]
    [InlineData(6, 35, 6, 5)]
    [InlineData(7, 35, 4, 3)]
    [InlineData(1, 140, 7, 7)] // one strand as thick as four
    [InlineData(4, 17.5, 10, 9)]
    public void A_needle_takes_its_strands(int strands, double tex, int finest, int coarsest) =>
        Assert.Equal(new NeedleSuggestion(strands, finest, coarsest), Advice.Needle(strands, tex));

    [Fact]
    public void More_thread_never_takes_a_finer_needle() => Gen.Select(Gen.Int[1, 11], Gen.Double[1, 1000]).Sample((strands, tex) =>
    {
        var (less, more) = (Advice.Needle(strands, tex), Advice.Needle(strands + 1, tex));
        Assert.True(more.Finest <= less.Finest && more.Coarsest <= less.Coarsest && less.Coarsest <= less.Finest);
    });

    [Fact]
    public void Needles_of_a_piece_are_told_once_the_coarsest_first() => Assert.Equal("size 7 for 4 strands, size 8 for 3 strands, size 9 or 10 for 2 strands",
        AdviceWords.Of(Advice.Needles([PieceGen.Threads[2], PieceGen.Threads[0], PieceGen.Threads[1], PieceGen.Threads[0] with { Strands = 2 }])));
}
