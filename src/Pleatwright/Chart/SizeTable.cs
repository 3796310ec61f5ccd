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
/// <param name="Refusals">Why the size cannot take the design; empty when it can.</param>
public sealed record SizeLine(
    string Name, Piece? Piece, PleatingPlan? Pleating, ImmutableArray<SizePlacement> Placements, ImmutableArray<SizeRefusal> Refusals)
{
    /// <summary>Whether the size takes the design.</summary>
    public bool Fits => Refusals.IsEmpty;

    /// <summary>Why it does not, one sentence each.</summary>
    public ImmutableArray<string> Troubles => [.. Refusals.Select(SizeWords.Of)];
}

/// <summary>Why a size cannot take the design.</summary>
public enum RefusalKind
{
    /// <summary>The cloth cannot be made; <see cref="SizeRefusal.Words"/> say why.</summary>
    NoCloth,

    /// <summary>It runs over the side of the cloth.</summary>
    OffSide,

    /// <summary>It runs over the edge of the panel it hangs on.</summary>
    OffPanel,

    /// <summary>It hangs on a panel that this size has not.</summary>
    NoPanel,

    /// <summary>It reaches above gathering row 1.</summary>
    Above,

    /// <summary>It reaches below the last gathering row.</summary>
    Below,

    /// <summary>It lies on a gathering row that is not there.</summary>
    NoRow,

    /// <summary>It runs into <see cref="SizeRefusal.Other"/>, or its own copies into each other.</summary>
    Meets,

    /// <summary>Pleats lie closer than a pleat is thick.</summary>
    Crowded,
}

