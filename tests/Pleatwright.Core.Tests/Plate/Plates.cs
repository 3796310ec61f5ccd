using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Proof;

namespace Pleatwright.Tests.Plate;

/// <summary>Plates of works, proofed and ordered as the program does it.</summary>
internal static class Plates
{
    public static PlateDocument Of(Work work, PlateOptions? options = null, ImmutableArray<Finding>? findings = null) =>
        PlateMaker.Make(work, Planner.Plan(work), findings ?? Proofreading.Read(work), options ?? new PlateOptions());

    public static PlateDocument OfExample(string name, PlateOptions? options = null) =>
        Of(Example(name), options);

    public static Work Example(string name) =>
        Work.Lay(PieceReader.Read(File.ReadAllBytes(Path.Combine(Repository.Root, "examples", name + ".piece.json"))));

    public static Work Titled(Work work, string title) => Work.Lay(work.Piece with { Title = title });
}
