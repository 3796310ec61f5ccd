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

    /// <summary>Paints one.</summary>
    /// <param name="drawing">What is shown.</param>
    /// <param name="number">What stands in strong letters before the caption.</param>
    /// <param name="caption">The caption.</param>
    public SKImage Paint(Drawing drawing, string number, string caption)
    {
        var canvas = surface.Canvas;
        canvas.ResetMatrix();
        canvas.Clear(Paper);
        canvas.Save();
        canvas.ClipRect(new SKRect(0, 0, wide, picture));
        var scale = (float)(wide / drawing.View.Width);
        canvas.Scale(scale);
        canvas.Translate((float)-drawing.View.X, (float)-drawing.View.Y);
        foreach (var mark in drawing.Marks) if (mark is Shape shape) Draw(canvas, shape);
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
        text.Dispose();
        strong.Dispose();
        face.Dispose();
        boldFace.Dispose();
        surface.Dispose();
    }
}
