using Pleatwright.Picture;
using Pleatwright.Thread;

namespace Pleatwright.Stitched;

/// <summary>
/// Paints a stitched piece. The picture is made in bands from the top, each by itself: cloth and strands go into a buffer of heights, slopes and
/// the way fibres run (<see cref="Relief"/>), that is lit (<see cref="Shading"/>), and samples are gathered into pixels. Managed code alone; rows in parallel where
/// there are several processors, one after another in the browser.
/// </summary>
internal sealed class Painter
{
    /// <summary>The most pixels a picture may be wide or high.</summary>
    public const int MostPixels = 12_000;

    internal const float LeastSamples = 5.2f; // a millimetre, so that a strand is not lost between two
    private const int MostSamplesInPixel = 12; // along a side

    private const float HairsSeen = 38; // samples a millimetre, from which on a fibre that stands off is seen

    private const float Falloff = 0.09f; // from one corner to half way across

    private readonly StitchedPiece piece;
    private readonly Frame frame;
    private readonly Light light;
    private readonly float falloff;
    private readonly int sampling; // samples along a side of a pixel
    private readonly float perMillimetre; // samples
    private readonly int bandHeight; // pixels
    private readonly int[][] stitchesOfBand;

    /// <summary>Prepares a picture.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="frame">The part of it that is shown; its sides more than nothing.</param>
    /// <param name="wide">Pixels across, 1 to <see cref="MostPixels"/>.</param>
    /// <param name="light">The light; as usual where none is given.</param>
    /// <param name="samples">Samples to a millimetre, at least; fewer are sooner there.</param>
    /// <param name="even">Whether the lamp is as bright all over: pictures of parts that are laid side by side.</param>
    /// <exception cref="ArgumentOutOfRangeException">It would be wider or higher than <see cref="MostPixels"/>, or past <see cref="Raster.MostPixels"/>.</exception>
    public Painter(StitchedPiece piece, Frame frame, int wide, Light? light = null, float samples = LeastSamples, bool even = false)
    {
        Wide = wide;
        High = frame.PixelsHigh(wide);
        if (wide is < 1 or > MostPixels || High > MostPixels || !Raster.Fits(wide, High)) throw new ArgumentOutOfRangeException(nameof(wide), wide, $"A picture of {wide} × {High} pixels cannot be made.");
        this.piece = piece;
        this.frame = frame;
        this.light = light ?? Light.UpperLeft;
        falloff = even ? 0 : Falloff;
        var pixels = wide / frame.Width; // to a millimetre
        sampling = (int)Math.Clamp(Math.Ceiling(samples / pixels), samples < LeastSamples || pixels > 60 ? 1 : 2, MostSamplesInPixel);
        perMillimetre = (float)(pixels * sampling);
        // Tall enough that what is laid beyond it for its shadows is not the greater part.
        bandHeight = Math.Max(24, (int)(3.5 * Relief.Reach(piece.Field) * pixels));
        stitchesOfBand = Sort();
    }

    /// <summary>Pixels across.</summary>
    public int Wide { get; }

    /// <summary>Pixels down.</summary>
    public int High { get; }

    /// <summary>Bands of pixels it is made in.</summary>
    public int Bands => (High + bandHeight - 1) / bandHeight;

    /// <summary>Paints all of it.</summary>
    public Raster Paint(CancellationToken cancel = default)
    {
        var rgba = new byte[4 * Wide * High];
        if (OperatingSystem.IsBrowser() || Bands == 1)
        {
            var relief = NewRelief();
            for (var band = 0; band < Bands; band++)
            {
                cancel.ThrowIfCancellationRequested();
                PaintBand(band, relief, rgba);
            }
        }
        else Parallel.For(0, Bands, new ParallelOptions { CancellationToken = cancel }, NewRelief, (band, _, relief) => { PaintBand(band, relief, rgba); return relief; }, _ => { });
        return new Raster(Wide, High, rgba);
    }

    /// <summary>A buffer that bands are painted in, one after another.</summary>
    public Relief NewRelief() => new(piece, Wide * sampling, bandHeight * sampling, perMillimetre);

