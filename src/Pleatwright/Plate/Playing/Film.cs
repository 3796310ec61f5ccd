using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Moves;
using Pleatwright.Order;
using Pleatwright.Order.Telling;
using Pleatwright.Stitched;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Playing;

/// <summary>One move as it is played.</summary>
/// <param name="Move">The move, seen from the right side with the top edge up.</param>
/// <param name="Turned">Whether the work is turned for it.</param>
/// <param name="Way">1 when its stitches go right on the chart, -1 when they go left.</param>
/// <param name="Thread">Which of the film's threads it is worked with.</param>
/// <param name="Caption">What is said of it, in one sentence or two.</param>
/// <param name="Stitch">Which stitch of its step it makes, from 1; 0 for none.</param>
/// <param name="Of">Of how many.</param>
internal sealed record Take(Move Move, bool Turned, int Way, int Thread, string Caption, int Stitch, int Of)
{
    /// <summary>The side that is seen: the right side, wherever the needle is on it at all.</summary>
    public ClothSide Seen { get; init; } = Move.Lies == ClothSide.Right || Move.Emerges == ClothSide.Right ? ClothSide.Right : ClothSide.Wrong;

    /// <summary>How long it lasts at its usual pace, in seconds (our own choice, by eye).</summary>
    public double Seconds => Move.Kind switch
    {
        MoveKind.Turn or MoveKind.TakeUp or MoveKind.Wait or MoveKind.LeaveHalf => 1.6,
        MoveKind.ComeUp or MoveKind.GoDown => 2,
        MoveKind.Accent => 3.2,
        _ => 2.4,
    };

    /// <summary>Above the needle -1, below it 1, on no side 0: down the picture as the top edge lies up.</summary>
    public int Side => Move.Level switch { Level.Up => -1, Level.Down => 1, _ => 0 };
}

/// <summary>A thread as it is shown.</summary>
/// <param name="Colour">Its colour.</param>
/// <param name="Strands">Its strands.</param>
/// <param name="Diameter">How thick a strand is, in millimetres (<see cref="Fineness.Diameter"/>).</param>
internal sealed record FilmThread(Colour Colour, int Strands, double Diameter);

/// <summary>
/// The work in motion: moves one after the other, on pleats that stand where the stitched picture has them, with thread as thick. What it looks like at any time is told by
/// <see cref="Pose"/>; the player on a page does the same with what <see cref="FilmData"/> writes.
/// </summary>
internal sealed record Film
{
    /// <summary>What is played.</summary>
    public required string Title { get; init; }

    /// <summary>The moves.</summary>
    public required ImmutableArray<Take> Takes { get; init; }

    /// <summary>Where each valley lies, the two edges of the cloth counted in, in millimetres to the right of its middle, where the work is done.</summary>
    public required ImmutableArray<double> Valleys { get; init; }

    /// <summary>Millimetres from valley to valley as gathered.</summary>
    public required double Pitch { get; init; }

    /// <summary>Height of a line, in millimetres.</summary>
    public required double Line { get; init; }

    /// <summary>Lines from one gathering row to the next.</summary>
    public required int LinesPerSpace { get; init; }

    /// <summary>Gathering rows.</summary>
    public required int GatheringRows { get; init; }

    /// <summary>The cloth's colour.</summary>
    public required Colour Cloth { get; init; }

    /// <summary>The threads.</summary>
    public required ImmutableArray<FilmThread> Threads { get; init; }

    /// <summary>What was stitched on the right side before, near by, each with its thread.</summary>
    public required ImmutableArray<(StitchShape Shape, int Thread)> Ground { get; init; }

    /// <summary>Whether the work is held sideways.</summary>
    public required bool Sideways { get; init; }

    /// <summary>How long it lasts at its usual pace, in seconds.</summary>
    public double Seconds => Takes.Sum(t => t.Seconds);

    /// <summary>Pleats that are in sight at once.</summary>
    public const double PleatsSeen = 8;

    /// <summary>How wide the picture is, in millimetres: so many pleats, or what it takes to see both ends of its longest move.</summary>
    public double Wide => wide ??= Math.Max(PleatsSeen * Pitch, LongMove * Takes.Max(t => Math.Max(Math.Abs((t.Move.In.Height - t.Move.From.Height).Millimetres), Math.Abs((t.Move.Out.Height - t.Move.In.Height).Millimetres))));

    private double? wide;

    /// <summary>How many times as wide as the longest way down that a move goes.</summary>
    public const double LongMove = 2.2;

    // Pleats and lines beside what is worked within which earlier stitches are shown.
    private const int Around = 7;

