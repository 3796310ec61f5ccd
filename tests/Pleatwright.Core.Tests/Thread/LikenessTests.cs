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
}
