using System.Globalization;
using Pleatwright.Measure;

namespace Pleatwright.Bench.Model;

/// <summary>Numbers and lengths as the bench says them.</summary>
public static class Words
{
    /// <summary>"1 skein", "4 skeins", "1,204 cables".</summary>
    public static string Of(int count, string noun) => Counting.Of(count, noun);

    /// <summary>"1 stitch", "4 stitches".</summary>
    public static string Of(int count, string noun, string many) => Counting.Of(count, noun, many);

    public static string Of(int count) => count.ToString("N0", CultureInfo.InvariantCulture);

    /// <summary>A length in the units it was given in.</summary>
    public static string Of(Length length) => length.Say(length.Units());

    /// <summary>How large a figure is: "21 by 9".</summary>
    internal static string Size(Chart.Figure figure) => $"{Of(figure.Width)} by {Of(figure.Height)}";

    /// <summary>The units of a piece's maker: those of the measure that its cloth was asked for by.</summary>
    internal static UnitSystem Units(Chart.Piece piece) => piece.Cloth.Form.Measure.Units();

    /// <summary>A number as a field of the page takes it: every digit, no thousands.</summary>
    public static string Plain(double number) => number.ToString("R", CultureInfo.InvariantCulture);

    /// <summary>What is said while the order is sought.</summary>
    public const string Seeking = "The order is being planned with care; numbers of steps may still change.";

    public static string Of(double number) => number.ToString("0.##", CultureInfo.InvariantCulture);
}
