using Pleatwright.Bench.Model;
using Pleatwright.Bench.Model.Drafts;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Tests.Drafts;

/// <summary>Another gauge, answered in a form: all that changes is told while it is answered, and one undo takes it back.</summary>
public class GaugeDraftTests
{
    [Theory, MemberData(nameof(All))]
    public void What_changes_is_told_before_it_is_put_in_and_one_undo_takes_all_of_it_back(string name)
    {
        var piece = Examples.Read(name);
        foreach (var (way, _, _) in GaugeDraft.Ways)
        {
            var (desk, _) = Tables.Set(piece);
            var draft = new GaugeDraft(desk);
            Assert.Empty(draft.Changes);
            draft.SetWay(way);
            draft.SetPerSpace(4);
            draft.PackForPictures();
            Assert.Same(piece, desk.Piece);
            if (draft.Laid is null && piece.Cloth.Form is Ball) // from pole to pole there is only so much room
            {
                Assert.Contains("do not fit on the ball", draft.Fault);
                continue;
            }
            Assert.True(draft.Laid is not null, draft.Fault);
            if (Practice.Packed(piece.Cloth.Gauge.TakeUp).PleatsPerInch != piece.Cloth.Gauge.PleatsPerInch)
                Assert.Contains(draft.Changes, c => c.StartsWith(Words.Of(piece.Cloth.Gauge.PleatsPerInch), StringComparison.Ordinal));
            Assert.True(draft.Keep());
            Assert.Equal(4, desk.Piece.Cloth.Gauge.CableRowsPerSpace);
            Assert.Equal("another gauge", desk.History.Now.Edit);
            desk.Undo();
            Assert.Same(piece, desk.Piece);
            Assert.False(desk.History.CanUndo);
        }
    }

    public static TheoryData<string> All => [.. Examples.Names];

    [Fact]
    public void A_gauge_that_no_cloth_has_is_told_and_nothing_changes()
    {
        var (desk, _) = Tables.Set(Tables.Full);
        var draft = new GaugeDraft(desk);
        draft.SetTakeUp(Length.FromMillimetres(0.1));
        Assert.Equal("A pleat cannot take up less cloth than its finished width.", draft.Fault);
        Assert.Empty(draft.Changes);
        Assert.False(draft.Keep());
        draft.SetPleatsPerInch(0);
        Assert.Equal("The pitch of the pleats must be more than nothing.", draft.Fault);
    }

    [Fact]
    public void Another_thing_kept_is_another_piece_told_at_once()
    {
        var (desk, _) = Tables.Set(Examples.Read("quay-yoke"));
        var draft = new GaugeDraft(desk);
        draft.SetPerSpace(4);
        var size = draft.Changes;
        Assert.Contains("“kite” is drawn again: 23 valleys by 21 cable rows become 23 valleys by 17 cable rows.", size);
        draft.SetWay("count");
        Assert.DoesNotContain(draft.Changes, c => c.Contains("drawn again"));
        draft.SetWay("nonsense");
        Assert.Equal("count", draft.Way);
    }
}
