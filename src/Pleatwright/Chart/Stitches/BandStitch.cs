using System.Collections.Immutable;

namespace Pleatwright.Chart.Stitches;

/// <summary>
/// A geometric stitch that can be worked as a band. Each stitch is one file in this folder; to add one, derive from
/// this and put it in <see cref="All"/>.
/// </summary>
public abstract class BandStitch
{
    /// <summary>Every stitch there is, in the order they are offered.</summary>
    public static ImmutableArray<BandStitch> All { get; } = [new CableBand()];

    /// <summary>The trade's word for it, as the piece file writes it.</summary>
    public abstract string Name { get; }

    /// <summary>The cables it lays, valley and cable row, on a piece of so many valleys.</summary>
    /// <param name="band">The band asked for.</param>
    /// <param name="valleys">Valleys on the cloth.</param>
    /// <param name="cableRowsPerSpace">Cable rows in one space.</param>
    public abstract IEnumerable<(Valley Valley, CableRow Row)> Cables(Band band, int valleys, int cableRowsPerSpace);

    /// <summary>The stitch of this name, or null.</summary>
    public static BandStitch? Named(string name) => All.FirstOrDefault(s => s.Name == name);
}
