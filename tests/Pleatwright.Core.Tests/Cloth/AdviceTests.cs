using CsCheck;
using Pleatwright.Cloth;
using Pleatwright.Measure;
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

    // Pictures about 4, geometric rows 3 to 1: common practice, no source; as far as the kind of cloth is gathered so.
    [Theory]
    [InlineData(Coming.Pictures, 4), InlineData(Coming.GeometricRows, 3)]
    public void A_new_cloth_begins_from_what_its_stitching_wants_within_its_kind(Coming coming, double wanted) => Assert.All(Enum.GetValues<ClothKind>(), kind =>
    {
        var (least, most) = Practice.FullnessRange(kind);
        var begins = Practice.FullnessOf(kind, coming);
        Assert.InRange(begins, least, most);
        if (wanted >= least && wanted <= most) Assert.Equal(wanted, begins);
        if (kind != ClothKind.CoarseCheck) Assert.Contains(Advice.Cloths(begins), c => c.Kind == kind && c.Holds);
    });

    // 16 to 20 finished pleats an inch, about 4 to 1, at a take-up near 1/5 in: common practice, no source.
    [Theory]
    [InlineData(0.2, 20, 0.2), InlineData(0.25, 16, 0.25), InlineData(0.22, 18.1818, 0.22), InlineData(0.17, 20, 0.17), InlineData(0.5, 20, 0.2), InlineData(0.1, 20, 0.2)]
    public void Pleats_are_packed_for_pictures(double takeUp, double perInch, double becomes)
    {
        var packed = Practice.Packed(Length.FromInches(takeUp));
        Assert.Equal(perInch, packed.PleatsPerInch, 4);
        Assert.Equal(becomes, packed.TakeUp.Inches, 9);
        Assert.InRange(packed.PleatsPerInch, 16, 20);
        Assert.InRange(packed.PleatsPerInch * packed.TakeUp.Inches, 3, 5);
    }

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
