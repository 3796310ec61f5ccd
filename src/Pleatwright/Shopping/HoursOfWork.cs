using System.Globalization;
using Pleatwright.Order;

namespace Pleatwright.Shopping;

/// <summary>The hours a piece takes a hand, reckoned as the shopping list reckons them.</summary>
internal static class HoursOfWork
{
    /// <summary>Hours of stitching, at a pace; of any hand where nothing is known of it.</summary>
    /// <param name="order">The working order.</param>
    /// <param name="pace">The maker's pace.</param>
    public static Between Of(WorkingOrder order, Pace pace) => Of(PieceNeeds.Of(order).Stitches, pace);

    /// <summary>Hours that so many stitches take.</summary>
    public static Between Of(int stitches, Pace pace) => pace.Hours(stitches) ?? Pace.OfAnyHand.Hours(stitches)!.Value;

    /// <summary>"5 to 12 hours", "half an hour to 1 hour": to the half hour where the most is under four, else to the hour; never less than half an hour.</summary>
    public static string Say(Between hours)
    {
        var step = hours.High < 4 ? 0.5m : 1m;
        var (low, high) = (Math.Max(0.5m, Math.Floor(hours.Low / step) * step), Math.Max(0.5m, Math.Ceiling(hours.High / step) * step));
        return low == high ? One(high) : low == 0.5m ? $"{One(low)} to {One(high)}" : $"{Number(low)} to {One(high)}";
    }

    private static string One(decimal hours) => hours == 0.5m ? "half an hour" : hours == 1 ? "1 hour" : $"{Number(hours)} hours";

    private static string Number(decimal hours) => $"{Math.Floor(hours).ToString("#,0", CultureInfo.InvariantCulture)}{(hours % 1 == 0 ? "" : "½")}";
}
