using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Picture;

namespace Pleatwright.Recutting;

/// <summary>
/// Cuts a piece for another gauge: figures drawn again where what is kept asks for it, base rows back on gathering rows, copies, bands and accents
/// respaced. Scaling one figure is the same act at the same gauge. Pure: from a piece to a piece and a list of facts.
/// </summary>
internal static class Recutter
{
    /// <summary>The piece at another gauge.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="gauge">The other gauge.</param>
    /// <param name="keep">What it keeps.</param>
    /// <exception cref="ArgumentException">It cannot be made so: the cloth or a figure is past its caps, or the form has no room; the message says why.</exception>
    public static RecutPiece Recut(Piece piece, Gauge gauge, RecutKeep keep)
    {
        if (gauge == piece.Cloth.Gauge) return new(piece, []);
        var then = Cut(piece, gauge, keep);
        return new(then, Comparing.Of(piece, then, Cut(then, piece.Cloth.Gauge, keep)));
    }

    /// <summary>The piece with one figure in another size, wherever it is placed. What lies on it goes with it.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="figure">The figure's name.</param>
    /// <param name="width">Valleys across it then; an odd width stays odd and an even one even, so this is taken to the nearest alike.</param>
    /// <param name="height">Cable rows down it then; null keeps its height to its width.</param>
    /// <exception cref="ArgumentException">There is no such figure, or it would be past its caps.</exception>
    public static RecutPiece Scale(Piece piece, string figure, int width, int? height = null)
    {
        var then = Scaled(piece, figure, width, height);
        if (ReferenceEquals(then, piece)) return new(piece, []);
        var now = piece.Figure(figure)!;
        return new(then, Comparing.Of(piece, then, Scaled(then, figure, now.Width, now.Height)));
    }

    /// <summary>The piece of <see cref="Scale"/> without its changes, for a hand that is still pulling.</summary>
    /// <exception cref="ArgumentException">As there.</exception>
    public static Piece Scaled(Piece piece, string figure, double width, int? height = null)
    {
        var now = piece.Figure(figure) ?? throw new ArgumentException($"no figure is called “{figure}”");
        var to = (Width: Scaling.Alike(width, now.Width), Height: 0);
        to.Height = Math.Clamp(height ?? (int)Math.Round(now.Height * (to.Width + 1.0) / (now.Width + 1)), 1, Figure.MostRows);
        if ((long)to.Width * to.Height > TracingOptions.MostCells) throw Scaling.TooLarge(figure, to.Width, to.Height);
        return to == (now.Width, now.Height) ? piece : new Cutting(piece, Scaling.Of(piece, figure, to)).Piece();
    }

    private static Piece Cut(Piece piece, Gauge gauge, RecutKeep keep) => new Cutting(piece, Scaling.Of(piece, gauge, keep)).Piece();
}

/// <summary>How much wider and deeper, counted in pleats and rows, things become.</summary>
/// <param name="Gauge">The gauge then.</param>
/// <param name="Width">The finished width then, over what it is.</param>
/// <param name="Across">Pleats then to one now.</param>
/// <param name="Down">Cable rows then to one now.</param>
/// <param name="Spaces">Spaces between gathering rows then to one now.</param>
/// <param name="Counted">Whether every cable row is kept, so that gathering rows are given way rather than shared.</param>
/// <param name="Figures">Each figure's valleys and cable rows then.</param>
internal sealed record Scaling(Gauge Gauge, double Width, double Across, double Down, double Spaces, bool Counted, ImmutableDictionary<string, (int Width, int Height)> Figures)
{
    /// <summary>The scaling to another gauge.</summary>
    public static Scaling Of(Piece piece, Gauge gauge, RecutKeep keep)
    {
        var now = piece.Cloth.Gauge;
        var pitch = gauge.Pitch / now.Pitch;
        var rows = now.CableRowHeight / gauge.CableRowHeight;
        var (width, across, down) = keep switch
        {
            RecutKeep.Size => (1, 1 / pitch, rows),
            RecutKeep.Count => (pitch, 1.0, 1.0),
            RecutKeep.Proportions => (pitch, 1, pitch * rows),
            _ => throw new ArgumentOutOfRangeException(nameof(keep)),
        };
        return new(gauge, Clean(width), Clean(across), Clean(down), Clean(down * now.CableRowsPerSpace / gauge.CableRowsPerSpace), keep == RecutKeep.Count,
            piece.Figures.ToImmutableDictionary(f => f.Name, f => Sized(f, Clean(across), Clean(down))));
    }

