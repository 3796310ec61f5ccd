using System.Collections.Immutable;
using Pleatwright.Picture;
using Pleatwright.Stitched;

namespace Pleatwright.Plate.Playing;

/// <summary>What lies under the needle all through a film, painted when it is asked for; of the parts that <see cref="Lying"/> makes only the one under way is kept.</summary>
/// <param name="film">The film.</param>
/// <param name="aspect">How high its picture is over how wide.</param>
/// <param name="perMillimetre">Pixels to a millimetre.</param>
/// <param name="cancel">Stops it.</param>
internal sealed class PaintedFilm(Film film, double aspect, double perMillimetre, CancellationToken cancel = default)
{
    private const double Widest = 40; // pitches of a part: what a few million pixels hold

    private readonly ImmutableArray<Lying> parts = Lying.Of(film, aspect, Widest);
    private Lying? part;
    private byte[] now = [];
    private Raster? after;
    private (int Take, bool Lies) shown;

    /// <summary>The picture at a moment of a move, and the box it fills in millimetres as seen; null where it cannot be painted.</summary>
    public (Raster Picture, Box Box, int State)? At(int take, double share)
    {
        if (parts.IsEmpty) return null;
        var wanted = (take, film.Lies(take, share));
        if (part is null || take < part.First || take > part.Last || wanted.CompareTo(shown) < 0)
        {
            part = parts.First(p => take <= p.Last);
            var before = part.Paint(false, perMillimetre, cancel);
            (now, after) = ([.. before.Rgba], part.Paint(true, perMillimetre, cancel));
            shown = (part.First, false);
        }
        for (var i = shown.Take; i <= take; i++)
            if ((i < take || wanted.Item2) && (i, true).CompareTo(shown) > 0) Take(i);
        shown = wanted;
        return (new Raster(after!.Width, after.Height, now), part.Box, 2 * take + (wanted.Item2 ? 1 : 0));
    }

    // What a move has laid is as it is in the end.
    private void Take(int take)
    {
        var scale = after!.Width / part!.Box.Width;
        foreach (var cover in film.Covers(take, film.Takes[part.First]))
        {
            var corners = cover.Select(p => new Spot((p.X - part.Box.X) * scale, (p.Y - part.Box.Y) * scale)).ToArray();
            int top = Math.Max(0, (int)corners.Min(c => c.Y)), bottom = Math.Min(after.Height - 1, (int)corners.Max(c => c.Y));
            int left = Math.Max(0, (int)corners.Min(c => c.X)), right = Math.Min(after.Width - 1, (int)corners.Max(c => c.X));
            for (var y = top; y <= bottom; y++)
                for (var x = left; x <= right; x++)
                    if (Holds(corners, x + 0.5, y + 0.5)) after.Rgba.Slice(4 * (y * after.Width + x), 4).CopyTo(now.AsSpan(4 * (y * after.Width + x)));
        }
    }

    // Of a convex outline, whichever way round.
    private static bool Holds(Spot[] corners, double x, double y)
    {
        var side = 0;
        for (var i = 0; i < corners.Length; i++)
        {
            Spot a = corners[i], b = corners[(i + 1) % corners.Length];
            var turn = Math.Sign((b.X - a.X) * (y - a.Y) - (b.Y - a.Y) * (x - a.X));
            if (turn != 0 && side != 0 && turn != side) return false;
            if (turn != 0) side = turn;
        }
        return true;
    }
}

/// <summary>A part of a painted film, cut out and turned as the work is held.</summary>
internal sealed class StillPixels(Func<(Raster Picture, Box Box)?> painted, Box view, bool sideways) : PaintedPixels
{
    private readonly Lazy<ImmutableArray<byte>> jpeg = new(() => painted() is var (picture, box) ? [.. JpegFile.Write(Cut(picture, box, view, sideways))] : []);

    /// <inheritdoc/>
    public override ImmutableArray<byte> Jpeg => jpeg.Value;

    // Beyond the picture there is table.
    private static Raster Cut(Raster picture, Box box, Box view, bool sideways)
    {
        var scale = picture.Width / box.Width;
        int wide = Math.Max(1, (int)Math.Round(view.Width * scale)), high = Math.Max(1, (int)Math.Round(view.Height * scale)), left = (int)Math.Round((view.X - box.X) * scale), top = (int)Math.Round((view.Y - box.Y) * scale);
        var rgba = new byte[4 * wide * high];
        for (var y = 0; y < high; y++)
            for (var x = 0; x < wide; x++)
            {
                int px = x + left, py = y + top;
                // a quarter turn to the left
                var at = 4 * (sideways ? (wide - 1 - x) * high + y : y * wide + x);
                if (px >= 0 && px < picture.Width && py >= 0 && py < picture.Height) picture.Rgba.Slice(4 * (py * picture.Width + px), 4).CopyTo(rgba.AsSpan(at));
                else (rgba[at], rgba[at + 1], rgba[at + 2], rgba[at + 3]) = (Still.Table.Red, Still.Table.Green, Still.Table.Blue, 255);
            }
        return sideways ? new(high, wide, rgba) : new(wide, high, rgba);
    }
}
