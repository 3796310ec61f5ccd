using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>
/// The shape the gathered cloth takes. Everything else asks a form how many pleats it needs, what cloth they take, and
/// how wide one pleat lies (the pitch) at a given depth below gathering row 1. Each form is one file in this folder.
/// </summary>
public abstract record Form
{
    /// <summary>The word for it in the piece file.</summary>
    public abstract string Name { get; }

    /// <summary>The piece-file key that settles how many pleats it has.</summary>
    public abstract string PleatsKey { get; }

    /// <summary>The one measurement that makes its size: a panel's width, a bishop's neck, a ball's diameter.</summary>
    public abstract Length Measure { get; }

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

    /// <summary>The valley nearest to a place among the pleats; halves go away from the middle, so that both sides come out alike.</summary>
    /// <param name="at">Pleats to its left, fractions of one included.</param>
    /// <param name="pleats">Pleats in all.</param>
    internal static int NearestValley(double at, int pleats) =>
        at < pleats / 2.0 ? (int)Math.Ceiling(at - 0.5 - 1e-9) : (int)Math.Floor(at + 0.5 + 1e-9);

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
