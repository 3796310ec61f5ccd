using System.CommandLine;
using System.Globalization;

namespace Pleatwright.App.Commands;

/// <summary>An option that takes a whole number; null when it is not given.</summary>
internal sealed class WholeOption : Option<int?>
{
    /// <summary>An option.</summary>
    /// <param name="name">Its name, with the dashes.</param>
    /// <param name="helpName">What the number counts, for the help.</param>
    /// <param name="description">What it is for.</param>
    /// <param name="range">The least and the most it takes; left out where what is made of it checks that.</param>
    public WholeOption(string name, string helpName, string description, (int Least, int Most)? range = null) : base(name)
    {
        Description = description;
        HelpName = helpName;
        CustomParser = result =>
        {
            var text = result.Tokens[0].Value;
            if (int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number)
                && (range is not { } within || number >= within.Least && number <= within.Most)) return number;
            result.AddError($"“{text}” will not do: {name} takes {(range is { } r ? $"{r.Least} to {r.Most}" : "a whole number")}.");
            return null;
        };
    }
}
