using Pleatwright.Chart;

namespace Pleatwright.Recutting;

/// <summary>The handle by which one figure is scaled: its lower right corner, as the cloth is seen from the right side.</summary>
/// <param name="Placement">Which placement, from 0.</param>
/// <param name="Copy">Which of its copies, from 0.</param>
/// <param name="Across">Pleats across from the cloth's left edge.</param>
/// <param name="Line">Lines down from the upper edge of cable row 0.</param>
internal readonly record struct Grip(int Placement, int Copy, double Across, double Line)
{
    /// <summary>The grip of a copy; at the cloth's edge where the corner lies beyond.</summary>
    public static Grip Of(Work work, int placement, int copy)
    {
        var seat = SeatOf(work, placement, copy);
        return new(placement, copy, Math.Clamp(seat.Right + 1.0, 0, work.Pleating.Pleats), Math.Clamp(2.0 * (seat.Bottom + 1), 0, 2 * work.CableRows));
    }

    /// <summary>
    /// The piece with the figure scaled by as much as the corner is pulled away from the figure's middle on its gathering row, which both stay, or
    /// towards it. Its height is kept to its width.
    /// </summary>
    /// <param name="work">The work as it was when the grip was taken.</param>
    /// <param name="across">How far it is pulled to the right, in millimetres of the pleated cloth.</param>
    /// <param name="down">How far it is pulled down.</param>
    public Piece Pulled(Work work, double across, double down)
    {
        var (placed, seat) = (work.Piece.Placements[Placement], SeatOf(work, Placement, Copy));
        var pitch = work.Pleating.PitchAt(Math.Clamp(seat.Bottom, 0, work.CableRows - 1)).Millimetres;
        double wide = (seat.Width + 1) / 2.0 * pitch, deep = (seat.Height - placed.FigureRow - 0.5) * work.Pleating.Gauge.CableRowHeight.Millimetres;
        var factor = 1 + (across * wide + down * deep) / (wide * wide + deep * deep);
        return To(work.Piece, placed.Figure, Math.Clamp((seat.Width + 1) * factor - 1, 1, Figure.MostValleys));
    }

    /// <summary>The piece with the figure a step wider or narrower, its height kept to its width.</summary>
    public static Piece Stepped(Work work, int placement, bool larger)
    {
        var name = work.Piece.Placements[placement].Figure;
        return To(work.Piece, name, work.Piece.Figure(name)!.Width + (larger ? 2 : -2));
    }

    private static Piece To(Piece piece, string figure, double width) => Recutter.Scaled(piece, figure, width);

    private static Seat SeatOf(Work work, int placement, int copy)
    {
        var placed = work.Piece.Placements[placement];
        return Seat.Of(placed, work.Piece.Figure(placed.Figure)!, work.Pleating, copy);
    }
}
