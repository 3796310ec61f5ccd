using Pleatwright.Plate;
using Pleatwright.Plate.Sections;

namespace Pleatwright.Tests.Plate;

/// <summary>The first page is a picture first.</summary>
public class CoverTests
{
    public static TheoryData<string> Examples => ExcerptTests.Examples;

    private static IEnumerable<PlateDocument> Documents(string example) =>
        from paper in Paper.All
        from large in (bool[])[false, true]
        select Plates.OfExample(example, new PlateOptions { Paper = paper, LargePrint = large });

    private static List<Box> Pictures(Page page) => [.. page.Finish("", 1, 1).Marks.OfType<Inset>().Select(i => i.Clip).OfType<Box>().Where(b => b.Width > 30)]; // signs of the key are narrower

    [Theory, MemberData(nameof(Examples))]
    public void A_section_on_the_cover_leaves_the_picture_its_size_and_lies_over_nothing(string example)
    {
        foreach (var document in Documents(example))
            foreach (var tight in (double[])[1, 0.855])
            {
                var taken = Cover.Takes(document, PlateSections.Of(document), tight);
                Assert.All(taken, s => Assert.True(s.Front));
                if (taken.IsEmpty) continue;
                var (without, with) = (Cover.Lay(document, [], [], tight), Cover.Lay(document, [], taken, tight));
                Assert.Equal(Pictures(without)[0], Pictures(with)[0]);
                var lowest = Pictures(with).Max(b => b.Bottom);
                var heading = with.Finish("", 1, 1).Marks.OfType<Lettering>().First(l => l.Text == taken[0].Heading);
                Assert.True(heading.At.Y - Typeface.CapHeight(heading.Style) > lowest, $"{example}: {taken[0].Heading} over a picture");
            }
    }

    [Theory, MemberData(nameof(Examples))]
    public void No_figure_is_cut_on_the_cover(string example)
    {
        foreach (var document in Documents(example))
        {
            var piece = document.Work.Piece;
            // a band goes on at both sides
            var colours = piece.Threads.Where(t => piece.Bands.All(b => b.Thread != t.Key)).Select(t => t.Colour).ToHashSet();
            foreach (var inset in Cover.Lay(document, [], [], 1).Finish("", 1, 1).Marks.OfType<Inset>())
                if (inset.Clip is { } clip)
                    foreach (var spot in inset.Marks.OfType<Shape>().Where(m => m.Pen is { } pen && colours.Contains(pen.Colour)).SelectMany(m => m.Outline.Spots))
                        Assert.True(clip.Holds(new(spot.X + inset.Move.X, spot.Y + inset.Move.Y)), $"{example}: {spot} beyond {clip}");
        }
    }
}
