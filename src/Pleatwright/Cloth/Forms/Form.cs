using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>
/// The shape the gathered cloth takes. Everything else asks a form how many pleats it needs, what cloth they take, and
/// how wide one pleat lies (the pitch) at a given depth below gathering row 1; and how it is called, lies and is blocked. Nothing asks which form
/// it is. Each form is one file in this folder, with its <see cref="FormKind"/>: its keys and questions.
/// </summary>
public abstract record Form
{
    /// <summary>The word for it in the piece file.</summary>
    public string Name => Kind.Name;

    /// <summary>The piece-file key that settles how many pleats it has.</summary>
    public virtual string PleatsKey => Kind.Keys[0].Name;

    /// <summary>The one measurement that makes its size: a panel's width, a bishop's neck, a ball's diameter.</summary>
    public Length Measure => Values.Length(Kind.Measure);

    /// <summary>Its kind, which brings its keys and its questions.</summary>
    internal abstract FormKind Kind { get; }

    /// <summary>What its keys are given.</summary>
    internal abstract FormValues Values { get; }

    /// <summary>Why its own measurements can be those of no cloth at all, or null when they can.</summary>
    internal virtual ClothFault? MeasureFault => null;

    /// <summary>Pleats of the finished piece, even, at least 2; seam pleats come on top.</summary>
    public abstract int Pleats(ClothPlan cloth);

    /// <summary>Finished width: of a panel across, of a bishop round the neck, of a ball round the equator.</summary>
    public abstract Length FinishedWidth(ClothPlan cloth);

    /// <summary>Pitch of the pleats at <paramref name="depth"/> below gathering row 1.</summary>
    /// <param name="cloth">The cloth.</param>
    /// <param name="depth">Distance below gathering row 1 along the cloth; negative above it, as for holding rows.</param>
    public abstract Length PitchAt(ClothPlan cloth, Length depth);

    /// <summary>
    /// Width of flat cloth to cut: pleats × take-up, seam pleats × take-up, the selvedges, and what ravels.
    /// </summary>
    public virtual Length CutWidth(ClothPlan cloth) =>
        cloth.Gauge.TakeUp * (Pleats(cloth) + 2 * cloth.SeamPleats) + cloth.Selvedges + cloth.Ravelling * 2;

    /// <summary>The pieces of cloth sewn together before gathering, from the left; one when nothing is joined by design.</summary>
    public virtual ImmutableArray<PanelShare> Shares(ClothPlan cloth) =>
        [new PanelShare(Name, CutWidth(cloth), 1, Pleats(cloth))];

    /// <summary>Why this cloth cannot take the form, or null when it can.</summary>
    public virtual ClothFault? Fault(ClothPlan cloth) => null;

    /// <summary>This form gathered to another gauge: as many pleats come of it as its finished width then holds.</summary>
    /// <param name="cloth">The cloth whose form it is, at its own gauge.</param>
    /// <param name="gauge">The other gauge.</param>
    /// <param name="width">Its finished width then, over what it is now; more than 0.</param>
    internal abstract Form Regauged(ClothPlan cloth, Gauge gauge, double width);

    /// <summary>Pleats that <see cref="Regauged"/> is after.</summary>
    private protected int PleatsThen(ClothPlan cloth, Gauge gauge, double width) => RoundToEven(Pleats(cloth) * width * (cloth.Gauge.Pitch / gauge.Pitch) + 1e-9);

    /// <summary>The finished width asked for then, of a form that is straight; the measure asked for now stays where the width does, whatever it is in pleats.</summary>
    private protected Length WidthThen(ClothPlan cloth, Gauge gauge, double width, Length asked)
    {
        if (width == 1) return asked;
        var (pleats, scaled) = (PleatsThen(cloth, gauge, width), (asked * width).Tidied());
        return RoundToEven(scaled / gauge.Pitch + 1e-9) == pleats ? scaled : (gauge.Pitch.In(asked.Unit) * pleats).Tidied();
    }

    // What follows says how it differs from a plain flat panel.

    /// <summary>What it lies on when it is drawn or blocked.</summary>
    internal virtual Surface SurfaceOf(ClothPlan cloth) => FlatSurface.One;

    /// <summary>Cloth that joins by design take out of the cut width.</summary>
    internal virtual Length LostInJoins(ClothPlan cloth) => Length.Zero;

    /// <summary>Allowance at its upper edge, and as much at its lower, which every such form is sewn in by; none where one hangs free.</summary>
    internal virtual Length EdgeSeam => Length.Zero;

    /// <summary>
    /// Width of the plain wing sewn to each side where the gathered cloth comes out narrower than the garment piece it is for, without allowances; nothing
    /// where it is wide enough or the maker gives no such width.
    /// </summary>
    internal virtual Length WingOf(ClothPlan cloth) => Length.Zero;

    /// <summary>Whether the maker chooses how full it is gathered; a neck draws its cloth up as far as it must.</summary>
    internal virtual bool FullnessIsChosen => true;

    /// <summary>Whether the pleats must come to a measure along gathering row 1, stitched or not.</summary>
    internal virtual bool FirstRowIsMeasured => false;

    /// <summary>Whether it flares below its design, so that rows there stay free.</summary>
    internal virtual bool FlaresBelow => false;

    /// <summary>The form with so many pleats, where nothing but the design settles its measure; null where something does.</summary>
    internal virtual Form? OfPleats(ClothPlan cloth, int pleats) => null;

