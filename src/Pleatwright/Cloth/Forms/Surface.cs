using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>
/// What the gathered cloth lies on when it is drawn or blocked. Several forms may lie alike; a drawing is made for a surface, never for a form.
/// Places are in millimetres of the finished work.
/// </summary>
internal abstract record Surface
{
    /// <summary>Whether a chart's straight grid is the very cloth: every pleat equally wide on every row.</summary>
    public virtual bool IsStraight => false;

    /// <summary>Whether a line down a pleat stays straight when it is laid on.</summary>
    public virtual bool IsStraightDown => true;

    /// <summary>Whether the last pleat lies beside the first, with no gap between.</summary>
    public virtual bool Closes => false;

    /// <summary>Radius of the smooth cloth seen behind the pleats; null when there is none.</summary>
    public virtual double? Backdrop => null;

    /// <summary>Width and height of what is seen between two depths below gathering row 1, its upper left corner first; null when it lies flat.</summary>
    public abstract (double X, double Y, double Width, double Height)? View(double top, double bottom);

    /// <summary>Where a place lies.</summary>
    /// <param name="share">How far across the pleats, 0 at the left of pleat 1, 1 at the right of the last.</param>
    /// <param name="depth">Millimetres below gathering row 1.</param>
    /// <param name="times">How many times life size it is drawn.</param>
    public abstract (double X, double Y) Place(double share, double depth, double times);

    /// <summary>Which place of the cloth lies there at life size; null where none does.</summary>
    public abstract (double Share, double Depth)? LyingAt(double x, double y);

    /// <summary>How steeply what the cloth lies on rises to the right and downward at a place at life size, in millimetres a millimetre.</summary>
    public virtual (double Right, double Down) RiseAt(double x, double y) => (0, 0);

    /// <summary>The first and the last pleat that can be seen.</summary>
    public virtual (int First, int Last) Seen(int pleats) => (1, pleats);

    /// <summary>The drawing that belongs to this surface.</summary>
    public abstract T Drawn<T>(ISurfaceDrawings<T> drawings);
}

/// <summary>One drawing for each surface: a new surface does not build until each has one.</summary>
/// <typeparam name="T">What is drawn.</typeparam>
internal interface ISurfaceDrawings<out T>
{
    /// <summary>Of cloth that lies flat.</summary>
    T Of(FlatSurface flat);

    /// <summary>Of cloth on arcs.</summary>
    T Of(FanSurface fan);

    /// <summary>Of cloth on a ball.</summary>
    T Of(GlobeSurface globe);
}

/// <summary>Flat, of one width from top to bottom.</summary>
internal sealed record FlatSurface : Surface
{
    public static FlatSurface One { get; } = new();

    /// <inheritdoc/>
    public override bool IsStraight => true;

    /// <inheritdoc/>
    public override bool IsStraightDown => false; // lines need no laying on

    /// <inheritdoc/>
    public override (double X, double Y, double Width, double Height)? View(double top, double bottom) => null;

    /// <inheritdoc/>
    public override (double X, double Y) Place(double share, double depth, double times) => throw new InvalidOperationException("Flat cloth lies as it is drawn.");

    /// <inheritdoc/>
    public override (double Share, double Depth)? LyingAt(double x, double y) => throw new InvalidOperationException("Flat cloth lies as it is drawn.");

    /// <inheritdoc/>
    public override T Drawn<T>(ISurfaceDrawings<T> drawings) => drawings.Of(this);
}

/// <summary>On arcs about one centre, the middle pointing straight down.</summary>
/// <param name="Radius">Radius of gathering row 1.</param>
/// <param name="Sweep">Angle they go round.</param>
internal sealed record FanSurface(Length Radius, Angle Sweep) : Surface
{
    /// <summary>Blocked radius at a depth below gathering row 1.</summary>
    public Length RadiusAt(Length depth) => Radius + depth;

    /// <inheritdoc/>
    public override bool Closes => Sweep.Radians > 2 * Math.PI - 1e-6;

    private double RadiusAt(double depth) => Math.Max(0, Radius.Millimetres + depth);

    /// <inheritdoc/>
    public override (double X, double Y, double Width, double Height)? View(double top, double bottom) => Sector(RadiusAt(top), RadiusAt(bottom), Sweep.Radians / 2);

