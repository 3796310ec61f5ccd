namespace Pleatwright.Chart.Edit;

/// <summary>Half stitches that square the ends of rows.</summary>
internal static class Halves
{
    /// <summary>Squares every run end of a figure, or leaves them all sloped.</summary>
    /// <exception cref="ArgumentException">No such figure.</exception>
    public static Piece Square(Piece piece, string figure, bool square)
    {
        var found = piece.Figure(figure) ?? throw new ArgumentException($"No figure is called “{figure}”.", nameof(figure));
        return found.Square == square ? piece : piece.WithFigure(found with { Square = square });
    }

    /// <summary>Asks for a half stitch at the outer end of a figure's row, or takes it off.</summary>
    /// <exception cref="ArgumentException">No such figure or row.</exception>
    public static Piece Toggle(Piece piece, string figure, HalfMark half)
    {
        var found = piece.Figure(figure) ?? throw new ArgumentException($"No figure is called “{figure}”.", nameof(figure));
        if (half.Row < 0 || half.Row >= found.Height) throw new ArgumentException("The figure has no such row.", nameof(half));
        return piece.WithFigure(found with
        {
            Halves = found.Halves.Contains(half) ? found.Halves.Remove(half) : [.. found.Halves.Add(half).OrderBy(h => h.Row).ThenBy(h => h.End)],
        });
    }
}
