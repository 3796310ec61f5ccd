using Pleatwright.Measure;
using Pleatwright.Order;

namespace Pleatwright.App.Commands;

/// <summary>Backsmocking, bands and accents as JSON.</summary>
internal static class BandReport
{
    public static object Back(WorkingOrder order) => order.Backsmock.Rows.Select(r => new
    {
        gatheringRow = r.Row.Number,
        fromPleat = r.From.Number,
        toPleat = r.To.Number,
        cables = r.Cables,
        needlefuls = r.Needlefuls,
        turned = r.Turned,
        starts = r.Carried > Length.Zero ? StartKind.Carry : StartKind.New,
        tieOff = !r.KeepsThread,
        carriedMm = Math.Round(r.Carried.Millimetres, 4),
    });

    public static object Bands(WorkingOrder order) => order.Bands.Steps.Select(s => new
    {
        band = s.Band.Index,
        stitch = s.Band.Stitch.Name,
        thread = s.Band.Band.Thread.ToString(),
        row = s.Pass.Row,
        journey = s.Pass.Journey,
        fromPleat = s.Begin.From.Pleat.Number,
        toPleat = s.End.To.Pleat.Number,
        stitches = s.Count,
        turned = s.Pass.Turned,
        starts = s.Thread,
        tieOff = s.TieOff,
        lengthMm = Math.Round(s.Length.Millimetres, 4),
        carriedMm = Math.Round(s.Carried.Millimetres, 4),
    });

    /// <summary>Needlefuls, turns and carries of runs, bands, accents and backsmocking together.</summary>
    public static object InAll(WorkingOrder order) => new
    {
        starts = order.Needlefuls,
        ofRuns = order.Starts,
        ofBands = order.Bands.Starts,
        ofAccents = order.Bands.AccentNeedlefuls,
        ofBacksmocking = order.Backsmock.Needlefuls,
        turns = order.TurnsInAll,
        carriedMm = Math.Round(order.CarriedInAll.Millimetres, 4),
    };

    /// <summary>
    /// The same in words: "In all 12 starts: 9 for bands, 3 for backsmocking; and 9 accents, each begun and fastened by itself, for which a needle is threaded 3 times. 6 turns, 2 in carried."
    /// </summary>
    public static string Words(WorkingOrder order, UnitSystem units)
    {
        (int Starts, string What)[] parts = [(order.Starts, "runs"), (order.Bands.Starts, "bands"), (order.Backsmock.Needlefuls, "backsmocking")];
        var accents = order.Bands.Accents.Length;
        return $"In all {Counting.Of(parts.Sum(p => p.Starts), "start")}: {string.Join(", ", parts.Where(p => p.Starts > 0).Select(p => $"{p.Starts} for {p.What}"))}"
            + (accents > 0 ? $"; and {Counting.Of(accents, "accent")}, each begun and fastened by itself, for which a needle is threaded {Counting.Of(order.Bands.AccentNeedlefuls, "time")}" : "")
            + $". {Counting.Of(order.TurnsInAll, "turn")}, {order.CarriedInAll.Say(units)} carried.";
    }

    public static object Accents(WorkingOrder order) => order.Bands.Accents.Select(a => new
    {
        accent = a.Laid.Accent.Name,
        thread = a.Laid.Mark.Thread.ToString(),
        valley = a.Laid.Valley.Number,
        spacesBelowRow1 = a.Laid.Depth,
        lengthMm = Math.Round(a.Length.Millimetres, 4),
    });
}
