using Pleatwright.Chart.Accents;
using Pleatwright.Cloth;
using Pleatwright.Thread;

namespace Pleatwright.Chart.Edit;

/// <summary>Puts accents on the cloth, moves and changes them, and takes them off.</summary>
internal static class Accenting
{
    /// <summary>Puts an accent on a valley and a cable row.</summary>
    /// <exception cref="ArgumentException">No such accent or thread, or it would not lie on the cloth.</exception>
    public static Piece Put(Piece piece, string accent, Valley valley, CableRow row, ThreadKey thread) => Put(piece, MarkAt(piece, accent, valley, row, thread));

    /// <summary>An accent on a valley and a cable row, told from the gathering row on or above it; it is not put on.</summary>
    public static AccentMark MarkAt(Piece piece, string accent, Valley valley, CableRow row, ThreadKey thread)
    {
        var (gathering, drop) = PlaceOf(piece, row);
        return new AccentMark(accent, Centre.At(valley), gathering, thread) { Drop = drop };
    }

    /// <summary>Puts an accent on the cloth, over all others.</summary>
    /// <exception cref="ArgumentException">It has a fault; see <see cref="Fault"/>.</exception>
    public static Piece Put(Piece piece, AccentMark mark) => Fault(piece, mark) is { } fault
        ? throw new ArgumentException(fault)
        : piece with { Accents = piece.Accents.Add(mark) };

    /// <summary>Changes an accent; it keeps its place among the others.</summary>
    /// <exception cref="ArgumentException">It has a fault; see <see cref="Fault"/>.</exception>
    public static Piece Change(Piece piece, int index, AccentMark mark)
    {
        if (piece.Accents[index] == mark) return piece;
        return Fault(piece, mark) is { } fault ? throw new ArgumentException(fault) : piece with { Accents = piece.Accents.SetItem(index, mark) };
    }

    /// <summary>Moves an accent with all its copies by valleys and cable rows.</summary>
    /// <exception cref="ArgumentException">It would not lie on the cloth.</exception>
    public static Piece By(Piece piece, int index, int valleys, int rows)
    {
        var mark = piece.Accents[index];
        if (rows != 0)
        {
            var perSpace = piece.Cloth.Gauge.CableRowsPerSpace;
            var (gathering, drop) = PlaceOf(piece, new CableRow(mark.GatheringRow.CableRow(perSpace).Index + mark.Drop + rows));
            mark = mark with { GatheringRow = gathering, Drop = drop };
        }
        if (valleys != 0)
        {
            var pleating = new PleatingPlan(piece.Cloth);
            var valley = mark.Centre.On(pleating).Number + valleys;
            if (valley < 1) throw new ArgumentException(NotOnCloth);
            mark = mark with { Centre = mark.Centre.IsHung ? mark.Centre.By(valleys) : Centre.At(new Valley(valley)) };
        }
        return Change(piece, index, mark);
    }

    /// <summary>Works an accent in another thread.</summary>
    /// <exception cref="ArgumentException">No such thread.</exception>
    public static Piece Recolour(Piece piece, int index, ThreadKey thread) => Change(piece, index, piece.Accents[index] with { Thread = thread });

    /// <summary>Takes an accent off with all its copies.</summary>
    public static Piece TakeOff(Piece piece, int index) => piece with { Accents = piece.Accents.RemoveAt(index) };

    /// <summary>Takes off every accent of which a copy lies in an area.</summary>
    public static Piece TakeOff(Work work, Area area)
    {
        var gone = work.Accents.Where(a => area.Contains(a.Valley, RowOf(work, a))).Select(a => a.Index).ToHashSet();
        return gone.Count == 0 ? work.Piece : work.Piece with { Accents = [.. work.Piece.Accents.Where((_, i) => !gone.Contains(i))] };
    }

    /// <summary>The accent that covers a cell, the topmost and nearest where several do; null where none does.</summary>
    public static LaidAccent? At(Work work, Valley valley, CableRow row)
    {
        LaidAccent? best = null;
        var nearest = int.MaxValue;
        foreach (var laid in work.Accents)
        {
            if (!laid.Covers(valley, row, work.Pleating.Gauge)) continue;
            var away = Math.Abs(laid.Valley.Number - valley.Number) + Math.Abs(RowOf(work, laid).Index - row.Index);
            if (away <= nearest) (best, nearest) = (laid, away);
        }
        return best;
    }

    /// <summary>The cable row nearest to an accent.</summary>
    public static CableRow RowOf(Work work, LaidAccent laid) => new((int)Math.Round(laid.Depth * work.Pleating.Gauge.CableRowsPerSpace));

    /// <summary>What is wrong with an accent on a piece, as a sentence; null when nothing is.</summary>
    public static string? Fault(Piece piece, AccentMark mark)
    {
        if (Accent.Named(mark.Accent) is not { } accent) return $"No accent is called “{mark.Accent}”.";
        if (piece.Thread(mark.Thread) is null) return $"No thread has the letter '{mark.Thread}'.";
        if (mark.GatheringRow.Number < 1 || mark.GatheringRow.Number > piece.Cloth.GatheringRows) return $"The cloth has gathering rows 1 to {piece.Cloth.GatheringRows}.";
        if (mark.Offset is < -Band.MostOffset or > Band.MostOffset || mark.Drop is < -Band.MostOffset or > Band.MostOffset) return $"An accent lies at most {Band.MostOffset} quarter spaces and {Band.MostOffset} cable rows off its gathering row.";
        if (mark.Size is { } size && (accent.Size is not { } choice || size < choice.Least || size > choice.Most))
            return accent.Size is { } c ? $"A {accent.Name} is {c.Least} to {c.Most} pleats long." : $"A {accent.Name} has no length.";
        if (mark.Upright && !accent.MayBeUpright) return $"A {accent.Name} lies but one way.";
        if (mark.Repeat.Fault is { } repeat) return repeat;
        var pleats = new PleatingPlan(piece.Cloth);
        if (mark.Centre.Panel is { } panel && pleats.Panel(panel) is null) return $"No panel is called “{panel}”.";
        var centre = mark.Centre.On(pleats);
        var depth = LaidAccent.DepthOf(mark, piece.Cloth.Gauge.CableRowsPerSpace);
        return centre.Number < 1 || centre.Number >= pleats.Pleats || depth < -Stitches.Stitch.Hair || depth > piece.Cloth.GatheringRows - 1 + Stitches.Stitch.Hair ? NotOnCloth : null;
    }

    private const string NotOnCloth = "It would not lie on the cloth.";

    // A cable row told from the gathering row on or above it.
    private static (GatheringRow Row, int Drop) PlaceOf(Piece piece, CableRow row)
    {
        var perSpace = piece.Cloth.Gauge.CableRowsPerSpace;
        var gathering = (int)Math.Clamp(Math.Floor((double)row.Index / perSpace) + 1, 1, piece.Cloth.GatheringRows);
        return (new GatheringRow(gathering), row.Index - (gathering - 1) * perSpace);
    }
}
