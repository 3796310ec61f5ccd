using CsCheck;
using Pleatwright.Bench.Model.Drafts;
using Pleatwright.Bench.Model.Tabletop;
using Pleatwright.Cloth;
using Pleatwright.Chart.Edit;
using Pleatwright.Tests.Drafts;

namespace Pleatwright.Tests.Tabletop;

/// <summary>A form's effect is seen on the cloth while it is answered, and nothing of it is left when the form is put away.</summary>
public class PreviewTests
{
    [Fact]
    public void Whatever_is_answered_the_piece_stays_and_the_cloth_shows_what_would_be()
    {
        var others = 0;
        Gen.Select(Gen.Int[0, Tables.All.Length - 1], Gen.Int[0, 5].Array[1, 6], Gen.Int[0, 70].Array[6]).Sample((which, acts, texts) =>
        {
            var (desk, needle) = Tables.Set(Tables.All[which]);
            if (desk.Piece.Threads.IsEmpty) return;
            var preview = new Preview(desk);
            var shown = 0;
            preview.Changed += () => shown++;
            Assert.Same(desk.Work, preview.Work);
            var (piece, moments) = (desk.Piece, desk.History.Past.Count());
            var draft = BandDraft.Open(desk, needle, null)!;
            preview.Show(draft);
            for (var i = 0; i < acts.Length; i++)
            {
                var before = shown;
                var text = Tables.Texts[texts[i] % Tables.Texts.Length];
                switch (acts[i])
                {
                    case 0: draft.SetStitch(text ?? "wave"); break;
                    case 1: draft.SetGatheringRow(text); break;
                    case 2: draft.SetRows(text); break;
                    case 3: draft.SetFrom(text); break;
                    case 4: draft.TurnOver(); break;
                    default: desk.Edit("a title", p => p with { Title = p.Title + "!" }); piece = desk.Piece; moments++; break;
                }
                if (draft.Fault.Length > 0) Assert.Same(desk.Work, preview.Work);
                else
                {
                    Assert.Equal(Bands.Put(desk.Piece, draft.Band).Bands, preview.Work.Piece.Bands); // another of its stitch in its place gives way
                    Assert.Equal(desk.Piece.Title, preview.Work.Piece.Title); // what was done meanwhile is seen, too
                    Interlocked.Increment(ref others);
                }
                Assert.Same(piece, desk.Piece);
                Assert.Equal(moments, desk.History.Past.Count());
                if (acts[i] == 4) Assert.True(shown > before);
            }
            preview.Drop(draft);
            Assert.Same(desk.Work, preview.Work);
            shown = 0;
            draft.TurnOver();
            Assert.Equal(0, shown); // a form that was put away is heard no more
        });
        Assert.True(others > 50);
    }

    [Fact]
    public void A_form_that_was_followed_by_another_takes_nothing_away_when_it_goes()
    {
        var (desk, needle) = Tables.Set(Tables.Full);
        var preview = new Preview(desk);
        var (band, accent) = (BandDraft.Open(desk, needle, null)!, AccentDraft.Open(desk, needle, null)!);
        preview.Show(band);
        preview.Show(accent);
        preview.Drop(band);
        Assert.Equal(desk.Piece.Accents.Length + 1, preview.Work.Piece.Accents.Length);
        preview.Drop(accent);
        Assert.Same(desk.Work, preview.Work);
    }

    [Fact]
    public void Other_cloth_is_told_from_the_cloth_on_the_table()
    {
        var (desk, _) = Tables.Set(Tables.Full);
        var preview = new Preview(desk);
        var draft = new OtherClothDraft(desk);
        preview.Show(draft);
        Assert.False(preview.IsOtherCloth);
        draft.Cloth.Set(PanelKind.One.Measure, Pleatwright.Measure.Length.FromInches(5));
        draft.Changed();
        Assert.True(preview.IsOtherCloth);
        Assert.Equal(60, preview.Work.Pleating.Pleats);
        Assert.True(draft.Keep());
        Assert.False(preview.IsOtherCloth);
    }
}
