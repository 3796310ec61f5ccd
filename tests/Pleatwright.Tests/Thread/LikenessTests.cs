using Pleatwright.Thread;

namespace Pleatwright.Tests.Thread;

/// <summary>The words for a difference against the steps of Mokrzycki and Tatol, "Colour difference ΔE: a survey" (2011; from memory).</summary>
public class LikenessTests
{
    [Theory]
    [InlineData(0, Likeness.Same, "same")] // below 1 an observer does not notice
    [InlineData(1, Likeness.Same, "same")]
    [InlineData(1.01, Likeness.HardToTell, "hard to tell")] // to 2 only an experienced one
    [InlineData(2, Likeness.HardToTell, "hard to tell")]
    [InlineData(2.5, Likeness.Near, "near")]
    [InlineData(5, Likeness.Near, "near")]
    [InlineData(5.01, Likeness.Different, "clearly different")] // from 5 two different colours
    [InlineData(90, Likeness.Different, "clearly different")]
    public void Each_step_has_its_word(double difference, Likeness likeness, string word)
    {
        Assert.Equal(likeness, Likenesses.Of(difference));
        Assert.Equal(word, likeness.Word());
    }

    [Fact]
    public void What_is_left_of_a_thread_is_whole_skeins_and_a_part()
    {
        StashThread Left(double skeins) => new("rope", Colour.Black, skeins);
        Assert.Equal([8000, 8000, 4000], Left(2.5).Lengths().Select(l => Math.Round(l.Millimetres, 6)));
        Assert.Equal([8000, 8000, 8000], Left(2.9999999999).Lengths().Select(l => Math.Round(l.Millimetres, 6)));
        Assert.Equal([8000, 8000], Left(900).Lengths(2).Select(l => Math.Round(l.Millimetres, 6)));
        Assert.Empty(Left(0).Lengths());
    }

    // Greys apart; then round the hues as round the hexcone of Smith, "Color gamut transform pairs" (1978; from memory): red, yellow,
    // green, cyan, blue, magenta. Of one hue the dark before the light.
    [Fact]
    public void Colours_lie_as_on_a_shade_card()
    {
        string[] wheel = ["#ff0000", "#ffff00", "#00ff00", "#00ffff", "#0000ff", "#ff00ff"];
        var pure = wheel.Reverse().Select(c => new StashThread(c, Colour.Parse(c), 1)).ToArray();
        Assert.Equal(wheel, ColourOrder.Of(pure, Enumerable.Range(0, pure.Length)).Select(t => pure[t].Name));
        string[] colours = ["#2040c0", "#ffffff", "#209040", "#e0c020", "#c02030", "#000000", "#601018"];
        var threads = colours.Select(c => new StashThread(c, Colour.Parse(c), 1)).ToArray();
        Assert.Equal(["#000000", "#ffffff", "#601018", "#c02030", "#e0c020", "#209040", "#2040c0"],
            ColourOrder.Of(threads, Enumerable.Range(0, threads.Length)).Select(t => threads[t].Name));
    }
}
