using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>One piece of a bishop as it is cut: a front, a sleeve, half a back.</summary>
/// <param name="Name">The maker's name for it.</param>
/// <param name="Cut">Its cut width, more than 0.</param>
public readonly record struct RoundPanel(string Name, Length Cut)
{
    /// <summary>The longest name, in characters.</summary>
    public const int LongestName = 60;
}

/// <summary>
/// A round yoke, the bishop: panels and sleeves sewn side by side, gathered in one go and blocked to arcs about the neck.
/// Its pleats are fixed by the cloth in its panels; the neck and the sweep settle how wide each lies.
/// </summary>
/// <param name="Neck">Blocked length of gathering row 1, more than 0.</param>
/// <param name="Sweep">Angle the blocked yoke goes round, more than 0, at most a full turn.</param>
/// <param name="Panels">The panels from the left of the right side, at least one.</param>
public sealed record Round(Length Neck, Angle Sweep, ImmutableArray<RoundPanel> Panels) : Form
{
    /// <summary>The most panels a bishop may have here.</summary>
    public const int MostPanels = 100;

    /// <inheritdoc/>
    public override string PleatsKey => RoundKind.Panels.Name;

    internal override FormKind Kind => RoundKind.One;

    internal override FormValues Values => FormValues.None.With(RoundKind.NeckKey, Neck).With(RoundKind.SweepKey, Sweep).With(RoundKind.Panels, Panels);

    internal override ClothFault? MeasureFault =>
        Neck <= Length.Zero ? new ClothFault("neck", "a neck is wider than nothing")
        : Sweep.Degrees is not (> 0 and <= 360) ? new ClothFault("sweep", "the sweep is more than 0 and at most 360 degrees")
        : Panels.Length is 0 or > MostPanels ? new ClothFault("panels", $"a bishop has 1 to {MostPanels} panels")
        : Panels.Any(p => p.Cut <= Length.Zero) ? new ClothFault("panels", "a panel is wider than nothing")
        : null;

    /// <summary>Radius of gathering row 1 when blocked: the neck / the sweep in radians.</summary>
    public Length NeckRadius => Neck / Sweep.Radians;

    /// <summary>
    /// Flat cloth that goes into pleats: the cut panels, less an allowance on either edge of every join, the selvedges
    /// and what ravels.
    /// </summary>
    public Length JoinedWidth(ClothPlan cloth) => CutWidth(cloth) - Lost(cloth);

    /// <inheritdoc/>
    /// <remarks>
    /// Whole pleats in the joined width, less the seam pleats of both sides, down to an even number: cloth already cut
    /// can give no pleat more.
    /// </remarks>
    public override int Pleats(ClothPlan cloth) => Math.Max(2, Even(Whole(JoinedWidth(cloth) / cloth.Gauge.TakeUp) - 2 * cloth.SeamPleats));

    /// <inheritdoc/>
    public override Length FinishedWidth(ClothPlan cloth) => Neck;

    /// <summary>Blocked radius at a depth below gathering row 1.</summary>
    public Length RadiusAt(Length depth) => NeckRadius + depth;

    /// <inheritdoc/>
    /// <remarks>
    /// Every pleat has an equal share of the arc: radius × sweep / pleats (arc length rθ, elementary geometry). Above
    /// the centre of the arc there is nothing.
    /// </remarks>
    public override Length PitchAt(ClothPlan cloth, Length depth)
    {
        var radius = RadiusAt(depth);
        return radius > Length.Zero ? radius * Sweep.Radians / Pleats(cloth) : Length.Zero;
    }

    /// <inheritdoc/>
    public override Length CutWidth(ClothPlan cloth) => Panels.Aggregate(Length.Zero.In(Neck.Unit), (sum, p) => sum + p.Cut);

    /// <inheritdoc/>
    /// <remarks>
    /// A join goes to the valley nearest to where it falls in the flat cloth that gives the panel an even number of pleats, at most a pleat away, so that every
    /// panel has a centre valley (common practice, no source); the seam takes up the difference.
    /// </remarks>
    public override ImmutableArray<PanelShare> Shares(ClothPlan cloth)
    {
        var pleats = Pleats(cloth);
        var shares = ImmutableArray.CreateBuilder<PanelShare>(Panels.Length);
        var last = 0;
        var flat = cloth.Selvedges * -0.5 - cloth.Ravelling;
        for (var i = 0; i < Panels.Length; i++)
        {
            // Inside the joined width a panel has an allowance off each of its joined edges.
            flat += Panels[i].Cut - cloth.Seam * ((i > 0 ? 1 : 0) + (i < Panels.Length - 1 ? 1 : 0));
            var first = last + 1;
            last = i == Panels.Length - 1
                ? pleats
                : Math.Clamp(NearestEvenValley(flat / cloth.Gauge.TakeUp - cloth.SeamPleats, pleats), last, pleats);
            shares.Add(new PanelShare(Panels[i].Name, Panels[i].Cut, first, last));
        }
        return shares.MoveToImmutable();
    }

    /// <inheritdoc/>
    public override ClothFault? Fault(ClothPlan cloth)
    {
        var gathered = Whole(JoinedWidth(cloth) / cloth.Gauge.TakeUp);
        return Even(gathered - 2 * cloth.SeamPleats) < 2
            ? new ClothFault("panels",
                $"the panels give {Math.Max(0, gathered)} pleats, less {cloth.SeamPleats} seam pleats at each side; a bishop needs at least 2 besides")
            : null;
    }

