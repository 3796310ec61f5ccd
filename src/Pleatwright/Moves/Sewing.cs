using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pass = Pleatwright.Chart.Stitches.Pass;

namespace Pleatwright.Moves;

/// <summary>The moves of stitches, and of what goes before and after them. Where the needle goes in a stitch is told by <see cref="NeedlePath"/> and by each accent alone.</summary>
internal static class Sewing
{
    /// <summary>Small stitches that secure a thread, and small cables that tie it off (common practice, no source).</summary>
    public const int Fastenings = 2;

    // Lines by which the small stitches that secure a thread lie beside one another.
    private const double Below = 0.35, Above = -0.3;

    /// <summary>The stitches of a pass: the needle comes up, begins as every row begins, and works stitch after stitch.</summary>
    /// <param name="pass">The pass; at least one stitch.</param>
    /// <param name="gauge">How the cloth is gathered.</param>
    /// <param name="face">The face that is stitched on; on the wrong side the thread is there already, and leaves the outer side of the first pleat.</param>
    /// <param name="seen">What is seen of its stitches, by their number; where it is a part of a longer pass, as that draws them. Its own drawing where none is given.</param>
    public static IEnumerable<Move> Stitches(Pass pass, Gauge gauge, ClothSide face = ClothSide.Right, IEnumerable<(int Stitch, StitchShape Shape)>? seen = null)
    {
        var shapes = (seen ?? StitchDrawing.OfStitches(pass, gauge.CableRowsPerSpace)).ToLookup(s => s.Stitch, s => s.Shape);
        var (told, shown) = (-1, 0); // how many of a stitch's shapes moves have shown
        var path = NeedlePath.Of(pass, gauge.CableRowsPerSpace).Select(p => (p.Stitch, p.Point.Up, At: Prick.Of(p.Point, gauge))).ToList();
        var begun = pass.Stitches[0].Kind == StitchKind.Loop ? 0 : 2;
        var from = path[0].At;
        if (face == ClothSide.Wrong) from = path[begun].At;
        else
        {
            yield return new(MoveKind.ComeUp, -1, from, from, from, ClothSide.Wrong, ClothSide.Right, null);
            if (begun > 0) yield return new(MoveKind.Begin, -1, from, path[1].At, from = path[2].At, face, face, null);
        }
        for (var i = begun + 1; i + 1 < path.Count; i += 2)
        {
            var (stitch, next) = (path[i].Stitch, path[i + 1].Stitch);
            if (stitch != told) (told, shown) = (stitch, 0);
            var kind = KindOf(pass, stitch, next, again: shown > 0);
            var all = shapes[stitch].ToList();
            // A loop shows both its sides at once; the two small stitches of a catch show one each.
            var shows = all.Skip(shown).Take(pass.Stitches[stitch].Kind == StitchKind.Catch ? 1 : all.Count).ToImmutableArray();
            shown += shows.Length;
            yield return new(kind, stitch, from, path[i].At, path[i + 1].At, face, face, pass.Stitches[stitch].Level) { LastStitch = next, Shows = shows };
            from = path[i + 1].At;
        }
    }

    private static MoveKind KindOf(Pass pass, int index, int last, bool again)
    {
        var stitch = pass.Stitches[index];
        return pass.Stitches[last].Kind == StitchKind.Slip ? MoveKind.Slip : stitch.Kind switch
        {
            StitchKind.Catch => again ? MoveKind.CatchAgain : MoveKind.Catch,
            StitchKind.Bar => MoveKind.Bar,
            StitchKind.Loop => MoveKind.Loop,
            _ when stitch.From.Pleat == stitch.To.Pleat => MoveKind.Half,
            _ when !stitch.IsLevel => MoveKind.Step,
            _ => Beside(index - 1) || Beside(index + 1) ? MoveKind.Rope : MoveKind.Cable,
        };

        bool Beside(int other) => other >= 0 && other < pass.Stitches.Length && pass.Stitches[other] is { IsLevel: true, Kind: StitchKind.Over } s && s.Level == stitch.Level;
    }

    /// <summary>The parts of an accent, from where the needle comes up to where it goes down.</summary>
    /// <param name="laid">The accent in its place.</param>
    /// <param name="index">Its number among those of its step.</param>
    /// <param name="gauge">How the cloth is gathered.</param>
    /// <param name="hand">The hand that works it.</param>
    public static ImmutableArray<Move> Accent(LaidAccent laid, int index, Gauge gauge, Hand hand)
    {
        var path = laid.Accent.Needle(laid, gauge, hand).Select(p => Prick.Of(p, gauge)).ToList();
        List<Move> moves = [Of(path[0], path[0], path[0], ClothSide.Wrong, ClothSide.Right)];
        for (var i = 1; i < path.Count; i += 2)
            moves.Add(i + 1 < path.Count ? Of(path[i - 1], path[i], path[i + 1], ClothSide.Right, ClothSide.Right) : Of(path[i - 1], path[i], path[i], ClothSide.Right, ClothSide.Wrong));
        if (path.Count % 2 == 1) moves.Add(Of(path[^1], path[^1], path[^1], ClothSide.Right, ClothSide.Wrong));
        var parts = laid.Accent.Parts.SelectMany((p, part) => Enumerable.Repeat(part, p.Moves)).ToList();
        var shapes = laid.Accent.Shapes(laid, gauge).ToImmutableArray();
        var lying = moves.FindAll(m => m.Lies == ClothSide.Right && m.From != m.In && m.In != m.Out);
        for (var i = 0; i < moves.Count; i++)
        {
            var at = lying.IndexOf(moves[i]);
            var shows = shapes.Length == lying.Count ? at >= 0 ? [shapes[at]] : [] : i == moves.Count - 1 ? shapes : [];
            moves[i] = moves[i] with { Part = parts[Math.Min(i, parts.Count - 1)], Shows = shows };
        }
        return [.. moves];

        Move Of(Prick from, Prick into, Prick outOf, ClothSide lies, ClothSide emerges) => new(MoveKind.Accent, index, from, into, outOf, lies, emerges, null);
    }