    /// <summary>The scaling of one figure at the piece's own gauge.</summary>
    public static Scaling Of(Piece piece, string figure, (int, int) to) =>
        new(piece.Cloth.Gauge, 1, 1, 1, 1, true, piece.Figures.ToImmutableDictionary(f => f.Name, f => f.Name == figure ? to : (f.Width, f.Height)));

    /// <summary>The gathering row, counted from 0, that one comes to.</summary>
    public int Row(int row)
    {
        var at = Math.Min(row * Spaces, ClothPlan.MostGatheringRows); // more are refused by the cloth
        return !Counted ? (int)Math.Round(at, MidpointRounding.AwayFromZero) : Spaces >= 1 ? (int)Math.Ceiling(at - 1e-9) : (int)Math.Floor(at + 1e-9);
    }

    /// <summary>The whole number nearest to a width that is odd or even as another is: so a figure keeps its middle valley, and copies their levels.</summary>
    public static int Alike(double width, int like) =>
        Math.Clamp(SizeFit.NearestAlike(width, like), (like & 1) == 1 ? 1 : 2, Figure.MostValleys - ((Figure.MostValleys ^ like) & 1));

    private static (int, int) Sized(Figure figure, double across, double down)
    {
        // A figure w valleys wide covers w + 1 pleats.
        var to = (Width: Alike((figure.Width + 1) * across - 1, figure.Width), Height: Math.Max(1.0, Math.Round(figure.Height * down)));
        if ((figure.Width + 1) * across - 2 > Figure.MostValleys || to.Height > Figure.MostRows || to.Width * to.Height > TracingOptions.MostCells)
            throw TooLarge(figure.Name, (figure.Width + 1) * across - 1, to.Height);
        return (to.Width, (int)to.Height);
    }

    /// <summary>What refuses a figure of too many stitches.</summary>
    public static ArgumentException TooLarge(string figure, double width, double height) =>
        new(FormattableString.Invariant($"“{figure}” would be {width:#,0} valleys by {height:#,0} cable rows, which is too many stitches"));

    // 12 pleats an inch over 16 is three quarters, without the dust of inches.
    private static double Clean(double factor) => Math.Round(factor, 12);
}

/// <summary>One recut under way.</summary>
internal sealed class Cutting
{
    private readonly Piece piece;
    private readonly Scaling scaling;
    private readonly PleatingPlan now;
    private readonly int perSpace, perSpaceThen;
    private readonly Dictionary<(string Figure, int Row), int> based = []; // where a figure's row on a gathering row was moved to by hand of the widest row
    private ClothPlan cloth = null!;
    private PleatingPlan then = null!;
    private Dictionary<int, int> rows = []; // gathering rows in use, from 0, and what each comes to

    public Cutting(Piece piece, Scaling scaling)
    {
        (this.piece, this.scaling) = (piece, scaling);
        now = new PleatingPlan(piece.Cloth);
        (perSpace, perSpaceThen) = (now.Gauge.CableRowsPerSpace, scaling.Gauge.CableRowsPerSpace);
    }

    private const int MostTries = 3;

    // One figure alone is scaled: the cloth and what lies beside it stay.
    private bool OneFigure => scaling.Gauge == piece.Cloth.Gauge;

    public Piece Piece()
    {
        rows = RowsInUse();
        var form = piece.Cloth.Form.Regauged(piece.Cloth, scaling.Gauge, scaling.Width);
        cloth = piece.Cloth with { Form = form, Gauge = scaling.Gauge };
        Pleatwright.Chart.Piece cut;
        for (var tries = 1; ; tries++)
        {
            rows = RowsInUse();
            cloth = cloth with { GatheringRows = GatheringRows() };
            then = new PleatingPlan(cloth);
            var placements = piece.Placements.Select(Placed).ToImmutableArray();
            cut = piece with { Cloth = cloth, Placements = placements, Phase = PhaseThen(placements), Figures = [.. piece.Figures.Select(f => Drawn(f))] };
            if (!Rebase(cut) || tries == MostTries) break;
        }
        cut = cut with
        {
            Bands = [.. Bands()],
            Accents = [.. piece.Accents.Select(a => Accented(a, cut))],
            Sizes = [.. piece.Sizes.Select(Sized)],
        };
        return cut with { Working = Worked(cut) };
    }

