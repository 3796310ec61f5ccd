using CsCheck;
using Microsoft.Extensions.Time.Testing;
using Pleatwright.Bench.Model;
using Pleatwright.Bench.Model.Drafts;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Drafts;

/// <summary>
/// The laws of a form that changes the piece: whatever is written in its fields, and whatever happens to the piece meanwhile, nothing
/// is thrown, what cannot be kept is told, what can be kept is laid and read back, and a form not touched changes nothing.
/// </summary>
public class PieceDraftTests
{
    private delegate void Act(PieceDraft draft, string? text, int number);

    private sealed record Form(string Name, Func<Desk, Needle, int, PieceDraft?> Open, Act[] Acts, Action<PieceDraft> Look);

    private static readonly Form[] Forms =
    [
        new("band", (desk, needle, i) => BandDraft.Open(desk, needle, i < 0 ? null : i), Of<BandDraft>(
            (d, t, _) => d.SetStitch(t), (d, t, n) => d.SetStitch(BandStitch.All[n % BandStitch.All.Length].Name), (d, t, _) => d.SetThread(t), (d, t, _) => d.SetGatheringRow(t), (d, t, _) => d.SetRows(t),
            (d, t, _) => d.SetSteps(t), (d, t, _) => d.SetHeight(t), (d, t, _) => d.SetOffset(t), (d, t, _) => d.SetDrop(t), (d, t, _) => d.SetFrom(t), (d, t, _) => d.SetTo(t), (d, t, n) => d.SetPanel(n % 3 == 0 ? t : d.Panels.ElementAtOrDefault(n % 5)),
            (d, _, n) => d.SetEnds((BandEnds)(n % 2)), (d, _, n) => d.SetStart((WorkFrom)(n % 2)), (d, _, _) => d.TurnOver(),
            (d, _, n) => { if (d.Choices is { IsEmpty: false } choices) d.Take(choices[n % choices.Length]); }),
            d => { var band = (BandDraft)d; _ = (band.Comes, band.Choices, band.Picture, band.Stitch, band.Pleats); }),
        new("accent", (desk, needle, i) => AccentDraft.Open(desk, needle, i < 0 ? null : i), Of<AccentDraft>(
            (d, t, _) => d.SetAccent(t), (d, t, _) => d.SetThread(t), (d, t, _) => d.SetSize(t), (d, _, _) => d.TurnUpright(), (d, t, _) => d.SetValley(t), (d, _, _) => d.ToCentre(),
            (d, t, _) => d.SetGatheringRow(t), (d, t, _) => d.SetOffset(t), (d, t, _) => d.SetDrop(t), (d, t, _) => d.SetCopies(t), (d, t, _) => d.SetEvery(t),
            (d, t, n) => d.SetPanel(n % 3 == 0 ? t : d.Panels.ElementAtOrDefault(n % 5)), (d, _, n) => d.SetFrom((CountedFrom)(n % 3)), (d, t, _) => d.SetFromThere(t), (d, _, _) => d.ToPanelCentre()),
            d => { var accent = (AccentDraft)d; _ = (accent.Comes, accent.Picture, accent.Accent, accent.CentreValley); }),
        new("thread", (desk, needle, i) => ThreadDraft.Open(desk, needle, i < 0 || i >= desk.Piece.Threads.Length ? null : desk.Piece.Threads[i].Key), Of<ThreadDraft>(
            (d, t, _) => d.SetName(t), (d, t, _) => d.SetLetter(t), (d, t, _) => d.SetColour(t), (d, t, _) => d.SetNote(t), (d, t, _) => d.SetStrands(t), (d, _, n) => d.SetSkein(Length(n)),
            (d, t, _) => d.SetStrandsInSkein(t), (d, t, _) => d.SetTex(t), (d, _, _) => d.TakeFrom(new StashThread("from the stash", Colour.Parse("#102030"), 2))),
            d => { var thread = (ThreadDraft)d; _ = (thread.InUse, thread.Others.Count(), thread.Told); }),
        new("sizes", (desk, _, _) => new SizesDraft(desk, new FakeTimeProvider()), Of<SizesDraft>(
            (d, _, _) => d.Add(), (d, _, n) => At(d, n, at => d.LeaveOut(at)), (d, t, n) => At(d, n, at => d.SetName(at, t)), (d, t, n) => At(d, n, at => d.SetMeasure(at, Length(n / 3))),
            (d, t, n) => At(d, n, at => d.Set(at, RoundKind.SweepKey, Tables.Number(t))), (d, t, n) => At(d, n, at => d.SetRows(at, Tables.Whole(t))), (d, _, n) => At(d, n, at => d.SetPanel(at, RoundKind.Panels, n % 4, Length(n / 5))), (d, _, n) => At(d, n, at => d.ShareOut(at, RoundKind.Panels))),
            d => { var sizes = (SizesDraft)d; _ = (sizes.Units, sizes.Measured, sizes.Table.Select(sizes.Finished).Count()); for (var i = 0; i < sizes.Sizes.Count; i++) _ = sizes.NameOf(i); }),
        new("credit", (desk, _, _) => new CreditDraft(desk), Of<CreditDraft>(
            (d, t, _) => d.SetDesigner(t), (d, t, _) => d.SetCopyright(t), (d, t, n) => d.SetDate(n % 3 == 0 ? t : $"2026-{n % 14:00}-{n % 33:00}"), (d, t, n) => d.SetPhotograph(n % 3 == 0 ? "a/b.jpg" : t), (d, t, _) => d.SetSizeName(t)),
            d => { var credit = (CreditDraft)d; _ = (credit.Designer, credit.Copyright, credit.DateText, credit.Photograph, credit.SizeName); }),
        new("swatches", (desk, _, _) => new SwatchesDraft(desk), Of<SwatchesDraft>(
            (d, t, n) => Change(d, s => s.Pleats = Tables.Whole(t)), (d, _, n) => Change(d, s => s.Width = Length(n)), (d, _, n) => Change(d, s => s.Cloth = Length(n)), (d, t, _) => Change(d, s => s.Cables = Tables.Whole(t)),
            (d, _, n) => Change(d, s => s.Thread = Length(n)), (d, t, _) => Change(d, s => s.Starts = Tables.Whole(t)), (d, _, _) => { d.Swatches.Add(new()); d.Changed(); }, (d, _, n) => d.PlanBy = n % 2 == 0),
            d => { var swatches = (SwatchesDraft)d; _ = (swatches.Found, swatches.MayPlanBy); }),
        new("cloth", (desk, _, _) => new OtherClothDraft(desk), Of<OtherClothDraft>(ClothTests.Acts.Select(act => (Action<OtherClothDraft, string?, int>)((d, t, n) => { act(d.Cloth, t, n); d.Changed(); })).ToArray()),
            d => { var cloth = (OtherClothDraft)d; _ = (cloth.Plan, cloth.LosesSizes, cloth.Cloth.Units, cloth.Cloth.ShownPanels); }),
        new("gauge", (desk, _, _) => new GaugeDraft(desk), Of<GaugeDraft>(
            (d, t, n) => d.SetWay(n % 3 == 0 ? t : GaugeDraft.Ways[n % 3].Way), (d, t, n) => d.SetPleatsPerInch(n % 2 == 0 ? Tables.Number(t) : 6 + n % 20), (d, _, n) => d.SetTakeUp(Length(n)), (d, _, n) => d.SetRowSpacing(Length(n)),
            (d, t, n) => d.SetPerSpace(n % 2 == 0 ? Tables.Whole(t) : 1 + n % 8), (d, _, _) => d.PackForPictures()),
            d => { var gauge = (GaugeDraft)d; _ = (gauge.Changes, gauge.Losses, gauge.FullnessWords, gauge.Way); }),
        new("run", (desk, needle, _) => RunDraft.Open(desk, needle), Of<RunDraft>(
            (d, t, _) => d.SetRow(t), (d, t, _) => d.SetFrom(t), (d, t, _) => d.SetTo(t), (d, t, _) => d.SetThread(t), (d, _, n) => d.SetOut(n % 2 == 0),
            (d, _, n) => d.StepRow(n - 500), (d, _, n) => d.StepFrom(n - 500), (d, _, n) => d.StepTo(n - 500), (d, _, n) => d.StepThread(n - 500)),
            d => _ = ((RunDraft)d).Comes),
        new("letters", (desk, needle, _) => LettersDraft.Open(desk, needle), Of<LettersDraft>(
            (d, t, _) => d.SetText(t), (d, t, n) => d.SetText($"{t} Ann{n}"), (d, _, n) => d.SetText(n % 2 == 0 ? "Øya" : "K B"), (d, t, _) => d.SetAlphabet(t), (d, _, n) => d.SetAlphabet(LettersDraft.Alphabets[n % LettersDraft.Alphabets.Count].Name),
            (d, _, n) => d.SetArrangement(LettersDraft.Arrangements[n % LettersDraft.Arrangements.Count].Name), (d, t, _) => d.SetHeight(t), (d, t, _) => d.SetAcross(t), (d, t, _) => d.SetGatheringRow(t), (d, t, _) => d.SetBand(t),
            (d, t, _) => d.SetThread(t), (d, t, _) => d.SetBorderThread(t), (d, _, _) => d.TurnBorder(), (d, _, n) => { if (n % 4 == 0) d.TakeFont("drawn", 192, DrawnFont); }, (d, t, _) => d.RefuseFont($"{t}: this is no font.")),
            d => { var letters = (LettersDraft)d; _ = (letters.Comes, letters.Rows); }),
        new("working", (desk, _, _) => new WorkingDraft(desk), Of<WorkingDraft>(
            (d, _, n) => d.SetHand((Hand)(n % 2)), (d, _, n) => d.SetFirst((FirstWay)(n % 3)), (d, _, n) => d.SetWay((WayOfWorking)(n % 3)), (d, _, n) => d.SetBack((Backsmocking)(n % 4)), (d, _, n) => d.SetMayTurn(n % 2 == 0), (d, _, n) => d.SetSplitRuns(n % 2 == 0), (d, _, n) => d.SetWorkingLength(Length(n)),
            (d, _, n) => d.SetTails(Length(n)), (d, t, _) => d.SetCarryPleats(Tables.Whole(t)), (d, t, _) => d.SetParkedThreads(Tables.Whole(t)), (d, t, _) => d.SetThreadFactor(Tables.Number(t)),
            (d, _, _) => d.BeginOnWidest(), (d, _, _) => d.BeginOnOwn(), (d, t, _) => d.SetBaseRow(t), (d, _, _) => { if (!d.Working.Places.IsEmpty) d.LetGo(d.Working.Places[0]); }),
            d => { var working = (WorkingDraft)d; _ = (working.BaseRowWords, working.OnWidest, working.Working.Places.Select(p => working.Said(p) + WorkingDraft.LetGoWords(p)).Count()); }),
    ];