    /// <summary>The film of steps that are worked one after the other.</summary>
    /// <param name="order">The order they are of.</param>
    /// <param name="steps">The steps; at least one.</param>
    /// <param name="levels">How the work is held.</param>
    /// <param name="title">What it is called.</param>
    /// <param name="back">Whether all of it is seen from the back.</param>
    /// <param name="only">Which moves of all are shown; null for every one.</param>
    public static Film Of(WorkingOrder order, IReadOnlyList<Direction> steps, LevelWords levels, string title, bool back = false, Func<Move, int, bool>? only = null)
    {
        var work = order.Work;
        var gauge = work.Pleating.Gauge;
        var threads = new List<Floss>();
        var words = new MoveWords(new Vocabulary(levels));
        var takes = ImmutableArray.CreateBuilder<Take>();
        var skipped = new List<(StitchShape, int)>();
        foreach (var (told, index) in steps.Select((t, i) => (t, i)))
        {
            var passage = StepMoves.Of(order, told) ?? throw new ArgumentException("A film is made of steps.", nameof(steps));
            var thread = ThreadOf(passage.Thread);
            foreach (var take in TakesOf(passage, words.Of(passage, gauge, told.Accents), thread))
            {
                if (only is null || only(take.Move, index)) takes.Add(back ? take with { Seen = ClothSide.Wrong } : take);
                else if (takes.Count == 0 && take.Move.Lies == ClothSide.Right) skipped.AddRange(take.Move.Shows.Select(s => (s, thread)));
            }
        }
        var ground = Before(order, steps[0], takes, ThreadOf);
        var table = new OnTable(new StitchedPiece(work));
        var across = (float)takes.Average(t => t.Move.In.On(gauge).Down);
        return new Film
        {
            Title = title,
            Takes = takes.ToImmutable(),
            Valleys = [.. Enumerable.Range(0, work.Pleating.Pleats + 1).Select(v => (double)table.Place(v, across).X)],
            Pitch = gauge.Pitch.Millimetres,
            Line = gauge.LineHeight.Millimetres,
            LinesPerSpace = 2 * gauge.CableRowsPerSpace,
            GatheringRows = work.Piece.Cloth.GatheringRows,
            Cloth = work.Piece.Cloth.Colour,
            Ground = [.. ground, .. skipped],
            Threads = [.. threads.Select(t => new FilmThread(t.Colour, t.Strands, t.Fineness.Diameter.Millimetres))],
            Sideways = levels == LevelWords.LeftRight,
        };

        int ThreadOf(Floss thread)
        {
            if (threads.IndexOf(thread) is var at and >= 0) return at;
            threads.Add(thread);
            return threads.Count - 1;
        }
    }

    /// <summary>The moves of a passage as they are played.</summary>
    /// <param name="passage">The passage.</param>
    /// <param name="captions">A caption for each of its moves.</param>
    /// <param name="thread">Which of the film's threads it is worked with.</param>
    public static IEnumerable<Take> TakesOf(Passage passage, ImmutableArray<string> captions, int thread)
    {
        var of = passage.Stitches.Count();
        return passage.Moves.Select((move, i) => new Take(move, passage.Turned, passage.Way, thread, captions[i], move.LastStitch + 1, of));
    }

    // What was worked before the first step and lies near.
    private static List<(StitchShape, int)> Before(WorkingOrder order, Direction first, IReadOnlyList<Take> takes, Func<Floss, int> threadOf)
    {
        var gauge = order.Work.Pleating.Gauge;
        var places = takes.SelectMany(t => (ChartPlace[])[t.Move.From.On(gauge), t.Move.In.On(gauge)]).ToList();
        var (left, right) = (places.Min(p => p.Across) - Around, places.Max(p => p.Across) + Around);
        var (top, bottom) = (places.Min(p => p.Down) - 2 * Around, places.Max(p => p.Down) + 2 * Around);
        var ground = new List<(StitchShape, int)>();
        foreach (var band in order.Bands.Steps)
        {
            if (first.Band is { } here && ReferenceEquals(here, band)) break;
            if (first.Back is not null) break;
            Add(StepMoves.Of(order, band));
        }
        if (first.Step is not null || !first.Accents.IsEmpty)
            foreach (var step in order.Steps)
            {
                if (first.Step is { } here && step.Number >= here.Number) break;
                var (from, to) = (Math.Min(step.From.Number, step.To.Number), Math.Max(step.From.Number, step.To.Number));
                if (step.Row.Index * 2 + 2 < top || step.Row.Index * 2 > bottom || from > right || to < left) continue;
                Add(StepMoves.Of(order, step));
            }
        return ground;

        void Add(Passage passage)
        {
            var thread = -1;
            foreach (var move in passage.Moves)
                foreach (var shape in move.Shows)
                {
                    if (Math.Max(shape.From.Across, shape.To.Across) < left || Math.Min(shape.From.Across, shape.To.Across) > right) continue;
                    if (Math.Max(shape.From.Down, shape.To.Down) < top || Math.Min(shape.From.Down, shape.To.Down) > bottom) continue;
                    if (thread < 0) thread = threadOf(passage.Thread);
                    ground.Add((shape, thread));
                }
        }
    }

    /// <summary>Whether what a move lays lies there already: at its end, and what is not one length of thread a little before.</summary>
    public bool Lies(int take, double share) => share >= 1 || (share >= Gestures.Lies && Takes[take].Move.Shows is not ([] or [{ Kind: ShapeKind.Bar }]));

