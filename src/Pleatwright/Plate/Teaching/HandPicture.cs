using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Moves;
using Pleatwright.Order;
using Pleatwright.Plate.Parts;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Teaching;

/// <summary>
/// A few pleats of this plate's cloth, large, with stitches in its thread and a needle at work. Everything is drawn for a
/// right hand and turned about for a left. Where needle and thread are is told by the moves of <see cref="Worked"/> alone; words and rings are set down in pleats
/// from where the work begins and lines from the middle of the first row.
/// </summary>
internal sealed class HandPicture
{
    /// <summary>Pleats across.</summary>
    public const int Pleats = 8;

    private const int Valleys = Pleats - 1;
    private const double Gathering = -1.35; // lines from the row's middle: a thread's width beside its cables

    private readonly Hand hand;
    private bool mirrored, turned;
    private ClothSide face = ClothSide.Right;
    private readonly Floss thread;
    private Floss second; // a second colour, where the picture has one; else the first again
    private Floss inHand;
    private ImmutableArray<Mark> worked; // the cloth and what is stitched on it
    private readonly Look look;
    private readonly ChartGeometry geometry;
    private readonly ClothPlan cloth;
    private readonly CableRow first;
    private readonly Phase phase;
    private readonly ImmutableArray<Mark>.Builder marks = ImmutableArray.CreateBuilder<Mark>();

    /// <summary>A picture of bare pleats.</summary>
    /// <param name="work">The work whose cloth and gauge are shown.</param>
    /// <param name="thread">The thread stitched with.</param>
    /// <param name="hand">The hand that stitches.</param>
    /// <param name="level">Level, on the picture, of the cable over the second and third pleat of the first row.</param>
    /// <param name="width">Its width in millimetres.</param>
    /// <param name="flat">How much lower than usual its lines are, 0 to 1; 1 is as usual.</param>
    /// <param name="look">How notes on it are dressed.</param>
    public HandPicture(Work work, Floss thread, Hand hand, Level level, double width, double flat, Look look)
    {
        this.hand = hand;
        this.thread = second = inHand = thread;
        this.look = look;
        var gauge = work.Pleating.Gauge;
        cloth = new ClothPlan(new Panel(gauge.Pitch * Pleats), gauge, 4)
        {
            SeamPleats = 0, HoldingRowsAbove = 0, HoldingRowsBelow = 0, Colour = work.Piece.Cloth.Colour,
        };
        first = FirstRow.CableRow(gauge.CableRowsPerSpace);
        phase = Lattice.LevelAt(new Valley(2), first, Phase.Even) == level ? Phase.Even : Phase.Odd;
        var pitch = width / Pleats;
        // A gauge far from square would make needle and words collide.
        geometry = new ChartGeometry(Lay([]), pitch, pitch * Math.Clamp(gauge.LineHeight / gauge.Pitch, 0.38, 0.46) * flat);
        worked = Cloth([]);
        marks.AddRange(worked);
    }

    private double Pitch => geometry.Pitch;

    private double Line => geometry.LineHeight;

    private double Ribbon => Math.Min(
        Coverage.RibbonWidth(thread).Millimetres * geometry.Pitch / geometry.Work.Pleating.Gauge.Pitch.Millimetres, Line * 1.04);

    /// <summary>The finished picture, cut to so many lines above and below the middle of the first row.</summary>
    public Drawing Cut(double above, double below) => new(
        new Box(0, geometry.Middle(first) - above * Line, Pleats * Pitch, (above + below) * Line), marks.ToImmutable());

    /// <summary>Takes a second colour in hand: what is drawn from now on is in it, and rows may have its letter.</summary>
    public HandPicture With(Floss other)
    {
        second = inHand = other;
        return this;
    }

    /// <summary>Stitches finished cables; each row a character a valley from where the work begins, '.' for bare.</summary>
    public HandPicture Stitched(params ReadOnlySpan<string> rows)
    {
        marks.Clear();
        worked = Cloth([.. rows]);
        marks.AddRange(worked);
        return this;
    }

    /// <summary>The gathering thread beside the first row: over each pleat, under each valley.</summary>
    public HandPicture GatheringThread()
    {
        var outline = new OutlineBuilder();
        for (var p = 0; p < Pleats; p++) outline.Line((p + 0.28) * Pitch, Y(Gathering), (p + 0.72) * Pitch, Y(Gathering));
        marks.Add(new Shape(outline.Build(), null, new Pen(look.Accent, 0.3)));
        return this;
    }

