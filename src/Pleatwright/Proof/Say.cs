using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Proof;

/// <summary>The proof's turns of phrase, so that every rule names a place alike.</summary>
internal static class Say
{
    /// <summary>"row 10 (gathering row 3)", "row 12 (2 below gathering row 3)"; "2 rows above gathering row 1".</summary>
    public static string Row(Work work, CableRow row)
    {
        if (row.Index < 0) return $"{Counting.Of(-row.Index, "row")} above gathering row 1";
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        var (gathering, below) = (row.Index / perSpace + 1, row.Index % perSpace);
        return string.Create(CultureInfo.InvariantCulture,
            $"row {row.Index} ({(below == 0 ? "" : $"{below} below ")}gathering row {gathering})");
    }

    /// <summary>"row 12 (…), valley 40 (pleats 40 and 41)"; "rows 3 to 9, valleys 40 to 44 (pleats 40 to 45)".</summary>
    public static string Where(Work work, Place place) => $"{Rows(work, place)}, {Valleys(place.From, place.To)}";

    /// <summary>The rows of a place: one, or the first and the last.</summary>
    public static string Rows(Work work, Place place) => place.Top == place.Bottom
        ? Row(work, place.Top)
        : string.Create(CultureInfo.InvariantCulture, $"rows {place.Top.Index} to {place.Bottom.Index}");

    /// <summary>"valley 40 (pleats 40 and 41)", "valleys 40 to 44 (pleats 40 to 45)".</summary>
    public static string Valleys(Valley from, Valley to) => from == to
        ? string.Create(CultureInfo.InvariantCulture, $"valley {from.Number} (pleats {from.LeftPleat.Number} and {to.RightPleat.Number})")
        : string.Create(CultureInfo.InvariantCulture, $"valleys {from.Number} to {to.Number} (pleats {from.LeftPleat.Number} to {to.RightPleat.Number})");

    /// <summary>"sail red (r)".</summary>
    public static string Thread(Work work, ThreadKey key)
    {
        var name = work.Piece.Thread(key)?.Name ?? "";
        return name.Length == 0 || name == key.ToString() ? $"thread {key}" : $"{name} ({key})";
    }

    /// <summary>"wave at gathering row 2 in sea green (s)".</summary>
    public static string Band(Work work, LaidBand laid) =>
        $"{laid.Stitch.Name} at {Depth(laid.Top, work.Pleating.Gauge.CableRowsPerSpace)} in {Thread(work, laid.Band.Thread)}";

    /// <summary>"gathering row 3", "half a space below gathering row 3".</summary>
    public static string Depth(double depth, int cableRowsPerSpace) => DepthWords.Of(depth, cableRowsPerSpace);

    /// <summary>"half a space", "2 rows".</summary>
    public static string Spaces(double spaces, int cableRowsPerSpace) => DepthWords.Distance(spaces, cableRowsPerSpace);

    /// <summary>"1 strand", "4 strands".</summary>
    public static string Strands(int strands) => Counting.Of(strands, "strand");
}