    // A font of bars, that has no other letters than those before n.
    private static (Pleatwright.Picture.Raster, int)? DrawnFont(string character)
    {
        if (character[0] is not (>= 'A' and < 'n')) return null;
        var rgba = new byte[4 * 60 * 192];
        for (var i = 0; i < 60 * 192; i++) rgba[4 * i + 3] = (byte)(i % 60 < 20 || i / 60 > 150 ? 255 : 0);
        return (new Pleatwright.Picture.Raster(60, 192, rgba), 192);
    }

    [Fact]
    public void Letters_of_a_font_are_traced_and_what_it_lacks_is_named()
    {
        var (desk, needle) = Tables.Set(Examples.Read(Examples.Names.First()));
        var draft = LettersDraft.Open(desk, needle)!;
        draft.SetText("Lil");
        var drawn = draft.Laid!.Piece.Figures[^1];
        draft.TakeFont("bars", 192, DrawnFont);
        Assert.Equal(("", "bars", LettersDraft.FontChoice), (draft.Fault, draft.FontName, draft.AlphabetName));
        Assert.NotEqual(drawn.Rows, draft.Laid!.Piece.Figures[^1].Rows);
        draft.SetText("Lis");
        Assert.StartsWith("“s” (character 3, U+0073) is not among the letters of bars", draft.Fault);
        draft.RefuseFont("x.ttf: this is no font.");
        Assert.Equal("x.ttf: this is no font.", draft.FontFault);
        draft.SetAlphabet("roman"); // what there was serves on
        Assert.Equal("", draft.Fault);
    }