    /// <summary>The steps of a few rows on pleats like these, planned and worked as any piece is, by a right hand.</summary>
    /// <param name="level">Level of the first cable of the first row.</param>
    /// <param name="rows">The rows, each a character a valley, 'a' or 'b' for two colours, '.' for bare.</param>
    /// <param name="first">Which of them is worked first.</param>
    public static ImmutableArray<Passage> Worked(Level level, ImmutableArray<string> rows, int first = 0)
    {
        var gauge = Gauge.Common;
        var cloth = new ClothPlan(new Panel(gauge.Pitch * Pleats), gauge, 4) { SeamPleats = 0, HoldingRowsAbove = 0, HoldingRowsBelow = 0 };
        var row = FirstRow.CableRow(gauge.CableRowsPerSpace);
        var begins = new Valley(rows[first].AsSpan().IndexOfAnyExcept(Figure.Bare) + 1);
        var order = Planner.Plan(Work.Lay(new Piece("", cloth, [.. "ab".Select(k => new Floss(new ThreadKey(k), "", Colour.White, Floss.DefaultStrands))], [new Figure("rows", rows)], [new Placement("rows", Centre.Middle, FirstRow, first)])
        {
            Back = Backsmocking.None,
            Phase = Lattice.LevelAt(begins, row, Phase.Even) == level ? Phase.Even : Phase.Odd,
            Working = new Working { BaseRow = row },
        }), Effort.Drawing);
        return [.. order.Steps.Select(step => StepMoves.Of(order, step))];
    }

    private static readonly GatheringRow FirstRow = new(2);

    /// <summary>A half stitch that squares the end of a row, as the next move of it.</summary>
    public static Move Half(Level level, int cables)
    {
        var row = Enumerable.Range(2, cables).Select(p => new Stitch(StitchKind.Over, new(new Pleat(p), FirstDepth), new(new Pleat(p + 1), FirstDepth), p % 2 == 0 ? level : level.Opposite()));
        return Sewing.Stitches(StitchDrawings.WithHalf(new(0, 0, false, false, [.. row])), Gauge.Common).Last();
    }

    private static readonly double FirstDepth = FirstRow.Number - 1;

    /// <summary>From here on it is seen from behind: left and right change places.</summary>
    public HandPicture FromBehind()
    {
        (mirrored, face) = (!mirrored, ClothSide.Wrong);
        return this;
    }

    /// <summary>From here on moves are drawn as turned work is held.</summary>
    public HandPicture AsTurned()
    {
        (mirrored, turned) = (!mirrored, true);
        return this;
    }

    /// <summary>Where a move's prick lies: pleats from where the work begins and lines from the middle of the first row, as held and as this side is seen.</summary>
    private (double Across, double Down) Of(Prick prick)
    {
        var down = (prick.Height - Prick.HeightOf(StitchDrawing.Down(FirstDepth, Gauge.Common.CableRowsPerSpace), Gauge.Common)) / Gauge.Common.LineHeight;
        return (mirrored ? Pleats - prick.Across : prick.Across, turned ? -down : down);
    }

    /// <summary>The needle of a move, going back through its pleat.</summary>
    public HandPicture Needle(Move move) => Of(move.In) is var (across, down) ? Needle((int)Math.Round(across), down) : this;

    /// <summary>The thread of a move in hand, from where it comes out of the cloth to the needle's eye, on its side of the needle; where it has none, away from the row before.</summary>
    public HandPicture Thread(Move move)
    {
        var ((from, down), (pleat, _)) = (Of(move.From), Of(move.In));
        return Thread(from, (int)Math.Round(pleat), down, move.Level is { } level ? turned ? level.Opposite() : level : down < 0 ? Level.Up : Level.Down);
    }

    /// <summary>The thread of a move where it has come to lie, from where it comes out of the cloth to where the needle goes in; broken where it lies behind the cloth.</summary>
    public HandPicture Lies(Move move)
    {
        Spot[] path = [.. ((Prick[])[move.From, .. move.Via, move.In]).Select(Of).Select(p => new Spot(X(p.Across), Y(p.Down)))];
        var line = new OutlineBuilder().MoveTo(path[0].X, path[0].Y);
        for (var i = 1; i < path.Length; i++)
        {
            var by = move.Level is { } level ? (level == Level.Up != turned ? -0.7 : 0.7) * Line : 0;
            Spot a = path[i - 1], b = path[i];
            line.CurveTo(new(a.X + (b.X - a.X) / 4, a.Y + by), new(b.X - (b.X - a.X) / 4, b.Y + by), b);
        }
        // Small stitches beside one another lie closer than cables do, and are told apart by being thinner.
        if (move.Lies == face) Draw(line.Build(), move.Level is null ? 0.55 : 1);
        else Behind(line.Build());
        return this;
    }

