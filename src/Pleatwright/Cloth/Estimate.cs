using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>A figure found from measurements, and how far it can be trusted.</summary>
/// <param name="Value">The best value.</param>
/// <param name="HalfRange">Half the 95 % range about it; null when a single measurement tells nothing of its spread.</param>
/// <param name="Count">Measurements it comes from.</param>
public readonly record struct Estimate(double Value, double? HalfRange, int Count)
{
    /// <summary>Lower end of the range; the value itself when the range is unknown.</summary>
    public double Low => Value - (HalfRange ?? 0);

    /// <summary>Upper end of the range.</summary>
    public double High => Value + (HalfRange ?? 0);

    /// <summary>Whether a value lies in the range; anything may when the range is unknown.</summary>
    public bool Allows(double value) => HalfRange is null || (value >= Low && value <= High);

    /// <summary>
    /// Least squares of y = b·x through the origin: b = Σxy / Σx², its standard error √(Σ(y - b·x)² / (n - 1) / Σx²), and
    /// a 95 % range by Student's t with n - 1 degrees of freedom. Null when there is nothing to measure.
    /// </summary>
    /// <remarks>
    /// Any handbook of linear regression; checked against the certified values NoInt1 and NoInt2 of the NIST Statistical
    /// Reference Datasets.
    /// </remarks>
    public static Estimate? ThroughOrigin(IReadOnlyCollection<(double X, double Y)> points)
    {
        var xx = points.Sum(p => p.X * p.X);
        if (points.Count == 0 || xx == 0) return null;
        var b = points.Sum(p => p.X * p.Y) / xx;
        if (points.Count == 1) return new Estimate(b, null, 1);
        var freedom = points.Count - 1;
        var error = Math.Sqrt(points.Sum(p => (p.Y - b * p.X) * (p.Y - b * p.X)) / freedom / xx);
        return new Estimate(b, StudentT.TwoSided95(freedom) * error, points.Count);
    }
}
