namespace Pleatwright.Plate;

/// <summary>How far marks reach.</summary>
internal static class Extent
{
    /// <summary>The least box that holds everything drawn, in millimetres; null where nothing is.</summary>
    public static Box? Of(IEnumerable<Mark> marks)
    {
        Box? all = null;
        foreach (var mark in marks) all = Joined(all, Of(mark));
        return all;
    }

    /// <summary>The least box that holds both.</summary>
    public static Box? Joined(Box? one, Box? other)
    {
        if (one is not { } a) return other;
        if (other is not { } b) return one;
        double left = Math.Min(a.X, b.X), top = Math.Min(a.Y, b.Y);
        return new Box(left, top, Math.Max(a.Right, b.Right) - left, Math.Max(a.Bottom, b.Bottom) - top);
    }

    private static Box? Of(Mark mark) => mark switch
    {
        Shape shape => Of(shape),
        Lettering { Text: not "" } lettering => Of(lettering),
        PixelPicture picture => picture.Box,
        Inset inset => Clipped(Of(inset.Marks)?.Moved(inset.Move.X, inset.Move.Y), inset.Clip),
        _ => null,
    };

    // A curve lies within its handles.
    private static Box? Of(Shape shape)
    {
        var spots = shape.Outline.Spots;
        if (spots.IsEmpty) return null;
        double left = double.MaxValue, top = double.MaxValue, right = double.MinValue, bottom = double.MinValue;
        foreach (var spot in spots)
        {
            left = Math.Min(left, spot.X);
            right = Math.Max(right, spot.X);
            top = Math.Min(top, spot.Y);
            bottom = Math.Max(bottom, spot.Y);
        }
        return new Box(left, top, right - left, bottom - top).Grown((shape.Pen?.Width ?? 0) / 2);
    }

    private static Box Of(Lettering lettering)
    {
        var (style, at) = (lettering.Style, lettering.At);
        double width = Typeface.Width(lettering.Text, style), em = style.Points * Typeface.MillimetresPerPoint;
        var before = lettering.Anchor switch { Anchor.Middle => width / 2, Anchor.End => width, _ => 0 };
        return lettering.Upward
            ? new Box(at.X - em, at.Y + before - width, em * 1.3, width)
            : new Box(at.X - before, at.Y - em, width, em * 1.3);
    }

    private static Box? Clipped(Box? box, Box? clip)
    {
        if (box is not { } b || clip is not { } c) return box;
        double left = Math.Max(b.X, c.X), top = Math.Max(b.Y, c.Y), right = Math.Min(b.Right, c.Right), bottom = Math.Min(b.Bottom, c.Bottom);
        return right > left && bottom > top ? new Box(left, top, right - left, bottom - top) : null;
    }
}
