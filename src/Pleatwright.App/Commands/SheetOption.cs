using System.CommandLine;
using System.Text;
using Pleatwright.Chart;
using Pleatwright.Plate;
using Pleatwright.Plate.Preparation;
using Pleatwright.Plate.Writers;

namespace Pleatwright.App.Commands;

/// <summary>The sheets that prepare the cloth, asked for in place of the plate.</summary>
internal static class SheetOption
{
    private static readonly Dictionary<string, PreparationKind> Kinds = new(StringComparer.OrdinalIgnoreCase)
    {
        ["dots"] = PreparationKind.Dots,
        ["blocking"] = PreparationKind.Blocking,
        ["card"] = PreparationKind.Card,
    };

    public static Option<PreparationKind?> Make() => new("--sheet")
    {
        Description = "A sheet that prepares the cloth, in place of the plate: dots to gather by, the blocking guide, or the pleating card.",
        HelpName = string.Join("|", Kinds.Keys),
        CustomParser = result =>
        {
            if (Kinds.TryGetValue(result.Tokens[0].Value, out var kind)) return kind;
            result.AddError($"“{result.Tokens[0].Value}” is no sheet known here; --sheet takes {string.Join(", ", Kinds.Keys)}.");
            return null;
        },
    };

    /// <summary>Writes a sheet as the ending of the name says: pdf or svg.</summary>
    /// <exception cref="UsageException">Another ending.</exception>
    public static byte[] Write(Piece piece, PreparationKind kind, PlateOptions options, string path)
    {
        var sheets = PreparationSheets.Make(piece, kind, options);
        var title = PreparationSheets.TitleOf(piece);
        return Path.GetExtension(path).ToLowerInvariant() switch
        {
            ".pdf" => PdfWriter.Write(title, sheets),
            ".svg" => Encoding.UTF8.GetBytes(SvgWriter.Write(title, sheets)),
            _ => throw new UsageException($"{path}: a sheet at true size is written as .pdf or .svg; end the name with one of them."),
        };
    }
}
