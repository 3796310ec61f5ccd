using System.Collections.Immutable;

namespace Pleatwright.Plate.Parts;

/// <summary>A drawing at the size of the cloth itself, in millimetres, of which a page may show any part.</summary>
internal abstract class TrueDrawing
{
    /// <summary>All of it.</summary>
    public abstract Box Extent { get; }

    /// <summary>The edges of a page's share fall on whole steps from the drawing's upper left corner.</summary>
    public virtual Spot Step => new(1, 1);

    /// <summary>What two neighbouring pages both show, across and down.</summary>
    public virtual Spot Overlap => new(10, 10);

    /// <summary>Whether there is anything to see in a part.</summary>
    public virtual bool Touches(Box part) => true;

    /// <summary>What is seen in a part; what reaches beyond it is clipped.</summary>
    public abstract ImmutableArray<Mark> Draw(Box part, Look look);

    /// <summary>Numbers and words round the outside of a part, within <see cref="TruePages.Sides"/> and <see cref="TruePages.Ends"/>.</summary>
    public abstract ImmutableArray<Mark> Label(Box part, Look look);
}
