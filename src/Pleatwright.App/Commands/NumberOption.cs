using System.CommandLine;
using System.Globalization;
using Pleatwright.Measure;

namespace Pleatwright.App.Commands;

/// <summary>An option that takes a decimal number more than nothing; null when it is not given.</summary>
internal sealed class NumberOption : Option<double?>
{
    public NumberOption(string name, string helpName, string description) : base(name)
    {
        (Description, HelpName) = (description, helpName);
        CustomParser = result =>
        {
            var text = result.Tokens[0].Value;
            if (double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number) && number is > 0 and < 1e6) return number;
            result.AddError($"“{text}” will not do: {name} takes a number more than nothing, like 1.5.");
            return null;
        };
    }
}

/// <summary>An option that takes a length with its unit; null when it is not given.</summary>
internal sealed class LengthOption : Option<Length?>
{
    public LengthOption(string name, string description) : base(name)
    {
        (Description, HelpName) = (description, "LENGTH");
        CustomParser = result =>
        {
            var text = result.Tokens[0].Value;
            if (Length.TryParse(text, out var length) && length > Length.Zero) return length;
            result.AddError($"“{text}” will not do: {name} takes a length with its unit, like \"3/8 in\".");
            return null;
        };
    }
}
