using Pleatwright.Thread;

namespace Pleatwright.Tests.Thread;

public class ColourOrderTests
{
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
