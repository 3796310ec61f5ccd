namespace Pleatwright.Recutting;

/// <summary>What a piece keeps when it is cut for another gauge.</summary>
internal enum RecutKeep
{
    /// <summary>Its finished width and depth: figures are drawn again in as many valleys and cable rows as fill the same place.</summary>
    Size,

    /// <summary>Its pleats and every stitch of its figures: it becomes larger or smaller, and a figure squatter or taller where pleats and rows change unlike.</summary>
    Count,

    /// <summary>Its pleats, and how each figure looks: as many valleys across, and as many cable rows as keep its height to its width.</summary>
    Proportions,
}
