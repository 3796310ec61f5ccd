using System.Globalization;

namespace Pleatwright.Chart;

/// <summary>A cell of the lattice in words, as a maker would name it aloud.</summary>
public static class Where
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

    /// <summary>"Up cable, sail red", "Bare pleats".</summary>
    public static string What(Work work, Valley valley, CableRow row)
    {
        if (work.ThreadAt(valley, row) is not { } key) return "Bare pleats";
        var level = Lattice.LevelAt(valley, row, work.PhaseAt(valley, row)) == Level.Up ? "Up" : "Down";
        return $"{level} cable, {work.Piece.Thread(key)!.Name}";
    }

    private static string Count(int number) => number.ToString(CultureInfo.InvariantCulture);
}
