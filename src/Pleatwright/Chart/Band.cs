using Pleatwright.Thread;

namespace Pleatwright.Chart;

/// <summary>A geometric stitch worked from side to side of the cloth.</summary>
/// <param name="Stitch">The stitch's name; see <see cref="Stitches.BandStitch.All"/>.</param>
/// <param name="GatheringRow">The gathering row it is worked on.</param>
/// <param name="Thread">Its thread.</param>
public sealed record Band(string Stitch, GatheringRow GatheringRow, ThreadKey Thread);
