using System.Globalization;

namespace Pleatwright.Shopping;

/// <summary>Something that lies between two values: hours, or money.</summary>
/// <param name="Low">The least it may be.</param>
/// <param name="High">The most.</param>
public readonly record struct Between(decimal Low, decimal High)
{
    /// <summary>Nothing at all.</summary>
    public static Between Nothing => default;

    /// <summary>One value, known for certain.</summary>
    public static Between Just(decimal value) => new(value, value);

    /// <summary>Both together: the ranges add end to end, as when what is slow in one is slow in the other.</summary>
    public static Between operator +(Between a, Between b) => new(a.Low + b.Low, a.High + b.High);

    /// <summary>So many times as much.</summary>
    public static Between operator *(Between a, decimal times) => new(a.Low * times, a.High * times);

    /// <summary>Both ends to so many decimals, halves away from nothing.</summary>
    public Between Rounded(int decimals) =>
        new(Math.Round(Low, decimals, MidpointRounding.AwayFromZero), Math.Round(High, decimals, MidpointRounding.AwayFromZero));

    /// <summary>"12.50", or "12.50 to 14.00" where the ends differ.</summary>
    public string Say(string format) => Low == High
        ? Low.ToString(format, CultureInfo.InvariantCulture)
        : string.Create(CultureInfo.InvariantCulture, $"{Low.ToString(format, CultureInfo.InvariantCulture)} to {High.ToString(format, CultureInfo.InvariantCulture)}");
}
