using CsCheck;
using Pleatwright.Bench.Model.Drafts;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Shopping;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Drafts;

/// <summary>The forms of the stash: whatever is written, what is made can be kept and read back, and what cannot is told.</summary>
public class StashDraftTests
{
    private static readonly StashThread Thread = new("sail red", Colour.Parse("#b3202c"), 1.5) { Note = "by the window" };
    private static readonly StashCloth Cloth = new("lawn", Colour.Parse("#f4efe3"), Length.FromInches(44), Length.FromMetres(2));
    private static readonly Stash Standing = new()
    {
        Threads = [Thread], Cloths = [Cloth], Rates = new Rates { Money = "EUR", Skein = 1.2m, Hour = 20 },
        Pace = new Pace { Sittings = [new Sitting(200, 60)], Said = (100, 180), Besides = new Between(2, 4) },
    };

    private static readonly Gen<(int Act, int Text, int Number)[]> Answers = Gen.Select(Gen.Int[0, 20], Gen.Int[0, Tables.Texts.Length - 1], Gen.Int[0, 1000]).Array[1, 8];

    private static readonly Action<StashThreadDraft, string?, int>[] OfThread =
    [
        (d, t, _) => d.Name = t ?? "", (d, t, _) => d.ColourText = t ?? "", (d, t, _) => d.Note = t ?? "", (d, t, _) => d.SetSkeins(t), (d, _, n) => d.Skein = L(n), (d, t, _) => d.SetStrandsInSkein(t), (d, t, _) => d.SetTex(t),
    ];

    private static readonly Action<StashClothDraft, string?, int>[] OfCloth =
        [(d, t, _) => d.Name = t ?? "", (d, t, _) => d.ColourText = t ?? "", (d, t, _) => d.Note = t ?? "", (d, _, n) => d.Left = L(n), (d, _, n) => d.Width = L(n)];

    private static readonly Action<RatesDraft, string?, int>[] OfRates =
    [
        (d, t, _) => d.Money = t ?? "", (d, t, _) => d.SetSkein(t), (d, t, _) => d.SetCloth(t), (d, t, _) => d.SetHour(t), (d, _, n) => d.ClothPer = L(n), (d, t, _) => d.SetCables(t), (d, t, _) => d.SetMinutes(t),
        (d, _, _) => d.AddSitting(), (d, _, n) => { if (d.Sittings.Count > 0) d.RemoveSitting(n % d.Sittings.Count); }, (d, t, _) => d.SetSlow(t), (d, t, _) => d.SetQuick(t), (d, t, _) => d.SetLeast(t), (d, t, _) => d.SetMost(t),
    ];

    [Fact]
    public void A_thread_made_is_read_back_and_one_refused_says_why() => Holds(() => new StashThreadDraft(Thread), OfThread, d => d.Fault, d => d.Made is { } made ? Standing with { Threads = [made] } : null);

    [Fact]
    public void A_cloth_made_is_read_back_and_one_refused_says_why() => Holds(() => new StashClothDraft(Cloth), OfCloth, d => d.Fault, d => d.Made is { } made ? Standing with { Cloths = [made] } : null);

    [Fact]
    public void Rates_made_are_read_back_and_those_refused_say_why()
    {
        Stash? made = null;
        Holds(() => new RatesDraft(Standing), OfRates,
            d =>
            {
                _ = d.Comes;
                made = d.Make() is { } kept ? Standing with { Rates = kept.Rates, Pace = kept.Pace } : null;
                return d.Told;
            },
            _ => made);
    }

    [Fact]
    public void Forms_not_touched_make_what_stood_there()
    {
        Assert.Equal(Thread, new StashThreadDraft(Thread).Made);
        Assert.Equal(Cloth, new StashClothDraft(Cloth).Made);
        Assert.Equal((Standing.Rates, Standing.Pace), new RatesDraft(Standing).Make());
        Assert.Equal((new Rates(), Pace.Unknown), new RatesDraft(Stash.Empty).Make());
    }

    [Fact]
    public void A_sitting_written_down_goes_with_what_is_kept()
    {
        var draft = new RatesDraft(Stash.Empty);
        draft.SetCables("120");
        Assert.Null(draft.Make());
        Assert.Equal("A sitting is at least one cable, and takes some minutes.", draft.Told);
        draft.SetMinutes("40");
        Assert.Equal([new Sitting(120, 40)], draft.Make()!.Value.Pace.Sittings.ToArray());
    }

    private static void Holds<T>(Func<T> open, Action<T, string?, int>[] acts, Func<T, string> fault, Func<T, Stash?> made)
    {
        var (kept, refused) = (0, 0);
        Answers.Sample(answers =>
        {
            var draft = open();
            foreach (var (act, text, number) in answers)
            {
                acts[act % acts.Length](draft, Tables.Texts[text], number);
                var why = fault(draft);
                if (made(draft) is not { } stash) { Assert.EndsWith(".", why); refused++; continue; }
                Assert.Equal("", why);
                kept++;
                var written = StashWriter.Write(stash);
                Assert.Equal(written, StashWriter.Write(StashReader.Read(written)));
            }
        }, iter: 1000, threads: 1);
        Assert.True(kept > 150 && refused > 150, $"{kept} kept, {refused} refused");
    }

    private static Length L(int n) => Tables.Lengths[n % Tables.Lengths.Length];
}
