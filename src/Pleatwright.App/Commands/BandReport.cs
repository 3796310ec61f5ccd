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
        lengthMm = Math.Round(s.Length.Millimetres, 4),
    });

    public static object Accents(WorkingOrder order) => order.Bands.Accents.Select(a => new
    {
        accent = a.Laid.Accent.Name,
        thread = a.Laid.Mark.Thread.ToString(),
        valley = a.Laid.Valley.Number,
        spacesBelowRow1 = a.Laid.Depth,
        lengthMm = Math.Round(a.Length.Millimetres, 4),
    });
}
