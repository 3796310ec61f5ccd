using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Measure;
using Pleatwright.Moves;
using Pass = Pleatwright.Chart.Stitches.Pass;

namespace Pleatwright.Order;

/// <summary>The moves of each step of an order: how its thread comes, its stitches, and what becomes of the thread.</summary>
internal static class StepMoves
{
    /// <summary>The moves of a step of the directions; null for what is no step.</summary>
    public static Passage? Of(WorkingOrder order, Direction told) =>
        told.Step is { } step ? Of(order, step) : told.Band is { } band ? Of(order, band) : told.Back is { } back ? Of(order, back)
        : told.Accents.IsEmpty ? null : Of(order, told.Accents);

    /// <summary>The stitches of a run's step as a pass: cables in the order worked, and over one pleat alone the half stitches.</summary>
    public static Pass PassOf(WorkingOrder order, Step step)
    {
        var way = order.TravelsRight(step) ? 1 : -1;
        var depth = (double)step.Row.Index / order.Work.Pleating.Gauge.CableRowsPerSpace;
        var stitches = ImmutableArray.CreateBuilder<Stitch>(step.Cables + step.HalfStitches);
        if (step.HalfAtBegin) stitches.Add(Over(Near(step.From), Near(step.From), step.Begin.Opposite()));
        for (var i = 0; i < step.Cables; i++)
        {
            var valley = new Valley(step.From.Number + i * way);
            stitches.Add(Over(Near(valley), Far(valley), i % 2 == 0 ? step.Begin : step.Begin.Opposite()));
        }
        if (step.HalfAtEnd) stitches.Add(Over(Far(step.To), Far(step.To), step.End.Opposite()));
        return new Pass(0, 0, step.Turned, false, stitches.MoveToImmutable());

        Pleat Near(Valley valley) => way > 0 ? valley.LeftPleat : valley.RightPleat;
        Pleat Far(Valley valley) => way > 0 ? valley.RightPleat : valley.LeftPleat;
        Stitch Over(Pleat from, Pleat to, Level level) => new(StitchKind.Over, new(from, depth), new(to, depth), level);
    }

    /// <summary>The stitches of a run's step with what is seen of each, as its moves show it; sooner than all its moves where no more is wanted.</summary>
    public static IEnumerable<(Stitch Stitch, StitchShape Shape)> Shapes(WorkingOrder order, Step step)
    {
        var pass = PassOf(order, step);
        return StitchDrawing.OfStitches(pass, order.Work.Pleating.Gauge.CableRowsPerSpace).Select(s => (pass.Stitches[s.Stitch], s.Shape));
    }

    /// <summary>The moves of a step of runs.</summary>
    public static Passage Of(WorkingOrder order, Step step)
    {
        var way = order.TravelsRight(step) ? 1 : -1;
        var gauge = order.Work.Pleating.Gauge;
        var sewn = Sewing.Stitches(PassOf(order, step), gauge).ToList();
        var rise = sewn[0].In;
        var moves = ImmutableArray.CreateBuilder<Move>();
        if (step.Starts == StartKind.New) moves.AddRange(Sewing.Secure(rise, way, step.Turned, gauge));
        else
        {
            var before = order.Steps[order.LastStepOf(step) - 1];
            var left = End(order, before);
            if (before.Parks) moves.Add(Resting(MoveKind.TakeUp, left));
            moves.AddRange(Carry(left, rise, step.Turned, gauge));
        }
        Close(moves, sewn, step.TieOff, step.Parks, way, step.Cables, step.End.Opposite(), gauge);
        Turn(moves, step.Turned, step.Number > 1 && order.Steps[step.Number - 2].Turned);
        return new(moves.ToImmutable(), step.Turned, way, order.Work.Piece.Thread(step.Thread)!);
    }

    /// <summary>The moves of a step of a band.</summary>
    public static Passage Of(WorkingOrder order, BandStep step)
    {
        var gauge = order.Work.Pleating.Gauge;
        var stitches = step.Pass.Stitches.Slice(step.First, step.Count);
        var pass = step.Pass with { Stitches = stitches, GoesOn = step.Pass.GoesOn || step.First > 0 };
        // A bar or a slip alone goes no way of its own.
        var way = NeedlePath.WayOf(stitches.Any(s => s.From.Pleat != s.To.Pleat) ? pass : step.Pass);
        // What a thread begins or ends in the midst of is drawn as if it had not.
        var sewn = Sewing.Stitches(pass, gauge, seen: StitchDrawing.OfStitches(step.Pass, gauge.CableRowsPerSpace).Select(s => (s.Stitch - step.First, s.Shape))).ToList();
        var rise = sewn[0].In;
        var steps = order.Bands.Steps;
        var at = steps.IndexOf(step);
        var moves = ImmutableArray.CreateBuilder<Move>();
        switch (step.Thread)
        {
            case BandThread.Carry:
                moves.AddRange(Carry(Of(order, steps[at - 1]).Moves[^1].Out, rise, step.Pass.Turned, gauge));
                break;
            case BandThread.Tail:
                moves.Add(Resting(MoveKind.TakeUp, rise));
                break;
            case BandThread.NewWithTail:
                moves.Add(Resting(MoveKind.LeaveHalf, rise));
                break;
            default:
                moves.AddRange(Sewing.Secure(rise, way, step.Pass.Turned, gauge));
                break;
        }
        Close(moves, sewn, step.TieOff, false, way, Math.Abs(step.End.To.Pleat.Number - step.Begin.From.Pleat.Number), Level.Up, gauge);
        Turn(moves, step.Pass.Turned, at > 0 && steps[at - 1].Pass.Turned);
        return new(moves.ToImmutable(), step.Pass.Turned, way, order.Work.Piece.Thread(step.Band.Band.Thread)!);
    }

