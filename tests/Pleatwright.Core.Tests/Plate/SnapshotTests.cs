using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Parts;
using Pleatwright.Plate.Writers;

namespace Pleatwright.Tests.Plate;

public class SnapshotTests
{
    private static Work Pennant() => SomeWorks.Of(new Figure("f", ["rrrrrrrrr", ".rrrrrrr.", "..bbbbb..", "...bbb..."]) { Halves = [new HalfMark(0, RunEnd.Left)] }, "Pennant");

    // The directions are another room's words: two steps of our own stand for them.
    private static PlateDocument Plate(PlateOptions options)
    {
        var made = Plates.Of(Pennant(), options, []);
        ImmutableArray<Direction> directions =
        [
            new(DirectionKind.Heading, "Base row", null),
            new(DirectionKind.Step, "Work nine cables in r, from the first pleat of the figure to its last, and tie off at the back.", null),
            new(DirectionKind.LevelCheck, "The row lies along the gathering thread.", null),
            new(DirectionKind.Remark, "That is all.", null),
        ];
        return new PlateDocument
        {
            Work = made.Work, Order = made.Order, Options = options, Title = made.Title, Summary = made.Summary, Facts = made.Facts, Threads = made.Threads, Signs = made.Signs,
            Materials = made.Materials, Directions = directions, Verdict = null, Cautions = made.Cautions,
        };
    }

    [Fact]
    public void The_plate_as_text() => Snapshot.Check("Plate", "pennant.snap.txt", PlainTextWriter.Write(Plate(new PlateOptions())));

    [Fact]
    public void The_chart_as_a_drawing()
    {
        var chart = WholeChart.Draw(Pleatwright.Order.Planner.Plan(Pennant()), new PlateOptions());
        Snapshot.Check("Plate", "pennant-chart.snap.svg", SvgWriter.Element("c", "Chart", "A pennant.", chart.View, chart.Marks));
    }

    [Fact]
    public void The_stitched_picture()
    {
        var picture = StitchedPicture.Draw(Pennant(), 100);
        Snapshot.Check("Plate", "pennant-picture.snap.svg", SvgWriter.Element("p", "Picture", "A pennant.", picture.View, picture.Marks));
    }
}