    /// <remarks>The neck is scaled; each panel keeps its share of the pleats, and its allowances as they are.</remarks>
    internal override Form Regauged(ClothPlan cloth, Gauge gauge, double width)
    {
        var neck = width == 1 ? Neck : (Neck * width).Tidied();
        var (pleats, now) = (PleatsThen(cloth, gauge, width), Pleats(cloth));
        if (pleats == now && gauge.TakeUp == cloth.Gauge.TakeUp) return this with { Neck = neck };
        // A bishop's own neck may draw its pleats closer than the gauge: what counts is how many there are now.
        var share = (double)pleats / now * (gauge.TakeUp / cloth.Gauge.TakeUp);
        var panels = Panels.Select((p, i) =>
        {
            var kept = KeptOf(cloth, i, cloth.Gauge.TakeUp);
            return p with { Cut = ((p.Cut - kept) * share + KeptOf(cloth, i, gauge.TakeUp)).Tidied() };
        }).ToImmutableArray();
        var form = new Round(neck, Sweep, panels);
        var (then, widest) = (cloth with { Gauge = gauge }, panels.Select((p, i) => (p.Cut, i)).Max().i);
        // Rounding may leave it a pleat or two short.
        for (var more = 1; more <= 4 && panels[widest].Cut > Length.Zero && form.Pleats(then) < pleats; more++)
            form = new Round(neck, Sweep, panels.SetItem(widest, panels[widest] with { Cut = panels[widest].Cut + gauge.TakeUp * more }));
        return form;
    }

    // What of a panel's cut width goes into no finished pleat: the allowance of its joins, and at the two ends the seam pleats, half the selvedges and what ravels.
    private Length KeptOf(ClothPlan cloth, int panel, Length takeUp)
    {
        var ends = (panel == 0 ? 1 : 0) + (panel == Panels.Length - 1 ? 1 : 0);
        return cloth.Seam * (2 - ends) + (takeUp * cloth.SeamPleats + cloth.Selvedges / 2 + cloth.Ravelling) * ends;
    }

    /// <summary>Whether both have the same neck, sweep and panels in the same order.</summary>
    public bool Equals(Round? other) =>
        other is not null && Neck == other.Neck && Sweep == other.Sweep && Panels.SequenceEqual(other.Panels);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Neck, Sweep, Panels.Length);

    internal override Surface SurfaceOf(ClothPlan cloth) => new FanSurface(NeckRadius, Sweep);

    internal override Length LostInJoins(ClothPlan cloth) => cloth.Seam * (2 * (Panels.Length - 1));

    internal override bool FullnessIsChosen => false;

    internal override bool FirstRowIsMeasured => true;

    internal override bool FlaresBelow => true;

    internal override string Phrase => "a round yoke";

    internal override string WidthLabel => "Finished neck";

    internal override string FullnessAt => " at the neck";

    internal override string FinishedWords(PleatingPlan plan, UnitSystem units) =>
        FormattableString.Invariant($"neck {Neck.Say(units)} along gathering row 1, sweep {Sweep.Degrees:0.#}°, {DepthWords(plan, units)}");

    internal override string PitchWords(PleatingPlan plan, UnitSystem units) =>
        $"{EndPitches(plan, units)}; blocked on arcs of radius {NeckRadius.Say(units)} to {RadiusAt(plan.Depth).Say(units)}";

    internal override string SizeWords(PleatingPlan plan, UnitSystem units) => $"neck {Neck.Say(units)}";

    internal override string BlockWords(PleatingPlan plan, UnitSystem units) =>
        $"Pin to arcs: {Neck.Say(units)} along gathering row 1, at a radius of {NeckRadius.Say(units)}.";

    internal override string? RowFigures(PleatingPlan plan, int row)
    {
        var (depth, pitch, along) = At(plan, row);
        return $"{row}: radius {Tenths(RadiusAt(depth))}, arc {Tenths(along)}, pleat {Hundredths(pitch)}";
    }

    private Length Lost(ClothPlan cloth) => LostInJoins(cloth) + cloth.Selvedges + cloth.Ravelling * 2;

    private static int Whole(double pleats) => (int)Math.Floor(Math.Clamp(pleats + 1e-9, -1e9, 1e9));

    private static int Even(int pleats) => pleats - (pleats & 1);
}

/// <summary>Bishops: their keys and their questions.</summary>
internal sealed class RoundKind : FormKind
{
    public static LengthKey NeckKey { get; } =
        new("neck", "Round the neck, blocked, along gathering row 1", Length.FromInches(11)) { InSize = "Round the neck" };

    public static AngleKey SweepKey { get; } = new("sweep", "Sweep in degrees, 360 all round") { InSize = "Sweep, degrees" };

    public static PiecesKey Panels { get; } =
        new("panels", "Panels and sleeves as cut, from the left of the right side", Round.MostPanels) { Of = "a round form" };

    public static RoundKind One { get; } = new(); // after the keys it is made of

    public override string Name => "round";

    public override string Offer => "A round yoke: a bishop";

    public override ImmutableArray<FormKey> Keys { get; } = [NeckKey, SweepKey, Panels];

    public override string Measured => "Neck";

    public override Form Make(FormValues values) => new Round(values.Length(NeckKey), values.Angle(SweepKey), values.Pieces(Panels));

    /// <inheritdoc/>
    /// <remarks>Panels the maker does not give are shared out; see <see cref="Practice.SharedPanels"/>.</remarks>
    public override ClothPlan Begin(ClothPlan cloth, FormValues values, bool counted, bool deep)
    {
        if (!values.Pieces(Panels).IsEmpty) return base.Begin(cloth, values, counted, deep);
        var shared = Practice.SharedPanels(cloth, values.Length(NeckKey));
        return shared.All(p => p.Cut > Length.Zero) ? cloth with { Form = Make(values.With(Panels, shared)) }
            : throw new ArgumentOutOfRangeException(nameof(values), "So small a neck has too few pleats to share among front, back and sleeves.");
    }
}