/// <summary>One reason why a size cannot take the design, by figure and panel, and how much is needed without moving anything.</summary>
/// <param name="Kind">The reason.</param>
/// <param name="What">The figure, band or accent it is about, as it is named; empty when it is about the cloth.</param>
public readonly record struct SizeRefusal(RefusalKind Kind, string What)
{
    /// <summary>The panel it is about, or null.</summary>
    public string? Panel { get; init; }

    /// <summary>The other figure.</summary>
    public string? Other { get; init; }

    /// <summary>By how many valleys or cable rows; the cable row that is crowded; the gathering row that is not there.</summary>
    public int By { get; init; }

    /// <summary>Pleats that the cloth, or the panel, has.</summary>
    public int Has { get; init; }

    /// <summary>Pleats that it needs, with everything where it is, an even number.</summary>
    public int Needs { get; init; }

    /// <summary>What else is to be said.</summary>
    public string? Words { get; init; }
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
            return new SizeLine(size.Name, null, null, [], [new SizeRefusal(RefusalKind.NoCloth, "") { Words = Sentences.Of(e.Why()) }]);
        }
        var work = Work.Lay(fitted);
        return new SizeLine(size.Name, fitted, work.Pleating,
            [.. fitted.Placements.Select(p => Placed(fitted, p, work.Pleating))],
            [.. FallingOff(work), .. OverPanels(piece, work), .. AccentsOff(work), .. Below(piece, fitted), .. NewMeetings(fitted, work.Pleating, meetings), .. Crowded(work)]);
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

    private static IEnumerable<SizeRefusal> FallingOff(Work work)
    {
        foreach (var strays in work.Strays.GroupBy(s => s.Placement))
        {
            var placement = work.Piece.Placements[strays.Key];
            var pleating = work.Pleating;
            var aside = strays.Max(s => Math.Max(1 - s.From.Number, s.To.Number - pleating.Valleys));
            var above = strays.Max(s => -s.Row.Index);
            var below = strays.Max(s => s.Row.Index - pleating.CableRows + 1);
            // What hangs on a panel is told by its panel.
            if (aside > 0 && placement.Centre.Panel is null)
                yield return new SizeRefusal(RefusalKind.OffSide, placement.Figure) { By = aside, Has = pleating.Pleats, Needs = pleating.Pleats + 2 * aside };
            if (above > 0) yield return new SizeRefusal(RefusalKind.Above, placement.Figure) { By = above };
            if (below > 0) yield return new SizeRefusal(RefusalKind.Below, placement.Figure) { By = below, Has = pleating.Cloth.GatheringRows };
        }
    }

    // What hangs on a panel stays on it, unless it lies across its edge in the design itself.
    private static IEnumerable<SizeRefusal> OverPanels(Piece piece, Work work)
    {
        var own = new PleatingPlan(piece.Cloth);
        foreach (var (was, now) in piece.Placements.Zip(work.Piece.Placements))
        {
            if (was.Centre.Panel is not { } panel) continue;
            if (now.Centre.Panel is not { } there)
            {
                yield return new SizeRefusal(RefusalKind.NoPanel, was.Figure) { Panel = panel };
                continue;
            }
            var figure = piece.Figure(was.Figure)!;
            if (Hanging.Over(was, figure, own) is null && Hanging.Over(now, figure, work.Pleating) is { } over)
                yield return new SizeRefusal(RefusalKind.OffPanel, was.Figure) { Panel = there, By = over.Valleys, Has = over.Has, Needs = over.Needs };
        }
        foreach (var (was, now) in piece.Accents.Where(a => a.GatheringRow.Number <= work.Piece.Cloth.GatheringRows).Zip(work.Piece.Accents))
            if (was.Centre.Panel is { } panel && now.Centre.Panel is null) yield return new SizeRefusal(RefusalKind.NoPanel, was.Accent) { Panel = panel };
        foreach (var band in piece.Bands.Where(b => b.Panel is not null && b.GatheringRow.Number <= work.Piece.Cloth.GatheringRows))
        {
            var now = work.Piece.Bands.Where(b => b.Panel is not null && b with { Panel = band.Panel, From = band.From, To = band.To } == band).ToArray();
            if (now.Length == 0) yield return new SizeRefusal(RefusalKind.NoPanel, band.Stitch) { Panel = band.Panel };
            else if (Array.Find(now, b => b.To?.Number > work.Pleating.Panel(b.Panel!)!.Value.Pleats) is { } over)
            {
                var has = work.Pleating.Panel(over.Panel!)!.Value.Pleats;
                var by = over.To!.Value.Number - has;
                yield return new SizeRefusal(RefusalKind.OffPanel, band.Stitch) { Panel = over.Panel, By = by, Has = has, Needs = has + 2 * by };
            }
        }
    }

    private static IEnumerable<SizeRefusal> Below(Piece piece, Piece fitted)
    {
        var rows = fitted.Cloth.GatheringRows;
        foreach (var band in piece.Bands.Where(b => b.GatheringRow.Number > rows))
            yield return new SizeRefusal(RefusalKind.NoRow, $"{band.Stitch} band") { By = band.GatheringRow.Number, Has = rows };
        foreach (var accent in piece.Accents.Where(a => a.GatheringRow.Number > rows))
            yield return new SizeRefusal(RefusalKind.NoRow, accent.Accent) { By = accent.GatheringRow.Number, Has = rows };
    }

    private static IEnumerable<SizeRefusal> AccentsOff(Work work) =>
        work.Accents.Where(a => !a.IsOnCloth(work)).DistinctBy(a => a.Index)
            .Select(a => new SizeRefusal(RefusalKind.OffSide, a.Mark.Accent) { By = 0, Words = $"The {a.Mark.Accent} on gathering row {a.Mark.GatheringRow.Number} runs off the cloth." });

    private static IEnumerable<SizeRefusal> NewMeetings(Piece piece, PleatingPlan pleating, HashSet<(int, int)> known) =>
        Meetings(piece, pleating).Where(m => !known.Contains(m)).Order()
            .Select(m => new SizeRefusal(RefusalKind.Meets, piece.Placements[m.Item1].Figure) { Other = m.Item1 == m.Item2 ? null : piece.Placements[m.Item2].Figure });

    // The uppermost row alone: those below it are told by the proof.
    private static IEnumerable<SizeRefusal> Crowded(Work work) => Enumerable.Range(0, work.CableRows).Where(y => Crowding.At(work, new CableRow(y))).Take(1)
        .Select(y => new SizeRefusal(RefusalKind.Crowded, "")
        {
            By = y, Words = $"The pleats lie {work.Pleating.PitchAt(y).Say(UnitSystem.Metric)} apart at cable row {y}, closer than a pleat is thick ({work.Pleating.Gauge.PleatThickness.Say(UnitSystem.Metric)}).",
        });

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
