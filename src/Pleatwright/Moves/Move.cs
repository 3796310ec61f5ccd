using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Moves;

/// <summary>A side of the cloth.</summary>
internal enum ClothSide
{
    /// <summary>The right side, which is seen when the piece is worn.</summary>
    Right,

    /// <summary>The wrong side: the back.</summary>
    Wrong,
}

/// <summary>What a move is.</summary>
internal enum MoveKind
{
    /// <summary>The work is turned top to bottom, or back.</summary>
    Turn,

    /// <summary>One of the small stitches on the back, through the first pleat, that secure a thread.</summary>
    Secure,

    /// <summary>Half of a needleful is left hanging at the back for the other half of a band.</summary>
    LeaveHalf,

    /// <summary>A thread that was left hanging is taken up.</summary>
    TakeUp,

    /// <summary>The thread is carried on the back to where the next stitches begin.</summary>
    Carry,

    /// <summary>One of the small cables on the back by which a thread goes further than it may float.</summary>
    Across,

    /// <summary>The needle is brought to the front.</summary>
    ComeUp,

    /// <summary>The needle goes back through the first pleat, so that the thread leaves its outer side.</summary>
    Begin,

    /// <summary>A cable.</summary>
    Cable,

    /// <summary>A half stitch, over one pleat alone.</summary>
    Half,

    /// <summary>A stitch along the row with the thread on one side of the needle all along: outline, stem, wheat.</summary>
    Rope,

    /// <summary>A step up or down, from one pleat to the next.</summary>
    Step,

    /// <summary>A bar over one pleat, from one height to the other.</summary>
    Bar,

    /// <summary>The first of the two small stitches of a catch.</summary>
    Catch,

    /// <summary>The second, in the same place.</summary>
    CatchAgain,

    /// <summary>The second, and the needle slipped on inside the fold to the other height.</summary>
    Slip,

    /// <summary>A loop held under the needle's point.</summary>
    Loop,

    /// <summary>A part of an accent.</summary>
    Accent,

    /// <summary>The needle is taken to the back.</summary>
    GoDown,

    /// <summary>The thread is left hanging at the back.</summary>
    Wait,

    /// <summary>One of the small cables on the back that tie a thread off.</summary>
    TieOff,
}

/// <summary>A place where the needle goes through the cloth.</summary>
/// <param name="Across">Pleats from the left edge of pleat 1, seen from the right side: valley v lies at v.</param>
/// <param name="Toward">1 when it lies at the left edge of the pleat it goes through, -1 at its right edge; 0 where it goes through no one pleat.</param>
/// <param name="Height">How far below gathering row 1, along the pleat; negative above it.</param>
internal readonly record struct Prick(double Across, int Toward, Length Height)
{
    /// <summary>The pleat that is gone through, or null.</summary>
    public Pleat? Pleat => Toward == 0 ? null : new Pleat((int)Math.Round(Across + (Toward + 1) / 2.0));

    /// <summary>The place where the needle's way goes through the cloth.</summary>
    public static Prick Of(NeedlePoint point, Gauge gauge) => new(point.At.Across, point.Toward, HeightOf(point.At.Down, gauge));

    /// <summary>Where it lies on the chart.</summary>
    public ChartPlace On(Gauge gauge) => new(Across, Height / gauge.LineHeight + 1);

    /// <summary>The same, so many lines further down.</summary>
    public Prick Lower(double lines, Gauge gauge) => this with { Height = Height + gauge.LineHeight * lines };

    /// <summary>How far below gathering row 1 a line lies.</summary>
    public static Length HeightOf(double down, Gauge gauge) => gauge.LineHeight * (down - 1);
}

/// <summary>
/// One move of the needle. The thread comes out of the cloth at <see cref="From"/>, lies on one face of it as far as <see cref="In"/>, and there the needle goes
/// in, to come out at <see cref="Out"/>: where the next move begins. Everything is seen from the right side with the top edge up, also what is worked turned or on the back.
/// </summary>
/// <param name="Kind">What it is.</param>
/// <param name="Stitch">The stitch of its step that it belongs to, from 0; -1 for what belongs to none.</param>
/// <param name="From">Where the thread comes out.</param>
/// <param name="In">Where the needle goes in.</param>
/// <param name="Out">Where it comes out again; where it goes in when it goes straight through, or through nothing.</param>
/// <param name="Lies">The face on which the thread lies between <paramref name="From"/> and <paramref name="In"/>: the one that faces the maker.</param>
/// <param name="Emerges">The face on which the needle comes out.</param>
/// <param name="Level">Whether the thread is above or below the needle, seen on the chart; null where it is on no side.</param>
internal sealed record Move(MoveKind Kind, int Stitch, Prick From, Prick In, Prick Out, ClothSide Lies, ClothSide Emerges, Level? Level)
{
    /// <summary>Where the thread bends between <see cref="From"/> and <see cref="In"/>, on the back.</summary>
    public ImmutableArray<Prick> Via { get; init; } = [];

    /// <summary>What is then seen of it on the face it lies on, as the chart draws it.</summary>
    public ImmutableArray<StitchShape> Shows { get; init; } = [];

    /// <summary>The other stitch that it finishes on its way, or the same.</summary>
    public int LastStitch { get; init; } = Stitch;

    /// <summary>Which part of its accent's words tells it.</summary>
    public int Part { get; init; }

    /// <summary>Which of several alike it is, from 1, and of how many: securing, cabling across, tying off.</summary>
    public (int Number, int Of) Time { get; init; } = (1, 1);

    /// <summary>Whether the needle goes through anything.</summary>
    public bool Pierces => Kind is not (MoveKind.Turn or MoveKind.LeaveHalf or MoveKind.TakeUp or MoveKind.Carry or MoveKind.Wait);

    /// <summary>The pleats the thread lies over, between where it comes out and where it goes in.</summary>
    public (Pleat First, Pleat Last)? Over
    {
        get
        {
            var (from, to) = (Math.Min(From.Across, In.Across), Math.Max(From.Across, In.Across));
            return to - from < 0.75 ? null : (new Pleat((int)Math.Round(from) + 1), new Pleat((int)Math.Round(to)));
        }
    }
}
