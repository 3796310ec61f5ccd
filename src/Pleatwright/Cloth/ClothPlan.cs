using System.Collections.Immutable;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Cloth;

/// <summary>
/// The cloth as the maker asks for it: its form and gauge, the rows gathered, and what is left at the sides.
/// </summary>
/// <param name="Form">The shape of the gathered cloth.</param>
/// <param name="Gauge">How it is gathered.</param>
/// <param name="GatheringRows">Gathering rows that may carry stitching, at least 2, counted from the top.</param>
public sealed record ClothPlan(Form Form, Gauge Gauge, int GatheringRows)
{
    /// <summary>The fewest gathering rows.</summary>
    public const int LeastGatheringRows = 2;

    /// <summary>The most gathering rows: as many as there is room for among the cable rows.</summary>
    public const int MostGatheringRows = PleatingPlan.MostCableRows + 1;

    /// <summary>The most seam pleats at each side.</summary>
    public const int MostSeamPleats = 100;

    /// <summary>The most holding rows above, and below.</summary>
    public const int MostHoldingRows = 20;

    /// <summary>
    /// Extra pleats at each side, undone into the seam allowance, 0 to <see cref="MostSeamPleats"/>. Default 3 (common practice, no
    /// source).
    /// </summary>
    public int SeamPleats { get; init; } = 3;

    /// <summary>Holding rows above row 1: gathered, not smocked, 0 to <see cref="MostHoldingRows"/>. They are not among the gathering rows.</summary>
    public int HoldingRowsAbove { get; init; } = 1;

    /// <summary>Holding rows below the last gathering row, 0 to <see cref="MostHoldingRows"/>.</summary>
    public int HoldingRowsBelow { get; init; } = 1;

    /// <summary>Colour of the cloth. Default a warm white.</summary>
    public Colour Colour { get; init; } = new(0xf4, 0xef, 0xe3);

    /// <summary>Both selvedges together, kept out of the pleats. Default none.</summary>
    public Length Selvedges { get; init; } = Length.FromInches(0);

    /// <summary>Extra cloth at each side for what ravels while it is handled, kept out of the pleats. Default none.</summary>
    public Length Ravelling { get; init; } = Length.FromInches(0);

    /// <summary>
    /// Allowance at each edge where two panels or two widths of cloth are sewn together before gathering. Default none.
    /// </summary>
    public Length Seam { get; init; } = Length.FromInches(0);

    /// <summary>The maker's pleater, when they say what it takes; it settles the passes.</summary>
    public Pleater? Pleater { get; init; }

    /// <summary>Width in which the cloth is sold. Default 44 in (common practice, no source).</summary>
    public Length FabricWidth { get; init; } = Length.FromInches(44);

    /// <summary>
    /// The step by which the maker's shop cuts cloth, more than nothing; null for what is usual: 1/8 yd, which is 4 1/2 in, where the width is given in
    /// inches, else 10 cm (common practice, no source).
    /// </summary>
    public Length? SoldBy { get; init; }

    /// <summary>Seam allowance above the gathered part, at least nothing. Default none.</summary>
    public Length SeamAbove { get; init; } = Length.FromInches(0);

    /// <summary>
    /// Length of skirt or bodice as the maker gives it, from the edge of the gathered part to the finished lower edge, at least nothing. Default none.
    /// </summary>
    public Length LengthBelow { get; init; } = Length.FromInches(0);

    /// <summary>Hem or seam allowance at the lower edge, at least nothing. Default none.</summary>
    public Length SeamBelow { get; init; } = Length.FromInches(0);

    /// <summary>The step by which cloth is bought; see <see cref="SoldBy"/>.</summary>
    internal Length Step => SoldBy ?? (FabricWidth.Unit == LengthUnit.Inch ? EighthYard : Length.FromCentimetres(10));

    /// <summary>1/8 yd: 4 1/2 in.</summary>
    internal static Length EighthYard => Length.FromInches(4.5);

    /// <summary>A length of cloth, rounded up to whole steps of the shop.</summary>
    internal Length Bought(Length needed) => needed <= Length.Zero ? needed : (Step * Math.Ceiling(needed / Step - 1e-9)).In(Step.Unit);

