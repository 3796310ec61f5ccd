namespace Pleatwright.Chart.Stitches;

/// <summary>A single row of cables over every pleat: up, down, up…</summary>
public sealed class CableBand : BandStitch
{
    /// <inheritdoc/>
    public override string Name => "cable";

    /// <inheritdoc/>
    public override IEnumerable<(Valley Valley, CableRow Row)> Cables(Band band, int valleys, int cableRowsPerSpace)
    {
        var row = band.GatheringRow.CableRow(cableRowsPerSpace);
        for (var v = 1; v <= valleys; v++) yield return (new Valley(v), row);
    }
}
