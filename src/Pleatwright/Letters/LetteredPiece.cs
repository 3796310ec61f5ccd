using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Picture;
using Pleatwright.Thread;

namespace Pleatwright.Letters;

/// <summary>What came of putting letters into a piece.</summary>
/// <param name="Piece">The piece with them.</param>
/// <param name="Figure">The name of their figure there.</param>
/// <param name="Set">The text as it was set.</param>
/// <param name="IsFree">Whether they lie free: wholly on the cloth, touching nothing.</param>
/// <param name="Over">What they lie over where they do not lie free, by name; may be empty.</param>
internal sealed record LetteredPiece(Piece Piece, string Figure, SetText Set, bool IsFree, ImmutableArray<string> Over)
{
    /// <summary>Letters in the middle of a panel wide and deep enough for them, with one gathering row clear above and below.</summary>
    /// <param name="options">The letters; their threads are set here.</param>
    /// <param name="thread">The thread of the letters; with more strands where rows stacked at this gauge want them.</param>
    /// <param name="border">The thread of the border; null for that of the letters.</param>
    /// <param name="gauge">The gauge.</param>
    /// <param name="title">The piece's title.</param>
    /// <param name="cloth">The cloth's colour; null for the usual.</param>
    /// <param name="margin">Bare pleats at each side at least, 0 or more.</param>
    /// <exception cref="ArgumentException">They cannot be set, or the cloth would be past its caps.</exception>
    public static LetteredPiece Around(LetteringOptions options, Floss thread, Floss? border, Gauge gauge, string title, Colour? cloth = null, int margin = TracedPiece.UsualMargin)
    {
        ImmutableArray<Floss> threads = [.. (options.Border && border is not null ? [thread, border] : new[] { thread }).Select(t => Covering(t, gauge))];
        var set = Typesetter.Set(options with { Thread = thread.Key.Letter, BorderThread = threads[^1].Key.Letter }, gauge.CableRowsPerSpace);
        var n = gauge.CableRowsPerSpace;
        var above = (set.BaseRow + n - 1) / n;
        var below = (Math.Max(0, set.Figure.Height - 1 - set.BaseRow) + n - 1) / n;
        var plan = BareCloth.WideEnough(new ClothPlan(new Panel(gauge.Pitch), gauge, above + below + 3), set.Figure.Width + 1 + 2 * margin);
        if (cloth is { } colour) plan = plan with { Colour = colour };
        var piece = new Piece(title, plan, threads, [set.Figure], [new Placement(set.Figure.Name, Centre.Middle, new GatheringRow(above + 2), set.BaseRow)]);
        return new LetteredPiece(piece, set.Figure.Name, set, true, []);
    }

    /// <summary>
    /// A piece with letters added, with bare pleats all round where there is room, as near to the middle as may be; along a band on the gathering row
    /// nearest to it that is free. Where there is no room they lie in the middle, over what is there.
    /// </summary>
    /// <param name="piece">The piece; it keeps its cloth.</param>
    /// <param name="options">The letters. Along a band with no width given they fill the cloth but for a margin.</param>
    /// <param name="thread">Their thread; one alike that the piece has is taken for it.</param>
    /// <param name="border">The border's thread; null for theirs.</param>
    /// <param name="band">Which of the piece's bands they go along; null for none.</param>
    /// <param name="row">The gathering row that their base line lies on, the first of several; null for any.</param>
    /// <exception cref="ArgumentException">They cannot be set, or the piece would be past its caps.</exception>
    public static LetteredPiece Into(Piece piece, LetteringOptions options, Floss thread, Floss? border = null, int? band = null, GatheringRow? row = null)
    {
        var (with, brought) = Threads.Bring(piece, options.Border && border is not null ? [thread, border] : [thread]);
        var pleating = new PleatingPlan(piece.Cloth);
        if (options.Arrangement == Arrangement.Along && options.Across is null)
            options = options with { Across = Math.Max(1, pleating.Valleys - 2 * TracedPiece.UsualMargin) };
        var set = Typesetter.Set(options with { Thread = brought[0].To.Key.Letter, BorderThread = brought[^1].To.Key.Letter }, pleating.Gauge.CableRowsPerSpace);
        var figure = set.Figure with { Name = with.FreeName(set.Figure.Name) };
        var work = Work.Lay(with);
        var places = Room.For(work, figure, set.BaseRow, null).Where(p => row is not { } r || p.GatheringRow == r);
        // On one gathering row after the other, the nearest to the band first; along it they are centred, so that they stand evenly.
        var free = band is { } b && b >= 0 && b < piece.Bands.Length
            ? places.OrderBy(p => Math.Abs(p.GatheringRow.Number - piece.Bands[b].GatheringRow.Number)).ThenBy(p => Math.Abs(p.Centre.On(pleating).Number - pleating.CentreValley)).FirstOrDefault()
            : places.FirstOrDefault();
        var placement = free ?? new Placement(figure.Name, Centre.Middle, row ?? new GatheringRow((piece.Cloth.GatheringRows + 1) / 2), set.BaseRow);
        return new LetteredPiece(
            with with { Figures = with.Figures.Add(figure), Placements = with.Placements.Add(placement) },
            figure.Name, set with { Figure = figure }, free is not null, free is null ? Room.Under(work, figure, placement) : []);
    }

    // As many strands as hide the cloth where rows are stacked, where any number does.
    private static Floss Covering(Floss thread, Gauge gauge) =>
        Coverage.StrandsNeeded(thread, gauge.LineHeight) is { } strands && strands > thread.Strands ? thread with { Strands = strands } : thread;

    /// <summary>What was set, as a sentence: "“Annika”: 83 valleys by 11 cable rows, 431 cables."</summary>
    public string Words => $"“{Set.Figure.Letters}”: {Counting.Of(Set.Figure.Width, "valley")} by {Counting.Of(Set.Figure.Height, "cable row")}, {Counting.Of(Set.Figure.Rows.Sum(r => r.Count(c => c != Chart.Figure.Bare)), "cable")}.";
}
