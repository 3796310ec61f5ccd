using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>
/// How the cloth is gathered: the pitch of the finished pleats, the flat cloth each takes up, the space between
/// gathering rows and the cable rows worked in one space. The maker's own swatch may replace every one of them.
/// </summary>
public sealed record Gauge
{
    /// <summary>A gauge.</summary>
    /// <param name="pitch">Finished width of one pleat, more than 0.</param>
    /// <param name="takeUp">Flat cloth one pleat takes up; at least the pitch.</param>
    /// <param name="rowSpacing">Distance between gathering rows, more than 0.</param>
    /// <param name="cableRowsPerSpace">Cable rows in one space, 1 to 20.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of the range above.</exception>
    public Gauge(Length pitch, Length takeUp, Length rowSpacing, int cableRowsPerSpace)
    {
        if (pitch <= Length.Zero) throw new ArgumentOutOfRangeException(nameof(pitch), "The pitch of the pleats must be more than nothing.");
        if (takeUp < pitch) throw new ArgumentOutOfRangeException(nameof(takeUp), "A pleat cannot take up less cloth than its finished width.");
        if (rowSpacing <= Length.Zero) throw new ArgumentOutOfRangeException(nameof(rowSpacing), "The row spacing must be more than nothing.");
        if (cableRowsPerSpace is < 1 or > MostCableRowsPerSpace)
            throw new ArgumentOutOfRangeException(nameof(cableRowsPerSpace), $"Cable rows in a space run from 1 to {MostCableRowsPerSpace}.");
        Pitch = pitch;
        TakeUp = takeUp;
        RowSpacing = rowSpacing;
        CableRowsPerSpace = cableRowsPerSpace;
    }

    /// <summary>The most cable rows that one space may hold here.</summary>
    public const int MostCableRowsPerSpace = 20;

    /// <summary>
    /// The common gauge: 12 pleats an inch, 1/4 in of cloth to a pleat, rows 3/8 in apart, 5 cable rows in a space
    /// (common practice, no source).
    /// </summary>
    public static Gauge Common { get; } = FromPleatsPerInch(12, Length.FromInches(0.25), Length.FromInches(0.375), 5);

    /// <summary>Finished width of one pleat.</summary>
    public Length Pitch { get; }

    /// <summary>Flat cloth one pleat takes up: two dot steps.</summary>
    public Length TakeUp { get; }

    /// <summary>Distance between gathering rows.</summary>
    public Length RowSpacing { get; }

    /// <summary>Cable rows in one space.</summary>
    public int CableRowsPerSpace { get; }

    /// <summary>
    /// Width below which a pleat cannot be pressed: its two layers of cloth. Default 0.5 mm, two layers of a fine cotton
    /// 0.25 mm thick (from memory); a maker measures a folded edge. At least 0.
    /// </summary>
    public Length PleatThickness { get; init; } = UsualPleatThickness;

    /// <summary>Two layers of a fine cotton: 0.5 mm (from memory).</summary>
    public static Length UsualPleatThickness => Length.FromMillimetres(0.5);

    /// <summary>Finished pleats in one inch.</summary>
    public double PleatsPerInch => Math.Round(Length.MillimetresPerInch / Pitch.Millimetres, 9);

    /// <summary>Flat width over gathered width: take-up / pitch.</summary>
    public double Fullness => TakeUp / Pitch;

    /// <summary>Height of one cable row: the row spacing shared among the cable rows of a space.</summary>
    public Length CableRowHeight => RowSpacing / CableRowsPerSpace;

    /// <summary>Height of one line, of which each cable row has two (upper and lower).</summary>
    public Length LineHeight => CableRowHeight / 2;

    /// <summary>A gauge from the count of finished pleats in an inch.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of range; see the constructor.</exception>
    public static Gauge FromPleatsPerInch(double pleatsPerInch, Length takeUp, Length rowSpacing, int cableRowsPerSpace)
    {
        if (!(pleatsPerInch > 0) || !double.IsFinite(pleatsPerInch))
            throw new ArgumentOutOfRangeException(nameof(pleatsPerInch), "Pleats in an inch must be more than nothing.");
        return new Gauge(Length.FromInches(1 / pleatsPerInch), takeUp, rowSpacing, cableRowsPerSpace);
    }
}
