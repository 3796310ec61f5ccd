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
public sealed record NewCloth(Purpose Purpose, Length Width)
{
    /// <summary>The kind of cloth. Default broadcloth.</summary>
    public ClothKind Kind { get; init; } = ClothKind.Broadcloth;

    /// <summary>Distance between gathering rows, more than 0. Default 3/8 in (common practice, no source).</summary>
    public Length RowSpacing { get; init; } = Length.FromInches(0.375);

    /// <summary>Flat cloth to a pleat, more than 0. Default 1/4 in (common practice, no source).</summary>
    public Length TakeUp { get; init; } = Length.FromInches(0.25);

    /// <summary>
    /// Depth wanted from the first gathering row to the last, more than 0. Default 3 in; on a ball, as far toward the poles as
    /// the pleats have room.
    /// </summary>
    public Length? Depth { get; init; }

    /// <summary>Panels of a bishop as cut, when the maker has them; else the cloth is shared out.</summary>
    public ImmutableArray<RoundPanel> Panels { get; init; } = [];

    /// <summary>The cloth these answers come to.</summary>
    /// <exception cref="ArgumentOutOfRangeException">An answer is out of range, or the cloth cannot be made; the message says why.</exception>
    public ClothPlan Plan()
    {
        if (Width <= Length.Zero) throw new ArgumentOutOfRangeException(nameof(Width), "The width must be more than nothing.");
        if (Depth is { } depth && depth <= Length.Zero) throw new ArgumentOutOfRangeException(nameof(Depth), "The depth must be more than nothing.");
        var gauge = new Gauge(TakeUp / Practice.FullnessOf(Kind), TakeUp, RowSpacing, Gauge.Common.CableRowsPerSpace)
        {
            PleatThickness = Practice.PleatThicknessOf(Kind),
        };
        var rows = RowsIn(Depth ?? Length.FromInches(3));
        var cloth = Purpose switch
        {
            Purpose.Panel => new ClothPlan(new Panel(Width), gauge, rows),
            Purpose.Bishop => new ClothPlan(new Round(Width, Angle.FullTurn, Panels.IsEmpty ? Shared(gauge) : Panels), gauge, rows),
            Purpose.Ball => OnBall(new ClothPlan(new Ball(Width), gauge, Depth is null ? int.MaxValue : rows)),
            _ => throw new ArgumentOutOfRangeException(nameof(Purpose)),
        };
        _ = new PleatingPlan(cloth);
        return cloth;
    }

    private int RowsIn(Length depth) => Math.Max(2, (int)Math.Round(Math.Min(depth / RowSpacing, PleatingPlan.MostCableRows)) + 1);

    // Fewer rows until the outermost leaves its pleats room, or two are left.
    private static ClothPlan OnBall(ClothPlan cloth)
    {
        var ball = (Ball)cloth.Form;
        var most = (int)Math.Min(ball.Meridian / cloth.Gauge.RowSpacing + 1e-9, PleatingPlan.MostCableRows) + 1;
        cloth = cloth with { GatheringRows = Math.Max(2, Math.Min(cloth.GatheringRows, most)) };
        while (cloth.GatheringRows > 2 && ball.PitchAt(cloth, Length.Zero) < cloth.Gauge.PleatThickness)
            cloth = cloth with { GatheringRows = cloth.GatheringRows - 1 };
        return cloth;
    }

    // A third of the pleats to the front, a sixth to each sleeve and each half of the back (common practice, no source);
    // the seam pleats come on top of the backs.
    private ImmutableArray<RoundPanel> Shared(Gauge gauge)
    {
        var pleats = Form.RoundToEven(Width / gauge.Pitch + 1e-9);
        var side = pleats / 6;
        var seam = new ClothPlan(new Panel(Width), gauge, 2).SeamPleats;
        var front = pleats - 4 * side;
        RoundPanel Cut(string name, int count) => new(name, TakeUp * count);
        return [Cut("left back", side + seam), Cut("sleeve", side), Cut("front", front), Cut("sleeve", side), Cut("right back", side + seam)];
    }
}