    /// <summary>Paints a band into its rows of a picture.</summary>
    /// <param name="band">Which, from 0 at the top to one less than <see cref="Bands"/>.</param>
    /// <param name="relief">From <see cref="NewRelief"/>; of one thread at a time.</param>
    /// <param name="rgba">The whole picture.</param>
    public void PaintBand(int band, Relief relief, byte[] rgba)
    {
        int first = band * bandHeight, rows = Math.Min(bandHeight, High - first);
        relief.Begin((float)frame.X, (float)frame.Y + first * sampling / perMillimetre, rows * sampling);
        relief.LayCloth();
        var strands = relief.Taken;
        var whole = StrandsMerge;
        foreach (var index in stitchesOfBand[band])
        {
            strands.Clear();
            piece.Strands.Lay(piece.Stitches.Span[index], strands, whole);
            relief.LayStrands(strands);
        }
        if (perMillimetre >= HairsSeen)
            foreach (var index in stitchesOfBand[band])
            {
                strands.Clear();
                piece.Strands.LayHairs(piece.Stitches.Span[index], strands);
                relief.LayStrands(strands);
            }
        relief.Settle();
        var light = new float[3 * Wide];
        for (var row = 0; row < rows; row++)
        {
            Array.Clear(light);
            for (var part = 0; part < sampling; part++) Shading.Light(relief, row * sampling + part, this.light, light, sampling);
            // The lamp is nearer to the upper left.
            var down = (first + row + 0.5f) / High - 0.5f;
            var at = 4 * (first + row) * Wide;
            for (var x = 0; x < Wide; x++, at += 4)
            {
                var scale = (1 - falloff * (down + (x + 0.5f) / Wide - 0.5f)) / (sampling * sampling);
                rgba[at] = Encoded(light[3 * x] * scale);
                rgba[at + 1] = Encoded(light[3 * x + 1] * scale);
                rgba[at + 2] = Encoded(light[3 * x + 2] * scale);
                rgba[at + 3] = 255;
            }
        }
    }

    internal const float MergeBelow = 1.5f; // samples: strands finer than that cannot be told apart

    private bool StrandsMerge => perMillimetre * Finest(piece) < MergeBelow;

    /// <summary>Millimetres that the finest thread of a piece is thick.</summary>
    public static float Finest(StitchedPiece piece) => (float)piece.Work.Piece.Threads.Select(t => t.Fineness.Diameter.Millimetres).DefaultIfEmpty(1).Min();

    private static readonly byte[] Encodings = [.. Enumerable.Range(0, 4097).Select(i => (byte)(255 * LinearRgb.Encode(i / 4096.0) + 0.5))];

    internal const float HighlightFrom = 0.9f;

    private static byte Encoded(float light)
    {
        // Highlights roll off, as in a photograph, instead of being cut.
        if (light > HighlightFrom) light = HighlightFrom + (1 - HighlightFrom) * (1 - MathF.Exp(-(light - HighlightFrom) / (1 - HighlightFrom)));
        var at = Math.Clamp(light, 0, 1) * 4096;
        // In the dark one step of the table is several of the eye's.
        return light < 0.02f ? (byte)(255 * LinearRgb.Encode(Math.Max(0, light)) + 0.5) : Encodings[(int)(at + 0.5f)];
    }

    private int[][] Sort()
    {
        var lists = new List<int>[Bands];
        for (var i = 0; i < lists.Length; i++) lists[i] = [];
        var stitches = piece.Stitches.Span;
        var margin = Relief.Reach(piece.Field) + 1 / perMillimetre;
        double high = bandHeight * sampling / perMillimetre, right = frame.X + frame.Width + margin;
        for (var i = 0; i < stitches.Length; i++)
        {
            if (!piece.IsSeen(stitches[i])) continue;
            var (least, most) = piece.Strands.Bounds(stitches[i]);
            if (most.X < frame.X - margin || least.X > right) continue;
            var from = (int)Math.Floor((least.Y - margin - frame.Y) / high);
            var to = (int)Math.Floor((most.Y + margin - frame.Y) / high);
            for (var band = Math.Max(0, from); band <= Math.Min(Bands - 1, to); band++) lists[band].Add(i);
        }
        return [.. lists.Select(l => l.ToArray())];
    }
}
