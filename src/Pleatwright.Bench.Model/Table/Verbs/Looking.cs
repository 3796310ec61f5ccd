using Pleatwright.Chart;

namespace Pleatwright.Bench.Model.Table.Verbs;

/// <summary>Going about on the cloth and looking at it.</summary>
public static class Looking
{
    private const string Group = "Go and look";

    public static IEnumerable<Verb> All { get; } =
    [
        .. Ways.All.Select(w => new Verb(Group, "Go to the next valley or row", w.Key, at => { if (at.Needle.Area is not null) at.Needle.Mark(null); w.Step(at); }) { Unlisted = w.Key != "ArrowRight" }),
        new(Group, "Go up one gathering row", "PageUp", at => Go(at, at.Needle.Valley.Number, GatheringRowAbove(at))),
        new(Group, "Go down one gathering row", "PageDown", at => Go(at, at.Needle.Valley.Number, GatheringRowBelow(at))),
        new(Group, "Go to the first valley", "Home", at => Go(at, 1, at.Needle.Row.Index)),
        new(Group, "Go to the last valley", "End", at => Go(at, at.Desk.Work.Valleys, at.Needle.Row.Index)),
        new(Group, "Go to the centre valley", "Ctrl+Home", at => Go(at, at.Desk.Work.Pleating.CentreValley, at.Needle.Row.Index)),
        new(Group, "Chart", "1", at => at.Needle.LookAt(Look.Chart)),
        new(Group, "Stitched", "2", at => at.Needle.LookAt(Look.Stitched)),
        new(Group, "Back", "3", at => at.Needle.LookAt(Look.Back)),
        new(Group, "Nearer", "+", at => { at.Cloth.Zoom(1.25); at.Cloth.Reveal(at.Needle.Valley, at.Needle.Row, false); }),
        new(Group, "Further", "-", at => at.Cloth.Zoom(0.8)),
        new(Group, "The whole cloth", "0", at => at.Cloth.Fit()),
        new(Group, "Say where the hand is", "Enter", at => at.Desk.Say(Where.Cell(at.Desk.Work, at.Needle.Valley, at.Needle.Row))),
    ];

    private static int GatheringRowAbove(Workplace at) => GatheringRow.AtOrAbove(new CableRow(at.Needle.Row.Index - 1), PerSpace(at)).CableRow(PerSpace(at)).Index;

    private static int GatheringRowBelow(Workplace at) => GatheringRow.AtOrAbove(at.Needle.Row, PerSpace(at)).Below.CableRow(PerSpace(at)).Index;

    private static int PerSpace(Workplace at) => at.Desk.Work.Pleating.Gauge.CableRowsPerSpace;

    private static void Go(Workplace at, int valley, int row)
    {
        at.Needle.GoTo(new Valley(valley), new CableRow(row));
        at.Cloth.Reveal(at.Needle.Valley, at.Needle.Row, false);
    }
}
