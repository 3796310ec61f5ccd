using Pleatwright.Plate.Playing;
using Pleatwright.Picture;
using System.Collections.Immutable;
using Pleatwright.Plate;
using Pleatwright.Thread;
using SkiaSharp;

namespace Pleatwright.App.Images;

/// <summary>Paints drawings in pixels, with a caption under them: the frames of an animated picture.</summary>
internal sealed class DrawnFrame : IDisposable
{
    private const int Lines = 3; // of caption, at most

    private static readonly SKColor Paper = SKColor.Parse("#faf7f1"), Ink = SKColor.Parse("#26303b");

    private readonly SKSurface surface;
    private readonly SKFont text, strong;
    private readonly SKTypeface face, boldFace;
    private readonly int wide, high, picture;

    /// <summary>For frames of a size.</summary>
    /// <param name="wide">Pixels across.</param>
    /// <param name="aspect">How high the drawing is over how wide.</param>
    public DrawnFrame(int wide, double aspect)
    {
        this.wide = wide;
        picture = (int)Math.Round(wide * aspect);
        face = Load("NunitoSans-Regular.ttf");
        boldFace = Load("NunitoSans-Bold.ttf");
        var size = Math.Max(11, wide / 27f);
        text = new SKFont(face, size) { Subpixel = true };
        strong = new SKFont(boldFace, size) { Subpixel = true };
        high = picture + (int)Math.Ceiling(size * 1.35f * (Lines + 1) + size * 0.5f);
        surface = SKSurface.Create(new SKImageInfo(wide, high, SKColorType.Rgba8888, SKAlphaType.Opaque, SKColorSpace.CreateSrgb()));
    }

    /// <summary>Paints one that is drawn.</summary>
    /// <param name="drawing">What is shown.</param>
    /// <param name="number">What stands in strong letters before the caption.</param>
    /// <param name="caption">The caption.</param>
    public SKImage Paint(Drawing drawing, string number, string caption)
    {
        Begin(drawing.View);
        Draw(drawing.Marks);
        return End(number, caption);
    }

    /// <summary>Paints one over a painted picture.</summary>
    /// <param name="beneath">The picture.</param>
    /// <param name="view">What is seen, in millimetres of the work before it is turned on its side.</param>
    /// <param name="over">What is drawn over the picture.</param>
    /// <param name="number">What stands in strong letters before the caption.</param>
    /// <param name="caption">The caption.</param>
    public SKImage Paint(Painted beneath, Box view, ImmutableArray<Mark> over, string number, string caption)
    {
        Begin(beneath.Sideways ? new Box(view.Y, -view.Right, view.Height, view.Width) : view);
        var canvas = surface.Canvas;
        using (var table = new SKPaint { Color = Of(Still.Table) }) canvas.DrawPaint(table);
        if (beneath.Sideways) canvas.RotateDegrees(-90); // a quarter turn to the left
        if (lying is null || lies != beneath.State)
        {
            lying?.Dispose();
            lying = SKImage.FromPixelCopy(new SKImageInfo(beneath.Picture.Width, beneath.Picture.Height, SKColorType.Rgba8888, SKAlphaType.Opaque, SKColorSpace.CreateSrgb()), beneath.Picture.Rgba);
            lies = beneath.State;
        }
        var box = beneath.Box;
        canvas.DrawImage(lying, new SKRect((float)box.X, (float)box.Y, (float)box.Right, (float)box.Bottom), new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        Draw(over);
        return End(number, caption);
    }

    private SKImage? lying;
    private int lies;

    private void Begin(Box view)
    {
        var canvas = surface.Canvas;
        canvas.ResetMatrix();
        canvas.Clear(Paper);
        canvas.Save();
        canvas.ClipRect(new SKRect(0, 0, wide, picture));
        canvas.Scale((float)(wide / view.Width));
        canvas.Translate((float)-view.X, (float)-view.Y);
    }

    private void Draw(ImmutableArray<Mark> marks)
    {
        foreach (var mark in marks) if (mark is Shape shape) Draw(surface.Canvas, shape);
    }

    private SKImage End(string number, string caption)
    {
        var canvas = surface.Canvas;
        canvas.Restore();
        using var paint = new SKPaint { Color = Ink, IsAntialias = true };
        float leading = text.Size * 1.35f, left = text.Size * 0.6f, y = picture + leading;
        canvas.DrawText(number, left, y, SKTextAlign.Left, strong, paint);
        foreach (var line in Wrap(caption, wide - 2 * left).Take(Lines)) canvas.DrawText(line, left, y += leading, SKTextAlign.Left, text, paint);
        return surface.Snapshot();
    }

    private static void Draw(SKCanvas canvas, Shape shape)
    {
        using var path = new SKPathBuilder();
        var at = 0;
        var spots = shape.Outline.Spots;
        foreach (var stroke in shape.Outline.Strokes)
            switch (stroke)
            {
                case Stroke.Move: path.MoveTo(Point(spots[at++])); break;
                case Stroke.Line: path.LineTo(Point(spots[at++])); break;
                case Stroke.Curve: path.CubicTo(Point(spots[at]), Point(spots[at + 1]), Point(spots[at + 2])); at += 3; break;
                default: path.Close(); break;
            }
        using var drawn = path.Detach();
        using var paint = new SKPaint { IsAntialias = true };
        if (shape.Fill is { } fill)
        {
            paint.Color = Of(fill);
            canvas.DrawPath(drawn, paint);
        }
        if (shape.Pen is not { } pen) return;
        paint.Color = Of(pen.Colour);
        paint.Style = SKPaintStyle.Stroke;
        paint.StrokeWidth = (float)pen.Width;
        if (pen.Round) (paint.StrokeCap, paint.StrokeJoin) = (SKStrokeCap.Round, SKStrokeJoin.Round);
        canvas.DrawPath(drawn, paint);
    }

    private IEnumerable<string> Wrap(string words, float width)
    {
        var line = "";
        foreach (var word in words.Split(' '))
        {
            var longer = line.Length == 0 ? word : $"{line} {word}";
            if (line.Length > 0 && text.MeasureText(longer) > width)
            {
                yield return line;
                longer = word;
            }
            line = longer;
        }
        if (line.Length > 0) yield return line;
    }

    private static SKTypeface Load(string name)
    {
        using var data = SKData.CreateCopy(Typefaces.FontFile.Read(name));
        return SKTypeface.FromData(data);
    }

    private static SKPoint Point(Spot spot) => new((float)spot.X, (float)spot.Y);

    private static SKColor Of(Colour colour) => new(colour.Red, colour.Green, colour.Blue);

    /// <inheritdoc/>
    public void Dispose()
    {
        lying?.Dispose();
        text.Dispose();
        strong.Dispose();
        face.Dispose();
        boldFace.Dispose();
        surface.Dispose();
    }
}

/// <summary>A painted picture that lies beneath.</summary>
/// <param name="Picture">Its pixels.</param>
/// <param name="Box">The box it fills, in millimetres of the work.</param>
/// <param name="State">Another number for another picture.</param>
/// <param name="Sideways">Whether the work is held sideways.</param>
internal sealed record Painted(Raster Picture, Box Box, int State, bool Sideways);