    public static TheoryData<string> Names => [.. Forms.Select(f => f.Name)];

    private static readonly Gen<(int Piece, int Index, (int Act, int Text, int Number)[] Acts)> Answers =
        Gen.Select(Gen.Int[0, 3], Gen.Int[-1, 2], Gen.Select(Gen.Int[-2, 40], Gen.Int[0, Tables.Texts.Length - 1], Gen.Int[0, 1000]).Array[1, 6]);

    [Theory, MemberData(nameof(Names))]
    public void Whatever_is_answered_nothing_is_thrown_faults_are_told_and_what_is_kept_is_read_back(string name)
    {
        var form = Forms.Single(f => f.Name == name);
        var (kept, refused) = (0, 0);
        Answers.Sample(sample =>
        {
            var (desk, needle) = Tables.Set(Tables.All[sample.Piece]);
            if (form.Open(desk, needle, sample.Index) is not { } draft) { Assert.Empty(desk.Piece.Threads); return; }
            foreach (var (act, text, number) in sample.Acts)
            {
                if (act < 0 && number % 4 == 0) Tables.Meanwhile(desk, number / 4 % Tables.Others);
                else form.Acts[Math.Abs(act) % form.Acts.Length](draft, Tables.Texts[text], number);
                form.Look(draft);
                Assert.Equal(draft.Fault.Length > 0, draft.Laid is null);
                Assert.True(draft.Fault.Length == 0 || draft.Fault.EndsWith('.') && !char.IsAsciiLetterLower(draft.Fault[0]), draft.Fault);
            }
            if (draft.Laid is { } large && (long)large.Valleys * large.CableRows > 20_000) return; // its proof and order would take their time
            var before = desk.Piece;
            var mayBeKept = draft.Fault.Length == 0;
            Assert.Equal(mayBeKept, draft.Keep());
            _ = desk.Amounts;
            if (mayBeKept) { Tables.Holds(desk.Piece); Interlocked.Increment(ref kept); }
            else { Assert.Same(before, desk.Piece); Interlocked.Increment(ref refused); }
        }, iter: 250, threads: 1);
        Assert.True(kept > 10 && refused > 10, $"{name}: {kept} kept, {refused} refused");
    }

