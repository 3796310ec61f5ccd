using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Chart.Edit;

/// <summary>Puts geometric bands on gathering rows, changes them and takes them off.</summary>
internal static class Bands
{
    /// <summary>Puts a band on a gathering row, instead of any band of the same stitch in the same place.</summary>
    /// <exception cref="ArgumentException">The band has a fault; see <see cref="Fault"/>.</exception>
    public static Piece Put(Piece piece, Band band)
    {
        if (Fault(piece, band) is { } fault) throw new ArgumentException(fault);
        var others = piece.Bands.RemoveAll(b => (b.Stitch, b.GatheringRow, b.Offset, b.Drop, b.Panel, b.From) == (band.Stitch, band.GatheringRow, band.Offset, band.Drop, band.Panel, band.From));
        return piece with { Bands = others.Add(band) };
    }

    /// <summary>Changes a band; it keeps its place among the others.</summary>
    /// <exception cref="ArgumentException">The band has a fault; see <see cref="Fault"/>.</exception>
    public static Piece Change(Piece piece, int index, Band band)
    {
        if (Fault(piece, band) is { } fault) throw new ArgumentException(fault);
        return piece.Bands[index] == band ? piece : piece with { Bands = piece.Bands.SetItem(index, band) };
    }

    /// <summary>Takes a band off.</summary>
    public static Piece TakeOff(Piece piece, Band band) => piece with { Bands = piece.Bands.Remove(band) };

    /// <summary>What is wrong with a band on a piece, as a sentence; null when nothing is.</summary>
    public static string? Fault(Piece piece, Band band)
    {
        if (BandStitch.Named(band.Stitch) is not { } stitch) return $"No stitch is called “{band.Stitch}”.";
        if (piece.Thread(band.Thread) is null) return $"No thread has the letter '{band.Thread}'.";
        if (band.GatheringRow.Number < 1 || band.GatheringRow.Number > piece.Cloth.GatheringRows) return $"The cloth has gathering rows 1 to {piece.Cloth.GatheringRows}.";
        if (band.Offset is < -Band.MostOffset or > Band.MostOffset || band.Drop is < -Band.MostOffset or > Band.MostOffset) return $"A band lies at most {Band.MostOffset} quarter spaces and {Band.MostOffset} cable rows off its gathering row.";
        if (band.Rows is < 1 or > Band.MostRows) return $"A band is worked 1 to {Band.MostRows} times.";
        if (Outside(stitch.Steps, band.Steps) is { } steps) return $"{stitch.Name.Capital()} takes {steps.Least} to {steps.Most} steps.";
        if (Outside(stitch.Height, band.Height) is { } height) return $"{stitch.Name.Capital()} is {height.Least} to {height.Most} quarter spaces high.";
        if ((band.Steps, stitch.Steps) is (not null, null)) return $"{stitch.Name.Capital()} takes no steps.";
        if ((band.Height, stitch.Height) is (not null, null)) return $"{stitch.Name.Capital()} has no height to choose.";
        if (band.Ends != BandEnds.Cut && !stitch.TakesEnds(band)) return $"{stitch.Name.Capital()} has no ends to choose.";
        if (band.WorkFrom is not null && stitch.OnLattice) return $"{stitch.Name.Capital()} is worked as its rows are ordered.";
        var pleating = new PleatingPlan(piece.Cloth);
        var pleats = pleating.Pleats;
        if (band.Panel is { } panel)
        {
            if (pleating.Panel(panel) is not { } share) return $"No panel is called “{panel}”.";
            if (share.Pleats < 2) return $"“{panel}” has no two pleats of its own.";
            pleats = share.Pleats;
        }
        int from = band.From?.Number ?? 1, to = band.To?.Number ?? pleats;
        if (from < 1 || to > pleats) return band.Panel is null ? $"The cloth has pleats 1 to {pleats}." : $"“{band.Panel}” has pleats 1 to {pleats}.";
        return to > from ? null : "A band needs two pleats at least.";
    }

    /// <summary>A band of another stitch in the same place: what the other stitch does not take is left out.</summary>
    public static Band WithStitch(Band band, BandStitch stitch)
    {
        var other = new Band(stitch.Name, band.GatheringRow, band.Thread)
        {
            Offset = band.Offset, Drop = band.Drop, Rows = band.Rows, UpsideDown = band.UpsideDown, Panel = band.Panel, From = band.From, To = band.To,
        };
        return other with { Ends = stitch.TakesEnds(other) ? band.Ends : BandEnds.Cut, WorkFrom = stitch.OnLattice ? null : band.WorkFrom };
    }

    /// <summary>Index of the band a cell of the cloth shows, the topmost where several do; null when it shows none.</summary>
    public static int? IndexAt(Work work, Valley valley, CableRow row)
    {
        if (work.IsWorked(valley, row)) return work.OriginAt(valley, row) is null ? OfCables(work, valley, row) : null;
        var depth = (double)row.Index / work.Pleating.Gauge.CableRowsPerSpace;
        var reach = 0.5 / work.Pleating.Gauge.CableRowsPerSpace + Stitch.Hair;
        for (var i = work.Bands.Length - 1; i >= 0; i--)
        {
            var laid = work.Bands[i];
            if (depth < laid.Highest - reach || depth > laid.Lowest + reach) continue;
            foreach (var pass in laid.Passes)
                foreach (var stitch in pass.Stitches)
                    if (stitch.Valley == valley && depth >= Math.Min(stitch.From.Depth, stitch.To.Depth) - reach && depth <= Math.Max(stitch.From.Depth, stitch.To.Depth) + reach)
                        return laid.Index;
        }
        return null;
    }

    private static int? OfCables(Work work, Valley valley, CableRow row)
    {
        for (var i = work.Piece.Bands.Length - 1; i >= 0; i--)
        {
            var band = work.Piece.Bands[i];
            if (BandStitch.Named(band.Stitch) is not { OnLattice: true } stitch || Array.Exists([.. work.Bands], b => b.Index == i)) continue;
            var top = (int)Math.Round(LaidBand.TopOf(band, work.Pleating.Gauge.CableRowsPerSpace) * work.Pleating.Gauge.CableRowsPerSpace);
            var fit = BandFit.Of(stitch, band, work.Pleating);
            if (row.Index >= top && row.Index < top + band.Rows && valley.Number >= fit.First.Number && valley.Number < fit.Last.Number) return i;
        }
        return null;
    }

    private static Choice? Outside(Choice? choice, int? chosen) =>
        choice is { } c && chosen is { } n && (n < c.Least || n > c.Most) ? c : null;
}
