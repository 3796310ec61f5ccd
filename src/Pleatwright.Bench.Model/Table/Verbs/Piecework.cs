using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Bench.Model.Table.Verbs;

/// <summary>The piece as a whole.</summary>
public static class Piecework
{
    private const string Group = "The piece";

    public static IEnumerable<Verb> All { get; } =
    [
        new(Group, "Another thread…", "", at => at.Needle.Ask(Question.Thread)),
        new(Group, "Change the thread in hand…", "", at => at.Needle.Ask(Question.Thread, at.Needle.Thread)) { Can = at => at.Needle.Thread is not null },
        new(Group, "A band from side to side…", "", at => at.Needle.Ask(Question.Band)),
        new(Group, "Letters…", "", at => at.Needle.Ask(Question.Letters)),
        new(Group, "An accent…", "", at => at.Needle.Ask(Question.Accent)),
        new(Group, "Begin the work on this row, or again where it is widest", ",", BaseRow),
        new(Group, "Show in motion how this is stitched", "", at => at.Needle.ShowIt()) { Can = at => !at.Desk.Work.Runs.IsEmpty },
        new(Group, "The cloth…", "", at => at.Needle.Ask(Question.Cloth)),
        new(Group, "Another gauge…", "", at => at.Needle.Ask(Question.Gauge)),
        new(Group, "Sizes of the design…", "", at => at.Needle.Ask(Question.Sizes)),
        new(Group, "Designer, copyright, date and photograph…", "", at => at.Needle.Ask(Question.Credit)),
        new(Group, "Swatches, and what they say…", "", at => at.Needle.Ask(Question.Swatch)),
        new(Group, "What can be done here", "/", at => at.Needle.Ask(Question.Do)),
        new(Group, "All keys", "?", at => at.Needle.Ask(Question.Keys)),
        new(Group, "Undo", "Ctrl+z", at => at.Desk.Undo()),
        new(Group, "Redo", "Ctrl+y", at => at.Desk.Redo()),
        new(Group, "Redo", "Ctrl+Shift+Z", at => at.Desk.Redo()) { Unlisted = true },
    ];

    private static void BaseRow(Workplace at)
    {
        var (desk, row) = (at.Desk, at.Needle.Row);
        var pinned = desk.Piece.Working.BaseRow == row;
        desk.Edit("the base row", p => p with { Working = p.Working with { BaseRow = pinned ? null : row } });
        desk.Say(pinned ? "The work begins on its widest row again." : $"The work begins on {Where.Of(desk.Work, row).Uncapital()}, where its figure reaches it.");
    }
}
