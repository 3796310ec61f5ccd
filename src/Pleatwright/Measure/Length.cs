using System.Globalization;

namespace Pleatwright.Measure;

/// <summary>The unit a length was given in and is shown in.</summary>
public enum LengthUnit
{
    /// <summary>Millimetre.</summary>
    Millimetre,

    /// <summary>Centimetre, 10 mm.</summary>
    Centimetre,

    /// <summary>Metre, 1000 mm.</summary>
    Metre,

    /// <summary>International inch, exactly 25.4 mm (ISO 80000-3, annex of non-SI units).</summary>
    Inch,
}

/// <summary>
/// A length on cloth, thread or paper. It is held in millimetres and remembers the unit it was given in, so that a
/// maker who thinks in inches is answered in inches. Two lengths are equal when their millimetres are equal.
/// </summary>
public readonly struct Length : IEquatable<Length>, IComparable<Length>
{
    /// <summary>Millimetres in an inch: 25.4 exactly (international yard and pound agreement, 1959).</summary>
    public const double MillimetresPerInch = 25.4;

    private Length(double millimetres, LengthUnit unit)
    {
        if (!double.IsFinite(millimetres))
            throw new ArgumentOutOfRangeException(nameof(millimetres), millimetres, "A length is a finite number.");
        Millimetres = Math.Abs(millimetres) < 1e-12 ? 0 : millimetres; // less than an atom is rounding dust
        Unit = unit;
    }

    /// <summary>No length at all.</summary>
    public static Length Zero => default;

    /// <summary>The length in millimetres; finite, may be negative (an offset).</summary>
    public double Millimetres { get; }

    /// <summary>The unit in which the length was given.</summary>
    public LengthUnit Unit { get; }

    /// <summary>The length in centimetres.</summary>
    public double Centimetres => Millimetres / 10;

    /// <summary>The length in inches.</summary>
    public double Inches => Millimetres / MillimetresPerInch;

    /// <summary>A length of <paramref name="value"/> millimetres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is not finite.</exception>
    public static Length FromMillimetres(double value) => new(value, LengthUnit.Millimetre);

    /// <summary>A length of <paramref name="value"/> centimetres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is not finite.</exception>
    public static Length FromCentimetres(double value) => new(value * 10, LengthUnit.Centimetre);

    /// <summary>A length of <paramref name="value"/> metres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is not finite.</exception>
    public static Length FromMetres(double value) => new(value * 1000, LengthUnit.Metre);

    /// <summary>A length of <paramref name="value"/> inches.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is not finite.</exception>
    public static Length FromInches(double value) => new(value * MillimetresPerInch, LengthUnit.Inch);

    /// <summary>The same length, shown in another unit.</summary>
    public Length In(LengthUnit unit) => new(Millimetres, unit);

    /// <summary>
    /// A length that was reckoned, without the dust of the reckoning: a whole number of sixty-fourths of an inch, or of few decimals, where it comes to
    /// one but for 10⁻⁷ of its unit; else to nine decimals.
    /// </summary>
    internal Length Tidied()
    {
        var per = Unit switch { LengthUnit.Inch => MillimetresPerInch, LengthUnit.Centimetre => 10, LengthUnit.Metre => 1000, _ => 1 };
        var value = Millimetres / per;
        if (Unit == LengthUnit.Inch && Math.Round(value * 64) / 64 is var parts && Math.Abs(parts - value) < Dust) return new(parts * per, Unit);
        for (var digits = 0; digits < 6; digits++)
            if (Math.Round(value, digits) is var rounded && Math.Abs(rounded - value) < Dust) return new(rounded * per, Unit);
        return new(Math.Round(value, 9) * per, Unit);
    }

    private const double Dust = 1e-7;

    /// <summary>What <see cref="TryParse"/> reads of lengths no less than nothing, as a regular expression of the web's and of .NET's.</summary>
    public const string Pattern = NumberPattern + @"(mm|cm|m|in)\s*";

    /// <summary>The number in <see cref="Pattern"/>: a decimal, a fraction, or a whole and a fraction.</summary>
    internal const string NumberPattern = @"\s*(\d+(\.\d*)?|\.\d+|(\d+\s+)?\d+\s*/\s*\d+)\s*";

    /// <summary>
    /// Reads a length: a decimal ("45 cm"), a fraction ("3/8 in") or a whole and a fraction ("1 1/2 in"), then one of
    /// mm, cm, m, in. The unit is never left out.
    /// </summary>
    /// <returns>False when the text is not a length; <paramref name="length"/> is then zero.</returns>
    public static bool TryParse(string? text, out Length length)
    {
        length = Zero;
        if (text is null || text.Length > 80) return false;
        var rest = text.AsSpan().Trim();
        var split = rest.Length;
        while (split > 0 && char.IsAsciiLetter(rest[split - 1])) split--;
        LengthUnit unit;
        switch (rest[split..])
        {
            case "mm": unit = LengthUnit.Millimetre; break;
            case "cm": unit = LengthUnit.Centimetre; break;
            case "m": unit = LengthUnit.Metre; break;
            case "in": unit = LengthUnit.Inch; break;
            default: return false;
        }
        if (!TryParseNumber(rest[..split].Trim(), out var number)) return false;
        length = unit switch
        {
            LengthUnit.Millimetre => FromMillimetres(number),
            LengthUnit.Centimetre => FromCentimetres(number),
            LengthUnit.Metre => FromMetres(number),
            _ => FromInches(number),
        };
        return true;
    }

    /// <summary>Reads a length as <see cref="TryParse"/> does.</summary>
    /// <exception cref="FormatException">The text is not a length.</exception>
    public static Length Parse(string text) =>
        TryParse(text, out var length)
            ? length
            : throw new FormatException($"“{text}” is not a length; write a number and a unit, as in \"3/8 in\" or \"45 cm\".");

    private static bool TryParseNumber(ReadOnlySpan<char> text, out double number)
    {
        number = 0;
        var slash = text.IndexOf('/');
        if (slash < 0) return TryParseDecimal(text, out number);
        var before = text[..slash].TrimEnd();
        var space = before.LastIndexOf(' ');
        double whole = 0;
        if (space >= 0 && !TryParseWhole(before[..space].TrimEnd(), out whole)) return false;
        if (!TryParseWhole(before[(space + 1)..], out var top)) return false;
        if (!TryParseWhole(text[(slash + 1)..].TrimStart(), out var bottom) || bottom == 0) return false;
        number = whole + top / bottom;
        return true;
    }

    private static bool TryParseDecimal(ReadOnlySpan<char> text, out double number) =>
        double.TryParse(text, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out number)
        && double.IsFinite(number) && Math.Abs(number) < 1e9;

    private static bool TryParseWhole(ReadOnlySpan<char> text, out double number)
    {
        var ok = int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var whole);
        number = whole;
        return ok;
    }

    /// <summary>
    /// The length in its own unit, exact: "3/8 in" where the inches are a whole number of sixty-fourths, else decimals.
    /// What this writes, <see cref="TryParse"/> reads back to the same millimetres.
    /// </summary>
    public override string ToString() => Unit switch
    {
        LengthUnit.Inch => InchText(Millimetres),
        LengthUnit.Centimetre => Exact(Millimetres, 10, "cm"),
        LengthUnit.Metre => Exact(Millimetres, 1000, "m"),
        _ => Exact(Millimetres, 1, "mm"),
    };

    // The shortest decimal that multiplies back to the very same millimetres; where none does, the millimetres themselves.
    private static string Exact(double millimetres, double per, string unit)
    {
        var value = millimetres / per;
        for (var digits = 0; digits <= 15; digits++)
        {
            var rounded = Math.Round(value, digits);
            if (rounded * per == millimetres) return Decimal(rounded) + " " + unit;
        }
        return Decimal(millimetres) + " mm";
    }

    // Every digit that matters and no exponent, which makers do not write.
    private static string Decimal(double value)
    {
        var text = value.ToString("R", CultureInfo.InvariantCulture);
        return text.Contains('E') ? value.ToString("F40", CultureInfo.InvariantCulture).TrimEnd('0').TrimEnd('.') : text;
    }

    private static string InchText(double millimetres)
    {
        var inches = millimetres / MillimetresPerInch;
        var parts = Math.Round(inches * 64);
        if (inches < 0 || parts / 64 * MillimetresPerInch != millimetres) return Exact(millimetres, MillimetresPerInch, "in");
        var whole = (long)parts / 64;
        var over = (long)parts % 64;
        if (over == 0) return string.Create(CultureInfo.InvariantCulture, $"{whole} in");
        long under = 64;
        while (over % 2 == 0) { over /= 2; under /= 2; }
        return whole == 0
            ? string.Create(CultureInfo.InvariantCulture, $"{over}/{under} in")
            : string.Create(CultureInfo.InvariantCulture, $"{whole} {over}/{under} in");
    }

    /// <summary>The sum of two lengths, in the first one's unit.</summary>
    public static Length operator +(Length a, Length b) => new(a.Millimetres + b.Millimetres, a.Unit);

    /// <summary>The difference of two lengths, in the first one's unit.</summary>
    public static Length operator -(Length a, Length b) => new(a.Millimetres - b.Millimetres, a.Unit);

    /// <summary>The length taken <paramref name="times"/> times.</summary>
    public static Length operator *(Length a, double times) => new(a.Millimetres * times, a.Unit);

    /// <summary>The length taken <paramref name="times"/> times.</summary>
    public static Length operator *(double times, Length a) => a * times;

    /// <summary>The length shared into <paramref name="parts"/> parts.</summary>
    public static Length operator /(Length a, double parts) => new(a.Millimetres / parts, a.Unit);

    /// <summary>How many times <paramref name="b"/> goes into <paramref name="a"/>.</summary>
    public static double operator /(Length a, Length b) => a.Millimetres / b.Millimetres;

    /// <summary>Whether the first is shorter.</summary>
    public static bool operator <(Length a, Length b) => a.Millimetres < b.Millimetres;

    /// <summary>Whether the first is longer.</summary>
    public static bool operator >(Length a, Length b) => a.Millimetres > b.Millimetres;

    /// <summary>Whether the first is no longer than the second.</summary>
    public static bool operator <=(Length a, Length b) => a.Millimetres <= b.Millimetres;

    /// <summary>Whether the first is no shorter than the second.</summary>
    public static bool operator >=(Length a, Length b) => a.Millimetres >= b.Millimetres;

    /// <summary>Equal millimetres.</summary>
    public static bool operator ==(Length a, Length b) => a.Equals(b);

    /// <summary>Unequal millimetres.</summary>
    public static bool operator !=(Length a, Length b) => !a.Equals(b);

    /// <inheritdoc/>
    public bool Equals(Length other) => Millimetres.Equals(other.Millimetres);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => obj is Length other && Equals(other);

    /// <inheritdoc/>
    public override int GetHashCode() => Millimetres.GetHashCode();

    /// <inheritdoc/>
    public int CompareTo(Length other) => Millimetres.CompareTo(other.Millimetres);
}
