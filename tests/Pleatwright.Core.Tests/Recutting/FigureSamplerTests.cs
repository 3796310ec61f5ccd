using System.Collections.Immutable;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Recutting;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Recutting;

/// <summary>How a figure is drawn again in other numbers of valleys and rows.</summary>
public class FigureSamplerTests
{
    private static readonly ImmutableArray<Floss> Threads =
    [
        new(new ThreadKey('k'), "black", new Colour(0, 0, 0), 4), new(new ThreadKey('w'), "white", new Colour(255, 255, 255), 4), new(new ThreadKey('g'), "grey", new Colour(119, 119, 119), 4),
    ];

    private static string[] Draw(int width, int height, params string[] rows) => [.. FigureSampler.Draw(new Figure("f", [.. rows]), width, height, height - 1, Threads).Rows];

    [Fact]
    public void In_the_same_numbers_it_is_the_same_figure() => Gen.OneOf('k', 'w', '.').Array[5, 5].Array[4, 4].Sample(cells =>
    {
        var figure = new Figure("f", [.. cells.Select(r => new string(r))]);
        Assert.Same(figure, FigureSampler.Draw(figure, 5, 4, 3, Threads));
    });

    // Five valleys cover six pleats: at four thirds eight, which are seven valleys.
    [Fact]
    public void A_tower_grows_with_its_pleats()
    {
        var drawn = Draw(17, 3, "....wwwww....", "....wwwww....", "....wwwww....");
        Assert.All(drawn, r => Assert.Equal(".....wwwwwww.....", r));
    }

    [Fact]
    public void Between_black_and_white_no_grey_comes_in_that_is_not_there()
    {
        // Two of three rows: the middle one of the three is shared by both.
        foreach (var height in (int[])[2, 4, 5, 7]) Assert.DoesNotContain(Draw(9, height, "kkkkkkkkk", "wwwwwwwww", "kkkkkkkkk"), r => r.Contains('g'));
        foreach (var width in (int[])[5, 7, 11, 15]) Assert.DoesNotContain(Draw(width, 2, "kwkwkwkwk", "kwkwkwkwk"), r => r.Contains('g'));
    }

    [Fact]
    public void A_row_that_is_one_thin_stays_wherever_it_lies()
    {
        for (var line = 0; line < 10; line++)
        {
            var rows = Enumerable.Range(0, 10).Select(y => new string(y == line ? 'k' : 'w', 15)).ToArray();
            foreach (var height in (int[])[4, 6, 7, 8, 9]) Assert.Contains(Draw(15, height, rows), r => r == new string('k', 15));
        }
    }

    [Fact]
    public void An_eye_stays_wherever_it_lies()
    {
        for (var (y, x) = (0, 0); y < 8; (y, x) = x == 12 ? (y + 1, 0) : (y, x + 1))
        {
            var rows = Enumerable.Range(0, 8).Select(r => new string([.. Enumerable.Range(0, 13).Select(c => r == y && c == x ? 'k' : 'w')])).ToArray();
            foreach (var (width, height) in ((int, int)[])[(13, 6), (9, 8), (9, 6), (7, 4)])
                Assert.InRange(Draw(width, height, rows).Sum(r => r.Count(c => c == 'k')), 1, 2);
        }
    }

    [Fact]
    public void Half_stitches_go_with_the_row_that_lies_where_their_middle_does()
    {
        var figure = new Figure("f", ["kkkkk", "kkkkk", "kkkkk", "kkkkk"]) { Halves = [new HalfMark(0, RunEnd.Left), new HalfMark(3, RunEnd.Right)] };
        Assert.Equal([new(1, RunEnd.Right)], FigureSampler.Draw(figure, 5, 2, 1, Threads).Halves.AsEnumerable()); // rows 1 and 3 lie in the middle of the two
        Assert.Equal([new(0, RunEnd.Left), new(1, RunEnd.Left), new(6, RunEnd.Right), new(7, RunEnd.Right)], FigureSampler.Draw(figure, 5, 8, 7, Threads).Halves.AsEnumerable());
        Assert.True(FigureSampler.Draw(figure with { Square = true }, 7, 4, 3, Threads).Square);
    }

    [Fact]
    public void Growing_no_lone_cable_comes_in_where_none_was() => Gen.Select(Gen.Int[3, 9], Gen.Int[2, 8], Gen.Int[0, 12], Gen.Int[0, 12]).Sample((half, height, more, deeper) =>
    {
        // Two colours on a slope: a triangle over bands.
        var figure = Enumerable.Range(0, height).Select(y => string.Concat(new string('.', Math.Min(y, half - 1)), new string(y % 4 < 2 ? 'k' : 'w', 2 * (half - Math.Min(y, half - 1)) + 1), new string('.', Math.Min(y, half - 1)))).ToArray();
        foreach (var row in Draw(2 * half + 1 + 2 * more, height + deeper, figure))
            for (var x = 1; x < row.Length - 1; x++)
                Assert.False(row[x] != '.' && row[x - 1] != row[x] && row[x + 1] != row[x] && row.Length > 3, string.Join('\n', figure) + "\n\n" + row);
    });
}
