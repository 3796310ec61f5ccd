using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>
/// The shape the gathered cloth takes. Everything else asks a form two things only: how many pleats it needs, and how
/// wide one pleat lies (the pitch) at a given depth below gathering row 1.
/// </summary>
public abstract record Form
{
    /// <summary>The word for it in the piece file.</summary>
    public abstract string Name { get; }

    /// <summary>Pleats of the finished piece, even, at least 2; seam pleats come on top.</summary>
    public abstract int Pleats(Gauge gauge);

    /// <summary>Finished width along gathering row 1.</summary>
    public abstract Length FinishedWidth(Gauge gauge);

    /// <summary>Pitch of the pleats at <paramref name="depth"/> below gathering row 1.</summary>
    public abstract Length PitchAt(Gauge gauge, Length depth);

    /// <summary>The nearest even whole number, at least 2; halves go up.</summary>
    /// <remarks>An even pleat count leaves a centre valley (common practice, no source).</remarks>
    public static int RoundToEven(double pleats) => Math.Max(2, 2 * (int)Math.Floor(pleats / 2 + 0.5));
}

/// <summary>A flat panel: an insert or a yoke, of one width from top to bottom.</summary>
/// <param name="Width">Its finished (gathered) width, more than 0.</param>
public sealed record Panel(Length Width) : Form
{
    /// <inheritdoc/>
    public override string Name => "panel";

    /// <inheritdoc/>
    /// <remarks>round-to-even(finished width / pitch). A hair is added so that a width made of whole pleats stays whole.</remarks>
    public override int Pleats(Gauge gauge) => RoundToEven(Width / gauge.Pitch + 1e-9);

    /// <inheritdoc/>
    public override Length FinishedWidth(Gauge gauge) => gauge.Pitch.In(Width.Unit) * Pleats(gauge);

    /// <inheritdoc/>
    public override Length PitchAt(Gauge gauge, Length depth) => gauge.Pitch;
}