    [Theory, MemberData(nameof(Names))]
    public void A_form_opened_and_kept_untouched_leaves_the_piece_as_it_is(string name)
    {
        if (name is "run" or "letters") return; // what it lays is asked for, and nothing there is being changed
        var form = Forms.Single(f => f.Name == name);
        foreach (var piece in Tables.All.Concat(Examples.Names.Select(Examples.Read)))
            for (var i = 0; i < 2; i++)
            {
                if (i > 0 && name is not ("band" or "accent" or "thread")) continue;
                if (name == "band" && i >= piece.Bands.Length || name == "accent" && i >= piece.Accents.Length || name == "thread" && i >= piece.Threads.Length) continue;
                var (desk, needle) = Tables.Set(piece);
                var draft = form.Open(desk, needle, i);
                Assert.True(draft!.Keep(), draft.Fault);
                Assert.Equal(PieceWriter.Write(piece), PieceWriter.Write(desk.Piece));
                Assert.False(desk.History.CanUndo);
            }
    }

    [Fact]
    public void Letters_are_shown_while_they_are_typed_and_lie_on_the_cloth_when_they_are_kept()
    {
        var (desk, needle) = Tables.Set(Examples.Read(Examples.Names.First()));
        var draft = LettersDraft.Open(desk, needle)!;
        Assert.Equal("Type what is to be stitched.", draft.Fault);
        draft.SetText("Ж");
        Assert.StartsWith("“Ж” (character 1, U+0416) is not among the letters of plain", draft.Fault);
        draft.SetText("Øya");
        Assert.Equal("", draft.Fault);
        Assert.StartsWith("“Øya”: ", draft.Comes);
        Assert.Contains(draft.Laid!.Piece.Figures, f => f.Letters == "Øya");
        Assert.DoesNotContain(desk.Piece.Figures, f => f.Letters == "Øya"); // shown, not kept
        draft.SetGatheringRow("400");
        Assert.StartsWith("The cloth has gathering rows 1 to ", draft.Fault);
        draft.SetGatheringRow("");
        Assert.True(draft.Keep());
        Assert.Equal("Øya", desk.Piece.Figures[^1].Letters);
        Assert.Equal("Øya", desk.Piece.Placements[^1].Figure);
    }

    [Fact]
    public void A_field_that_holds_no_number_is_named_until_it_does()
    {
        var (desk, needle) = Tables.Set(Tables.Full);
        var draft = BandDraft.Open(desk, needle, 0)!;
        draft.SetRows("many");
        Assert.Equal("“Times, one under the other” wants a whole number.", draft.Fault);
        Assert.False(draft.Keep());
        draft.SetRows("3");
        Assert.Equal("", draft.Fault);
        Assert.True(draft.Keep());
        Assert.Equal(3, desk.Piece.Bands[0].Rows);
    }

    [Fact]
    public void A_band_taken_off_under_its_form_is_told_of_and_another_is_not_changed_in_its_place()
    {
        var (desk, needle) = Tables.Set(Tables.Full);
        var draft = BandDraft.Open(desk, needle, 0)!;
        desk.Edit("a band taken off", p => p with { Bands = p.Bands.RemoveAt(0) });
        Assert.Equal("This band was changed or taken off meanwhile.", draft.Fault);
        Assert.False(draft.Keep());
        draft.TakeOff();
        Assert.Equal(Tables.Full.Bands[1], Assert.Single(desk.Piece.Bands));
    }

