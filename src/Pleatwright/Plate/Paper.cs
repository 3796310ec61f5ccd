using System.Collections.Immutable;

namespace Pleatwright.Plate;

/// <summary>A size of paper, upright.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Width">Its width in millimetres.</param>
/// <param name="Height">Its height in millimetres.</param>
public sealed record Paper(string Name, double Width, double Height)
{
    /// <summary>210 by 297 mm (ISO 216).</summary>
    public static Paper A4 { get; } = new("A4", 210, 297);

    /// <summary>297 by 420 mm (ISO 216).</summary>
    public static Paper A3 { get; } = new("A3", 297, 420);

    /// <summary>8½ by 11 in, 215.9 by 279.4 mm (ANSI/ASME Y14.1, size A).</summary>
    public static Paper Letter { get; } = new("Letter", 215.9, 279.4);

    /// <summary>Every size there is.</summary>
    public static ImmutableArray<Paper> All { get; } = [A4, Letter, A3];

    /// <summary>The paper of this name, upper or lower case, or null.</summary>
    public static Paper? Named(string name) => All.FirstOrDefault(p => p.Name.Equals(name, StringComparison.OrdinalIgnoreCase));

    /// <summary>Its name; what a record would print of itself never ends, for the paper on its side is a paper too.</summary>
    public override string ToString() => Name;

    /// <summary>The same paper on its side.</summary>
    public Paper Sideways => this with { Width = Height, Height = Width };
}
