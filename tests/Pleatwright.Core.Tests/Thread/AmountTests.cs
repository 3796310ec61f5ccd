using CsCheck;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Thread;

public class AmountTests
{
    private static ThreadUse Use(Floss thread, int needlefuls) => new(thread, 0, 0, Length.Zero, needlefuls);

    // Common practice, no source: an 8 m skein of six strands cut in 18 in lengths gives 17 lengths, 102 strands.
    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 1)]
    [InlineData(25, 1)]
    [InlineData(26, 2)] // 104 strands
    [InlineData(51, 2)] // 204 strands: two over from the first skein go with two of the second
    [InlineData(52, 3)]
    public void Needlefuls_of_four_strands_from_the_usual_skein(int needlefuls, int skeins)
    {
        var thread = Some.Floss('a', "#000000");
        Assert.Equal(17, Cutting.LengthsPerSkein(thread, Length.FromInches(18)));
        Assert.Equal(skeins, Cutting.Amount(Use(thread, needlefuls), Length.FromInches(18)).Skeins);
    }

    private static readonly Gen<(Floss Thread, Length Working, int Needlefuls)> Cases =
        from strands in Gen.Int[1, 12]
        from inSkein in Gen.Int[1, 12]
        from skein in Gen.Int[1, 40]
        from working in Gen.Double[0.2, 1]
        from needlefuls in Gen.Int[1, 100_000]
        select (Some.Floss('a', "#000000", strands) with { StrandsInSkein = inSkein, SkeinLength = Length.FromMetres(skein) },
            Length.FromMetres(working), needlefuls);

    [Fact]
    public void The_skeins_are_enough_and_one_fewer_is_not() => Cases.Sample(c =>
    {
        var skeins = Cutting.Amount(Use(c.Thread, c.Needlefuls), c.Working).Skeins;
        // Counted out by hand: whole lengths off each skein, then strands, then needlefuls.
        long NeedlefulsFrom(long n) => n * (long)(c.Thread.SkeinLength.Millimetres / c.Working.Millimetres + 1e-9) * c.Thread.StrandsInSkein / c.Thread.Strands;
        return NeedlefulsFrom(skeins) >= c.Needlefuls && NeedlefulsFrom(skeins - 1) < c.Needlefuls;
    });

    [Fact]
    public void A_skein_of_exactly_so_many_lengths_gives_them_all() => Gen.Select(Gen.Int[1, 60], Gen.Double[0.1, 2]).Sample((lengths, metres) =>
        Cutting.LengthsPerSkein(Some.Floss('a', "#000000") with { SkeinLength = Length.FromMetres(metres * lengths) }, Length.FromMetres(metres)) == lengths);

    [Fact]
    public void A_skein_too_short_for_one_length_is_refused() =>
        Assert.Throws<ArgumentException>(() =>
            Cutting.Amount(Use(Some.Floss('a', "#000000") with { SkeinLength = Length.FromCentimetres(40) }, 1), Length.FromInches(18)));

    // Workroom rule (common practice, no source): a row takes three times its width of thread. The step between the
    // lines, which the rule leaves out, comes on top: at the common gauge less than a fifth.
    [Theory]
    [InlineData(12)]
    [InlineData(60)]
    [InlineData(400)]
    public void A_row_takes_about_three_times_its_width(int cables)
    {
        var pitch = Length.FromInches(1) / 12;
        var line = Length.FromInches(0.375) / 10;
        Assert.InRange(Usage.Cable(pitch, line) * cables / (pitch * (cables + 1) * 3), 1, 1.2);
    }

    [Fact]
    public void A_half_stitch_takes_a_pitch_less_than_a_cable() => Gen.Select(Gen.Double[1, 5], Gen.Double[0.2, 3]).Sample((p, h) =>
        Math.Abs((Usage.Cable(Length.FromMillimetres(p), Length.FromMillimetres(h))
            - Usage.HalfStitch(Length.FromMillimetres(p), Length.FromMillimetres(h))).Millimetres - p) < 1e-9);
}