    /// <summary>The thread of a move going through to the other side, where it is lost to sight.</summary>
    public HandPicture Through(Move move)
    {
        var (across, down) = Of(move.In);
        Behind(Outline.Line(X(across), Y(down), X(across), Y(down - 1.6)));
        return this;
    }

    /// <summary>The thread left hanging behind the cloth where a move takes it.</summary>
    public HandPicture Hangs(Move move)
    {
        var (across, down) = Of(move.In);
        Behind(Outline.Line(X(across), Y(down), X(across), Y(down + 2.6)));
        return this;
    }

    /// <summary>The loose end of a thread where it comes out of the cloth.</summary>
    public HandPicture End(Prick prick)
    {
        var (across, down) = Of(prick);
        Draw(new OutlineBuilder().MoveTo(X(across), Y(down)).CurveTo(At(across + 0.15, down + 0.5, 0), At(across + 0.1, down + 1.3, 0), At(across + 0.45, down + 1.7, 0)).Build());
        return this;
    }

    /// <summary>A needle going back through one pleat.</summary>
    /// <param name="pleat">The pleat, counted from 1 where the work begins.</param>
    /// <param name="down">Lines below the middle of the first row.</param>
    private HandPicture Needle(int pleat, double down)
    {
        double eye = pleat + 1.9, tip = pleat - 1.75, thick = Math.Min(1.7, Pitch * 0.15);
        var body = new OutlineBuilder()
            .MoveTo(X(tip), Y(down))
            .CurveTo(At(tip + 0.8, down, -thick / 2), At(eye - 0.4, down, -thick / 2), At(eye, down, -thick * 0.45))
            .CurveTo(At(eye + 0.12, down, -thick * 0.3), At(eye + 0.12, down, thick * 0.3), At(eye, down, thick * 0.45))
            .CurveTo(At(eye - 0.4, down, thick / 2), At(tip + 0.8, down, thick / 2), At(tip, down, 0)).Close();
        marks.Add(new Shape(body.Build(), Colour.Parse("#a9b2bb"), new Pen(Colour.Parse("#3f474f"), 0.28)));
        marks.Add(new Shape(new OutlineBuilder().Line(X(tip + 0.5), Y(down) - thick * 0.12, X(eye - 0.5), Y(down) - thick * 0.12).Build(), null, new Pen(Colour.Parse("#eef1f3"), thick * 0.18) { Round = true }));
        marks.Add(new Shape(new OutlineBuilder().Thread(X(eye - 0.32), Y(down), X(eye - 0.1), Y(down)).Build(), null, new Pen(Colour.Parse("#3f474f"), thick * 0.3) { Round = true }));
        // The pleat's crown, with what is stitched on it, over the needle, so that it is seen to go through.
        double from = Math.Min(X(pleat - 0.86), X(pleat - 0.14));
        marks.Add(new Inset(worked, default, new Box(from, Y(down) - thick, 0.72 * Pitch, 2 * thick)));
        return this;
    }

    /// <summary>The thread in hand, from where it comes out of the cloth to the needle's eye.</summary>
    /// <param name="from">Where it comes out, in pleats from where the work begins.</param>
    /// <param name="pleat">The pleat the needle goes through.</param>
    /// <param name="down">Lines below the middle of the first row at which the needle lies.</param>
    /// <param name="held">On which side of the needle it is held.</param>
    private HandPicture Thread(double from, int pleat, double down, Level held)
    {
        var side = held == Level.Up ? -1 : 1;
        double eye = pleat + 1.75;
        var line = new OutlineBuilder()
            .MoveTo(X(from + 0.05), Y(down))
            .CurveTo(new(X(from + 0.25), Y(down + side * 1.35)), new(X(from + 0.7), Y(down + side * 1.5)), new(X(from + 1.5), Y(down + side * 1.45)))
            .CurveTo(new(X(eye - 0.9), Y(down + side * 1.35)), new(X(eye + 1.05), Y(down + side * 1.7)), new(X(eye), Y(down)));
        Draw(line.Build());
        return this;
    }

    /// <summary>A number or a word in a small round-ended mark.</summary>
    public HandPicture Say(string words, double across, double down, bool strong = true)
    {
        var style = look.Note with { Face = Face.TextBold, Points = look.Large ? 11 : 8, Colour = strong ? Colour.White : look.Ink };
        double height = Typeface.CapHeight(style) + 2, width = Math.Max(height, Typeface.Width(words, style) + 2.6);
        var box = new Box(X(across) - width / 2, Y(down) - height / 2, width, height);
        marks.Add(new Shape(Outline.Rounded(box, height / 2), strong ? look.Accent : Colour.White, new Pen(strong ? Colour.White : look.Accent, 0.25)));
        marks.Add(new Lettering(new Spot(box.Centre.X, box.Centre.Y + Typeface.CapHeight(style) / 2), words, style, Anchor.Middle));
        return this;
    }

