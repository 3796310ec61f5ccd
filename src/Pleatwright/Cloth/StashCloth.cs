using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Cloth;

/// <summary>A cloth the maker has: their own name for it, its colour, its width and how much is left along it.</summary>
/// <param name="Name">The maker's own name for it, 1 to 100 characters.</param>
/// <param name="Colour">Its colour.</param>
/// <param name="Width">Width in which it lies, selvedge to selvedge, more than nothing.</param>
/// <param name="Left">Length left, at least nothing.</param>
public sealed record StashCloth(string Name, Colour Colour, Length Width, Length Left)
{
    /// <summary>A word of the maker's own, or empty.</summary>
    public string Note { get; init; } = "";
}
