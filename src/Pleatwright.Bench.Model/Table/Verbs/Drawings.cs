namespace Pleatwright.Bench.Model.Table.Verbs;

/// <summary>Which figure is being drawn.</summary>
public static class Drawings
{
    private const string Group = "Stitch";

    public static IEnumerable<Verb> All { get; } =
    [
        new(Group, "Close the figure being drawn; the next stitches begin another", "&", at => at.Needle.CloseFigure())
        {
            Short = "Close figure", Can = at => at.Needle.Drawing is not null,
        },
        new(Group, "Draw on with the figure here", ":", at => at.Needle.DrawOn(at.Needle.Spot!.Value.FigureIn(at.Desk.Piece).Name))
        {
            Short = "Draw on", Can = at => at.Needle.Spot is { } spot && spot.FigureIn(at.Desk.Piece).Name != at.Needle.Drawing,
        },
        new(Group, "Lay a run, or take one out, by steps…", "\"", at => at.Needle.Ask(Question.Run)) { Short = "By steps" },
        new(Group, "Mirror about this valley what is drawn and cleared, or no longer", ">", Mirror) { Short = "Mirror on" },
    ];

    private static void Mirror(Workplace at)
    {
        if (at.Needle.Mirror is null) at.Needle.MirrorAbout(at.Needle.Valley.Number);
        else at.Needle.PutMirrorAway();
    }
}
