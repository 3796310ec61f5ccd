using Pleatwright.Chart;

namespace Pleatwright.Bench.Model.Table;

/// <summary>How the cloth is looked at.</summary>
public enum Look
{
    /// <summary>Bricks with letters.</summary>
    Chart,

    /// <summary>Pleats and thread with light and shade.</summary>
    Stitched,

    /// <summary>The wrong side: carries, knots, backsmocking.</summary>
    Back,
}

/// <summary>The cloth as it is shown: all that the hand may ask of it.</summary>
public interface ICloth
{
    /// <summary>Where it lies in the view; null while it is not shown.</summary>
    Sight? Sight { get; }

    /// <summary>What of the view nothing lies over; null while it is not shown.</summary>
    Pane? Free { get; }

    /// <summary>Nearer or further, about the middle of the view.</summary>
    void Zoom(double factor);

    /// <summary>Nearer or further, about a place of the view in pixels.</summary>
    void ZoomAt(double factor, double x, double y);

    /// <summary>Moves it by pixels.</summary>
    void Pan(double x, double y);

    /// <summary>The whole cloth in sight.</summary>
    void Fit();

    /// <summary>Brings a cell into sight; in the middle when asked for.</summary>
    void Reveal(Valley valley, CableRow row, bool inMiddle);
}

/// <summary>A cloth that is not shown.</summary>
public sealed class NoCloth : ICloth
{
    private NoCloth() { }

    /// <summary>The one there is.</summary>
    public static NoCloth Instance { get; } = new();

    /// <inheritdoc/>
    public Sight? Sight => null;

    /// <inheritdoc/>
    public Pane? Free => null;

    /// <inheritdoc/>
    public void Zoom(double factor) { }

    /// <inheritdoc/>
    public void ZoomAt(double factor, double x, double y) { }

    /// <inheritdoc/>
    public void Pan(double x, double y) { }

    /// <inheritdoc/>
    public void Fit() { }

    /// <inheritdoc/>
    public void Reveal(Valley valley, CableRow row, bool inMiddle) { }
}