    // ---- Gathering rows.

    private int RowOf(GatheringRow row) => rows[row.Number - 1];

    // Rows in use keep their order; bands, which go from side to side, keep a row of their own; and what lay on the cloth stays below its upper edge.
    private Dictionary<int, int> RowsInUse()
    {
        var used = new SortedDictionary<int, (bool Band, int Least)>();
        foreach (var band in piece.Bands) used[band.GatheringRow.Number - 1] = (true, 0);
        foreach (var accent in piece.Accents) used.TryAdd(accent.GatheringRow.Number - 1, (false, 0));
        foreach (var placement in piece.Placements)
        {
            var row = placement.GatheringRow.Number - 1;
            var at = used.GetValueOrDefault(row);
            var least = placement.Top(now).Index >= 0 ? (FigureRow(placement) + perSpaceThen - 1) / perSpaceThen : 0;
            used[row] = (at.Band, Math.Max(at.Least, least));
        }
        var found = new Dictionary<int, int>();
        (int Row, bool Band) before = (-1, false);
        if (OneFigure) return used.Keys.ToDictionary(row => row);
        foreach (var (row, (band, least)) in used)
        {
            var to = Math.Max(scaling.Row(row), least);
            if (to <= before.Row && (band || before.Band)) to = before.Row + 1;
            found[row] = to;
            before = (Math.Max(to, before.Row), band || before.Band && to == before.Row);
        }
        return found;
    }

    // As many as the depth asks for, and as many more as hold what lay on the cloth.
    private int GatheringRows()
    {
        if (OneFigure) return piece.Cloth.GatheringRows;
        var needed = rows.Values.Append(0).Max() * (double)perSpaceThen; // cable rows below gathering row 1
        foreach (var placement in piece.Placements)
        {
            var height = piece.Figure(placement.Figure)!.Height;
            if (placement.Top(now).Index + height > now.CableRows) continue;
            needed = Math.Max(needed, RowOf(placement.GatheringRow) * perSpaceThen - FigureRow(placement) + scaling.Figures[placement.Figure].Height - 1);
        }
        foreach (var (index, band) in piece.Bands.Index())
            if (Reach(index) is var (spaces, cables) && DepthOf(band) + spaces + (double)cables / perSpace <= now.Cloth.GatheringRows - 1 + Stitch.Hair)
                needed = Math.Max(needed, (RowOf(band.GatheringRow) + band.Offset / 4.0 + spaces) * perSpaceThen + band.Drop + cables);
        var least = (int)Math.Ceiling(needed / perSpaceThen - 1e-9) + 1;
        var asked = scaling.Row(piece.Cloth.GatheringRows - 1) + 1;
        return Math.Max(Math.Max(least, asked), ClothPlan.LeastGatheringRows);
    }

    private double DepthOf(Band band) => band.GatheringRow.Number - 1 + band.Offset / 4.0 + (double)band.Drop / perSpace;

    // How far a band reaches below where it begins, in spaces and cable rows; null where nothing of it is worked.
    private (double Spaces, int CableRows)? Reach(int index)
    {
        var (band, stitch) = (piece.Bands[index], BandStitch.Named(piece.Bands[index].Stitch));
        if (stitch is null) return null;
        if (stitch.OnLattice) return (0, band.Rows - 1);
        var laid = LaidBand.Lay(index, band, stitch, now.Pleats, perSpace, piece.Working.Hand);
        return double.IsFinite(laid.Lowest) ? (laid.Lowest - laid.Top, 0) : null;
    }

    // ---- Figures.

