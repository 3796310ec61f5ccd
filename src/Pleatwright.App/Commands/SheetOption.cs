using Pleatwright.Chart;
using Pleatwright.Plate;
using Pleatwright.Plate.Preparation;
using Pleatwright.Plate.Writers;

namespace Pleatwright.App.Commands;

/// <summary>The sheets that prepare the cloth, asked for in place of the plate.</summary>
internal static class SheetOption
{
    public static ChoiceOption<PreparationKind?> Make() => new("--sheet", "The plate, or a sheet that prepares the cloth: dots to gather by, the blocking guide, or the pleating card.",
        ("plate", null), ("dots", PreparationKind.Dots), ("blocking", PreparationKind.Blocking), ("card", PreparationKind.Card));

    /// <summary>Writes a sheet in a format that has pages.</summary>
    /// <exception cref="UsageException">The format has none.</exception>
    public static byte[] Write(Piece piece, PreparationKind kind, PlateOptions options, PlateFormat format, string path) =>
        format.WritePages is { } write
            ? write(PreparationSheets.TitleOf(piece), PreparationSheets.Make(piece, kind, options))
            : throw new UsageException($"{path}: a sheet at true size is written as {string.Join(" or ", PlateFormat.All.Where(f => f.WritePages is not null).Select(f => f.Ending))}; end the name with one of them.");
}
