using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Picture;
using Pleatwright.Proof;
using Pleatwright.Recutting;
using Pleatwright.Tests.Picture;

namespace Pleatwright.Tests.Recutting;

/// <summary>End to end: a picture traced for five rows a space, the piece recut for four, held against the picture traced for four at once.</summary>
public class TracedRecutTests
{
    [Theory]
    [InlineData("boat"), InlineData("dusk")]
    public void A_traced_picture_recut_is_near_what_the_picture_gives_at_that_gauge(string picture)
    {
        var raster = TestPictures.All[picture]();
        var five = Gauge.FromPleatsPerInch(20, Length.FromInches(0.2), Length.FromInches(0.375), 5);
        var four = Gauge.FromPleatsPerInch(20, Length.FromInches(0.2), Length.FromInches(0.375), 4);
        Traced Trace(Gauge gauge) => Tracer.Trace(raster, new TracingOptions { Width = 81, Threads = 4, Gauge = gauge, Background = Background.Auto });
        var traced = Trace(five);
        var piece = TracedPiece.Around(traced, five, picture);
        var recut = Recutter.Recut(piece, four, RecutKeep.Size).Piece;
        var (figure, wanted) = (recut.Figures[0], Trace(four));

        Assert.Equal(traced.Figure.Width, figure.Width);
        Assert.InRange(figure.Height, wanted.Figure.Height - 1, wanted.Figure.Height + 1);
        Assert.Equal(0, Proofreading.Read(Pleatwright.Chart.Work.Lay(recut)).Count(f => f.Severity == Severity.Error));
        // Threads as far from the picture as those traced for four rows, and a tenth more at most: by the share of cells in the same colour.
        if (figure.Height != wanted.Figure.Height || figure.Width != wanted.Figure.Width) return;
        var (alike, cells) = (0, figure.Width * figure.Height);
        for (var y = 0; y < figure.Height; y++)
            for (var x = 0; x < figure.Width; x++)
                if (ColourOf(recut.Threads, figure.Rows[y][x]) is var a && ColourOf(wanted.Threads, wanted.Figure.Rows[y][x]) is var b && (a == b || a is { } c && b is { } d && Pleatwright.Thread.ColourDifference.Between(c, d) < 10)) alike++;
        Assert.True(alike >= 0.85 * cells, $"{alike} of {cells}");
    }

    private static Pleatwright.Thread.Colour? ColourOf(IEnumerable<Pleatwright.Thread.Floss> threads, char letter) => threads.FirstOrDefault(t => t.Key.Letter == letter)?.Colour;
}
