using CsCheck;
using Pleatwright.Bench.Model.Drafts;
using Pleatwright.Chart;

namespace Pleatwright.Tests.Drafts;

/// <summary>Where a figure lies and how often: every answer an edit, whatever it is.</summary>
public class FigureDraftTests
{
    private static readonly object?[] Subjects = [0, 1, 7, -1, "left over", "no such figure", null];

    private static readonly Action<FigureDraft, string?>[] Acts =
    [
        (d, t) => d.Name = t ?? "", (d, _) => d.Rename(), (d, t) => d.SetCopies(t), (d, t) => d.SetWidth(t), (d, t) => d.SetHeight(t), (d, t) => d.SetEvery(t), (d, t) => d.SetCentre(t), (d, _) => d.ToCentre(), (d, t) => d.SetTop(t), (d, _) => d.Mirror(), (d, _) => d.FlipPhase(),
        (d, _) => d.Square(), (d, _) => d.Copy(), (d, _) => d.Raise(), (d, _) => d.PutOn(), (d, _) => d.TakeOff(), (d, _) => d.Forget(),
        (d, t) => d.SetPanel(t), (d, t) => d.SetPanel(d.Panels.ElementAtOrDefault((t?.Length ?? 0) % 5)), (d, t) => d.SetFrom((CountedFrom)((t?.Length ?? 0) % 3)), (d, t) => d.SetFromThere(t), (d, _) => d.ToPanelCentre(),
    ];

    [Fact]
    public void Whatever_is_answered_the_piece_is_laid_and_read_back() =>
        Gen.Select(Gen.Int[0, 2], Gen.Int[0, Subjects.Length - 1].Select(i => Subjects[i]), Gen.Select(Gen.Int[-3, Acts.Length - 1], Gen.Int[0, Tables.Texts.Length - 1]).Array[1, 10]).Sample((at, subject, acts) =>
        {
            var (desk, needle) = Tables.Set(at == 0 ? Tables.Full : at == 1 ? Tables.Ball : Tables.Bishop);
            var draft = new FigureDraft(desk, needle, subject);
            foreach (var (act, text) in acts)
            {
                if (act < 0) Tables.Meanwhile(desk, text % Tables.Others);
                else Acts[act](draft, Tables.Texts[text]);
                _ = (draft.Panel, draft.From, draft.FromThere, draft.Panels, draft.Comes, draft.CentreValley, draft.Top, draft.Fault, draft.Every);
                Tables.Holds(desk.Piece);
            }
        }, iter: 300, threads: 1);

    [Fact]
    public void What_is_no_number_is_told_of_and_moves_nothing()
    {
        var (desk, needle) = Tables.Set(Tables.Full);
        var draft = new FigureDraft(desk, needle, 0);
        draft.SetTop("down a bit");
        Assert.Equal("“Its top lies on cable row” wants a whole number.", draft.Fault);
        Assert.Same(Tables.Full, desk.Piece);
        draft.SetTop("4");
        Assert.Equal("", draft.Fault);
        Assert.Equal(4, draft.Top);
    }

    [Fact]
    public void A_figure_hung_on_a_panel_stays_where_it_lies_and_then_goes_by_the_panel()
    {
        var (desk, needle) = Tables.Set(Tables.Bishop);
        var draft = new FigureDraft(desk, needle, 0);
        Assert.Equal(["right back", "right sleeve", "front", "left sleeve", "left back"], draft.Panels);
        Assert.Equal(("front", CountedFrom.Centre, 3), (draft.Panel, draft.From, draft.FromThere));
        var valley = draft.CentreValley;
        draft.SetPanel("left sleeve");
        draft.SetFrom(CountedFrom.Right);
        Assert.Equal(valley, draft.CentreValley);
        var sleeve = desk.Work.Pleating.Shares.Single(s => s.Name == "left sleeve");
        Assert.Equal(sleeve.Last - valley, draft.FromThere);
        draft.SetFromThere("1");
        Assert.Equal(sleeve.Last - 1, draft.CentreValley);
        draft.ToPanelCentre();
        Assert.Equal(sleeve.First - 1 + sleeve.Pleats / 2, draft.CentreValley);
        draft.SetPanel("");
        Assert.Equal(("", false), (draft.Panel, draft.Placement!.Centre.IsHung));
        Assert.Equal(sleeve.First - 1 + sleeve.Pleats / 2, draft.CentreValley);
    }

    [Fact]
    public void A_placement_gone_meanwhile_is_not_taken_for_another()
    {
        var (desk, needle) = Tables.Set(Tables.Full);
        var draft = new FigureDraft(desk, needle, 1);
        desk.Edit("gone", p => p with { Placements = [p.Placements[0], new Placement("left over", Centre.Middle, new GatheringRow(2), 0)] });
        draft.Mirror();
        Assert.False(desk.Piece.Placements[1].Mirror);
        Assert.Null(draft.Placement);
    }
}
