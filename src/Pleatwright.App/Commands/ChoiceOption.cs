using System.CommandLine;

namespace Pleatwright.App.Commands;

/// <summary>An option that takes one of a few words, upper or lower case; the first is the usual one.</summary>
internal sealed class ChoiceOption<T> : Option<string?>
{
    private readonly (string Word, T Value)[] choices;

    public ChoiceOption(string name, string description, params (string Word, T Value)[] choices) : base(name)
    {
        this.choices = choices;
        Description = $"{description} Usually {choices[0].Word}.";
        HelpName = string.Join('|', choices.Select(c => c.Word));
        Validators.Add(result =>
        {
            if (result.GetValueOrDefault<string?>() is { } word && !choices.Any(c => Is(c.Word, word)))
                result.AddError($"“{word}” is not a choice here; {name} takes {string.Join(", ", choices[..^1].Select(c => c.Word))} or {choices[^1].Word}.");
        });
    }

    public T Read(ParseResult parsed) => parsed.GetValue(this) is { } word ? choices.First(c => Is(c.Word, word)).Value : choices[0].Value;

    private static bool Is(string choice, string word) => choice.Equals(word, StringComparison.OrdinalIgnoreCase);
}