    /// <summary>Every row to be gathered: the gathering rows and the holding rows.</summary>
    internal int RowsToGather => GatheringRows + HoldingRowsAbove + HoldingRowsBelow;

    /// <summary>
    /// Depth of the gathered part: every gathered row, holding rows too, with half a space beyond the outer ones (common practice, no source).
    /// </summary>
    internal Length GatheredDepth => Gauge.RowSpacing * RowsToGather;

    /// <summary>What the maker gives of the cloth above and below the gathered part, together with the seams of a form that is sewn in at both edges.</summary>
    internal Length Besides => Form.EdgeSeam * 2 + SeamAbove + LengthBelow + SeamBelow;

    /// <summary>Whether anything is known of what hangs above and below the gathered part.</summary>
    internal bool IsDepthWhole => Besides > Length.Zero;

    /// <summary>Depth the cloth is cut to: the gathered part, and above and below it as much as the maker gives.</summary>
    internal Length CutDepth => GatheredDepth + Besides;
}

/// <summary>What the plan comes to: pleats, cloth to cut, rows. Pure arithmetic on a <see cref="ClothPlan"/>.</summary>
public sealed class PleatingPlan
{
    /// <summary>The most pleats a piece may have here.</summary>
    public const int MostPleats = 5000;

    /// <summary>The most cable rows a piece may have here.</summary>
    public const int MostCableRows = 5000;

    /// <summary>The most widths of cloth a piece may be joined of here.</summary>
    public const int MostWidths = 1000;

    // The most a pleat takes up or lies wide, and a space is high, far past what a hand gathers: sums of thread stay within their range.
    private static Length MostLength => Length.FromMetres(10);

    private readonly Length[] pitches;
    private ImmutableArray<PanelShare> shares;

    /// <summary>Works the plan out.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The cloth cannot be made; see <see cref="Fault"/>.</exception>
    public PleatingPlan(ClothPlan cloth)
    {
        if (Fault(cloth) is { } fault) throw new ArgumentOutOfRangeException(nameof(cloth), fault.Words);
        Cloth = cloth;
        Pleats = cloth.Form.Pleats(cloth);
        CableRows = (int)RowsOf(cloth);
        pitches = new Length[CableRows];
        for (var y = 0; y < CableRows; y++) pitches[y] = cloth.Form.PitchAt(cloth, Gauge.CableRowHeight * y);
    }

    /// <summary>
    /// Why a cloth cannot be made: it cannot take its form (see <see cref="Form.Fault"/>), its seams leave nothing of the cloth it is
    /// cut from, or it is past the caps of pleats, rows and widths. Null when it can.
    /// </summary>
    public static ClothFault? Fault(ClothPlan cloth)
    {
        if (cloth.SeamPleats is < 0 or > ClothPlan.MostSeamPleats)
            return new ClothFault("seamPleats", $"the cloth has 0 to {ClothPlan.MostSeamPleats} seam pleats at each side");
        if (cloth.HoldingRowsAbove is < 0 or > ClothPlan.MostHoldingRows || cloth.HoldingRowsBelow is < 0 or > ClothPlan.MostHoldingRows)
            return new ClothFault("holdingRows", $"the cloth has 0 to {ClothPlan.MostHoldingRows} holding rows above and as many below");
        if (cloth.FabricWidth <= cloth.Seam * 2)
            return new ClothFault("seam", $"seam allowances of {cloth.Seam} leave nothing of cloth {cloth.FabricWidth} wide");
        if (cloth.SoldBy is { } step && step <= Length.Zero) return new ClothFault("soldBy", "a shop cuts cloth by more than nothing");
        if (cloth.SeamAbove < Length.Zero || cloth.LengthBelow < Length.Zero || cloth.SeamBelow < Length.Zero || cloth.Besides > MostLength * 100)
            return new ClothFault("lengthBelow", "the cloth is cut to no such depth");
        if ((cloth.Form.MeasureFault ?? cloth.Form.Fault(cloth)) is { } fault) return fault;
        if (cloth.Form.Pleats(cloth) is > MostPleats and var pleats)
            return new ClothFault(cloth.Form.PleatsKey, $"the cloth comes to {pleats} pleats; {MostPleats} is the most");
        if (cloth.Gauge.TakeUp > MostLength || cloth.Gauge.RowSpacing > MostLength)
            return new ClothFault("gauge", $"a pleat takes up at most {MostLength} of cloth, and gathering rows lie at most as far apart");
        if (RowsOf(cloth) is > MostCableRows and var rows)
            return new ClothFault("gatheringRows", $"the cloth comes to {rows} cable rows; {MostCableRows} is the most");
        var deep = cloth.Gauge.RowSpacing * (cloth.GatheringRows - 1);
        if (cloth.Form.PitchAt(cloth, Length.Zero) > MostLength || cloth.Form.PitchAt(cloth, deep) > MostLength)
            return new ClothFault(cloth.Form.PleatsKey, $"so few pleats would lie more than {MostLength} wide each");
        return Joining.AtMostWidths(cloth) > MostWidths
            ? new ClothFault("fabricWidth", $"the cloth would be joined of more than {MostWidths} widths of {cloth.FabricWidth}; it must be cut from wider cloth")
            : null;
    }

