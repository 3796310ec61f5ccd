using CsCheck;
using Pleatwright.Bench.Model.Drafts;
using Pleatwright.Chart;
using Pleatwright.Model.Tests.Table;

namespace Pleatwright.Model.Tests.Drafts;

/// <summary>A run laid by steps is the run drawn by hand.</summary>
public class RunDraftTests
{
    [Fact]
    public void Laid_by_steps_it_is_what_a_stroke_lays_and_one_undo()
    {
        Gen.Select(Gen.Int[1, 58], Gen.Int[0, 19], Gen.Int[-12, 12], Gen.Bool).Sample((valley, row, on, mirrored) =>
        {
            var to = Math.Clamp(valley + on, 1, 59);
            var (steps, drawn) = (new AtTable(Pieces.Empty), new AtTable(Pieces.Empty));
            foreach (var at in new[] { steps, drawn })
            {
                if (mirrored) at.Needle.MirrorAbout(30);
                at.Needle.GoTo(new Valley(valley), new CableRow(row));
            }
            var draft = RunDraft.Open(steps.Desk, steps.Needle);
            for (var i = 0; i < Math.Abs(on); i++) draft.StepTo(Math.Sign(on));
            Assert.Equal((to, row), (steps.Needle.Valley.Number, steps.Needle.Row.Index));
            Assert.Empty(steps.Worked()); // shown, and not yet there
            var shown = AtTable.Worked(draft.Laid!);
            Assert.True(draft.Do());
            Assert.Equal(shown, steps.Worked());
            drawn.Stroke(drawn.Middle(valley, row), drawn.Middle(to, row));
            Assert.Equal(drawn.Worked(), steps.Worked());
            Assert.Equal(steps.Piece.Figures[0].Name, steps.Needle.Drawing);
            draft.SetOut(true);
            Assert.True(draft.Do());
            Assert.Empty(steps.Worked());
            steps.Key("Ctrl+z");
            Assert.Equal(shown, steps.Worked());
            steps.Key("Ctrl+z");
            Assert.Empty(steps.Worked());
        }, iter: 200, threads: 1);
    }

    [Fact]
    public void On_a_run_it_opens_with_that_run_and_says_what_it_comes_to()
    {
        var at = new AtTable(Pieces.Empty);
        at.Stroke(at.Middle(10, 5), at.Middle(15, 5));
        at.Needle.GoTo(new Valley(12), new CableRow(5));
        var draft = RunDraft.Open(at.Desk, at.Needle);
        Assert.Equal((10, 15, 'r'), (draft.From.Number, draft.To.Number, draft.Thread!.Value.Letter));
        Assert.Equal("Row 5, on gathering row 2. 6 cables over 7 pleats, from a down cable at the left.", draft.Comes);
        draft.StepThread(1);
        Assert.Equal('b', draft.Thread!.Value.Letter);
        draft.SetFrom("99");
        Assert.Equal("Valleys run from 1 to 59.", draft.Fault);
        Assert.False(draft.Do());
        draft.StepFrom(-1);
        Assert.Equal((59, ""), (draft.From.Number, draft.Fault));
    }
}
