using Pleatwright.Chart;

namespace Pleatwright.Proof.Rules;

/// <summary>
/// A stacked figure that lies across a join of the cloth. The seam is hidden in its valley and thick there; a band or a row that goes on to both sides hides
/// it, a picture shows it (common practice, no source). It can be stitched, so it is a note.
/// </summary>
internal sealed class AcrossJoin : Rule
{
    /// <inheritdoc/>
    public override string Name => "across-join";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        var joins = work.Pleating.Joins;
        if (joins.IsEmpty) return;
        foreach (var area in work.Areas.All)
        {
            if (!area.IsStacked) continue;
            foreach (var join in joins)
            {
                if (join.Valley < area.From.Number || join.Valley > area.To.Number || Across(work, area, new Valley(join.Valley)) is not { } place || !findings.Tells(Severity.Note, place)) continue;
                var figure = Figure(work, place) is { } name ? $"“{name}”" : "Stacked stitching";
                findings.Add(Severity.Note, place,
                    $"{figure} lies across the join of {join.Between}, {Say.Where(work, place)}: the seam is thick there, and the picture shifts where it does not fall just into the valley.",
                    "Hang it on the middle of a panel, or move it beside the join.");
            }
        }
    }

    // The rows in which an area has a cable over the join, when there are two at least.
    private static Place? Across(Work work, in WorkedArea area, Valley join)
    {
        int first = -1, last = -1, rows = 0;
        for (var y = area.Top.Index; y <= area.Bottom.Index; y++)
        {
            if (work.CellsOf(new CableRow(y))[join.Number - 1] == 0) continue;
            if (first < 0) first = y;
            last = y;
            rows++;
        }
        return rows < 2 ? null : new Place(new CableRow(first), new CableRow(last), join, join);
    }

    private static string? Figure(Work work, Place place)
    {
        for (var y = place.Top.Index; y <= place.Bottom.Index; y++)
            if (work.OriginAt(place.From, new CableRow(y)) is { } origin) return work.Piece.Placements[origin.Placement].Figure;
        return null;
    }
}
