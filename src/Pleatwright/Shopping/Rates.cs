using Pleatwright.Measure;

namespace Pleatwright.Shopping;

/// <summary>What things and hours cost the maker, in a money of their own; what is null is not reckoned, and that is said.</summary>
public sealed record Rates
{
    /// <summary>The most that anything costs.</summary>
    public const decimal Most = 1_000_000;

    /// <summary>The longest word for money.</summary>
    public const int LongestMoney = 8;

    /// <summary>The maker's word or sign for money, up to <see cref="LongestMoney"/> characters; empty for none.</summary>
    public string Money { get; init; } = "";

    /// <summary>A skein of thread.</summary>
    public decimal? Skein { get; init; }

    /// <summary>Cloth, of <see cref="ClothPer"/> along it, at its full width.</summary>
    public decimal? Cloth { get; init; }

    /// <summary>The length of cloth that <see cref="Cloth"/> is asked for, more than nothing. Default 1 m.</summary>
    public Length ClothPer { get; init; } = Length.FromMetres(1);

    /// <summary>An hour of the maker's work.</summary>
    public decimal? Hour { get; init; }

    /// <summary>An amount with its money: "12.50 EUR".</summary>
    public string Say(Between amount) => Money.Length == 0 ? amount.Say("0.00") : $"{amount.Say("0.00")} {Money}";
}
