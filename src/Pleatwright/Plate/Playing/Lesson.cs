using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Moves;
using Pleatwright.Order;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Playing;

/// <summary>A move of the craft shown by itself, without a piece: worked on a small cloth of our own, by the very order and moves that any piece has.</summary>
/// <param name="Name">What it is called, as the trade does.</param>
/// <param name="Of">A small piece in which it comes.</param>
/// <param name="Steps">Which of its steps it lies in, given the order: one, or two that follow each other.</param>
/// <param name="Shown">Which of their moves are shown; of each also the step it is of, from 0.</param>
internal sealed record Lesson(string Name, Func<Piece> Of, Func<WorkingOrder, ImmutableArray<Direction>, IEnumerable<Direction>> Steps, Func<Move, int, bool> Shown)
{
    private const int Pleats = 14;

    /// <summary>Every lesson, in the order they are offered: what every row needs, then the geometric stitches, then the accents.</summary>
    public static ImmutableArray<Lesson> All { get; } =
    [
        Run("secure", ["aaaaaaa"], (m, _) => m.Kind is MoveKind.Secure or MoveKind.ComeUp or MoveKind.Begin),
        Run("first cable", ["aaaaaaa"], (m, _) => m.Kind is MoveKind.ComeUp or MoveKind.Begin || m.Stitch == 0),
        Run("up cable", ["aaaaaaa"], (m, _) => m.Stitch is 1 or 2 or 3 && m.Level == Level.Up),
        Run("down cable", ["aaaaaaa"], (m, _) => m.Stitch is 1 or 2 or 3 && m.Level == Level.Down),
        new("half stitch", () => Cloth(["aaaaa"], square: true), First, (m, _) => m.Stitch >= 4),
        new("mirror row", () => Cloth(["aaaaaaa", "aaaaaaa"]), Second, (m, _) => m.Stitch >= 0),
        new("next row", () => Cloth(["aaaaaaa", "aaaaaaa"]), Two, (m, step) => step == 0 ? m.Kind == MoveKind.GoDown : UpToFirst(m)),
        new("carry", () => Cloth(["aaa.aaa"]), Two, (m, step) => step == 0 ? m.Kind == MoveKind.GoDown : UpToFirst(m)),
        new("carry further", () => Cloth(["aaa...aaa"]), Two, (m, step) => step == 0 ? m.Kind == MoveKind.GoDown : UpToFirst(m)),
        new("change the colour", () => Cloth(["aaaabbb"]), Two, (m, step) => step == 0 ? m.Stitch == 3 || m.Kind is MoveKind.GoDown or MoveKind.Wait or MoveKind.TieOff : UpToFirst(m)),
        new("wait and take up", () => Cloth(["aaaabbb", "aaaabbb"]), Waiting, (m, step) => step == 0 ? m.Kind is MoveKind.GoDown or MoveKind.Wait : UpToFirst(m)),
        Run("tie off", ["aaaaaaa"], (m, _) => m.Kind is MoveKind.GoDown or MoveKind.TieOff),
        new("backsmocking", () => Cloth(["aaaaaaa"]) with { Back = Backsmocking.All }, (_, told) => told.Where(t => t.Back is not null).Take(1), (m, _) => m.Stitch < 4 && m.Kind != MoveKind.TieOff),
        .. BandStitch.All.Where(s => !s.OnLattice).Select(Stitch),
        .. Accent.All.Select(a => new Lesson(a.Name, () => Cloth([]) with { Accents = [new AccentMark(a.Name, Centre.Middle, new GatheringRow(2), new ThreadKey('a'))] },
            (_, told) => told.Where(t => !t.Accents.IsEmpty), (m, _) => m.Kind == MoveKind.Accent)),
    ];

    /// <summary>The lesson of a name, or null.</summary>
    public static Lesson? Named(string name) => All.FirstOrDefault(l => l.Name.Equals(name, StringComparison.OrdinalIgnoreCase));

    /// <summary>Its film.</summary>
    /// <param name="hand">The hand that works it.</param>
    /// <param name="levels">How the work is held.</param>
    /// <param name="back">Whether all of it is seen from the back.</param>
    public (Film Film, Gauge Gauge) Film(Hand hand, LevelWords levels, bool back = false)
    {
        var piece = Of();
        if (hand == Hand.Left) piece = piece with { Figures = [.. piece.Figures.Select(f => f.Mirrored())] }; // what a right hand meets first a left hand meets first, too
        var order = Planner.Plan(Work.Lay(piece with { Working = piece.Working with { Hand = hand } }), Effort.Plate);
        var steps = Steps(order, Directions.Write(order, levels)).ToList();
        return (Playing.Film.Of(order, steps, levels, Name.Capital(), back, Shown), order.Work.Pleating.Gauge);
    }

    private static Lesson Run(string name, string[] rows, Func<Move, int, bool> shown) => new(name, () => Cloth(rows), First, shown);

    private static Lesson Stitch(BandStitch stitch) => new(stitch.Name,
        () => Cloth([]) with { Bands = [new Band(stitch.Name, new GatheringRow(2), new ThreadKey('a')) { WorkFrom = WorkFrom.Side }] }, (_, told) => told.Where(t => t.Band is not null).Take(1),
        (m, _) => m.Stitch < Math.Max(6, stitch.RepeatOf(new Band(stitch.Name, new GatheringRow(2), new ThreadKey('a')))) && m.Kind is not (MoveKind.Secure or MoveKind.GoDown or MoveKind.TieOff));

    // A step's beginning, its first stitch among it.
    private static bool UpToFirst(Move move) => move.Stitch == 0 || (move.Stitch < 0 && move.Kind is not (MoveKind.GoDown or MoveKind.TieOff or MoveKind.Wait));

    private static IEnumerable<Direction> First(WorkingOrder order, ImmutableArray<Direction> told) => Runs(told).Take(1);

    private static IEnumerable<Direction> Second(WorkingOrder order, ImmutableArray<Direction> told) => Runs(told).Skip(1).Take(1);

    private static IEnumerable<Direction> Two(WorkingOrder order, ImmutableArray<Direction> told) => Runs(told).Take(2);

    private static IEnumerable<Direction> Waiting(WorkingOrder order, ImmutableArray<Direction> told)
    {
        var again = order.Steps.First(s => s.Starts == StartKind.Carry && order.Steps[order.LastStepOf(s) - 1].Parks);
        return Runs(told).Where(t => t.Step!.Number == order.LastStepOf(again) || t.Step == again);
    }

    private static IEnumerable<Direction> Runs(ImmutableArray<Direction> told) => told.Where(t => t is { Kind: DirectionKind.Step, Step: not null });

    // Full pleats and four strands, as for a picture; two colours that every eye tells apart.
    private static Piece Cloth(string[] rows, bool square = false)
    {
        var cloth = new ClothPlan(new Panel(Gauge.Common.Pitch * Pleats), Gauge.Common, 3) { Colour = Colour.Parse("#f4efe3") };
        return new Piece("Lesson", cloth, [new Floss(new ThreadKey('a'), "red", Colour.Parse("#b3202c"), 4), new Floss(new ThreadKey('b'), "blue", Colour.Parse("#1f4e79"), 4)],
            rows.Length == 0 ? [] : [new Figure("rows", [.. rows]) { Square = square }], rows.Length == 0 ? [] : [new Placement("rows", Centre.Middle, new GatheringRow(2), 0)])
        { Back = Backsmocking.None };
    }
}
