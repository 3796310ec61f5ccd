using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.App.Commands;

/// <summary>What the commands that make a piece ask alike.</summary>
internal static class PieceOptions
{
    public static WholeOption Whole(string name, int usual, string help, string description, (int Least, int Most)? range = null) =>
        new(name, help, description, range) { DefaultValueFactory = _ => usual };

    public static double Decimal(ArgumentResult result) =>
        double.TryParse(result.Tokens[0].Value, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value)
            ? value
            : Refuse<double>(result, "a number is wanted here, like 0.5");

    public static string? ReadTitle(ArgumentResult result) => result.Tokens[0].Value.Trim() switch
    {
        { Length: > Piece.LongestTitle } => Refuse<string>(result, $"--title takes at most {Piece.LongestTitle} characters"),
        { Length: 0 } => Refuse<string>(result, "--title takes a title"),
        var given => given,
    };

    public static string Sentence(string name)
    {
        var words = name.Replace('-', ' ').Replace('_', ' ').Trim();
        if (words.Length > Piece.LongestTitle) words = words[..(char.IsHighSurrogate(words[Piece.LongestTitle - 1]) ? Piece.LongestTitle - 1 : Piece.LongestTitle)];
        return words.Length == 0 ? "Figure" : char.ToUpperInvariant(words[0]) + words[1..];
    }

    public static T? Refuse<T>(ArgumentResult result, string want)
    {
        result.AddError($"“{result.Tokens[0].Value}” will not do: {want}.");
        return default;
    }

    public static Colour? ReadColour(ArgumentResult result) =>
        Colour.TryParse(result.Tokens[0].Value, out var colour) ? colour : Refuse<Colour?>(result, "a colour written as #rrggbb is wanted");
}

/// <summary>The gauge as options; what is not given is the common gauge.</summary>
internal sealed class GaugeOptions
{
    private readonly Option<double> pleatsPerInch = new("--pleats-per-inch") { Description = "Finished pleats in an inch.", HelpName = "N", DefaultValueFactory = _ => Gauge.Common.PleatsPerInch, CustomParser = PieceOptions.Decimal };
    private readonly Option<Length> takeUp = Lengthy("--take-up", Gauge.Common.TakeUp, "Flat cloth one pleat takes up.");
    private readonly Option<Length> rowSpacing = Lengthy("--row-spacing", Gauge.Common.RowSpacing, "From one gathering row to the next.");
    private readonly WholeOption cableRows = PieceOptions.Whole("--cable-rows", Gauge.Common.CableRowsPerSpace, "N", "Cable rows in one space.");

    public void AddTo(Command command)
    {
        command.Options.Add(pleatsPerInch);
        command.Options.Add(takeUp);
        command.Options.Add(rowSpacing);
        command.Options.Add(cableRows);
    }

    public Gauge Read(ParseResult parsed)
    {
        try
        {
            return Gauge.FromPleatsPerInch(parsed.GetValue(pleatsPerInch), parsed.GetValue(takeUp), parsed.GetValue(rowSpacing), parsed.GetValue(cableRows)!.Value);
        }
        catch (ArgumentException e)
        {
            throw UsageException.Of("the gauge", e);
        }
    }

    private static Option<Length> Lengthy(string name, Length usual, string description) => new(name)
    {
        Description = description,
        HelpName = "LENGTH",
        DefaultValueFactory = _ => usual,
        CustomParser = result => Length.TryParse(result.Tokens[0].Value, out var length) ? length : PieceOptions.Refuse<Length>(result, "a length with its unit is wanted, like \"3/8 in\""),
    };
}
