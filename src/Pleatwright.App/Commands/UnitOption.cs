using System.CommandLine;
using Pleatwright.Measure;

namespace Pleatwright.App.Commands;

/// <summary>The units in which a command speaks to people.</summary>
internal static class UnitOption
{
    public static Option<UnitSystem> Make()
    {
        var option = new Option<UnitSystem>("--units")
        {
            Description = "metric, inches or both.",
            HelpName = "metric|inches|both",
            DefaultValueFactory = _ => UnitSystem.Both,
            CustomParser = result => Word(result.Tokens[0].Value) ?? Refuse(result),
        };
        return option;
    }

    private static UnitSystem Refuse(System.CommandLine.Parsing.ArgumentResult result)
    {
        result.AddError($"“{result.Tokens[0].Value}” is not a way of measuring; --units takes metric, inches or both.");
        return default;
    }

    private static UnitSystem? Word(string word) => word switch
    {
        "metric" => UnitSystem.Metric,
        "inches" => UnitSystem.Inches,
        "both" => UnitSystem.Both,
        _ => null,
    };
}
