namespace Pleatwright.Chart.Edit;

/// <summary>Fixes runs to places in the working order.</summary>
internal static class Pinning
{
    /// <summary>Fixes a run to a place; what was fixed there before, and the run's earlier place, are let go.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="run">The run.</param>
    /// <param name="place">Which run of the order it is to be, from 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The place is less than 1.</exception>
    public static Piece Fix(Piece piece, Run run, int place)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(place, 1);
        var others = piece.Working.Places.RemoveAll(p => p.Place == place || IsOf(p, run));
        return piece with { Working = piece.Working with { Places = others.Add(new FixedPlace(run.Row, run.From, place)) } };
    }

    /// <summary>Lets a run go wherever the order is best.</summary>
    public static Piece Free(Piece piece, Run run)
    {
        var others = piece.Working.Places.RemoveAll(p => IsOf(p, run));
        return others.Length == piece.Working.Places.Length ? piece : piece with { Working = piece.Working with { Places = others } };
    }

    /// <summary>The place a run is fixed to; null when it is free.</summary>
    public static int? PlaceOf(Piece piece, Run run)
    {
        foreach (var place in piece.Working.Places)
            if (IsOf(place, run)) return place.Place;
        return null;
    }

    private static bool IsOf(FixedPlace place, Run run) => place.Row == run.Row && run.Contains(place.Valley);
}