    /// <summary>Small stitches on the back, through the pleat where stitches begin; the thread then leaves its outer side, on the back.</summary>
    /// <param name="rise">The valley between the first two pleats, where the needle will come up.</param>
    /// <param name="way">1 when stitches go right on the chart, -1 when they go left.</param>
    /// <param name="turned">Whether the work is turned.</param>
    /// <param name="gauge">How the cloth is gathered.</param>
    public static ImmutableArray<Move> Secure(Prick rise, int way, bool turned, Gauge gauge)
    {
        var outer = rise with { Across = rise.Across - way, Toward = way };
        var inner = rise with { Toward = -way };
        var down = turned ? -1 : 1;
        var between = outer.Lower(Above * down, gauge);
        return
        [
            Small(MoveKind.Secure, outer.Lower(Below * down, gauge), inner.Lower(Below * down, gauge), between, 1, null, gauge),
            Small(MoveKind.Secure, between, inner.Lower(Above * down, gauge), outer, 2, null, gauge),
        ];
    }

    /// <summary>Small cables on the back from one valley to another at the same height: each lies over two pleats, and the needle goes back through the second. The last ends a pleat short, so that none is past where the thread is wanted.</summary>
    /// <param name="left">Where the thread was left.</param>
    /// <param name="to">Across, the valley where it is wanted: two pleats away or more.</param>
    /// <param name="turned">Whether the work is turned.</param>
    /// <param name="gauge">How the cloth is gathered.</param>
    public static ImmutableArray<Move> Across(Prick left, double to, bool turned, Gauge gauge)
    {
        var onward = Math.Sign(to - left.Across);
        var of = (int)Math.Round(Math.Abs(to - left.Across)) - 1;
        var first = turned ? Level.Down : Level.Up; // as held the first is up, as in backsmocking
        var moves = ImmutableArray.CreateBuilder<Move>(of);
        for (var i = 1; i <= of; i++)
        {
            var into = left with { Across = left.Across + onward * (i + 1), Toward = -onward };
            moves.Add(new(MoveKind.Across, -1, i == 1 ? left : moves[^1].Out, into, into with { Across = into.Across - onward, Toward = onward }, ClothSide.Wrong, ClothSide.Wrong, i % 2 == 1 ? first : first.Opposite()) { Time = (i, of), Shows = Seen(i == 1 ? left : moves[^1].Out, into, i % 2 == 1 ? first : first.Opposite(), gauge) });
        }
        return moves.MoveToImmutable();
    }

    /// <summary>Small cables on the back over the pleats just worked, from where the thread went down.</summary>
    /// <param name="left">Where it went down: the valley before the last pleat.</param>
    /// <param name="way">1 when stitches went right on the chart, -1 when they went left.</param>
    /// <param name="pleats">Pleats just worked, on that side of the valley.</param>
    /// <param name="first">The level of the first of them, seen on the chart.</param>
    /// <param name="gauge">How the cloth is gathered.</param>
    public static ImmutableArray<Move> TieOff(Prick left, int way, int pleats, Level first, Gauge gauge)
    {
        var moves = ImmutableArray.CreateBuilder<Move>(Fastenings);
        for (var i = 1; i <= Fastenings; i++)
        {
            var back = Math.Min(i, Math.Max(1, pleats));
            var into = left with { Across = left.Across - way * back, Toward = way };
            moves.Add(Small(MoveKind.TieOff, i == 1 ? left : moves[^1].Out, into, into with { Across = into.Across + way, Toward = -way }, i, i % 2 == 1 ? first : first.Opposite(), gauge));
        }
        return moves.MoveToImmutable();
    }

    private static Move Small(MoveKind kind, Prick from, Prick into, Prick outOf, int number, Level? level, Gauge gauge) =>
        new(kind, -1, from, into, outOf, ClothSide.Wrong, ClothSide.Wrong, level) { Time = (number, Fastenings), Shows = Seen(from, into, level, gauge) };

    // A small stitch on the back lies as one of its kind on the front would: a cable on its line.
    private static ImmutableArray<StitchShape> Seen(Prick from, Prick into, Level? level, Gauge gauge)
    {
        var beside = level switch { Level.Up => -0.5, Level.Down => 0.5, _ => 0.0 };
        return [new(ShapeKind.Bar, from.Lower(beside, gauge).On(gauge), into.Lower(beside, gauge).On(gauge), level is null ? 0.6 : 0.9)];
    }
}