    // Of a row that becomes two, the lower lies on the gathering row, unless the figure's top would leave the cloth.
    private int FigureRow(Placement placement)
    {
        var row = FigureRow(placement.Figure, placement.FigureRow);
        var doubled = scaling.Figures[placement.Figure].Height * (placement.FigureRow + 0.5) / piece.Figure(placement.Figure)!.Height - 0.5;
        return row > doubled && row > scaling.Row(placement.GatheringRow.Number - 1) * perSpaceThen && placement.Top(now).Index >= 0 ? row - 1 : row;
    }

    // The row of the figure then that lies where this one's middle does.
    private int FigureRow(string figure, int row)
    {
        if (based.TryGetValue((figure, row), out var moved)) return moved;
        var (height, to) = (piece.Figure(figure)!.Height, scaling.Figures[figure].Height);
        return row == 0 ? 0 : Math.Clamp((int)Math.Round((row + 0.5) * to / height - 0.5, MidpointRounding.AwayFromZero), 0, to - 1);
    }

    // A column of a figure then; its brick's middle stays where it was.
    private int ColumnOf(string figure, int column)
    {
        var (width, to) = (piece.Figure(figure)!.Width, scaling.Figures[figure].Width);
        return (int)Math.Round((column + 1.0) * (to + 1) / (width + 1) - 1, MidpointRounding.AwayFromZero);
    }

    private bool IsRedrawn(Figure figure) => scaling.Figures[figure.Name] != (figure.Width, figure.Height);

    private Placement Placed(Placement placement)
    {
        var (figure, width) = (piece.Figure(placement.Figure)!, scaling.Figures[placement.Figure].Width);
        return placement with
        {
            GatheringRow = new GatheringRow(RowOf(placement.GatheringRow) + 1),
            FigureRow = FigureRow(placement),
            Centre = CentreOf(placement.Centre, (figure.Width & 1) == 1 ? 0 : placement.Mirror ? -0.5 : 0.5),
            Repeat = Spaced(placement.Repeat, figure.Width, width),
        };
    }

    // A middle keeps its distance from the centre valley; of an even figure, the middle lies half a valley beside what it is named by.
    private Centre CentreOf(Centre centre, double beside = 0)
    {
        if (centre.IsMiddle) return centre;
        // what hangs keeps its share of the distance from what it hangs on
        if (centre.IsHung)
        {
            var side = centre.From == CountedFrom.Right ? -beside : beside;
            return Centre.Hung(centre.Panel, centre.From, Math.Clamp(Scaled(centre.Valleys, side), -PleatingPlan.MostPleats, PleatingPlan.MostPleats));
        }
        return Centre.At(new Valley(Math.Clamp(then.CentreValley + Scaled(centre.Valleys - now.CentreValley, beside), 1, PleatingPlan.MostPleats)));

        int Scaled(int away, double aside) => (int)Math.Round((away + aside) * scaling.Across - aside, MidpointRounding.AwayFromZero);
    }

    // Copies that touch or overlap go on doing so; others keep their distance, odd or even as it was, so that each begins on the level it had.
    private Repeat Spaced(Repeat repeat, int width, int to)
    {
        if (repeat.Count == 1) return repeat;
        var gap = repeat.Every - width;
        var every = gap <= 0 ? to + gap : Math.Max(SizeFit.NearestAlike(repeat.Every * scaling.Across, repeat.Every), to + 2 - (gap & 1));
        return repeat with { Every = Math.Clamp(every, 1, PleatingPlan.MostPleats) };
    }

    // Where every figure keeps its stitches and all move an odd way, the phase turns with them: each cable keeps the level it has.
    private Phase PhaseThen(ImmutableArray<Placement> placements)
    {
        if (placements.IsEmpty || piece.Figures.Any(IsRedrawn)) return piece.Phase;
        for (var i = 0; i < placements.Length; i++)
        {
            var figure = piece.Figure(placements[i].Figure)!;
            Seat was = Seat.Of(piece.Placements[i], figure, now, 0), is_ = Seat.Of(placements[i], figure, then, 0);
            if (((was.Left + was.Top + is_.Left + is_.Top) & 1) == 0) return piece.Phase;
        }
        return piece.Phase.Opposite();
    }

