using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Measure;

namespace Pleatwright.Proof;

/// <summary>One fault, wherever it lies: the same one in every copy of a figure is told once, with all its places.</summary>
/// <param name="First">The finding whose words tell of it: the first in the order of the proof.</param>
/// <param name="Places">Every place of it, in the order of the proof; <paramref name="First"/>'s is the first.</param>
/// <param name="Figure">The figure in whose copies it lies; null where it lies in none, or stands alone.</param>
internal sealed record Fault(Finding First, ImmutableArray<Place> Places, string? Figure)
{
    /// <summary>"A lone cable of … The same in 6 more copies of boat."</summary>
    public string Message => Places.Length == 1 ? First.Message
        : $"{First.Message} The same in {Counting.Of(Places.Length - 1, "more copy", "more copies")} of {Figure}.";
}

/// <summary>Findings put together where they are one fault.</summary>
internal static class Grouping
{
    /// <summary>
    /// The findings as faults, in the order of the proof. No finding is lost: the places of all faults are as many as the findings.
    /// Findings are one fault when one rule tells of them equally gravely, at the same place of the same figure in different copies.
    /// </summary>
    public static ImmutableArray<Fault> Faults(Work work, ImmutableArray<Finding> findings)
    {
        var faults = new List<(Finding First, string? Figure, ImmutableArray<Place>.Builder Places)>();
        var known = new Dictionary<(string Rule, Severity Severity, InFigure At, int Alike), int>();
        var seen = new Dictionary<(string Rule, Severity Severity, int Placement, int Copy, InFigure At), int>();
        foreach (var finding in findings)
        {
            var (placement, copy, at) = Seated(work, finding.Place);
            if (at is null) { faults.Add((finding, null, One(finding.Place))); continue; }
            // Two findings of one rule at one place of one copy are two faults, each with its like in the other copies.
            var inCopy = (finding.Rule, finding.Severity, placement, copy, at);
            var alike = seen[inCopy] = seen.GetValueOrDefault(inCopy) + 1;
            var key = (finding.Rule, finding.Severity, at, alike);
            if (known.TryGetValue(key, out var i)) { faults[i].Places.Add(finding.Place); continue; }
            known[key] = faults.Count;
            faults.Add((finding, at.Figure, One(finding.Place)));
        }
        return [.. faults.Select(f => new Fault(f.First, f.Places.ToImmutable(), f.Figure))];
    }

    // A place as its figure has it, whichever way a copy lies.
    private sealed record InFigure(string Figure, int Top, int Bottom, int From, int To);

    // The topmost copy that the whole place lies in.
    private static (int Placement, int Copy, InFigure? At) Seated(Work work, Place place)
    {
        var (piece, pleating) = (work.Piece, work.Pleating);
        if (Spot.Within(piece, pleating, place.From, place.Top) is not { } spot) return default;
        var seat = Spot.SeatOf(piece, pleating, spot.Placement, spot.Copy);
        if (!seat.Contains(place.To, place.Bottom)) return default;
        var (a, b) = (seat.ColumnAt(place.From), seat.ColumnAt(place.To));
        return (spot.Placement, spot.Copy, new InFigure(piece.Placements[spot.Placement].Figure, place.Top.Index - seat.Top, place.Bottom.Index - seat.Top, Math.Min(a, b), Math.Max(a, b)));
    }

    private static ImmutableArray<Place>.Builder One(Place place)
    {
        var places = ImmutableArray.CreateBuilder<Place>();
        places.Add(place);
        return places;
    }
}
