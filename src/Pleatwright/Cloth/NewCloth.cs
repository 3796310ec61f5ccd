using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>What a new piece is for.</summary>
public enum Purpose
{
    /// <summary>A flat insert or yoke; its width is the finished width.</summary>
    Panel,

    /// <summary>A round yoke; its width is the neck.</summary>
    Bishop,

    /// <summary>A ball ornament; its width is the diameter.</summary>
    Ball,
}

/// <summary>The answers a new piece begins from. What is left out takes a starting point from <see cref="Practice"/>.</summary>
/// <param name="Purpose">What it is for.</param>
/// <param name="Width">Finished width, neck or diameter, more than 0.</param>
internal sealed record NewCloth(Purpose Purpose, Length Width)
{
    /// <summary>The kind of cloth. Default broadcloth.</summary>
    public ClothKind Kind { get; init; } = ClothKind.Broadcloth;

    /// <summary>Distance between gathering rows, more than 0. Default 3/8 in (common practice, no source).</summary>
    public Length RowSpacing { get; init; } = Length.FromInches(0.375);

    /// <summary>What is to be stitched on it. Default pictures.</summary>
    public Coming Coming { get; init; } = Coming.Pictures;

    /// <summary>Flat cloth to a pleat, more than 0; null takes <see cref="Practice.TakeUpOf"/>.</summary>
    public Length? TakeUp { get; init; }

    /// <summary>The gauge, when it is the maker's own or a swatch's; else the kind, the take-up and the spacing give it.</summary>
    public Gauge? Gauge { get; init; }

    /// <summary>
    /// Depth wanted from the first gathering row to the last, more than 0. Default 3 in; on a ball, as far toward the poles as
    /// the pleats have room.
    /// </summary>
    public Length? Depth { get; init; }

    /// <summary>Gathering rows, at least 2, when the maker counts them rather than giving a depth.</summary>
    public int? Rows { get; init; }

    /// <summary>Angle a blocked bishop goes round, more than 0, at most a full turn, which is usual.</summary>
    public Angle Sweep { get; init; } = Angle.FullTurn;

    /// <summary>Panels of a bishop as cut, when the maker has them; else <see cref="Practice.SharedPanels"/>.</summary>
    public ImmutableArray<RoundPanel> Panels { get; init; } = [];

    /// <summary>The cloth these answers come to.</summary>
    /// <param name="settled">What else the maker has settled: seam pleats, holding rows, edges, joins, pleater, colour.</param>
    /// <exception cref="ArgumentOutOfRangeException">An answer is out of range, or the cloth cannot be made; the message says why.</exception>
    public ClothPlan Plan(Func<ClothPlan, ClothPlan>? settled = null)
    {
        if (Width <= Length.Zero) throw new ArgumentOutOfRangeException(nameof(Width), "The width must be more than nothing.");
        if (Depth is { } depth && depth <= Length.Zero) throw new ArgumentOutOfRangeException(nameof(Depth), "The depth must be more than nothing.");
        if (Rows is < ClothPlan.LeastGatheringRows) throw new ArgumentOutOfRangeException(nameof(Rows), "There are at least two gathering rows.");
        var gauge = Gauge ?? Practice.GaugeOf(Kind, Coming, TakeUp ?? Practice.TakeUpOf(Coming), RowSpacing, Pleatwright.Cloth.Gauge.Common.CableRowsPerSpace);
        var cloth = new ClothPlan(new Panel(Width), gauge, Rows ?? RowsIn(Depth ?? Length.FromInches(3), gauge));
        if (settled is not null) cloth = settled(cloth);
        cloth = Purpose switch
        {
            Purpose.Panel => cloth,
            Purpose.Bishop => cloth with { Form = new Round(Width, Sweep, Panels.IsEmpty ? Shared(cloth) : Panels) },
            Purpose.Ball => OnBall(cloth with { Form = new Ball(Width) }),
            _ => throw new ArgumentOutOfRangeException(nameof(Purpose)),
        };
        _ = new PleatingPlan(cloth);
        return cloth;
    }

    private ImmutableArray<RoundPanel> Shared(ClothPlan cloth)
    {
        var panels = Practice.SharedPanels(cloth, Width);
        return panels.All(p => p.Cut > Length.Zero) ? panels
            : throw new ArgumentOutOfRangeException(nameof(Width), "So small a neck has too few pleats to share among front, back and sleeves.");
    }

    private static int RowsIn(Length depth, Gauge gauge) => Math.Max(2, (int)Math.Round(Math.Min(depth / gauge.RowSpacing, PleatingPlan.MostCableRows)) + 1);

    // Fewer rows until the outermost leaves its pleats room, or two are left; rows the maker counted stay.
    private ClothPlan OnBall(ClothPlan cloth)
    {
        if (Rows is not null) return cloth;
        var ball = (Ball)cloth.Form;
        var most = ball.MostRows(cloth.Gauge);
        cloth = cloth with { GatheringRows = Math.Max(2, Depth is null ? most : Math.Min(cloth.GatheringRows, most)) };
        while (cloth.GatheringRows > 2 && ball.PitchAt(cloth, Length.Zero) < cloth.Gauge.PleatThickness)
            cloth = cloth with { GatheringRows = cloth.GatheringRows - 1 };
        return cloth;
    }
}
