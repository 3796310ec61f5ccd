namespace Pleatwright.Cloth;

/// <summary>Why a cloth cannot be made, or a swatch cannot be right.</summary>
/// <param name="Key">The piece-file key at fault.</param>
/// <param name="Words">What is wrong and what would serve; no capital first and no full stop last.</param>
public readonly record struct ClothFault(string Key, string Words);