    [Fact]
    public void A_knot_cannot_be_stood_upright_for_no_reader_would_take_it()
    {
        var (desk, needle) = Tables.Set(Tables.Full);
        var draft = AccentDraft.Open(desk, needle, 0)!;
        draft.TurnUpright();
        Assert.Equal("A knot lies but one way.", draft.Fault);
        Assert.False(draft.Keep());
        draft.SetAccent("bullion");
        Assert.False(draft.Mark.Upright && draft.Fault.Length > 0, draft.Fault);
        draft = AccentDraft.Open(desk, needle, 1)!;
        draft.TurnUpright();
        Assert.True(draft.Keep());
        Tables.Holds(desk.Piece);
    }

    [Theory, InlineData("-1"), InlineData("0"), InlineData("1000000")]
    public void A_band_of_steps_that_cannot_be_is_told_of_and_said_to_fit_nothing(string steps)
    {
        var (desk, needle) = Tables.Set(Tables.Bishop);
        var draft = BandDraft.Open(desk, needle, 0)!;
        draft.SetSteps(steps);
        Assert.StartsWith("Wave takes ", draft.Fault, StringComparison.Ordinal);
        Assert.Equal("", draft.Comes);
        Assert.Empty(draft.Choices);
        Assert.Null(draft.Picture);
        Assert.False(draft.Keep());
        draft.SetSteps("2");
        Assert.NotEqual("", draft.Comes);
    }

    [Fact]
    public void Rows_a_thousand_miles_apart_are_refused_before_an_order_is_looked_for()
    {
        var (desk, _) = Tables.Set(Tables.Full);
        var draft = new OtherClothDraft(desk);
        draft.Cloth.RowSpacing = Measure.Length.FromMetres(999_999_999);
        draft.Changed();
        Assert.Equal("A pleat takes up at most 10 m of cloth, and gathering rows lie at most as far apart.", draft.Fault);
        Assert.False(draft.Keep());
        draft.Cloth.RowSpacing = Measure.Length.FromMetres(10);
        draft.Changed();
        Assert.True(draft.Keep(), draft.Fault);
        Assert.NotEmpty(desk.Amounts);
    }

    [Fact]
    public void A_needleful_longer_than_a_skein_is_refused_where_it_is_answered()
    {
        var (desk, _) = Tables.Set(Tables.Full);
        var draft = new WorkingDraft(desk);
        draft.SetWorkingLength(Measure.Length.FromMetres(9));
        Assert.False(draft.KeepOrTell());
        Assert.Equal("A skein of sail red gives no needleful so long.", draft.Told);
    }

    [Fact]
    public void A_credit_is_kept_in_one_edit_and_undone_in_one()
    {
        var (desk, _) = Tables.Set(Tables.Empty);
        var draft = new CreditDraft(desk);
        draft.SetDesigner(" the harbour class ");
        draft.SetDate("2026-02-30");
        Assert.Equal("Write the date as year, month and day, as in “2026-05-31”.", draft.Fault);
        Assert.False(draft.Keep());
        draft.SetDate("2026-05-31");
        draft.SetPhotograph("../boats.jpg");
        Assert.Equal("The photograph must be the name of a file alone, without a folder, such as \"boats.jpg\".", draft.Fault);
        draft.SetPhotograph("boats.jpg");
        draft.SetCopyright(new string('c', Credit.LongestCopyright + 1));
        Assert.Equal("The copyright line must be at most 200 characters long.", draft.Fault);
        draft.SetCopyright("");
        draft.SetSizeName("4 years");
        Assert.True(draft.Keep(), draft.Fault);
        Assert.Equal(new Credit { Designer = "the harbour class", Date = new DateOnly(2026, 5, 31), Photograph = "boats.jpg" }, desk.Piece.Credit);
        Assert.Equal("4 years", desk.Piece.SizeName);
        desk.Undo();
        Assert.Equal((Credit.None, ""), (desk.Piece.Credit, desk.Piece.SizeName));
    }

    private static Act[] Of<T>(params Action<T, string?, int>[] acts) where T : PieceDraft => [.. acts.Select(act => (Act)((d, t, n) => act((T)d, t, n)))];

    private static Measure.Length Length(int n) => Tables.Lengths[n % Tables.Lengths.Length];

    private static void At(SizesDraft draft, int n, Action<int> act)
    {
        if (draft.Sizes.Count > 0) act(n % draft.Sizes.Count);
    }

    private static void Change(SwatchesDraft draft, Action<SwatchDraft> change)
    {
        change(draft.Swatches[^1]);
        draft.Changed();
    }
}
