using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using Pleatwright.Chart;
using Pleatwright.Picture;
using Pleatwright.Stitched;

namespace Pleatwright.Plate.Parts;

/// <summary>
/// The stitched piece painted for print (see <see cref="Painter"/>). In the browser, where painting keeps the page waiting, a worker paints it, less finely; till then the drawn
/// picture of <see cref="StitchedPicture"/>, of the same size, stands in its place.
/// </summary>
internal static class StitchedPrint
{
    private const double PerMillimetre = 300 / 25.4; // dots an inch that print is judged by (common practice, no source)

    /// <summary>Dots to a millimetre of a picture that is seen on a screen alone: a phone's width at twice its points (our own choice).</summary>
    public const double OnScreen = 5.4;

    // A page is laid out again for every change of what is printed; the piece is the same.
    private static readonly ConditionalWeakTable<Work, Painted> Kept = [];

    /// <summary>Whether pictures are painted as they are asked for; otherwise they are given when they were painted elsewhere.</summary>
    public static bool IsPainted => !OperatingSystem.IsBrowser();

    /// <summary>Whether pictures are drawn alone.</summary>
    private static bool IsDrawn => AppContext.TryGetSwitch(DrawnSwitch, out var drawn) && drawn;

    // Set where many plates are written for what they say alone.
    private const string DrawnSwitch = "Pleatwright.CoversDrawn";

    /// <summary>The picture so many millimetres wide.</summary>
    /// <param name="work">The work.</param>
    /// <param name="width">Its width in millimetres.</param>
    /// <param name="finest">Dots to a millimetre, at most.</param>
    public static Drawing Of(Work work, double width, double finest = PerMillimetre)
    {
        if (IsDrawn) return StitchedPicture.Draw(work, width);
        var drawn = IsPainted ? new Drawing(new Box(0, 0, width, StitchedPicture.HeightOf(work, width)), []) : StitchedPicture.Draw(work, width);
        return Printed(Kept.GetValue(work, w => new Painted(w)), null, drawn, finest);
    }

    /// <summary>The picture as large as may be, so many millimetres wide and high at the most.</summary>
    public static Drawing Within(Work work, double width, double height) => Of(work, Math.Min(width, width * height / StitchedPicture.HeightOf(work, width)));

    /// <summary>A part of the finished cloth.</summary>
    public static Drawing Of(ChartGeometry geometry, ChartWindow window)
    {
        if (IsDrawn || !Bending.SurfaceOf(geometry.Work).IsStraight) return StitchedPicture.Draw(geometry, window);
        var view = geometry.BoxOf(window);
        var times = geometry.Pitch / geometry.Work.Pleating.Gauge.Pitch.Millimetres;
        return Printed(Kept.GetValue(geometry.Work, w => new Painted(w)), new Frame(view.X / times, view.Y / times, view.Width / times, view.Height / times),
            IsPainted ? new Drawing(view, []) : StitchedPicture.Draw(geometry, window), PerMillimetre);
    }

    /// <summary>Pictures of pages that are not painted yet, each once.</summary>
    public static IEnumerable<StitchedPixels> Lacking(IEnumerable<ImmutableArray<Mark>> pages)
    {
        return pages.SelectMany(All).Where(p => !p.IsThere).DistinctBy(p => (p.Work, p.Frame));

        static IEnumerable<StitchedPixels> All(ImmutableArray<Mark> marks)
        {
            foreach (var mark in marks)
            {
                if (mark is PixelPicture { Pixels: StitchedPixels pixels }) yield return pixels;
                if (mark is Inset inset)
                    foreach (var inner in All(inset.Marks)) yield return inner;
            }
        }
    }

    /// <summary>Whether a page shows a picture.</summary>
    public static bool Shows(Sheet sheet, StitchedPixels picture) => Lies(sheet.Marks, picture);

    private static bool Lies(ImmutableArray<Mark> marks, StitchedPixels picture) =>
        marks.Any(m => m is PixelPicture { Pixels: StitchedPixels p } && p.Work == picture.Work && p.Frame == picture.Frame || m is Inset inset && Lies(inset.Marks, picture));

    private static Drawing Printed(Painted of, Frame? frame, Drawing drawn, double finest)
    {
        var (width, height) = (drawn.View.Width, drawn.View.Height);
        // a long strip is painted as finely as a picture may be large
        var most = Math.Min((Painter.MostPixels - 1) / Math.Max(width, height), Math.Sqrt(0.99 * Raster.MostPixels / (width * height)));
        var pixels = of.Pixels(frame, Math.Max(1, (int)Math.Round(width * Math.Min(finest, most))));
        return new Drawing(drawn.View, [new PixelPicture(drawn.View, pixels, drawn.Marks)]);
    }

    private sealed class Painted(Work work)
    {
        private readonly Dictionary<(Frame?, int), StitchedPixels> all = [];
        private readonly Lazy<StitchedPiece> piece = new(() => new StitchedPiece(work));

        // Of a part, or of the whole. What is given is of one fineness.
        public StitchedPixels Pixels(Frame? frame, int wide)
        {
            lock (all)
            {
                if (!all.TryGetValue((frame, IsPainted ? wide : 0), out var pixels)) all[(frame, IsPainted ? wide : 0)] = pixels = new StitchedPixels(work, frame, wide, piece);
                return pixels;
            }
        }
    }
}

/// <summary>Pixels of a stitched piece.</summary>
internal sealed class StitchedPixels(Work work, Frame? frame, int wide, Lazy<StitchedPiece> piece) : PaintedPixels
{
    private readonly Lazy<ImmutableArray<byte>> painted = new(() => [.. JpegFile.Write(new Painter(piece.Value, frame ?? piece.Value.Bare, wide).Paint())]);
    private ImmutableArray<byte> given = [];

    /// <summary>The work.</summary>
    public Work Work => work;

    /// <summary>The part of it; null for the whole.</summary>
    public Frame? Frame => frame;

    /// <summary>Pixels across it is worth.</summary>
    public int Wide => wide;

    /// <summary>Whether it can be had at once.</summary>
    public bool IsThere => StitchedPrint.IsPainted || !given.IsEmpty;

    /// <inheritdoc/>
    public override ImmutableArray<byte> Jpeg => StitchedPrint.IsPainted ? painted.Value : given;

    /// <summary>Takes it as it was painted elsewhere, a JPEG file.</summary>
    public void Give(ImmutableArray<byte> jpeg) => given = jpeg;
}
