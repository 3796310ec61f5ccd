using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>The answers a new piece begins from. What is left out takes a starting point from <see cref="Practice"/>.</summary>
/// <param name="Form">The kind of form it is to have.</param>
/// <param name="Width">The measure of that form, as finished width, neck or diameter, more than 0.</param>
internal sealed record NewCloth(FormKind Form, Length Width)
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

    /// <summary>What else the form is measured by; what is left out is as usual, or shared out from the measure.</summary>
    public FormValues Values { get; init; } = FormValues.None;

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
        cloth = Form.Begin(cloth, Values.With(Form.Measure, Width), Rows is not null, Depth is not null);
        _ = new PleatingPlan(cloth);
        return cloth;
    }

    private static int RowsIn(Length depth, Gauge gauge) => Math.Max(2, (int)Math.Round(Math.Min(depth / gauge.RowSpacing, PleatingPlan.MostCableRows)) + 1);
}
