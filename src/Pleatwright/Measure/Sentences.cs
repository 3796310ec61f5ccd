namespace Pleatwright.Measure;

/// <summary>Words made into sentences for people.</summary>
internal static class Sentences
{
    /// <summary>The words with their first letter made small; nothing stays nothing.</summary>
    public static string Uncapital(this string words) => words.Length == 0 ? words : char.ToLowerInvariant(words[0]) + words[1..];

    /// <summary>The words with their first letter made a capital; nothing stays nothing.</summary>
    public static string Capital(this string words) => words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];

    /// <summary>The words as a sentence: a capital first and one full stop last.</summary>
    public static string Of(string words) => words.TrimEnd('.').Capital() + ".";

    /// <summary>Why a value was refused: the message without the parameter's name that is added to it, and without a full stop.</summary>
    public static string Why(this ArgumentException refusal)
    {
        var words = refusal.Message;
        if (!string.IsNullOrEmpty(refusal.ParamName))
            foreach (var mark in Marks)
                if (words.LastIndexOf(mark, StringComparison.Ordinal) is >= 0 and var at) words = words[..at];
        return words.TrimEnd('.');
    }

    // What comes before the name: .NET's own words, and the key of them that stands in their place in the browser.
    private static readonly string[] Marks = [" (Parameter '", " Arg_ParamName_Name"];
}
