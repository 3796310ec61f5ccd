using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>A kind of cloth, by how it pleats.</summary>
public enum ClothKind
{
    /// <summary>Fine and soft: batiste, lawn, voile.</summary>
    Batiste,

    /// <summary>Middling: broadcloth, fine poplin, gingham.</summary>
    Broadcloth,

    /// <summary>Coarse check cloth, gathered on its own squares.</summary>
    CoarseCheck,

    /// <summary>Thick: fine-wale corduroy, flannel.</summary>
    Corduroy,
}

/// <summary>What is to be stitched on a new piece.</summary>
public enum Coming
{
    /// <summary>Pictures: stacked cables, on packed pleats.</summary>
    Pictures,

    /// <summary>Geometric rows, which stretch and show the pleats between them.</summary>
    GeometricRows,
}

/// <summary>What books and workrooms do, as starting points and as remarks. Never a fixed truth: a swatch overrules it.</summary>
internal static class Practice
{
    /// <summary>
    /// Dots of a gathering row apart, 1/8 to 3/8 in (Clothing-construction textbook for home economics, c. 1916,
    /// section "Smocking").
    /// </summary>
    public static (Length Least, Length Most) Dots => (Length.FromInches(1.0 / 8), Length.FromInches(3.0 / 8));

    /// <summary>Gathering rows apart, 3/8 to 3/4 in (the same textbook).</summary>
    public static (Length Least, Length Most) Rows => (Length.FromInches(3.0 / 8), Length.FromInches(3.0 / 4));

    /// <summary>
    /// Fullness that workrooms and books name, from 2.5 for corduroy to 5 for batiste (common practice, no source; the
    /// same textbook draws cloth up to about one fourth).
    /// </summary>
    public static (double Least, double Most) Fullness => (2.5, 5);