    /// <inheritdoc/>
    public override (double X, double Y) Place(double share, double depth, double times)
    {
        double radius = RadiusAt(depth) * times, angle = (share - 0.5) * Sweep.Radians;
        return (radius * Math.Sin(angle), radius * Math.Cos(angle));
    }

    /// <inheritdoc/>
    public override (double Share, double Depth)? LyingAt(double x, double y)
    {
        var share = Math.Atan2(x, y) / Sweep.Radians + 0.5;
        return share is < 0 or > 1 ? null : (share, Math.Sqrt(x * x + y * y) - Radius.Millimetres);
    }

    /// <inheritdoc/>
    public override T Drawn<T>(ISurfaceDrawings<T> drawings) => drawings.Of(this);

    /// <summary>The box of a ring's share, so far to either side of straight down.</summary>
    public static (double X, double Y, double Width, double Height) Sector(double inner, double outer, double half)
    {
        var across = half >= Math.PI / 2 ? outer : outer * Math.Sin(half);
        // The highest spot: on the outer arc when the share passes a half turn, else on an end of the inner one.
        var top = Math.Min(half > Math.PI / 2 ? outer * Math.Cos(half) : inner * Math.Cos(half), inner);
        return (-across, top, 2 * across, outer - top);
    }
}

/// <summary>Round a ball, from pole to pole.</summary>
/// <param name="Diameter">Its diameter.</param>
/// <param name="FirstRow">How far gathering row 1 lies from the upper pole, along the meridian.</param>
internal sealed record GlobeSurface(Length Diameter, Length FirstRow) : Surface
{
    /// <summary>Circumference at the equator, πD.</summary>
    public Length Equator => Diameter * Math.PI;

    /// <summary>Length of a meridian from pole to pole, πD/2.</summary>
    public Length Meridian => Diameter * (Math.PI / 2);

    /// <inheritdoc/>
    public override bool IsStraightDown => false;

    /// <inheritdoc/>
    public override double? Backdrop => Diameter.Millimetres / 2;

    /// <summary>Polar angle at a depth below gathering row 1: 0° at the upper pole, 90° at the equator.</summary>
    public Angle PolarAngleAt(Length depth) => Angle.FromRadians((FirstRow + depth) / (Diameter / 2));

    /// <inheritdoc/>
    public override (double X, double Y, double Width, double Height)? View(double top, double bottom)
    {
        var radius = Diameter.Millimetres / 2;
        return (-radius, -radius, 2 * radius, 2 * radius);
    }

    /// <inheritdoc/>
    public override (double X, double Y) Place(double share, double depth, double times)
    {
        var polar = Math.Clamp(PolarAngleAt(Length.FromMillimetres(depth)).Radians, 0, Math.PI);
        double round = (share - 0.5) * 2 * Math.PI, radius = Diameter.Millimetres / 2 * times;
        return (radius * Math.Sin(polar) * Math.Sin(round), -radius * Math.Cos(polar));
    }

    /// <inheritdoc/>
    public override (double Share, double Depth)? LyingAt(double x, double y)
    {
        var radius = Diameter.Millimetres / 2;
        if (x * x + y * y >= radius * radius) return null;
        var polar = Math.Acos(Math.Clamp(-y / radius, -1, 1));
        var round = Math.Asin(Math.Clamp(x / Math.Max(1e-9, radius * Math.Sin(polar)), -1, 1));
        return (round / (2 * Math.PI) + 0.5, polar * radius - FirstRow.Millimetres);
    }

    /// <inheritdoc/>
    public override (double Right, double Down) RiseAt(double x, double y)
    {
        var radius = Diameter.Millimetres / 2;
        var height = Math.Sqrt(Math.Max(radius * radius * 0.01, radius * radius - x * x - y * y));
        return (-x / height, -y / height);
    }

    /// <inheritdoc/>
    /// <remarks>Those in front: the middle half.</remarks>
    public override (int First, int Last) Seen(int pleats) => (pleats / 4 + 1, pleats - pleats / 4);

    /// <inheritdoc/>
    public override T Drawn<T>(ISurfaceDrawings<T> drawings) => drawings.Of(this);
}
