using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Picture;
using Pleatwright.Plate.Playing;
using Pleatwright.Shelf;
using Pleatwright.Stitched;

namespace Pleatwright.Bench.Model.Printing;

/// <summary>The picture of the stitched piece to take away, for a shop's page: what is chosen of it, and how it is made, a small one first.</summary>
/// <param name="Figure">The figure framed; null for the whole piece.</param>
/// <param name="Width">Pixels across.</param>
public sealed record Portrait(string? Figure = null, int Width = Portrait.UsualWidth)
{
    /// <summary>The fewest, the usual and the most pixels across that are offered.</summary>
    public const int LeastWidth = 200, UsualWidth = 2000, MostWidth = 6000;

    /// <summary>Pixels across of the one shown while the whole is made.</summary>
    public const int SmallWidth = 240;

    /// <summary>The figures that may be framed: those that lie on the cloth.</summary>
    public static ImmutableArray<string> FiguresOf(Work work) => [.. work.Piece.Figures.Where(f => work.Piece.Placements.Any(p => p.Figure == f.Name)).Select(f => f.Name)];

    /// <summary>Whether a finished piece has a shape of its own, as a ball or a bishop has.</summary>
    internal static bool HasOwnShape(Work work) => !work.Piece.Cloth.Form.SurfaceOf(work.Piece.Cloth).IsStraight;

    /// <summary>The name of its file: title, size, figure.</summary>
    public string FileName(string title, string size) => PieceName.Nearest(string.Join(' ', new[] { title, size, Figure }.Where(s => !string.IsNullOrEmpty(s)))) + ".png";

    /// <summary>Paints it, from the top down.</summary>
    /// <param name="work">The work.</param>
    /// <param name="begun">Told how wide and high it will be, before any of it: first of the small one, then of the whole.</param>
    /// <param name="told">Told rows of pixels as they are painted: the first of them, and their red, green, blue and alpha.</param>
    /// <returns>Why there is none, as a sentence; empty when it was painted.</returns>
    internal string Paint(Work work, Action<int, int> begun, Action<int, byte[]> told)
    {
        var piece = new StitchedPiece(work);
        var frame = Figure is null ? piece.Whole : Framing.Of(piece, Figure);
        if (frame is not { } shown) return $"“{Figure}” is nowhere in sight on this cloth.";
        var high = shown.PixelsHigh(Width);
        if (high > Painter.MostPixels || !Raster.Fits(Width, high)) return $"It would be {Width} × {high} pixels, which is more than can be made. Choose a smaller width.";
        foreach (var wide in Width > SmallWidth ? [SmallWidth, Width] : new[] { Width }) Paint(new Painter(piece, shown, wide, samples: wide < Width ? SmallSamples : Painter.LeastSamples), begun, told);
        return "";
    }

    /// <summary>The most pixels of a picture that a page waits for, so that it takes a browser's worker a few seconds.</summary>
    public const int MostPixelsSoon = 400_000;

    /// <summary>Samples to a millimetre of a picture as small as a thumbnail, and of one that a page waits for: a pleat is told from its neighbour, a stitch from its own.</summary>
    internal const float SmallSamples = 1.8f, SoonSamples = 3.2f;

    /// <summary>Paints a part of a piece, or the whole of it, small and soon: for a page that shows it, a plate or a shelf.</summary>
    /// <param name="work">The work.</param>
    /// <param name="part">Its part in millimetres: left, top, width, height; nothing for the whole.</param>
    /// <param name="widest">Pixels across, at most.</param>
    /// <param name="samples">Samples to a millimetre, at least.</param>
    /// <param name="begun">Told how wide and high it will be.</param>
    /// <param name="told">Told rows of pixels as they are painted; see <see cref="Paint(Work, Action{int, int}, Action{int, byte[]})"/>.</param>
    internal static void PaintSoon(Work work, ReadOnlySpan<double> part, int widest, float samples, Action<int, int> begun, Action<int, byte[]> told)
    {
        var piece = new StitchedPiece(work);
        var frame = part.Length == 4 ? new Frame(part[0], part[1], part[2], part[3]) : piece.Bare;
        var wide = Math.Min(widest, (int)Math.Sqrt(MostPixelsSoon * frame.Width / frame.Height));
        Paint(new Painter(piece, frame, Math.Max(1, wide), samples: samples), begun, told);
    }

    /// <summary>Paints what lies under the needle in some moves; see <see cref="Lying"/>.</summary>
    /// <param name="lying">It as text.</param>
    /// <param name="after">Whether as it lies after them; else before.</param>
    /// <param name="most">Pixels, at most.</param>
    /// <param name="samples">Samples to a millimetre, at least.</param>
    /// <param name="begun">Told how wide and high it will be.</param>
    /// <param name="told">Told rows of pixels as they are painted.</param>
    internal static void PaintClose(string lying, bool after, int most, float samples, Action<int, int> begun, Action<int, byte[]> told) => Paint(Lying.Read(lying).Soon(after, most, samples), begun, told);

    private static void Paint(Painter painter, Action<int, int> begun, Action<int, byte[]> told)
    {
        begun(painter.Wide, painter.High);
        var rgba = new byte[4 * painter.Wide * painter.High];
        var relief = painter.NewRelief();
        for (int band = 0, first = 0; band < painter.Bands; band++)
        {
            painter.PaintBand(band, relief, rgba);
            var last = first;
            while (last < painter.High && rgba[4 * (last + 1) * painter.Wide - 1] != 0) last++; // what is painted has no pixel that can be seen through
            told(first, rgba[(4 * first * painter.Wide)..(4 * last * painter.Wide)]);
            first = last;
        }
    }
}
