using System.Collections.Concurrent;
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

    // Planned and proofed once, and set as often as asked.
    public static PlateDocument OfExample(string name, PlateOptions? options = null)
    {
        var (order, findings) = Ordered.GetOrAdd(name, n => new(() => Example(n) is var work ? (Planner.Plan(work), Proofreading.Read(work)) : default)).Value;
        return PlateMaker.Make(order.Work, order, findings, options ?? new PlateOptions());
    }

    private static readonly ConcurrentDictionary<string, Lazy<(WorkingOrder, ImmutableArray<Finding>)>> Ordered = [];

    public static Work Example(string name) =>
        Work.Lay(PieceReader.Read(File.ReadAllBytes(Path.Combine(Repository.Root, "examples", name + ".piece.json"))));

    public static Work Titled(Work work, string title) => Work.Lay(work.Piece with { Title = title });
}