    /// <summary>The moves of a row of backsmocking, all of them on the wrong side.</summary>
    public static Passage Of(WorkingOrder order, BackRow row)
    {
        var gauge = order.Work.Pleating.Gauge;
        var way = Math.Sign(row.End.Number - row.Begin.Number);
        var depth = row.Row.Number - 1.0;
        var first = row.Turned ? Level.Down : Level.Up; // as held the first is up
        var stitches = Enumerable.Range(0, row.Cables).Select(i => new Stitch(StitchKind.Over, new(new(row.Begin.Number + i * way), depth), new(new(row.Begin.Number + (i + 1) * way), depth), i % 2 == 0 ? first : first.Opposite()));
        var sewn = Sewing.Stitches(new Pass(0, 0, row.Turned, false, [.. stitches]), gauge, ClothSide.Wrong).ToList();
        var start = sewn[0].From;
        var rows = order.Backsmock.Rows;
        var at = rows.IndexOf(row);
        var moves = ImmutableArray.CreateBuilder<Move>();
        var rise = start with { Across = start.Across + way, Toward = -way };
        if (row.Carried > Length.Zero)
        {
            moves.AddRange(Carry(Of(order, rows[at - 1]).Moves[^1].Out, rise, row.Turned, gauge));
            moves.Add(new(MoveKind.Begin, -1, moves[^1].Out, rise, start, ClothSide.Wrong, ClothSide.Wrong, null));
        }
        else moves.AddRange(Sewing.Secure(rise, way, row.Turned, gauge));
        moves.AddRange(sewn);
        if (!row.KeepsThread) moves.AddRange(Sewing.TieOff(sewn[^1].Out, way, row.Cables, sewn[^1].Level!.Value.Opposite(), gauge));
        Turn(moves, row.Turned, at > 0 && rows[at - 1].Turned);
        return new(moves.ToImmutable(), row.Turned, way, order.Backsmock.Thread);
    }

    /// <summary>The moves of accents, each begun and fastened on the back by itself.</summary>
    public static Passage Of(WorkingOrder order, ImmutableArray<Chart.Accents.LaidAccent> accents)
    {
        var (gauge, hand) = (order.Work.Pleating.Gauge, order.Work.Piece.Working.Hand);
        var way = hand == Hand.Left ? -1 : 1;
        var moves = ImmutableArray.CreateBuilder<Move>();
        for (var i = 0; i < accents.Length; i++)
        {
            var sewn = Sewing.Accent(accents[i], i, gauge, hand);
            var rise = sewn[0].In with { Across = Math.Round(sewn[0].In.Across), Toward = -way };
            var secured = Sewing.Secure(rise, way, false, gauge);
            moves.AddRange(secured);
            moves.Add(sewn[0] with { From = secured[^1].Out });
            moves.AddRange(sewn.AsSpan()[1..]);
            var left = sewn[^1].Out with { Across = Math.Round(sewn[^1].Out.Across), Toward = -way };
            var tied = Sewing.TieOff(left, way, 1, Level.Up, gauge);
            moves.AddRange(tied.SetItem(0, tied[0] with { From = sewn[^1].Out }));
        }
        return new(moves.ToImmutable(), false, way, order.Work.Piece.Thread(accents[0].Mark.Thread)!);
    }

    /// <summary>Where a step leaves its thread, on the back: in the valley before its last pleat.</summary>
    private static Prick End(WorkingOrder order, Step step)
    {
        var pass = PassOf(order, step);
        var gauge = order.Work.Pleating.Gauge;
        return Prick.Of(NeedlePath.Of(pass, gauge.CableRowsPerSpace).Last().Point, gauge);
    }

    // The needle comes up where the thread has been brought to, stitches, and goes to the back.
    private static void Close(ImmutableArray<Move>.Builder moves, List<Move> sewn, bool tieOff, bool waits, int way, int pleats, Level first, Cloth.Gauge gauge)
    {
        moves.Add(sewn[0] with { From = moves[^1].Out });
        moves.AddRange(sewn.Skip(1));
        var left = sewn[^1].Out;
        moves.Add(new(MoveKind.GoDown, -1, left, left, left, ClothSide.Right, ClothSide.Wrong, null));
        if (tieOff) moves.AddRange(Sewing.TieOff(left, way, pleats, first, gauge));
        else if (waits) moves.Add(Resting(MoveKind.Wait, left));
    }

    private static void Turn(ImmutableArray<Move>.Builder moves, bool turned, bool was)
    {
        if (turned != was) moves.Insert(0, Resting(MoveKind.Turn, moves[0].From));
    }

    private static Move Resting(MoveKind kind, Prick at) => new(kind, -1, at, at, at, ClothSide.Wrong, ClothSide.Wrong, null);

    // Along the pleat to the new height, then sideways: floated, or where that is too far cabled across.
    private static IEnumerable<Move> Carry(Prick left, Prick to, bool turned, Cloth.Gauge gauge)
    {
        var corner = left with { Height = to.Height };
        if (!Carries.IsCabled((int)Math.Round(to.Across - left.Across))) return [Floated(left, to) with { Via = corner == left || corner.Across == to.Across ? [] : [corner] }];
        var across = Sewing.Across(corner, to.Across, turned, gauge);
        return corner == left ? across : [Floated(left, corner), .. across];
    }

    private static Move Floated(Prick left, Prick to) => new(MoveKind.Carry, -1, left, to, to, ClothSide.Wrong, ClothSide.Wrong, null);
}
