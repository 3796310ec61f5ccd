using Pleatwright.Measure;

namespace Pleatwright.Thread;

/// <summary>
/// How fine one strand is: its linear density in tex, grams a kilometre (ISO 1144). The coarser the strand, the more tex.
/// </summary>
public readonly record struct Fineness
{
    /// <summary>Tex times cotton count: 453.59237 g to the pound over 768.096 m (840 yards), in g/km (ISO 2947).</summary>
    public const double TexTimesCottonCount = 590.54;

    private Fineness(double tex) => Tex = tex;

    /// <summary>Linear density in tex, more than 0.</summary>
    public double Tex { get; }

    /// <summary>The English cotton count Ne: hanks of 840 yards to the pound. The finer, the higher.</summary>
    public double CottonCount => TexTimesCottonCount / Tex;

    /// <summary>
    /// Diameter of the strand by the yarn-geometry rule d = 1 / (28 √Ne) inches (Peirce, 1937), about 0.0373 √tex mm.
    /// </summary>
    public Length Diameter => Length.FromInches(1 / (28 * Math.Sqrt(CottonCount))).In(LengthUnit.Millimetre);

    /// <summary>A fineness in tex.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is not a finite number above 0.</exception>
    public static Fineness FromTex(double tex) => tex > 0 && double.IsFinite(tex)
        ? new Fineness(tex)
        : throw new ArgumentOutOfRangeException(nameof(tex), tex, "A strand's tex is more than nothing.");
}
