using System.Globalization;
using Pleatwright.Measure;

namespace Pleatwright.Chart;

/// <summary>A cell of the lattice in words, as a maker would name it aloud.</summary>
internal static class Where
{
    /// <summary>"Valley 66, the centre. Row 20, on gathering row 5. Up cable, sail red."</summary>
    public static string Cell(Work work, Valley valley, CableRow row) =>
        $"{Of(work, valley)}. {Of(work, row)}. {What(work, valley, row)}.";

    /// <summary>"Valley 66, the centre", "Valley 40, 26 left of the centre".</summary>
    public static string Of(Work work, Valley valley)
    {
        var away = valley.Number - work.Pleating.CentreValley;
        var side = away == 0 ? "the centre" : $"{Count(Math.Abs(away))} {(away < 0 ? "left" : "right")} of the centre";
        return $"Valley {Count(valley.Number)}, {side}";
    }

    /// <summary>"Row 20, on gathering row 5", "Row 22, 2 below gathering row 5".</summary>
    public static string Of(Work work, CableRow row)
    {
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        var gathering = GatheringRow.AtOrAbove(row, perSpace);
        var below = row.Index - gathering.CableRow(perSpace).Index;
        return $"Row {Count(row.Index)}, {(below == 0 ? "on" : $"{Count(below)} below")} gathering row {Count(gathering.Number)}";
    }

    /// <summary>"Up cable, sail red", "Knot, gull grey, over up cable, sail red", "Baby wave, slate", "Bare pleats".</summary>
    public static string What(Work work, Valley valley, CableRow row)
    {
        var under = Under(work, valley, row);
        return Edit.Accenting.At(work, valley, row) is { } accent
            ? $"{accent.Accent.Name.Capital()}, {work.Piece.Thread(accent.Mark.Thread)!.Name}, over {under.Uncapital()}"
            : under;
    }

    /// <summary>"Trellis, its top at gathering row 2, 1 space high, 3 times" for a band, wherever its cloth ends.</summary>
    public static string Of(Band band, int cableRowsPerSpace)
    {
        var stitch = Stitches.BandStitch.Named(band.Stitch);
        var top = Stitches.LaidBand.TopOf(band, cableRowsPerSpace);
        return $"{band.Stitch.Capital()}, its top at {DepthWords.Of(top, cableRowsPerSpace)}"
            + (stitch?.HeightOf(band) is > 0 and var height ? $", {DepthWords.Distance(height / 4.0, cableRowsPerSpace)} high" : "") + (band.Rows > 1 ? $", {Count(band.Rows)} times" : "");
    }

    /// <summary>"Knot on valley 66, at gathering row 2." for an accent; "Knot, 3 of them about valley 66, 12 valleys apart, at…".</summary>
    public static string Of(Accents.AccentMark mark, Cloth.PleatingPlan pleating)
    {
        var perSpace = pleating.Gauge.CableRowsPerSpace;
        var valley = Count(mark.Centre.On(pleating).Number);
        var depth = DepthWords.Of(Accents.LaidAccent.DepthOf(mark, perSpace), perSpace);
        return mark.Repeat.Count > 1
            ? $"{mark.Accent.Capital()}, {Count(mark.Repeat.Count)} of them about valley {valley}, {Count(mark.Repeat.Every)} valleys apart, at {depth}."
            : $"{mark.Accent.Capital()} on valley {valley}, at {depth}.";
    }

    /// <summary>"Valley 66 · up · r sail red", "Valley 66 · down · clears": what a hand does to a cell.</summary>
    public static string Aim(Work work, Valley valley, CableRow row, Pleatwright.Thread.ThreadKey? thread) =>
        $"Valley {Count(valley.Number)} · {(Lattice.LevelAt(valley, row, work.PhaseAt(valley, row)) == Level.Up ? "up" : "down")} · "
        + (thread is { } key ? $"{key} {work.Piece.Thread(key)?.Name}".TrimEnd() : "clears");

    /// <summary>"Gap 6 pleats, room for 1 more", "The copies join, no room for more", "Gap 1 pleat, 2 run off the cloth".</summary>
    public static string Of(Edit.Gap gap)
    {
        var between = gap.Pleats switch { >= 0 => $"Gap {Counting.Of(gap.Pleats, "pleat")}", -1 => "The copies join", _ => "The copies overlap" };
        var room = gap.Room switch { > 0 => $"room for {Count(gap.Room)} more", 0 => "no room for more", -1 => "1 runs off the cloth", _ => $"{Count(-gap.Room)} run off the cloth" };
        return $"{between}, {room}";
    }

    private static string Under(Work work, Valley valley, CableRow row)
    {
        if (work.ThreadAt(valley, row) is { } key)
        {
            var level = Lattice.LevelAt(valley, row, work.PhaseAt(valley, row)) == Level.Up ? "Up" : "Down";
            return $"{level} cable, {work.Piece.Thread(key)!.Name}";
        }
        if (work.Bands.IsEmpty || Edit.Bands.IndexAt(work, valley, row) is not { } index) return "Bare pleats";
        var band = work.Piece.Bands[index];
        return $"{band.Stitch.Capital()}, {work.Piece.Thread(band.Thread)!.Name}";
    }

    private static string Count(int number) => number.ToString(CultureInfo.InvariantCulture);
}