    /// <summary>A ring round places that the words speak of.</summary>
    /// <param name="from">Its first pleat's beginning, in pleats from where the work begins.</param>
    /// <param name="pleats">Pleats across.</param>
    /// <param name="top">Its top, in lines below the middle of the first row.</param>
    /// <param name="lines">Lines down.</param>
    public HandPicture Ring(double from, double pleats, double top, double lines)
    {
        double a = X(from), b = X(from + pleats);
        var box = new Box(Math.Min(a, b), Y(top), Math.Abs(b - a), lines * Line).Grown(0.5);
        marks.Add(new Shape(Outline.Rounded(box, Line * 0.5), null, new Pen(Colour.White, 1.3)));
        marks.Add(new Shape(Outline.Rounded(box, Line * 0.5), null, new Pen(look.Alarm, 0.6)));
        return this;
    }

    /// <summary>All that is drawn so far turned top to bottom about the middle of the first two rows; lettering keeps upright.</summary>
    public HandPicture Turned()
    {
        double across = Pleats * Pitch, down = 2 * (geometry.Middle(first) + Line);
        var turned = Moved(marks.ToImmutable(), s => new Spot(across - s.X, down - s.Y));
        marks.Clear();
        marks.AddRange(turned);
        return this;
    }

    private double X(double across) => (hand == Hand.Right ? across : Pleats - across) * Pitch;

    private double Y(double down) => geometry.Middle(first) + down * Line;

    private Spot At(double across, double down, double lower) => new(X(across), Y(down) + lower);

    private void Behind(Outline line) => marks.Add(new Shape(line, null, new Pen(Look.Darker(inHand.Colour, 0.2), Math.Min(0.8, Ribbon * 0.3)) { Dashes = (1.4, 1.1) }));

    private void Draw(Outline line, double thick = 1)
    {
        var ribbon = Ribbon * 0.62 * thick; // in hand the strands lie closer than on the cloth
        marks.Add(new Shape(line, null, new Pen(Look.Darker(inHand.Colour, 0.3), ribbon) { Round = true }));
        marks.Add(new Shape(line, null, new Pen(inHand.Colour, ribbon * 0.78) { Round = true }));
        marks.Add(new Shape(line, null, new Pen(Look.Lighter(inHand.Colour, 0.3), ribbon * 0.14) { Round = true }));
    }

    // Rows are written from where a right hand begins; the lattice mirrors as it stands, so the marks are mirrored instead.
    private ImmutableArray<Mark> Cloth(ImmutableArray<string> rows)
    {
        var drawn = StitchedPicture.Draw(new ChartGeometry(Lay(rows), geometry?.Pitch ?? 1, geometry?.LineHeight ?? 1), new ChartWindow(1, Pleats, first.Index - 4, first.Index + 5)).Marks;
        return hand == Hand.Right ? drawn : Moved(drawn, s => new Spot(Pleats * geometry!.Pitch - s.X, s.Y));
    }

    private Work Lay(ImmutableArray<string> rows)
    {
        var figures = rows.IsEmpty ? [] : ImmutableArray.Create(new Figure("rows", rows));
        return Work.Lay(new Piece("", cloth, second == thread ? [thread] : [thread, second], figures,
            rows.IsEmpty ? [] : [new Placement("rows", Centre.Middle, new GatheringRow(2), 0)]) { Phase = phase });
    }

    /// <summary>A row as <see cref="Stitched"/> reads it: so many cables from the second pleat on.</summary>
    public string Row(int cables) => "." + new string(thread.Key.Letter, cables) + new string('.', Valleys - 1 - cables);

    private static ImmutableArray<Mark> Moved(ImmutableArray<Mark> marks, Func<Spot, Spot> move) => [.. marks.Select(mark => mark switch
    {
        Shape shape => shape with { Outline = new Outline(shape.Outline.Strokes, [.. shape.Outline.Spots.Select(move)]) },
        Lettering lettering => lettering with { At = move(lettering.At) },
        Inset { Clip: { } clip } inset => inset with { Marks = Moved(inset.Marks, move), Clip = Between(move(new(clip.X, clip.Y)), move(new(clip.Right, clip.Bottom))) },
        Inset inset => inset with { Marks = Moved(inset.Marks, move) },
        _ => mark,
    })];

    private static Box Between(Spot a, Spot b) => new(Math.Min(a.X, b.X), Math.Min(a.Y, b.Y), Math.Abs(a.X - b.X), Math.Abs(a.Y - b.Y));
}
