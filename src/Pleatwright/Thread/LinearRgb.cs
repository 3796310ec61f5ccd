namespace Pleatwright.Thread;

/// <summary>
/// A colour as amounts of light in the sRGB primaries: 0 to 1 on a screen, beyond that where a screen cannot show it.
/// Averages of light are taken here.
/// </summary>
/// <param name="Red">Red light.</param>
/// <param name="Green">Green light.</param>
/// <param name="Blue">Blue light.</param>
public readonly record struct LinearRgb(double Red, double Green, double Blue)
{
    private static readonly double[] Decoded = [.. Enumerable.Range(0, 256).Select(i => Decode(i / 255.0))];

    /// <summary>Relative luminance, 0 black to 1 white (CIE Y under D65).</summary>
    public double Luminance => 0.21263900587151036 * Red + 0.7151686787677559 * Green + 0.07219231536073371 * Blue;

    /// <summary>The light of an eight-bit colour.</summary>
    public static LinearRgb From(Colour colour) => new(Decoded[colour.Red], Decoded[colour.Green], Decoded[colour.Blue]);

    /// <summary>The nearest eight-bit colour; light beyond what a screen shows is cut off.</summary>
    public Colour ToColour() => new(ToByte(Red), ToByte(Green), ToByte(Blue));

    /// <summary>One channel's light from its encoded value, both 0 to 1 (IEC 61966-2-1).</summary>
    public static double Decode(double encoded) =>
        encoded <= 0.04045 ? encoded / 12.92 : Math.Pow((encoded + 0.055) / 1.055, 2.4);

    /// <summary>One channel's encoded value from its light, both 0 to 1 (IEC 61966-2-1).</summary>
    public static double Encode(double light) =>
        light <= 0.0031308 ? light * 12.92 : 1.055 * Math.Pow(light, 1 / 2.4) - 0.055;

    private static byte ToByte(double light) => (byte)(Encode(Math.Clamp(light, 0, 1)) * 255 + 0.5);
}