    /// <summary>What lies on a side at a moment, each with its thread: what was stitched before, and what its moves so far have laid there.</summary>
    public IEnumerable<(StitchShape Shape, int Thread)> Laid(int take, double share, ClothSide side)
    {
        if (side == ClothSide.Right)
            foreach (var laid in Ground) yield return laid;
        for (var i = 0; i <= take; i++)
            if (i < take || Lies(take, share))
                foreach (var laid in Lain(i, side)) yield return laid;
    }

    /// <summary>What a move lays on a side.</summary>
    public IEnumerable<(StitchShape Shape, int Thread)> Lain(int take, ClothSide side)
    {
        var (move, thread) = (Takes[take].Move, Takes[take].Thread);
        if (move.Lies != side) yield break;
        foreach (var shape in move.Shows) yield return (shape, thread);
        if (side == ClothSide.Right || !move.Shows.IsEmpty) yield break;
        // Carried, or come from where it was secured, it lies as its path goes, its strands a little closer than in a stitch.
        Prick[] path = [move.From, .. move.Via, move.In];
        for (var k = 1; k < path.Length; k++)
            if (path[k] != path[k - 1]) yield return (new(ShapeKind.Bar, Chart(path[k - 1]), Chart(path[k]), Math.Round(0.75 * Threads[thread].Strands * Threads[thread].Diameter / Line, 3)), thread);

        ChartPlace Chart(Prick prick) => new(prick.Across, prick.Height.Millimetres / Line + 1);
    }

    /// <summary>What is covered by what a move lays, as convex outlines in millimetres.</summary>
    /// <param name="take">The move.</param>
    /// <param name="seen">The move with which it is seen: on the side and held as then.</param>
    public IEnumerable<ImmutableArray<Spot>> Covers(int take, Take seen)
    {
        foreach (var (shape, _) in Lain(take, seen.Seen))
        {
            if (shape.Kind == ShapeKind.Hidden) continue;
            Spot a = Place(shape.From.Across, shape.From.Down, seen.Turned, seen.Seen), b = Place(shape.To.Across, shape.To.Down, seen.Turned, seen.Seen);
            double half = Line * (shape.Kind switch { ShapeKind.Bar => 0.585 * shape.Width, ShapeKind.Coil => 0.5 * shape.Width + 0.3, _ => 0.75 * shape.Width }), past = shape.Kind == ShapeKind.Bar ? 0 : half;
            double x = b.X - a.X, y = b.Y - a.Y, long_ = Math.Sqrt(x * x + y * y);
            (x, y) = long_ < 1e-9 ? (1, 0) : (x / long_, y / long_);
            yield return
            [
                new(a.X - x * past - y * half, a.Y - y * past + x * half), new(b.X + x * past - y * half, b.Y + y * past + x * half),
                new(b.X + x * past + y * half, b.Y + y * past - x * half), new(a.X - x * past + y * half, a.Y - y * past - x * half),
            ];
        }
    }

    /// <summary>Where a place on the chart lies, in millimetres, as the hands hold the work and see the side.</summary>
    public Spot Place(double across, double down, bool turned, ClothSide seen)
    {
        var at = Math.Clamp((int)Math.Floor(across), 0, Valleys.Length - 2);
        var x = Valleys[at] + (Valleys[at + 1] - Valleys[at]) * (across - at);
        var y = (down - 1) * Line;
        return new(turned != (seen == ClothSide.Wrong) ? -x : x, turned ? -y : y);
    }

    /// <summary>Where a move's prick lies as it is seen.</summary>
    public Spot Place(Take take, Prick prick) => Place(prick.Across, prick.Height.Millimetres / Line + 1, take.Turned, take.Seen);

    /// <summary>The middle of what a move is about.</summary>
    public Spot Centre(Take take)
    {
        Spot from = Place(take, take.Move.From), into = Place(take, take.Move.In), outOf = Place(take, take.Move.Out);
        return new((Math.Min(from.X, Math.Min(into.X, outOf.X)) + Math.Max(from.X, Math.Max(into.X, outOf.X))) / 2, (Math.Min(from.Y, Math.Min(into.Y, outOf.Y)) + Math.Max(from.Y, Math.Max(into.Y, outOf.Y))) / 2);
    }

    /// <summary>Which move is under way at a time, and how far it is, from 0 to 1.</summary>
    /// <param name="seconds">Seconds from the beginning, at the usual pace.</param>
    public (int Take, double Share) At(double seconds)
    {
        for (var i = 0; i < Takes.Length; i++)
        {
            if (seconds < Takes[i].Seconds) return (i, Math.Max(0, seconds) / Takes[i].Seconds);
            seconds -= Takes[i].Seconds;
        }
        return (Takes.Length - 1, 1);
    }

    /// <summary>"Stitch 3 of 11"; empty for a move that makes none.</summary>
    public static string Number(Take take) => take.Stitch < 1 ? "" : string.Create(CultureInfo.InvariantCulture, $"Stitch {take.Stitch} of {take.Of}");
}