    private Figure Drawn(Figure figure)
    {
        if (!IsRedrawn(figure)) return figure;
        var (width, height) = scaling.Figures[figure.Name];
        var row = piece.Placements.Where(p => p.Figure == figure.Name).Select(FigureRow).FirstOrDefault(height - 1);
        return FigureSampler.Draw(figure, width, height, row, piece.Threads);
    }

    // Where a figure's widest row lay on a gathering row and lies beside it now, that row is put on it instead.
    private bool Rebase(Piece cut)
    {
        var moved = false;
        foreach (var (i, placement) in piece.Placements.Index())
        {
            var (figure, drawn) = (piece.Figure(placement.Figure)!, cut.Figure(placement.Figure)!);
            if (!IsRedrawn(figure) || based.ContainsKey((placement.Figure, placement.FigureRow))) continue;
            var widest = figure.Rows.Max(Worked);
            if (Worked(figure.Rows[placement.FigureRow]) < widest) continue;
            var (at, most) = (cut.Placements[i].FigureRow, drawn.Rows.Max(Worked));
            if (Worked(drawn.Rows[at]) == most) continue;
            var near = Enumerable.Range(0, drawn.Height).Where(r => Worked(drawn.Rows[r]) == most).MinBy(r => Math.Abs(r - at));
            if (Math.Abs(near - at) > 2) continue;
            based[(placement.Figure, placement.FigureRow)] = near;
            moved = true;
        }
        return moved;

        static int Worked(string row) => row.Length - row.AsSpan().Count(Figure.Bare);
    }

    // ---- Bands.

    // A band keeps its pattern, which is counted in steps and quarter spaces. Bands close under each other stay so.
    private IEnumerable<Band> Bands()
    {
        var drops = new int[piece.Bands.Length];
        foreach (var stack in piece.Bands.Index().GroupBy(b => (b.Item.GatheringRow, b.Item.Offset)))
        {
            (int End, int EndThen)? before = null;
            foreach (var (i, band) in stack.OrderBy(b => b.Item.Drop))
            {
                var deep = BandStitch.Named(band.Stitch) is { OnLattice: true } ? band.Rows : 1;
                var gap = band.Drop - (before?.End ?? 0);
                drops[i] = before is { } b
                    ? b.EndThen + (gap <= 0 ? gap : Math.Max(1, Scaled(gap)))
                    : Scaled(band.Drop);
                before = (band.Drop + deep, drops[i] + deep);
            }
        }
        return piece.Bands.Select((band, i) => band with
        {
            GatheringRow = new GatheringRow(RowOf(band.GatheringRow) + 1),
            Drop = Math.Clamp(drops[i], -Band.MostOffset, Band.MostOffset),
            From = EdgeOf(band, band.From is { } from ? from.Number - 1 : null) is { } f ? new Pleat(f + 1) : null,
            To = EdgeOf(band, band.To?.Number) is { } t ? new Pleat(Math.Max(t, 1)) : null,
        });

        int Scaled(int dropped) => (int)Math.Round(dropped * scaling.Down, MidpointRounding.AwayFromZero);
    }

    // A band's end, by the pleats to its left on the cloth or on its panel.
    private int? EdgeOf(Band band, int? pleats)
    {
        if (pleats is not { } edge) return null;
        var (wide, wideThen) = band.Panel is { } panel ? (now.Panel(panel)!.Value.Pleats, then.Panel(panel)!.Value.Pleats) : (now.Pleats, then.Pleats);
        var away = (edge - wide / 2.0) * scaling.Across;
        return Math.Clamp((int)Math.Round(away + wideThen / 2.0, MidpointRounding.AwayFromZero), 0, PleatingPlan.MostPleats - 1);
    }

    // ---- Accents.

    private AccentMark Accented(AccentMark mark, Piece cut)
    {
        var depth = LaidAccent.DepthOf(mark, perSpace) * perSpace; // in cable rows
        if (UnderAccent(mark, depth) is var (placement, copy)) return OnFigure(mark, depth, placement, copy, cut);
        var row = RowOf(mark.GatheringRow);
        if (OverBand(mark, depth / perSpace) is { } repeat)
        {
            // It repeats with the band's pattern, which stays as it is: so many more or fewer as the width holds.
            var count = Math.Clamp(SizeFit.NearestAlike(mark.Repeat.Count * scaling.Across, mark.Repeat.Count), 1, Repeat.MostCount);
            return mark with { GatheringRow = new GatheringRow(row + 1), Centre = CentreOf(mark.Centre), Repeat = mark.Repeat.Count == 1 ? mark.Repeat : repeat with { Count = count } };
        }
        var below = depth - (mark.GatheringRow.Number - 1) * perSpace;
        return At(mark, row * perSpaceThen + below * scaling.Down) with { Centre = CentreOf(mark.Centre), Repeat = Spaced(mark.Repeat, 1, 1), Size = SizeOf(mark, scaling.Across) };
    }

