using Pleatwright.Measure;

namespace Pleatwright.Tests.Measure;

public class SentencesTests
{
    // As the browser has it, where .NET's own words are left out and only the names of them are there.
    private sealed class InTheBrowser(string message, string parameter) : ArgumentException
    {
        public override string Message => $"{message} Arg_ParamName_Name, {parameter}";

        public override string ParamName => parameter;
    }

    [Theory]
    [InlineData("The row spacing must be more than nothing.")]
    [InlineData("the cloth comes to 6000 pleats; 5000 is the most")]
    public void A_refusal_is_told_in_its_own_words_alone(string words)
    {
        var plain = words.TrimEnd('.');
        Assert.Equal(plain, new ArgumentException(words).Why());
        Assert.Equal(plain, new ArgumentException(words, "cloth").Why());
        Assert.Equal(plain, new ArgumentOutOfRangeException("cloth", words).Why());
        Assert.Equal(plain, new InTheBrowser(words, "cloth").Why());
        Assert.Equal(char.ToUpperInvariant(plain[0]) + plain[1..] + ".", Sentences.Of(new InTheBrowser(words, "cloth").Why()));
    }
}
