using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Plate.Parts;
using Pleatwright.Proof;

namespace Pleatwright.Plate;

/// <summary>A plate ready to be written in any format.</summary>
/// <param name="Title">Its title.</param>
/// <param name="Sheets">Its pages.</param>
public sealed record PlateDocument(string Title, ImmutableArray<Sheet> Sheets);

/// <summary>Makes plates.</summary>
public static class PlateMaker
{
    /// <summary>Makes the plate of a work.</summary>
    /// <param name="work">The work.</param>
    /// <param name="order">Its working order.</param>
    /// <param name="findings">What the proof found.</param>
    /// <param name="options">How the plate is made.</param>
    public static PlateDocument Make(Work work, WorkingOrder order, ImmutableArray<Finding> findings, PlateOptions options)
    {
        List<Page> pages = [.. ChartPages.Working(work, options, 1)];
        if (options.TrueScaleChart) pages.AddRange(ChartPages.TrueScale(work, options, pages.Count + 1));
        var title = work.Piece.Title;
        return new PlateDocument(title, [.. pages.Select((p, i) => p.Finish(title, i + 1, pages.Count))]);
    }
}