    // The uppermost placed figure in whose frame an accent lies, and the copy.
    private (int Placement, int Copy)? UnderAccent(AccentMark mark, double depth)
    {
        var row = new CableRow((int)Math.Floor(depth));
        var valley = new Valley(mark.Centre.On(now).Number + mark.Repeat.OffsetOf(0));
        for (var i = piece.Placements.Length - 1; i >= 0; i--)
        {
            var placement = piece.Placements[i];
            if (mark.Repeat.Count > 1 && mark.Repeat != placement.Repeat) continue;
            var copies = mark.Repeat.Count > 1 ? 1 : placement.Repeat.Count;
            for (var copy = 0; copy < copies; copy++)
                if (Seat.Of(placement, piece.Figure(placement.Figure)!, now, copy).Contains(valley, row)) return (i, copy);
        }
        return null;
    }

    private AccentMark OnFigure(AccentMark mark, double depth, int index, int copy, Piece cut)
    {
        var (placement, placed) = (piece.Placements[index], cut.Placements[index]);
        var (figure, drawn) = (piece.Figure(placement.Figure)!, cut.Figure(placement.Figure)!);
        Seat was = Seat.Of(placement, figure, now, copy), becomes = Seat.Of(placed, drawn, then, copy);
        var repeated = mark.Repeat.Count > 1;
        var valley = mark.Centre.On(now).Number + mark.Repeat.OffsetOf(0);
        var repeat = repeated ? placed.Repeat : mark.Repeat;
        var to = becomes.ValleyOf(ColumnOf(figure.Name, was.ColumnAt(new Valley(valley)))).Number - repeat.OffsetOf(0);
        var down = (double)drawn.Height / figure.Height;
        return At(mark, becomes.Top + (depth - was.Top + 0.5) * down - 0.5) with
        {
            Centre = mark.Centre.IsHung || (mark.Centre.IsMiddle && to == then.CentreValley) ? mark.Centre.To(new Valley(to), then) : Centre.At(new Valley(Math.Clamp(to, 1, PleatingPlan.MostPleats))),
            Repeat = repeat,
            Size = SizeOf(mark, (drawn.Width + 1.0) / (figure.Width + 1)),
        };
    }

    // An accent at a depth in cable rows, told from the gathering row it was told from, as far as it may be.
    private AccentMark At(AccentMark mark, double depth)
    {
        var row = RowOf(mark.GatheringRow);
        var offset = Math.Clamp((int)Math.Round(mark.Offset * scaling.Spaces, MidpointRounding.AwayFromZero), -Band.MostOffset, Band.MostOffset);
        var drop = Drop();
        while (drop < -Band.MostOffset && row > 0) { row--; drop = Drop(); }
        while (drop > Band.MostOffset && row < cloth.GatheringRows - 1) { row++; drop = Drop(); }
        return mark with { GatheringRow = new GatheringRow(row + 1), Offset = offset, Drop = Math.Clamp(drop, -Band.MostOffset, Band.MostOffset) };

        int Drop() => (int)Math.Round(depth - (row + offset / 4.0) * perSpaceThen, MidpointRounding.AwayFromZero);
    }

    private static int? SizeOf(AccentMark mark, double across) =>
        mark.Size is { } size && Accent.Named(mark.Accent)?.Size is { } choice ? Math.Clamp((int)Math.Round(size * across, MidpointRounding.AwayFromZero), choice.Least, choice.Most) : mark.Size;

