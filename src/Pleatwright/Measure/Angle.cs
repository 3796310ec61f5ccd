namespace Pleatwright.Measure;

/// <summary>A plane angle; held in degrees, any finite value.</summary>
public readonly record struct Angle : IComparable<Angle>
{
    private Angle(double degrees)
    {
        if (!double.IsFinite(degrees))
            throw new ArgumentOutOfRangeException(nameof(degrees), degrees, "An angle is a finite number.");
        Degrees = degrees;
    }

    /// <summary>The angle in degrees.</summary>
    public double Degrees { get; }

    /// <summary>The angle in radians.</summary>
    public double Radians => Degrees * Math.PI / 180;

    /// <summary>A whole turn, 360°.</summary>
    public static Angle FullTurn => new(360);

    /// <summary>An angle of <paramref name="value"/> degrees.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is not finite.</exception>
    public static Angle FromDegrees(double value) => new(value);

    /// <summary>An angle of <paramref name="value"/> radians.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is not finite.</exception>
    public static Angle FromRadians(double value) => new(value * 180 / Math.PI);

    /// <inheritdoc/>
    public int CompareTo(Angle other) => Degrees.CompareTo(other.Degrees);
}
