using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;

namespace Pleatwright.Bench.Model.Tabletop;

/// <summary>Where the table opens, and how near.</summary>
public static class Opening
{
    /// <summary>The least height of a line of the cloth under a finger, in pixels of the page.</summary>
    public const double LineUnderFinger = 18;

    /// <summary>The least height of a line of the cloth under a mouse or a pen, in pixels of the page.</summary>
    public const double LineUnderMouse = 12;

    /// <summary>
    /// The middle of the figure under the hand; with a hand that was nowhere yet that of the figure nearest the centre; else where the
    /// hand is.
    /// </summary>
    public static (Valley Valley, CableRow Row) At(Desk desk, Needle needle)
    {
        var (piece, pleating) = (desk.Piece, desk.Work.Pleating);
        if (needle.Spot is { } spot) return Middle(desk.Work, Spot.SeatOf(piece, pleating, spot.Placement, spot.Copy));
        var fresh = needle.Valley.Number == pleating.CentreValley && needle.Row.Index == desk.Work.CableRows / 2;
        if (!fresh || piece.Placements.IsEmpty) return (needle.Valley, needle.Row);
        return piece.Placements
            .SelectMany((p, i) => Enumerable.Range(0, p.Repeat.Count).Select(copy => Middle(desk.Work, Spot.SeatOf(piece, pleating, i, copy))))
            .MinBy(m => Math.Max(Math.Abs(m.Valley.Number - needle.Valley.Number), Math.Abs(m.Row.Index - needle.Row.Index)));
    }

    private static (Valley Valley, CableRow Row) Middle(Work work, Seat seat) => (
        new Valley(Math.Clamp(seat.Left + (seat.Width - 1) / 2, 1, work.Valleys)),
        new CableRow(Math.Clamp(seat.Top + (seat.Height - 1) / 2, 0, work.CableRows - 1)));
}
