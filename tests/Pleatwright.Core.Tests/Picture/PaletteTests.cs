using System.Collections.Immutable;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Picture;
using Pleatwright.Proof.Rules;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Picture;

/// <summary>Choosing the threads.</summary>
public class PaletteTests
{
    private static readonly Gen<ImmutableArray<Shade>> Shades =
        Gen.Select(Gen.Byte, Gen.Byte, Gen.Byte, Gen.Double[0.1, 40]).Array[1, 60].Select(colours =>
            colours.Select(c => new Colour(c.Item1, c.Item2, c.Item3) is var colour ? new Shade(Oklab.From(colour), Lab.From(colour), c.Item4) : default)
                .OrderByDescending(s => s.Weight).ToImmutableArray());

    [Fact]
    public void Free_colours_are_no_more_than_asked_and_never_alike() => Gen.Select(Shades, Gen.Int[1, 12]).Sample((shades, k) =>
    {
        var colours = Palette.Best(shades, k);
        Assert.InRange(colours.Length, 1, k);
        for (var i = 0; i < colours.Length; i++)
            for (var j = 0; j < i; j++)
                Assert.True(ColourDifference.Between(colours[i], colours[j]) >= Palette.LeastDifference - 1e-9);
    });

    [Fact]
    public void A_few_flat_colours_are_found_exactly()
    {
        Colour[] flat = [Colour.Parse("#b3202c"), Colour.Parse("#1f4e79"), Colour.Parse("#d9a441")];
        var shades = flat.Select((c, i) => new Shade(Oklab.From(c), Lab.From(c), 100 - i)).ToImmutableArray();
        Assert.Equal(flat.Select(c => c.ToString()).Order(), Palette.Best(shades, 5).Select(c => c.ToString()).Order());
    }

    [Fact]
    public void More_colours_come_no_further_from_the_picture()
    {
        foreach (var picture in new[] { "dusk", "ball", "noise" })
        {
            var shades = Shade.Gather(BrickSampler.Sample(TestPictures.All[picture](), 80, 50, Phase.Even));
            var apart = new[] { 1, 2, 4, 8 }.Select(k => Apart(shades, Palette.Best(shades, k))).ToArray();
            Assert.Equal(apart.OrderDescending(), apart);
        }
    }

    [Fact]
    public void From_a_stash_none_is_left_out_that_would_do_better_alone() => Gen.Select(Shades, Shades, Gen.Int[1, 4]).Sample((shades, stash, k) =>
    {
        ImmutableArray<Colour> colours = [.. stash.Select(s => s.Oklab.ToColour())];
        var chosen = Palette.FromStash(shades, colours, k);
        Assert.InRange(chosen.Length, 1, Math.Min(k, colours.Length));
        Assert.Equal(chosen.Distinct().Order(), chosen);
        if (colours.Length <= k) return;
        // No single exchange betters it, but for a colour too like one that stays.
        var now = Apart(shades, [.. chosen.Select(c => colours[c])]);
        for (var o = 0; o < chosen.Length; o++)
            for (var c = 0; c < colours.Length; c++)
            {
                var rest = chosen.RemoveAt(o);
                if (rest.Any(r => ColourDifference.Between(colours[r], colours[c]) < Palette.LeastDifference)) continue;
                Assert.True(Apart(shades, [.. rest.Add(c).Select(i => colours[i])]) >= now - 1e-6);
            }
    }, iter: 60);

    [Fact]
    public void What_counts_as_alike_is_what_the_proof_says() => Assert.Equal(ThreadsAlike.LeastDifference, Palette.LeastDifference);

    private static double Apart(ImmutableArray<Shade> shades, ImmutableArray<Colour> colours)
    {
        var labs = colours.Select(Lab.From).ToArray();
        return shades.Sum(s => s.Weight * labs.Min(l => ColourDifference.Between(s.Lab, l)));
    }
}
