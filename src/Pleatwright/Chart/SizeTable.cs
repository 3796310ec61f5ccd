using System.Collections.Immutable;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Chart;

/// <summary>One placement as it falls in one size.</summary>
/// <param name="Figure">The figure.</param>
/// <param name="Copies">Copies of it.</param>
/// <param name="Every">Valleys from one copy to the next.</param>
/// <param name="Gap">Bare valleys between two copies; negative when they overlap by design; 0 for a single copy.</param>
/// <param name="Side">Bare valleys from the nearer side of the cloth to the outermost copy; negative when it falls off.</param>
public readonly record struct SizePlacement(string Figure, int Copies, int Every, int Gap, int Side);

/// <summary>One line of the size table.</summary>
/// <param name="Name">What the maker calls the size.</param>
/// <param name="Piece">The piece in this size, ready to be proved and plated; null when the cloth cannot be made at all.</param>
/// <param name="Pleating">Its pleats, cloth and rows; null when <paramref name="Piece"/> is.</param>
/// <param name="Placements">Its figures, in the order of the piece's placements.</param>
/// <param name="Troubles">Why the size cannot take the design, one sentence each; empty when it can.</param>
public sealed record SizeLine(
    string Name, Piece? Piece, PleatingPlan? Pleating, ImmutableArray<SizePlacement> Placements, ImmutableArray<string> Troubles)
{
    /// <summary>Whether the size takes the design.</summary>
    public bool Fits => Troubles.IsEmpty;
}

/// <summary>One design in many sizes: pleats, cloth, rows, repeats and gaps worked out for each.</summary>
internal static class SizeTable
{
    /// <summary>The piece's own size first, under an empty name, then every size it lists.</summary>
    /// <exception cref="ArgumentException">The piece cannot be laid out even in its own size; see <see cref="Work.Lay"/>.</exception>
    public static ImmutableArray<SizeLine> Of(Piece piece)
    {
        _ = Work.Lay(piece);
        var own = new Size("", piece.Cloth.Form);
        var meetings = Meetings(piece, new PleatingPlan(piece.Cloth));
        return [Line(piece, own, meetings), .. piece.Sizes.Select(s => Line(piece, s, meetings))];
    }

    /// <summary>The piece in one of its sizes.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The cloth cannot take this size; see <see cref="PleatingPlan"/>.</exception>
    public static Piece In(Piece piece, Size size) => SizeFit.Fit(piece, size);

    private static SizeLine Line(Piece piece, Size size, HashSet<(int, int)> meetings)
    {
        Piece fitted;
        try
        {
            fitted = SizeFit.Fit(piece, size);
        }
        catch (ArgumentOutOfRangeException e)
        {
            return new SizeLine(size.Name, null, null, [], [Sentences.Of(e.Why())]);
        }
        var work = Work.Lay(fitted);
        return new SizeLine(size.Name, fitted, work.Pleating,
            [.. fitted.Placements.Select(p => Placed(fitted, p, work.Pleating))],
            [.. FallingOff(work), .. AccentsOff(work), .. Below(piece, fitted), .. NewMeetings(fitted, work.Pleating, meetings), .. Crowded(work)]);
    }

    private static SizePlacement Placed(Piece piece, Placement placement, PleatingPlan pleating)
    {
        var figure = piece.Figure(placement.Figure)!;
        var (left, right) = Sides(figure, placement, pleating);
        return new SizePlacement(placement.Figure, placement.Repeat.Count, placement.Repeat.Every,
            placement.Repeat.Count > 1 ? placement.Repeat.Every - figure.Width : 0, Math.Min(left - 1, pleating.Valleys - right));
    }

    // Valleys of the outermost columns of all copies together.
    private static (int Left, int Right) Sides(Figure figure, Placement placement, PleatingPlan pleating) => (
        placement.Left(figure, pleating, 0).Number, placement.Left(figure, pleating, placement.Repeat.Count - 1).Number + figure.Width - 1);

