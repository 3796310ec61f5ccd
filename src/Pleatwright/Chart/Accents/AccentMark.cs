using System.Collections.Immutable;
using Pleatwright.Cloth;
using Pleatwright.Thread;

namespace Pleatwright.Chart.Accents;

/// <summary>An accent put on the cloth.</summary>
/// <param name="Accent">Its name; see <see cref="Accents.Accent.All"/>.</param>
/// <param name="Centre">The valley it is centred on.</param>
/// <param name="GatheringRow">The gathering row it lies on.</param>
/// <param name="Thread">Its thread.</param>
public sealed record AccentMark(string Accent, Centre Centre, GatheringRow GatheringRow, ThreadKey Thread)
{
    /// <summary>Quarter spaces by which it lies lower than its gathering row; negative for higher.</summary>
    public int Offset { get; init; }

    /// <summary>Cable rows by which it lies lower still; negative for higher.</summary>
    public int Drop { get; init; }

    /// <summary>Pleats it is long; nothing for what is usual.</summary>
    public int? Size { get; init; }

    /// <summary>Whether it stands along the valley rather than across the pleats.</summary>
    public bool Upright { get; init; }

    /// <summary>Copies about the centre.</summary>
    public Repeat Repeat { get; init; } = Repeat.Once;
}

/// <summary>One accent in its place.</summary>
/// <param name="Index">Its mark's place among the piece's accents, from 0.</param>
/// <param name="Mark">The mark asked for.</param>
/// <param name="Accent">What it is.</param>
/// <param name="Valley">The valley it is centred on; may be off the cloth.</param>
/// <param name="Depth">Spaces below gathering row 1.</param>
public readonly record struct LaidAccent(int Index, AccentMark Mark, Accent Accent, Valley Valley, double Depth)
{
    /// <summary>Pleats it is long.</summary>
    public int Size => Mark.Size ?? Accent.Size?.Usual ?? 0;

    /// <summary>Spaces below gathering row 1 at which a mark lies.</summary>
    public static double DepthOf(AccentMark mark, int cableRowsPerSpace) =>
        mark.GatheringRow.Number - 1 + mark.Offset / 4.0 + (double)mark.Drop / cableRowsPerSpace;

    /// <summary>Whether it covers a cell of the lattice.</summary>
    public bool Covers(Valley valley, CableRow row, Gauge gauge)
    {
        double left = double.PositiveInfinity, right = double.NegativeInfinity, top = left, bottom = right;
        foreach (var shape in Accent.Shapes(this, gauge))
        {
            (left, right) = (Math.Min(left, Math.Min(shape.From.Across, shape.To.Across)), Math.Max(right, Math.Max(shape.From.Across, shape.To.Across)));
            (top, bottom) = (Math.Min(top, Math.Min(shape.From.Down, shape.To.Down)), Math.Max(bottom, Math.Max(shape.From.Down, shape.To.Down)));
        }
        double down = 2 * row.Index + 1; // the middle of the row
        return valley.Number > left - 0.5 && valley.Number < right + 0.5 && down > top - 1.01 && down < bottom + 1.01;
    }

    /// <summary>Whether all of it lies on the cloth.</summary>
    public bool IsOnCloth(Work work)
    {
        var half = Accent.Across(this) / 2;
        return Valley.Number >= half && Valley.Number + half <= work.Pleating.Pleats
            && Depth > -Stitches.Stitch.Hair && Depth < work.Piece.Cloth.GatheringRows - 1 + Stitches.Stitch.Hair;
    }

    /// <summary>Lays the accents of a piece.</summary>
    /// <exception cref="ArgumentException">An accent or a thread is unknown, or they lie in more than <see cref="Work.MostAccentsLaid"/> places.</exception>
    public static ImmutableArray<LaidAccent> Lay(Piece piece, PleatingPlan pleating)
    {
        if (piece.Accents.Sum(m => (long)m.Repeat.Count) > Work.MostAccentsLaid)
            throw new ArgumentException(FormattableString.Invariant($"the accents together lie in more than {Work.MostAccentsLaid:#,0} places"));
        var laid = ImmutableArray.CreateBuilder<LaidAccent>();
        for (var i = 0; i < piece.Accents.Length; i++)
        {
            var mark = piece.Accents[i];
            var accent = Accents.Accent.Named(mark.Accent) ?? throw new ArgumentException($"No accent is called “{mark.Accent}”.");
            if (piece.Thread(mark.Thread) is null) throw new ArgumentException($"No thread has the letter '{mark.Thread}'.");
            var centre = mark.Centre.On(pleating).Number;
            for (var copy = 0; copy < mark.Repeat.Count; copy++)
                laid.Add(new LaidAccent(i, mark, accent, new Valley(centre + mark.Repeat.OffsetOf(copy)), DepthOf(mark, pleating.Gauge.CableRowsPerSpace)));
        }
        return laid.ToImmutable();
    }
}
