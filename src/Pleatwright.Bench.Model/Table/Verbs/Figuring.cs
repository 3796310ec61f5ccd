using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Recutting;

namespace Pleatwright.Bench.Model.Table.Verbs;

/// <summary>What can be done with the figure under the hand; every copy of it changes alike.</summary>
public static class Figuring
{
    private const string Group = "Figure here";

    public static IEnumerable<Verb> All { get; } =
    [
        Of("Place and repeat…", "#", (at, s, _) => at.Needle.Ask(Question.Figure, s.Placement)) with { Short = "Place and repeat" },
        Edit("Mirror the figure", "<", "mirroring", (p, s, _) => Placing.Turn(p, s.Placement)) with { Short = "Mirror" },
        Edit("Put a copy of it beside it", "=", "a copy", (p, s, f) => Placing.Copy(p, s.Placement, f.Width + 3, 0)) with { Short = "Copy" },
        Step("A wider gap between the copies", "Shift+PageUp", wider: true),
        Step("A narrower gap between the copies", "Shift+PageDown", wider: false),
        Scaled("Make the figure a step larger", "Alt+PageUp", larger: true) with { Short = "Larger" },
        Scaled("Make the figure a step smaller", "Alt+PageDown", larger: false) with { Short = "Smaller" },
        Edit("Insert a row above", "{", "a row more", (p, s, f) => Chart.Edit.Rows.Insert(p, f.Name, s.Row)),
        Edit("Remove this row", "}", "a row less", (p, s, f) => Chart.Edit.Rows.Remove(p, f.Name, s.Row)),
        Edit("Insert a valley here", "(", "a valley more", (p, s, f) => Columns.Insert(p, f.Name, s.Column)),
        Edit("Remove this valley", ")", "a valley less", (p, s, f) => Columns.Remove(p, f.Name, s.Column)),
        Edit("Square all its ends, or slope them again", "_", "squaring", (p, _, f) => Halves.Square(p, f.Name, !f.Square)) with { Short = "Square ends" },
        Edit("Half stitch at the left end of this row, or none", "[", "a half stitch", (p, s, f) => Halves.Toggle(p, f.Name, Mark(p, s, RunEnd.Left))),
        Edit("Half stitch at the right end of this row, or none", "]", "a half stitch", (p, s, f) => Halves.Toggle(p, f.Name, Mark(p, s, RunEnd.Right))),
        Edit("Free this copy from the others", "", "freeing a copy", (p, s, _) => Detach.Copy(p, s.Placement, s.Copy).Piece),
        Edit("Lay it over the others", "", "laying over", (p, s, _) => Placing.Raise(p, s.Placement)),
        Edit("Give it the other phase", "", "the other phase", (p, s, _) => Placing.FlipPhase(p, s.Placement)),
        Edit("Take it off the cloth", "Shift+Delete", "taking off", (p, s, _) => Placing.Remove(p, s.Placement)),
    ];

    // Left and right are those of the cloth, whichever way the figure lies.
    private static HalfMark Mark(Piece piece, Spot spot, RunEnd end) =>
        new(spot.Row, piece.Placements[spot.Placement].Mirror ? end == RunEnd.Left ? RunEnd.Right : RunEnd.Left : end);

    private static Verb Step(string words, string key, bool wider) => Of(words, key, (at, spot, _) =>
    {
        int Left() => Spot.SeatOf(at.Desk.Piece, at.Desk.Work.Pleating, spot.Placement, spot.Copy).Left;
        var before = Left();
        at.Desk.Edit("the gap between copies", _ => Gap.Stepped(at.Desk.Work, spot.Placement, wider));
        at.Needle.GoTo(new Valley(at.Needle.Valley.Number + Left() - before), at.Needle.Row); // the hand stays on its copy
        if (at.Needle.GapHere is { } gap) at.Desk.Say($"{Where.Of(gap)}.");
    }) with { Can = at => at.Needle.GapHere is not null };

    /// <summary>What scaling a figure is called.</summary>
    internal const string Scaling = "scaling a figure";

    private static Verb Scaled(string words, string key, bool larger) => Of(words, key, (at, spot, figure) =>
    {
        var before = at.Desk.Piece;
        at.Desk.Edit(Scaling, _ => Grip.Stepped(at.Desk.Work, spot.Placement, larger));
        SayScaled(at, before, figure.Name);
    });

    /// <summary>Says what became of a figure that was scaled, and what is lost by it.</summary>
    internal static void SayScaled(Workplace at, Piece before, string figure)
    {
        if (before.Figure(figure) is not { } was || at.Desk.Piece.Figure(figure) is not { } now || (was.Width, was.Height) == (now.Width, now.Height)) return;
        var recut = Recutter.Scale(before, figure, now.Width, now.Height);
        at.Desk.Say(string.Join(" ", recut.Changes.Where(c => c is RecutChange.Redrawn or RecutChange.FallsOff or RecutChange.RunsInto or RecutChange.DetailLost).Select(c => RecutWords.Of(c, Model.Words.Units(at.Desk.Piece)))));
    }

    private static Verb Edit(string words, string key, string edit, Func<Piece, Spot, Figure, Piece> change) =>
        Of(words, key, (at, spot, figure) => at.Desk.Edit(edit, p => change(p, spot, figure)));

    private static Verb Of(string words, string key, Action<Workplace, Spot, Figure> act) =>
        new(Group, words, key, at => { if (at.Needle.Spot is { } spot) act(at, spot, spot.FigureIn(at.Desk.Piece)); }) { Can = at => at.Needle.Spot is not null };
}