    private static IEnumerable<string> FallingOff(Work work)
    {
        foreach (var strays in work.Strays.GroupBy(s => s.Placement))
        {
            var name = work.Piece.Placements[strays.Key].Figure;
            var pleating = work.Pleating;
            var aside = strays.Max(s => Math.Max(1 - s.From.Number, s.To.Number - pleating.Valleys));
            var above = strays.Max(s => -s.Row.Index);
            var below = strays.Max(s => s.Row.Index - pleating.CableRows + 1);
            if (aside > 0)
                yield return $"“{name}” runs {Counting.Of(aside, "valley")} off the side: it needs {pleating.Pleats + 2 * aside} pleats and this size has {pleating.Pleats}.";
            if (above > 0) yield return $"“{name}” runs {Counting.Of(above, "cable row")} above gathering row 1.";
            if (below > 0) yield return $"“{name}” runs {Counting.Of(below, "cable row")} below the last gathering row, {pleating.Cloth.GatheringRows}.";
        }
    }

    private static IEnumerable<string> Below(Piece piece, Piece fitted)
    {
        var rows = fitted.Cloth.GatheringRows;
        foreach (var band in piece.Bands.Where(b => b.GatheringRow.Number > rows))
            yield return $"The {band.Stitch} band on gathering row {band.GatheringRow.Number} lies below the last gathering row, {rows}.";
        foreach (var accent in piece.Accents.Where(a => a.GatheringRow.Number > rows))
            yield return $"The {accent.Accent} on gathering row {accent.GatheringRow.Number} lies below the last gathering row, {rows}.";
    }

    private static IEnumerable<string> AccentsOff(Work work) =>
        work.Accents.Where(a => !a.IsOnCloth(work)).DistinctBy(a => a.Index)
            .Select(a => $"The {a.Mark.Accent} on gathering row {a.Mark.GatheringRow.Number} runs off the cloth.");

    private static IEnumerable<string> NewMeetings(Piece piece, PleatingPlan pleating, HashSet<(int, int)> known) =>
        Meetings(piece, pleating).Where(m => !known.Contains(m)).Order()
            .Select(m => m.Item1 == m.Item2
                ? $"Copies of “{piece.Placements[m.Item1].Figure}” run into each other."
                : $"“{piece.Placements[m.Item1].Figure}” and “{piece.Placements[m.Item2].Figure}” run into each other.");

    // The uppermost row alone: those below it are told by the proof.
    private static IEnumerable<string> Crowded(Work work) => Enumerable.Range(0, work.CableRows).Where(y => Crowding.At(work, new CableRow(y))).Take(1)
        .Select(y => $"The pleats lie {work.Pleating.PitchAt(y).Say(UnitSystem.Metric)} apart at cable row {y}, closer than a pleat is thick ({work.Pleating.Gauge.PleatThickness.Say(UnitSystem.Metric)}).");

    // Which placements have copies that lie over one another, stitch for stitch.
    internal static HashSet<(int, int)> Meetings(Piece piece, PleatingPlan pleating)
    {
        var meetings = new HashSet<(int, int)>();
        var lying = new (int Placement, int Copy)[pleating.Valleys * pleating.CableRows];
        for (var i = 0; i < piece.Placements.Length; i++)
        {
            var placement = piece.Placements[i];
            var figure = placement.Mirror ? piece.Figure(placement.Figure)!.Mirrored() : piece.Figure(placement.Figure)!;
            for (var copy = 0; copy < placement.Repeat.Count; copy++)
                Lie(figure, placement.Left(figure, pleating, copy).Number, placement.Top(pleating).Index, (i + 1, copy));
        }
        return meetings;

        void Lie(Figure figure, int left, int top, (int Placement, int Copy) me)
        {
            for (var r = Math.Max(0, -top); r < figure.Height && top + r < pleating.CableRows; r++)
                for (var c = Math.Max(0, 1 - left); c < figure.Width && left + c <= pleating.Valleys; c++)
                {
                    if (figure.Rows[r][c] == Figure.Bare) continue;
                    ref var there = ref lying[(top + r) * pleating.Valleys + left + c - 1];
                    if (there.Placement > 0 && there != me) meetings.Add((there.Placement - 1, me.Placement - 1));
                    there = me;
                }
        }
    }
}