    // The accent's repeat, when it lies on a band and goes with its pattern.
    private Repeat? OverBand(AccentMark mark, double depth)
    {
        foreach (var (i, band) in piece.Bands.Index())
        {
            if (BandStitch.Named(band.Stitch) is not { OnLattice: false } stitch) continue;
            var laid = LaidBand.Lay(i, band, stitch, now.Pleats, perSpace, piece.Working.Hand);
            if (depth < laid.Highest - Stitch.Hair || depth > laid.Lowest + Stitch.Hair) continue;
            if (mark.Repeat.Count == 1 || stitch.RepeatOf(band) is > 1 and var pattern && mark.Repeat.Every % pattern == 0) return mark.Repeat;
        }
        return null;
    }

    // ---- What else a piece holds.

    private Size Sized(Size size) => size with
    {
        Form = size.Form.Regauged(size.Of(piece.Cloth), scaling.Gauge, scaling.Width),
        GatheringRows = size.GatheringRows is { } rows ? Math.Max(ClothPlan.LeastGatheringRows, scaling.Row(rows - 1) + 1) : null,
    };

    private Working Worked(Piece cut)
    {
        var working = piece.Working;
        if (working.BaseRow is null && working.Places.IsEmpty && working.Figures.IsEmpty) return working;
        var laid = Work.Lay(cut);
        return working with
        {
            BaseRow = working.BaseRow is { } row && RowThen(row) is { Index: >= 0 } y && y.Index < laid.CableRows ? y : null,
            Places = piece.Figures.Any(IsRedrawn) ? [] : [.. working.Places.Select(p => Cell(p.Row, p.Valley) is var (r, v) && laid.IsWorked(v, r) ? p with { Row = r, Valley = v } : (FixedPlace?)null).OfType<FixedPlace>()],
            Figures = [.. working.Figures.Select(f => Cell(f.Row, f.Valley) is var (r, v) && Nearest(laid, r, v) is var (row, valley) ? new FigurePlace(row, valley) : (FigurePlace?)null).OfType<FigurePlace>()],
        };

        CableRow? RowThen(CableRow row) => piece.Placements.Index().Reverse()
            .Where(p => Seat.Of(p.Item, piece.Figure(p.Item.Figure)!, now, 0) is var s && row.Index >= s.Top && row.Index <= s.Bottom)
            .Select(p => (CableRow?)new CableRow(Seat.Of(cut.Placements[p.Index], cut.Figure(p.Item.Figure)!, then, 0).Top
                + FigureRow(p.Item.Figure, row.Index - Seat.Of(p.Item, piece.Figure(p.Item.Figure)!, now, 0).Top)))
            .FirstOrDefault()
            ?? (row.Index % perSpace == 0 ? new CableRow(scaling.Row(row.Index / perSpace) * perSpaceThen) : new CableRow((int)Math.Round(row.Index * scaling.Down)));

        (CableRow, Valley)? Cell(CableRow row, Valley valley)
        {
            for (var i = piece.Placements.Length - 1; i >= 0; i--)
            {
                var (placement, figure) = (piece.Placements[i], piece.Figure(piece.Placements[i].Figure)!);
                for (var copy = 0; copy < placement.Repeat.Count; copy++)
                {
                    var was = Seat.Of(placement, figure, now, copy);
                    if (!was.Contains(valley, row)) continue;
                    var becomes = Seat.Of(cut.Placements[i], cut.Figure(figure.Name)!, then, copy);
                    return (new CableRow(becomes.Top + FigureRow(figure.Name, row.Index - was.Top)), becomes.ValleyOf(ColumnOf(figure.Name, was.ColumnAt(valley))));
                }
            }
            // A band of cables.
            var space = row.Index / perSpace;
            return rows.TryGetValue(space, out var to) && CentreOf(Centre.At(valley)) is var centre
                ? (new CableRow(to * perSpaceThen + row.Index % perSpace), centre.On(then)) : null;
        }

        static (CableRow, Valley)? Nearest(Work laid, CableRow row, Valley valley)
        {
            for (var far = 0; far <= 3; far++)
                for (var y = -far; y <= far; y++)
                    for (var x = -far; x <= far; x++)
                        if (laid.IsWorked(new Valley(valley.Number + x), new CableRow(row.Index + y))) return (new CableRow(row.Index + y), new Valley(valley.Number + x));
            return null;
        }
    }
}