    /// <summary>How large it comes out, of what it is measured by.</summary>
    internal virtual Length ComesTo(PleatingPlan plan) => Measure;

    /// <summary>"A flat panel": what it is, within a sentence.</summary>
    internal abstract string Phrase { get; }

    /// <summary>What its finished width is called: "Finished width".</summary>
    internal virtual string WidthLabel => "Finished width";

    /// <summary>How a measure of its finished width lies: "wide" or "round".</summary>
    internal virtual string Lies => "round";

    /// <summary>Where its fullness is measured, after the figure; empty where it is alike everywhere.</summary>
    internal virtual string FullnessAt => "";

    /// <summary>"11 in wide, 3 in from the first gathering row to the last".</summary>
    internal virtual string FinishedWords(PleatingPlan plan, UnitSystem units) => $"{plan.FinishedWidth.Say(units)} wide, {DepthWords(plan, units)}";

    /// <summary>How many pleats to an inch or a centimetre, wherever that differs.</summary>
    internal virtual string PitchWords(PleatingPlan plan, UnitSystem units) => ClothWords.PleatsIn(plan.Gauge.Pitch, units);

    /// <summary>What a size of it comes to: "11 in wide".</summary>
    internal virtual string SizeWords(PleatingPlan plan, UnitSystem units) => $"{plan.FinishedWidth.Say(units)} wide";

    /// <summary>How it is blocked, as a sentence.</summary>
    internal virtual string BlockWords(PleatingPlan plan, UnitSystem units) =>
        $"Pin to {plan.FinishedWidth.Say(units)} by {plan.Depth.Say(units)}, first gathering row to last, the rows straight and square to the pleats.";

    /// <summary>How it dries when it has been steamed, as a sentence (common practice, no source).</summary>
    internal virtual string DryWords => "Steam without pressing, and let it dry pinned.";

    /// <summary>Until when the holding rows stay, as a sentence (common practice, no source).</summary>
    internal virtual string KeepWords => "The holding rows stay in until the piece is sewn in.";

    /// <summary>The figures of one gathering row on the pleating card, in millimetres; null where every row has the same.</summary>
    internal virtual string? RowFigures(PleatingPlan plan, int row) => null;

    /// <summary>"3 in from the first gathering row to the last".</summary>
    private protected static string DepthWords(PleatingPlan plan, UnitSystem units) => $"{plan.Depth.Say(units)} from the first gathering row to the last";

    /// <summary>Pleats to an inch or a centimetre at the first gathering row and at the last.</summary>
    private protected static string EndPitches(PleatingPlan plan, UnitSystem units) =>
        $"{ClothWords.PleatsIn(plan.PitchAt(0), units)} at gathering row 1, {ClothWords.PleatsIn(plan.PitchAt(plan.CableRows - 1), units)} at gathering row {plan.Cloth.GatheringRows}";

    private protected static string Tenths(Length length) => length.Millimetres.ToString("0.0", CultureInfo.InvariantCulture);

    private protected static string Hundredths(Length length) => length.Millimetres.ToString("0.00", CultureInfo.InvariantCulture);

    /// <summary>Depth below gathering row 1 of a row, and the width of a pleat and of all of them there.</summary>
    private protected static (Length Depth, Length Pitch, Length Along) At(PleatingPlan plan, int row)
    {
        var pitch = plan.PitchAt((row - 1) * plan.Gauge.CableRowsPerSpace);
        return (plan.Gauge.RowSpacing * (row - 1), pitch, pitch * plan.Pleats);
    }

    /// <summary>The valley nearest to a place among the pleats; halves go away from the middle, so that both sides come out alike.</summary>
    /// <param name="at">Pleats to its left, fractions of one included.</param>
    /// <param name="pleats">Pleats in all.</param>
    internal static int NearestValley(double at, int pleats) =>
        at < pleats / 2.0 ? (int)Math.Ceiling(at - 0.5 - 1e-9) : (int)Math.Floor(at + 0.5 + 1e-9);

    /// <summary>The valley nearest to a place among the pleats that has an even number of them to its left; of two as near, the one away from the middle.</summary>
    /// <param name="at">Pleats to its left, fractions of one included.</param>
    /// <param name="pleats">Pleats in all, an even number.</param>
    internal static int NearestEvenValley(double at, int pleats) => at < pleats / 2.0
        ? 2 * (int)Math.Ceiling(at / 2 - 0.5 - 1e-9)
        : 2 * (int)Math.Floor(at / 2 + 0.5 + 1e-9);

    /// <summary>The nearest even whole number, at least 2; halves go up.</summary>
    /// <remarks>An even pleat count leaves a centre valley (common practice, no source).</remarks>
    public static int RoundToEven(double pleats) => Math.Max(2, 2 * (int)Math.Floor(Math.Min(pleats, 1e9) / 2 + 0.5));
}

/// <summary>One piece of cloth in the joined width, and the finished pleats that fall to it.</summary>
/// <param name="Name">The maker's name for it.</param>
/// <param name="Cut">Its cut width.</param>
/// <param name="First">Its first finished pleat, from 1.</param>
/// <param name="Last">Its last finished pleat; one less than <paramref name="First"/> when it has none.</param>
public readonly record struct PanelShare(string Name, Length Cut, int First, int Last)
{
    /// <summary>Finished pleats that fall to it.</summary>
    public int Pleats => Last - First + 1;
}