    /// <summary>
    /// Fullness for pictures: batiste 4 to 5, broadcloth 3 to 4, corduroy 2.5 (common practice, no source); coarse check cloth 4 to 4½ (The
    /// Priscilla Smocking Book, 1916).
    /// </summary>
    public static (double Least, double Most) FullnessRange(ClothKind kind) => kind switch
    {
        ClothKind.Batiste => (4, 5),
        ClothKind.Broadcloth => (3, 4),
        ClothKind.CoarseCheck => (4, 4.5),
        ClothKind.Corduroy => (2.5, 2.5),
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    /// <summary>Fullness that packed pleats for pictures are gathered to: about 4, so that they lie full, round and just touching (common practice, no source).</summary>
    public const double FullnessForPictures = 4;

    /// <summary>Fullness up to which the cloth is thin under a picture: it peeps between the stitches, and the figure spreads (common practice, no source).</summary>
    public const double ThinForPictures = 3;

    /// <summary>Fullness that is the most that still stitches well: about 5 (common practice, no source).</summary>
    public const double MostFullness = 5;

    /// <summary>Finished pleats in an inch that pictures are packed to, 16 to 20 (common practice, no source).</summary>
    public static (double Least, double Most) PackedPerInch => (16, 20);

    /// <summary>
    /// Pleats packed for pictures from cloth that a pleat takes up so much of: <see cref="FullnessForPictures"/>, where that comes to
    /// <see cref="PackedPerInch"/>; else as near to it as those allow, and from a take-up of 1/5 in (common practice, no source) where the pleats would be
    /// gathered less than three to one.
    /// </summary>
    /// <param name="takeUp">Flat cloth to a pleat, more than 0.</param>
    public static (double PleatsPerInch, Length TakeUp) Packed(Length takeUp)
    {
        var perInch = FullnessForPictures / takeUp.Inches;
        var near = Math.Clamp(perInch, PackedPerInch.Least, PackedPerInch.Most);
        return near * takeUp.Inches is > ThinForPictures and <= MostFullness + 1e-6 ? (near, takeUp) : (PackedPerInch.Most, PackedTakeUp);
    }

    /// <summary>Flat cloth to a pleat where pictures begin: 1/5 in (common practice, no source).</summary>
    public static Length PackedTakeUp => Length.FromInches(0.2);

    /// <summary>Fullness that geometric rows are commonly gathered to: 12 pleats an inch of 1/4 in each (common practice, no source).</summary>
    public const double FullnessForRows = 3;

    /// <summary>The fullness a kind of cloth begins from: what the stitching wants, as near as the kind is gathered to it.</summary>
    public static double FullnessOf(ClothKind kind, Coming coming)
    {
        var (least, most) = FullnessRange(kind);
        return Math.Clamp(coming == Coming.Pictures ? FullnessForPictures : FullnessForRows, least, most);
    }

    /// <summary>Flat cloth to a pleat where a new piece begins: <see cref="PackedTakeUp"/> for pictures, 1/4 in for geometric rows (common practice, no source).</summary>
    public static Length TakeUpOf(Coming coming) => coming == Coming.Pictures ? PackedTakeUp : Gauge.Common.TakeUp;

    /// <summary>The gauge a kind of cloth begins from: its pitch makes <see cref="FullnessOf"/> of the take-up.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of range; see <see cref="Gauge"/>.</exception>
    public static Gauge GaugeOf(ClothKind kind, Coming coming, Length takeUp, Length rowSpacing, int cableRowsPerSpace) =>
        new(takeUp / FullnessOf(kind, coming), takeUp, rowSpacing, cableRowsPerSpace) { PleatThickness = PleatThicknessOf(kind) };

    /// <summary>Thickness of a pleat, two layers of the cloth: 0.4, 0.5, 0.6 and 1.6 mm in the order of the kinds (from memory).</summary>
    public static Length PleatThicknessOf(ClothKind kind) => Length.FromMillimetres(kind switch
    {
        ClothKind.Batiste => 0.4,
        ClothKind.Broadcloth => 0.5,
        ClothKind.CoarseCheck => 0.6,
        ClothKind.Corduroy => 1.6,
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    });

    /// <summary>
    /// Panels for a bishop whose neck holds its pleats at the gauge: a third of them to the front, a sixth to each sleeve and
    /// to each half of the back, each an even number from a dozen on (common practice, no source), with the seam pleats, the allowance at every join, the
    /// selvedges and the ravelling on top.
    /// </summary>
    /// <param name="cloth">The cloth; its form is not looked at.</param>
    /// <param name="neck">Blocked length of gathering row 1, more than 0.</param>
    public static ImmutableArray<RoundPanel> SharedPanels(ClothPlan cloth, Length neck)
    {
        var pleats = Form.RoundToEven(neck / cloth.Gauge.Pitch + 1e-9);
        var side = pleats < 12 ? pleats / 6 : 2 * (int)Math.Ceiling(pleats / 12.0 - 0.5);
        var joins = cloth.Seam * 2;
        var back = cloth.Gauge.TakeUp * (side + cloth.SeamPleats) + cloth.Seam + cloth.Selvedges / 2 + cloth.Ravelling;
        var sleeve = cloth.Gauge.TakeUp * side + joins;
        return
        [
            new("right back", back), new("right sleeve", sleeve), new("front", cloth.Gauge.TakeUp * (pleats - 4 * side) + joins),
            new("left sleeve", sleeve), new("left back", back),
        ];
    }

    /// <summary>What is out of the common run in a cloth, one sentence each; empty when nothing is.</summary>
    public static ImmutableArray<string> Remarks(ClothPlan cloth, UnitSystem units)
    {
        var remarks = ImmutableArray.CreateBuilder<string>();
        var gauge = cloth.Gauge;
        // Pleats packed for pictures take up less than that textbook, which knew none, has its dots apart.
        if (Outside(gauge.TakeUp / 2, Dots with { Least = PackedTakeUp / 2 }))
            remarks.Add($"Dots {(gauge.TakeUp / 2).Say(units)} apart are out of the common run of {Dots.Least.Say(units)} to {Dots.Most.Say(units)}.");
        if (Outside(gauge.RowSpacing, Rows))
            remarks.Add($"Gathering rows {gauge.RowSpacing.Say(units)} apart are out of the common run of {Rows.Least.Say(units)} to {Rows.Most.Say(units)}.");
        if (!cloth.Form.FullnessIsChosen) return remarks.ToImmutable();
        var fullness = new PleatingPlan(cloth).Fullness;
        if (fullness < Fullness.Least - 1e-6 || fullness > Fullness.Most + 1e-6)
            remarks.Add(FormattableString.Invariant(
                $"A fullness of {fullness:0.0#} is out of the common run of {Fullness.Least} for corduroy to {Fullness.Most} for batiste."));
        return remarks.ToImmutable();
    }

    private static bool Outside(Length length, (Length Least, Length Most) range) =>
        length.Millimetres < range.Least.Millimetres - 1e-6 || length.Millimetres > range.Most.Millimetres + 1e-6;
}
