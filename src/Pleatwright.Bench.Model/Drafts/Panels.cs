using System.Collections.Immutable;
using Pleatwright.Chart;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>The panels of the cloth on the table, to hang something on.</summary>
public static class Panels
{
    /// <summary>The names of those with pleats to lie on, from the left, each once; none where the cloth is not sewn of named panels.</summary>
    public static ImmutableArray<string> Of(Work work) => work.Piece.Cloth.Form.Kind.Pieces is null ? []
        : [.. work.Pleating.Shares.Select(s => s.Name).Distinct().Where(n => work.Pleating.Panel(n)!.Value.Pleats >= 2)];

    /// <summary>"the centre", "its left edge": what a place on a panel is counted from.</summary>
    public static string Say(CountedFrom from) => from switch
    {
        CountedFrom.Left => "its left edge",
        CountedFrom.Right => "its right edge",
        _ => "its centre",
    };
}
