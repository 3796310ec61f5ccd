using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Plate.Parts;
using Pleatwright.Shopping;

namespace Pleatwright.Tests.Plate;

public class PublishedTests
{
    private static Published Of(string example, UnitSystem units = UnitSystem.Inches, Pace? pace = null) =>
        Plates.Example(example) is var work ? Published.Of(work, Planner.Plan(work, Effort.Drawing), units, pace) : null!;

    [Fact]
    public void The_facts_of_an_example() => Assert.Equal(
    [
        "Size: age 5",
        "Finished width: 11 in; 176 pleats, 11 rows to gather",
        "Difficulty: Easy: 1 thread waiting at once, 12 rows worked turned, 32 threads begun",
        "Time: 6 to 17 hours of stitching",
        "Cut the cloth: 43 in wide, 4 1/8 in deep for the gathered part alone",
        "Cut for: Rows 3/8 in apart, 5 cable rows to a space, 16 pleats an inch, fullness 3.78 to 1",
    ], FactsPart.Of(Of("harbour-morning")).Select(f => $"{f.Name}: {f.Value}"));

    [Fact]
    public void The_makers_pace_is_taken_where_it_is_given() =>
        Assert.Equal("16 to 17 hours of stitching", PublishedWords.Hours(Of("harbour-morning", pace: new Pace { Said = (117, 117) })));

    [Fact]
    public void A_piece_in_one_of_its_sizes_says_which()
    {
        var piece = Plates.Example("harbour-morning").Piece with { Sizes = [new Size("4 years", new Panel(Length.FromInches(14)))] };
        var work = Work.Lay(SizeTable.In(piece, piece.Sizes[0]));
        var plate = Published.Of(work, Planner.Plan(work, Effort.Drawing), UnitSystem.Inches);
        Assert.Equal("4 years", plate.SizeName);
        Assert.Equal("Size: 4 years", PublishedWords.Size(plate));
        Assert.Equal(new Fact("Size", "4 years"), FactsPart.Of(plate)[0]);
    }

    [Fact]
    public void A_credit_says_what_is_said_and_no_more()
    {
        var all = new Credit { Designer = "the harbour class", Copyright = "© 2026 the harbour class", Date = new DateOnly(2026, 5, 31), Photograph = "boats.jpg" };
        Assert.Equal("Designed by the harbour class · © 2026 the harbour class · 31 May 2026", PublishedWords.Credit(all));
        Assert.Equal("photograph: boats.jpg", PublishedWords.Photograph(all));
        Assert.Equal("", PublishedWords.Credit(Credit.None));
        Assert.Equal("", PublishedWords.Photograph(Credit.None));
        Assert.Equal("31 May 2026", PublishedWords.Credit(new Credit { Date = all.Date }));
    }

    [Fact]
    public void Words_of_the_makers_stand_on_one_line()
    {
        var work = Plates.Example("first-pennant");
        work = Work.Lay(work.Piece with { SizeName = "4\nyears", Credit = new Credit { Designer = "a\u202Eb" } });
        var plate = Published.Of(work, Planner.Plan(work, Effort.Drawing), UnitSystem.Inches);
        Assert.Equal(("4 years", "ab", "Size: sampler"), (plate.SizeName, plate.Credit.Designer, PublishedWords.Size(Of("first-pennant"))));
    }
}
