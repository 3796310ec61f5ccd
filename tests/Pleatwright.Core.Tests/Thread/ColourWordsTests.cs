using CsCheck;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Thread;

/// <summary>Plain words for colours, each judged by eye.</summary>
public class ColourWordsTests
{
    [Theory]
    [InlineData("#ffffff", "white")]
    [InlineData("#000000", "black")]
    [InlineData("#808080", "grey")]
    [InlineData("#ff0000", "red")]
    [InlineData("#ff8c00", "orange")]
    [InlineData("#ffe000", "yellow")]
    [InlineData("#008000", "green")]
    [InlineData("#008080", "teal")]
    [InlineData("#1f4fd0", "blue")]
    [InlineData("#14244a", "dark blue")]
    [InlineData("#a9cbe8", "pale blue")]
    [InlineData("#8a2be2", "violet")]
    [InlineData("#ffc0cb", "pink")]
    [InlineData("#7a1420", "dark red")]
    [InlineData("#7b4a24", "brown")]
    [InlineData("#d2b48c", "sand")]
    [InlineData("#f4efe3", "cream")]
    [InlineData("#6b6b2a", "olive")]
    public void A_colour_is_called_what_people_call_it(string colour, string word) => Assert.Equal(word, ColourWords.For(Colour.Parse(colour)));

    [Fact]
    public void Every_colour_has_a_word() => Gen.Select(Gen.Byte, Gen.Byte, Gen.Byte).Sample((r, g, b) =>
        Assert.Matches("^[a-z]+( [a-z]+){0,2}$", ColourWords.For(new Colour(r, g, b))));
}
