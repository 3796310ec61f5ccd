using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Order;

namespace Pleatwright.Plate.Parts;

/// <summary>A figure that matters, and its name.</summary>
/// <param name="Name">What it is the figure of.</param>
/// <param name="Value">The figure, with its unit.</param>
public sealed record Fact(string Name, string Value);

/// <summary>The figures a maker looks for first.</summary>
internal static class FactsPart
{
    /// <summary>The piece in one line.</summary>
    public static string Summary(Work work)
    {
        var cloth = work.Pleating.Cloth;
        var form = cloth.Form switch
        {
            Panel => "a flat panel",
            Round => "a round yoke",
            Ball => "a ball",
            var other => other.Name,
        };
        var stitches = work.Cables + work.Bands.Sum(b => b.Stitches) + work.Accents.Length;
        return $"{form[..1].ToUpperInvariant()}{form[1..]} in {Counting.Of(work.Piece.Threads.Length, "thread")}, "
            + (stitches == work.Cables ? Counting.Of(work.Cables, "cable") : Counting.Of(stitches, "stitch", "stitches"))
            + (work.Piece.Working.Hand == Hand.Left ? ", written for the left hand" : "");
    }

    /// <summary>The figures.</summary>
    public static ImmutableArray<Fact> Of(Work work, WorkingOrder order, UnitSystem units)
    {
        var plan = work.Pleating;
        return
        [
            new(Width(plan.Cloth.Form), plan.FinishedWidth.Say(units)),
            new("Cut the cloth", $"{plan.CutWidth.Say(units)} wide"),
            new("Pleats", plan.Pleats.ToString(CultureInfo.InvariantCulture)),
            new("Rows to gather", plan.RowsToGather.ToString(CultureInfo.InvariantCulture)),
            new("Cables", work.Cables.ToString("#,0", CultureInfo.InvariantCulture)),
            new("Needles threaded", order.Needlefuls.ToString("#,0", CultureInfo.InvariantCulture)),
        ];
    }

    private static string Width(Form form) => form switch
    {
        Round => "Finished neck",
        Ball => "Round the equator",
        _ => "Finished width",
    };
}
