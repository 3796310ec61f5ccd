using Pleatwright.Chart.Stitches;

namespace Pleatwright.Chart.Edit;

/// <summary>Puts geometric bands on gathering rows and takes them off.</summary>
public static class Bands
{
    /// <summary>Puts a band on a gathering row, instead of any band of the same stitch in the same place.</summary>
    /// <exception cref="ArgumentException">No such stitch, thread or gathering row.</exception>
    public static Piece Put(Piece piece, Band band)
    {
        if (BandStitch.Named(band.Stitch) is null) throw new ArgumentException($"No stitch is called “{band.Stitch}”.", nameof(band));
        if (piece.Thread(band.Thread) is null) throw new ArgumentException($"No thread has the letter '{band.Thread}'.", nameof(band));
        if (band.GatheringRow.Number < 1 || band.GatheringRow.Number > piece.Cloth.GatheringRows)
            throw new ArgumentException($"The cloth has gathering rows 1 to {piece.Cloth.GatheringRows}.", nameof(band));
        var others = piece.Bands.RemoveAll(b => (b.Stitch, b.GatheringRow, b.Offset, b.Drop, b.From) == (band.Stitch, band.GatheringRow, band.Offset, band.Drop, band.From));
        return piece with { Bands = others.Add(band) };
    }

    /// <summary>Takes a band off.</summary>
    public static Piece TakeOff(Piece piece, Band band) => piece with { Bands = piece.Bands.Remove(band) };
}
