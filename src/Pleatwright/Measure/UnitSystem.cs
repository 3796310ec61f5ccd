namespace Pleatwright.Measure;

/// <summary>Which units a page or a screen speaks in.</summary>
public enum UnitSystem
{
    /// <summary>Centimetres and millimetres.</summary>
    Metric,

    /// <summary>Inches, to the nearest useful fraction.</summary>
    Inches,

    /// <summary>Centimetres first, inches in brackets.</summary>
    Both,
}
