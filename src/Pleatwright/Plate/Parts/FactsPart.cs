using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Measure;

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
        var form = cloth.Form.Phrase;
        var stitches = work.Cables + work.Bands.Sum(b => b.Stitches) + work.Accents.Length;
        return $"{form[..1].ToUpperInvariant()}{form[1..]} in {Counting.Of(work.Piece.Threads.Length, "thread")}, "
            + (stitches == work.Cables ? Counting.Of(work.Cables, "cable") : Counting.Of(stitches, "stitch", "stitches"))
            + (work.Piece.Working.Hand == Hand.Left ? ", written for the left hand" : "");
    }

    /// <summary>The figures, for what is known of it as a published piece.</summary>
    public static ImmutableArray<Fact> Of(Published published)
    {
        var plan = published.Order.Work.Pleating;
        return
        [
            .. published.SizeName.Length > 0 ? [new Fact("Size", published.SizeName)] : ImmutableArray<Fact>.Empty,
            new(plan.Cloth.Form.WidthLabel, string.Create(CultureInfo.InvariantCulture, $"{plan.FinishedWidth.Say(published.Units)}; {plan.Pleats} pleats, {plan.RowsToGather} rows to gather")),
            new("Difficulty", PublishedWords.Difficulty(published)),
            new("Time", PublishedWords.Hours(published)),
            new("Cut the cloth", PublishedWords.Cloth(published)),
            new("Cut for", PublishedWords.Gauge(published)),
        ];
    }
}