    private static long RowsOf(ClothPlan cloth) => (cloth.GatheringRows - 1L) * cloth.Gauge.CableRowsPerSpace + 1;

    /// <summary>The cloth planned.</summary>
    public ClothPlan Cloth { get; }

    /// <summary>The gauge, for short.</summary>
    public Gauge Gauge => Cloth.Gauge;

    /// <summary>Finished pleats, even; numbered 1 to this from the left of the right side.</summary>
    public int Pleats { get; }

    /// <summary>Valleys between the pleats: one fewer.</summary>
    public int Valleys => Pleats - 1;

    /// <summary>The valley with as many pleats to its left as to its right.</summary>
    public int CentreValley => Pleats / 2;

    /// <summary>Cable rows from gathering row 1 (row 0) to the last gathering row.</summary>
    public int CableRows { get; }

    /// <summary>Every row to be gathered: the gathering rows and the holding rows.</summary>
    public int RowsToGather => Cloth.RowsToGather;

    /// <summary>Pleats gathered in all: the finished ones and the seam pleats of both sides.</summary>
    public int PleatsToGather => Pleats + 2 * Cloth.SeamPleats;

    /// <summary>Width of flat cloth to cut; of a bishop, all its panels together.</summary>
    public Length CutWidth => Cloth.Form.CutWidth(Cloth);

    /// <summary>Finished width: of a panel across, of a bishop round the neck, of a ball round the equator.</summary>
    public Length FinishedWidth => Cloth.Form.FinishedWidth(Cloth);

    /// <summary>Flat width over gathered width: take-up over the pitch where the finished width is measured.</summary>
    public double Fullness => Gauge.TakeUp * Pleats / FinishedWidth;

    /// <summary>The pieces of cloth sewn together before gathering, from the left, with the pleats that fall to each.</summary>
    public ImmutableArray<PanelShare> Shares => shares.IsDefault ? shares = Cloth.Form.Shares(Cloth) : shares;

    /// <summary>The first panel of a name, or null; a cloth that is not sewn of named panels has none.</summary>
    internal PanelShare? Panel(string name)
    {
        if (Cloth.Form.Kind.Pieces is null) return null;
        foreach (var share in Shares)
            if (share.Name == name) return share;
        return null;
    }

    /// <summary>Widths of cloth to buy for the cut width, at least 1.</summary>
    public int FabricWidths => Joining.Widths(Cloth);

    /// <summary>Every seam sewn before gathering, each in a valley.</summary>
    public ImmutableArray<Join> Joins => Joining.Joins(Cloth);

    /// <summary>Passes through the maker's pleater; none when the plan names no pleater.</summary>
    public ImmutableArray<Pass> Passes => Cloth.Pleater is { } pleater ? pleater.Passes(RowsToGather) : [];

    /// <summary>Depth from the first gathering row to the last.</summary>
    public Length Depth => Gauge.RowSpacing * (Cloth.GatheringRows - 1);

    /// <summary>Pitch of the pleats at a cable row; rows above the first and below the last follow the form on.</summary>
    public Length PitchAt(int cableRow) => (uint)cableRow < (uint)CableRows
        ? pitches[cableRow]
        : Cloth.Form.PitchAt(Cloth, Gauge.CableRowHeight * cableRow);
}
