using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using Pleatwright.Chart;
using Pleatwright.Picture;
using Pleatwright.Stitched;

namespace Pleatwright.Plate.Parts;

/// <summary>
/// The stitched piece painted for print (see <see cref="Painter"/>). In the browser, where painting so finely would keep the page waiting, it is the drawn picture
/// of <see cref="StitchedPicture"/>, of the same size.
/// </summary>
internal static class StitchedPrint
{
    private const double PerMillimetre = 300 / 25.4; // dots an inch that print is judged by (common practice, no source)

    // A page is laid out again for every change of what is printed; the piece is the same.
    private static readonly ConditionalWeakTable<Work, Painted> Kept = [];

    /// <summary>Whether pictures are painted here.</summary>
    public static bool IsPainted => !OperatingSystem.IsBrowser() && !(AppContext.TryGetSwitch(DrawnSwitch, out var drawn) && drawn);

    // Set where many plates are written for what they say alone.
    private const string DrawnSwitch = "Pleatwright.CoversDrawn";

    /// <summary>The picture so many millimetres wide.</summary>
    public static Drawing Of(Work work, double width)
    {
        if (!IsPainted) return StitchedPicture.Draw(work, width);
        var of = Kept.GetValue(work, w => new Painted(w));
        return Printed(of, null, width, StitchedPicture.HeightOf(work, width));
    }

    /// <summary>The picture as large as may be, so many millimetres wide and high at the most.</summary>
    public static Drawing Within(Work work, double width, double height) => Of(work, Math.Min(width, width * height / StitchedPicture.HeightOf(work, width)));

    /// <summary>A part of the finished cloth.</summary>
    public static Drawing Of(ChartGeometry geometry, ChartWindow window)
    {
        if (!IsPainted || !Bending.SurfaceOf(geometry.Work).IsStraight) return StitchedPicture.Draw(geometry, window);
        var of = Kept.GetValue(geometry.Work, w => new Painted(w));
        var view = geometry.BoxOf(window);
        var times = geometry.Pitch / geometry.Work.Pleating.Gauge.Pitch.Millimetres;
        return Printed(of, new Frame(view.X / times, view.Y / times, view.Width / times, view.Height / times), view.Width, view.Height);
    }

    private static Drawing Printed(Painted of, Frame? frame, double width, double height)
    {
        var box = new Box(0, 0, width, height);
        // a long strip is painted as finely as a picture may be large
        var finest = Math.Min((Painter.MostPixels - 1) / Math.Max(width, height), Math.Sqrt(0.99 * Raster.MostPixels / (width * height)));
        return new Drawing(box, [new PixelPicture(box, of.Jpeg(frame, Math.Max(1, (int)Math.Round(width * Math.Min(PerMillimetre, finest)))))]);
    }

    private sealed class Painted(Work work)
    {
        private readonly Dictionary<(Frame?, int), Lazy<ImmutableArray<byte>>> jpegs = [];
        private readonly Lazy<StitchedPiece> piece = new(() => new StitchedPiece(work));

        // Of a part, or of the whole.
        public Lazy<ImmutableArray<byte>> Jpeg(Frame? frame, int wide)
        {
            lock (jpegs)
            {
                if (!jpegs.TryGetValue((frame, wide), out var jpeg))
                    jpegs[(frame, wide)] = jpeg = new(() => [.. JpegFile.Write(new Painter(piece.Value, frame ?? piece.Value.Whole, wide).Paint())]);
                return jpeg;
            }
        }
    }
}
