using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Moves;
using Pleatwright.Order;
using Pleatwright.Picture;
using Pleatwright.Plate;
using Pleatwright.Plate.Playing;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Plate.Playing;

/// <summary>What lies under the needle, painted.</summary>
public class PaintedFilmTests
{
    private const double Aspect = 0.7, PerMillimetre = 9;

    private static IEnumerable<Film> Films(params IEnumerable<string> names) =>
        from name in names from hand in Enum.GetValues<Hand>() from levels in Enum.GetValues<LevelWords>() select Lesson.Named(name)!.Film(hand, levels).Film;

    private static Colour At(Raster picture, Box box, Spot spot)
    {
        var scale = picture.Width / box.Width;
        var at = 4 * ((int)Math.Clamp((spot.Y - box.Y) * scale, 0, picture.Height - 1) * picture.Width + (int)Math.Clamp((spot.X - box.X) * scale, 0, picture.Width - 1));
        return new(picture.Rgba[at], picture.Rgba[at + 1], picture.Rgba[at + 2]);
    }

    private static double Unlike(Colour a, Colour b) => Math.Abs(a.Red - b.Red) + Math.Abs(a.Green - b.Green) + Math.Abs(a.Blue - b.Blue);

    // The needle moves over the picture, so what is painted lies where the moves say: at the end of each the thread is seen where it was laid, and before it the cloth.
    [Fact]
    public void A_stitch_is_painted_where_its_move_lays_it_and_not_before()
    {
        var seen = 0;
        foreach (var shown in Films("up cable", "mirror row", "carry further", "backsmocking", "tie off"))
        {
            // backsmocking is in the cloth's own colour, which would show nothing
            var film = shown with { Threads = [.. shown.Threads.Select(t => t with { Colour = Colour.Parse("#b3202c") })] };
            var painted = new PaintedFilm(film, Aspect, PerMillimetre);
            for (var i = 0; i < film.Takes.Length; i++)
            {
                var take = film.Takes[i];
                foreach (var (shape, thread) in film.Lain(i, take.Seen).Where(l => l.Shape.Kind == ShapeKind.Bar && l.Shape.Width > 0.7))
                {
                    // On the crown of its second pleat, where nothing lay before: in the middle of the ribbon.
                    var place = film.Place((shape.From.Across + 3 * shape.To.Across) / 4, (shape.From.Down + 3 * shape.To.Down) / 4, take.Turned, take.Seen);
                    Colour before = Of(i, 0, place), after = Of(i, 1, place), own = film.Threads[thread].Colour;
                    Assert.True(Unlike(after, own) < Unlike(after, film.Cloth), $"{film.Title}, move {i}: {after}, where {own} lies");
                    if (film.Laid(i, 0, take.Seen).Any(l => Covers(l.Shape, shape))) continue;
                    Assert.True(Unlike(before, film.Cloth) < Unlike(before, own), $"{film.Title}, move {i}: {before} before anything lies");
                    seen++;
                }

                Colour Of(int move, double share, Spot place) => painted.At(move, share) is var (picture, box, _) ? At(picture, box, place) : default;
            }
        }
        Assert.True(seen > 60);

        static bool Covers(StitchShape other, StitchShape shape) => Math.Abs((other.From.Down + other.To.Down) / 2 - (shape.From.Down + shape.To.Down) / 2) < 1
            && Math.Min(other.From.Across, other.To.Across) < (shape.From.Across + 3 * shape.To.Across) / 4 + 0.1 && Math.Max(other.From.Across, other.To.Across) > (shape.From.Across + 3 * shape.To.Across) / 4 - 0.1;
    }

    [Fact]
    public void Everything_in_sight_is_painted_but_what_lies_beside_the_cloth()
    {
        foreach (var film in Films("first cable", "next row", "carry", "honeycomb"))
        {
            var painted = new PaintedFilm(film, Aspect, 3);
            for (var i = 0; i < film.Takes.Length; i++)
                foreach (var share in (double[])[0, 0.2, 1])
                {
                    var (_, box, _) = painted.At(i, share)!.Value;
                    var view = Still.View(film, i, share, Aspect);
                    double left = film.Valleys.Min(v => film.Takes[i].Turned != (film.Takes[i].Seen == ClothSide.Wrong) ? -v : v), right = film.Valleys.Max(v => film.Takes[i].Turned != (film.Takes[i].Seen == ClothSide.Wrong) ? -v : v);
                    Assert.True(box.Y <= view.Y && box.Bottom >= view.Bottom && box.X <= Math.Max(view.X, left) + 1e-6 && box.Right >= Math.Min(view.Right, right) - 1e-6, $"{film.Title}, move {i} at {share}");
                }
        }
    }

    // A worker of a page paints from the text: the same, pixel by pixel.
    [Fact]
    public void Written_and_read_it_is_painted_alike()
    {
        foreach (var film in Films("feather", "flowerette", "tie off"))
            foreach (var part in Lying.Of(film, Aspect, 13))
            {
                var read = Lying.Read(part.Write());
                foreach (var after in (bool[])[false, true]) Assert.Equal(part.Paint(after, 4).Rgba.ToArray(), read.Paint(after, 4).Rgba.ToArray());
                var soon = read.Soon(true, 20_000, 3.2f);
                Assert.InRange(soon.Wide * soon.High, 10_000, 22_000);
            }
    }

    [Fact]
    public void Every_move_belongs_to_one_part()
    {
        foreach (var lesson in Lesson.All)
        {
            var film = lesson.Film(Hand.Right, LevelWords.UpDown).Film;
            Assert.Equal(Enumerable.Range(0, film.Takes.Length), Lying.Of(film, Aspect, 13).SelectMany(p => Enumerable.Range(p.First, p.Last - p.First + 1)));
            Assert.All(Lying.Of(film, Aspect, 13), p => Assert.All(film.Takes[p.First..(p.Last + 1)], t => Assert.Equal((film.Takes[p.First].Seen, film.Takes[p.First].Turned), (t.Seen, t.Turned))));
        }
    }

    [Fact]
    public void A_page_carries_what_lies_under_its_needle_and_stays_small()
    {
        var (film, gauge) = Lesson.Named("mirror row")!.Film(Hand.Right, LevelWords.UpDown);
        var page = PlayPage.Write(film, gauge, PlayPage.Paint(film, new Progress<double>(), TestContext.Current.CancellationToken));
        Assert.Contains("data:image/jpeg;base64,", page, StringComparison.Ordinal);
        Assert.InRange(page.Length, 40_000, 900_000);
        Assert.DoesNotContain("https://", page, StringComparison.Ordinal);
    }
}
