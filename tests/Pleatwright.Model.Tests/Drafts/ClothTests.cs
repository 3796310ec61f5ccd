using CsCheck;
using Pleatwright.Bench.Model.Drafts;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Tests.Drafts;

/// <summary>The questions of a cloth, whatever is answered to them.</summary>
public class ClothTests
{
    internal static readonly Action<ClothDraft, string?, int>[] Acts =
    [
        (d, _, n) => d.Form = FormKind.All[n % FormKind.All.Length], (d, _, n) => d.Set(Lengths(d, n), L(n)), (d, t, _) => d.Set(RoundKind.SweepKey, Tables.Number(t)), (d, _, _) => d.CutPanels(), (d, _, _) => d.ShareOut(),
        (d, t, _) => d.AddPanel(), (d, t, n) => { if (d.Panels.Count > 0) d.SetPanel(n % d.Panels.Count, t ?? "", L(n / 2)); }, (d, _, n) => { if (d.Panels.Count > 1) d.RemovePanel(n % d.Panels.Count); },
        (d, _, n) => d.Kind = (ClothKind)(n % 4), (d, _, n) => d.Comes((Coming)(n % 2)), (d, _, n) => d.GaugeFrom = (GaugeFrom)(n % 3), (d, t, _) => d.PleatsPerInch = Tables.Number(t), (d, _, n) => d.TakeUp = L(n), (d, _, n) => d.RowSpacing = L(n), (d, t, _) => d.PerSpace = Tables.Whole(t),
        (d, _, n) => d.Depth = L(n), (d, _, n) => d.CountRows(n % 2 == 0), (d, t, _) => d.Rows = Tables.Whole(t), (d, t, _) => d.Above = Tables.Whole(t), (d, t, _) => d.Below = Tables.Whole(t), (d, t, _) => d.SeamPleats = Tables.Whole(t),
        (d, _, n) => d.FabricWidth = L(n), (d, _, n) => d.Selvedges = L(n), (d, _, n) => d.Ravelling = L(n), (d, _, n) => d.Seam = L(n), (d, _, n) => d.HasPleater = n % 2 == 0, (d, t, _) => d.PleaterRows = Tables.Whole(t), (d, t, _) => d.PleaterOverlap = Tables.Whole(t),
        (d, t, _) => d.Colour = t ?? "", (d, t, _) => d.Swatches[^1].Pleats = Tables.Whole(t), (d, _, n) => d.Swatches[^1].Width = L(n), (d, _, n) => d.Swatches[^1].Cloth = L(n), (d, _, _) => d.Swatches.Add(new()),
    ];

    [Fact]
    public void A_new_cloth_comes_to_a_cloth_or_to_a_sentence_why_not()
    {
        var (made, refused) = (0, 0);
        Gen.Select(Gen.Int[0, Acts.Length - 1], Gen.Int[0, Tables.Texts.Length - 1], Gen.Int[0, 1000]).Array[1, 6].Sample(answers =>
        {
            var draft = ClothDraft.New();
            foreach (var (act, text, number) in answers)
            {
                Acts[act](draft, Tables.Texts[text], number);
                _ = (draft.Units, draft.ShownPanels, draft.Calibration);
                var cloth = draft.Plan(out var fault);
                Assert.Equal(cloth is null, fault.Length > 0);
                if (cloth is null) { refused++; continue; }
                made++;
                Assert.NotEmpty(ClothDraft.Sums(cloth, draft.Units));
                if (new PleatingPlan(cloth) is var plan && plan.Pleats * plan.CableRows < 50_000) Tables.Holds(Tables.Empty with { Cloth = cloth });
            }
        }, iter: 500, threads: 1);
        Assert.True(made > 100 && refused > 100, $"{made} made, {refused} refused");
    }

    [Fact]
    public void A_new_cloth_is_asked_what_comes_and_begins_from_that_until_the_maker_says_otherwise()
    {
        var draft = ClothDraft.New();
        Assert.Equal(Coming.Pictures, draft.Coming);
        Assert.Equal(4, draft.Plan(out _)!.Gauge.Fullness, 6);
        draft.Comes(Coming.GeometricRows);
        Assert.Equal(3, draft.Plan(out _)!.Gauge.Fullness, 6);
        Assert.Equal(Length.FromInches(0.25), draft.TakeUp);
        draft.TakeUp = Length.FromMillimetres(6);
        draft.Comes(Coming.Pictures);
        Assert.Equal(Length.FromMillimetres(6), draft.TakeUp); // the maker's own
        Assert.Equal(4, draft.Plan(out _)!.Gauge.Fullness, 6);
    }

    [Fact]
    public void A_panel_of_nothing_is_told_whoever_shares_the_cloth_out()
    {
        var draft = ClothDraft.New();
        (draft.Form, draft.TakeUp, draft.Ravelling) = (RoundKind.One, Length.FromMetres(1), Length.FromMetres(1));
        Assert.Null(draft.Plan(out var fault));
        Assert.Equal("So small a neck has too few pleats to share among front, back and sleeves.", fault);
        draft = ClothDraft.New();
        draft.Form = RoundKind.One;
        draft.CutPanels();
        Assert.NotNull(draft.Plan(out _));
        draft.SetPanel(0, "front", Length.Zero);
        Assert.Null(draft.Plan(out fault));
        Assert.Equal("A panel is wider than nothing.", fault);
    }

    [Fact]
    public void A_neck_so_wide_that_its_few_pleats_lie_furlongs_apart_is_refused()
    {
        var draft = ClothDraft.New();
        draft.Form = RoundKind.One;
        draft.CutPanels();
        draft.Set(RoundKind.NeckKey, Length.FromMetres(999_999_999));
        Assert.Null(draft.Plan(out var fault));
        Assert.Equal("So few pleats would lie more than 10 m wide each.", fault);
    }

    private static LengthKey Lengths(ClothDraft draft, int n) => draft.Form.Keys.OfType<LengthKey>().ElementAt(n % draft.Form.Keys.OfType<LengthKey>().Count());

    private static Length L(int n) => Tables.Lengths[n % Tables.Lengths.Length];
}
