using CsCheck;
using Pleatwright.Bench.Model.Drafts;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Bench.Model.Table.Verbs;
using Pleatwright.Bench.Model.Tracing;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Edit;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Picture;
using Pleatwright.Thread;

namespace Pleatwright.Model.Tests.Table;

/// <summary>Whatever is done at the table, in any order: nothing breaks, and nothing is lost.</summary>
public class TableLaws
{
    private static readonly Piece Small = Pieces.New(new Panel(Length.FromInches(2)), 3);

    /// <summary>Small pieces with figures, copies and bands of every kind, and now and then the large ones.</summary>
    private static readonly Gen<Piece> AnyPiece = AtTable.Mixed(
        (6, AtTable.Pick(Small)), (4, AtTable.Pick(Pieces.Empty)), (1, AtTable.Pick([.. Pieces.All.Select(p => p.Piece)])),
        (8, from width in Gen.Int[1, 9]
            from height in Gen.Int[1, 6]
            from rows in AtTable.Pick('r', 'b', '.', '.').Array[width].Select(r => new string(r)).Array[height]
            from placed in Gen.Select(Gen.Int[1, 23], Gen.Int[1, 3], Gen.Int[0, height - 1], Gen.Int[1, 3], Gen.Int[2, 12], Gen.Bool, Gen.Bool).Array[0, 3]
            from phase in Gen.Enum<Phase>()
            from band in AtTable.Pick([.. BandStitch.All.Select(b => b.Name)])
            from bands in Gen.Int[0, 1]
            select Small with
            {
                Phase = phase,
                Figures = [new Figure("float", [.. rows])],
                Placements = [.. placed.Select(p => new Placement("float", Centre.At(new Valley(p.Item1)), new GatheringRow(p.Item2), p.Item3)
                {
                    Repeat = p.Item4 == 1 ? Repeat.Once : new Repeat(p.Item4, p.Item5), Mirror = p.Item6, FlipPhase = p.Item7,
                })],
                Bands = bands == 0 ? [] : [new Band(band, new GatheringRow(2), new ThreadKey('b'))],
            }));

    private sealed record Act(string Words, Action<AtTable> Do);

    private static readonly Gen<Act> APointer =
        from id in Gen.Int[1, 3]
        from kind in Gen.Enum<PointerKind>()
        from move in AtTable.Mixed((4, AtTable.Pick(PointerMove.Down)), (6, AtTable.Pick(PointerMove.Move)), (3, AtTable.Pick(PointerMove.Up)), (1, AtTable.Pick(PointerMove.Cancel)))
        from buttons in AtTable.Pick(PointerButtons.Main, PointerButtons.Main, PointerButtons.Main, PointerButtons.Other, PointerButtons.Middle, PointerButtons.Eraser, PointerButtons.None)
        from held in AtTable.Pick(Held.None, Held.None, Held.None, Held.Shift, Held.Ctrl)
        from x in Gen.Double[-30, 930]
        from y in Gen.Double[-30, 630]
        from size in AtTable.Pick(1.0, 20, 25, 90)
        select new Act($"{kind} {id} {move} {x:0} {y:0}", at => at.Point(move, x, y, kind, (int)kind * 10 + id, buttons, held, size));

    private static Act Of(string words, Action<AtTable> act) => new(words, act);

    private static Act Edit(string words, Func<Piece, Piece> change) => new(words, at => at.Desk.Edit(words, change));

    private static readonly Lazy<Traced[]> Traces = new(() => [Tracing.AddingLaws.Disc(6, 0), Tracing.AddingLaws.Disc(9, 5)]);

    /// <summary>What the sheets do, with any choices.</summary>
    private static readonly Gen<Act> ASheet = Gen.Select(Gen.Int[0, 18], Gen.Int[0, 60], Gen.Int[-3, 40], Gen.Int[0, 3]).Select((what, a, b, c) => what switch
    {
        0 => Of("a thread added", at => at.Desk.Edit("another thread", p => Threads.Add(p, new Floss(Threads.FreeKey(p) ?? new('a'), $"t{a}", new Colour((byte)a, (byte)b, 90), 1 + c)))),
        1 => Of("a thread relettered", at => { if (at.Piece.Threads.FirstOrDefault() is { } t) at.Desk.Edit("a thread changed", p => Threads.Change(p, t.Key, t with { Key = new((char)('a' + a % 26)) })); }),
        2 => Of("a thread taken away", at => { if (at.Piece.Threads.LastOrDefault() is { } t) at.Desk.Edit("a thread taken away", p => Threads.Remove(p, t.Key, c > 1 ? p.Threads[0].Key : null)); }),
        3 => Of("other cloth", at => at.Desk.Edit("other cloth", p => OtherCloth.To(p, p.Cloth with { Form = p.Cloth.Form is Panel ? new Panel(Length.FromInches(1 + a / 20.0)) : p.Cloth.Form, GatheringRows = 2 + c }))),
        4 => Of("other gauge", at => at.Desk.Edit("other cloth", p => OtherCloth.To(p, p.Cloth with { Gauge = new Gauge(p.Cloth.Gauge.Pitch, p.Cloth.Gauge.TakeUp, p.Cloth.Gauge.RowSpacing, 1 + a % 7) }))),
        5 => Of("a band", at => { if (at.Piece.Threads.FirstOrDefault() is { } t) at.Desk.Edit("a band", p => Bands.Put(p, new Band(BandStitch.All[a % BandStitch.All.Length].Name, new GatheringRow(1 + c), t.Key))); }),
        6 => Of("a band taken off", at => { if (!at.Piece.Bands.IsEmpty) at.Desk.Edit("a band taken off", p => Bands.TakeOff(p, p.Bands[a % p.Bands.Length])); }),
        7 => Of("an accent", at => at.Needle.TakeAccent(Accent.All[a % Accent.All.Length].Name)),
        8 => Of("repeating", at => { if (!at.Piece.Placements.IsEmpty) at.Desk.Edit("repeating", p => Placing.Repeat(p, a % p.Placements.Length, c, b)); }),
        9 => Of("a figure renamed", at => { if (!at.Piece.Figures.IsEmpty) at.Desk.Edit("a figure renamed", p => Figures.Rename(p, p.Figures[a % p.Figures.Length].Name, c == 0 ? "" : $"n{b}")); }),
        10 => Of("a figure thrown away", at => { if (!at.Piece.Figures.IsEmpty) at.Desk.Edit("a figure thrown away", p => Figures.Remove(p, p.Figures[a % p.Figures.Length].Name)); }),
        11 => Of("a figure put on", at => { if (!at.Piece.Figures.IsEmpty) at.Desk.Edit("a figure put on", p => Placing.Add(p, p.Figures[a % p.Figures.Length].Name, at.Needle.Valley, at.Needle.Row)); }),
        12 => Of("a finding mended", at => { if (at.Desk.Findings.Where(f => f.Mend is not null).Skip(a % 5).FirstOrDefault() is { Mend: { } mend }) at.Desk.Edit(mend.Words, mend.Apply); }),
        13 => Of("another doing", at => at.Needle.TakeUp((Doing)(a % 5))),
        14 => Of("a thread taken up", at => at.Needle.TakeThread(at.Piece.Threads.IsEmpty || c == 0 ? null : at.Piece.Threads[a % at.Piece.Threads.Length].Key)),
        15 => Of("sizes kept", at =>
        {
            var draft = new SizesDraft(at.Desk, at.Time);
            draft.Add();
            draft.SetMeasure(draft.Sizes.Count - 1, Length.FromInches(a / 10.0));
            draft.SetRows(draft.Sizes.Count - 1, b);
            if (c == 0) draft.LeaveOut(0);
            Assert.Equal(draft.Fault.Length == 0, draft.Keep());
        }),
        16 => Of("swatches kept", at =>
        {
            var draft = new SwatchesDraft(at.Desk);
            (draft.Swatches[^1].Pleats, draft.Swatches[^1].Width, draft.Swatches[^1].Cloth) = (b, Length.FromInches(a / 10.0), Length.FromInches(a / 10.0 * c));
            draft.PlanBy = a % 2 == 0;
            draft.Changed();
            Assert.Equal(draft.Fault.Length == 0, draft.Keep());
        }),
        17 => Of("a traced figure added", at => { if (at.Piece.Figures.Length < 6) Adding.To(at.Desk, Traces.Value[a % 2], c > 0); }),
        _ => Of("a sheet put away", at => at.Sheets.PutAway(at.Sheets.Turn - c)),
    });

    private static readonly Gen<Act> AnAct = AtTable.Mixed(
        (12, APointer),
        (9, AtTable.Pick([.. Verb.All]).Select(v => Of(v.Words, at => v.Do(at.Place)))),
        (2, AtTable.Pick([.. Verb.All.Where(v => v.Key.Length > 0).Select(v => v.Key), "r", "b", "q", "F13"]).Select(k => Of($"key {k}", at => at.Key(k)))),
        (1, AtTable.Pick("keydown", "keyup").Select(k => Of($"{k} space", at => at.Hand.Hear(k, " ")))),
        (1, Gen.Select(Gen.Double[-300, 300], Gen.Double[-300, 300], Gen.Int[0, 7]).Select((x, y, h) => Of("wheel", at => at.Hand.Hear("wheel", FormattableString.Invariant($"400 300 {x} {y} 0 {h}"))))),
        (1, AtTable.Pick(Of("blur", at => at.Hand.Hear("blur", "")))),
        (2, Gen.Int[1, 400].Select(ms => Of($"{ms} ms", at => at.Time.Advance(TimeSpan.FromMilliseconds(ms))))),
        (2, Gen.Select(Gen.Int[1, 200], Gen.Int[0, 30]).Select((v, r) => Of($"go to {v} {r}", at => at.Needle.GoTo(new Valley(v), new CableRow(r))))),
        (1, AtTable.Pick("Ctrl+z", "Ctrl+y").Select(k => Of(k, at => at.Key(k)))),
        (4, ASheet),
        (1, AnyPiece.Select(p => Of("another piece", at => at.Desk.Open(p)))));

    private static readonly Gen<(Piece Piece, Act[] Acts)> Anything = Gen.Select(AnyPiece, AnAct.Array[1, 40]);

    private static string Tell((Piece Piece, Act[] Acts) doing) => string.Join("; ", doing.Acts.Select(a => a.Words));

    private static AtTable After((Piece Piece, Act[] Acts) doing, Action<AtTable>? each = null)
    {
        var at = new AtTable(doing.Piece);
        foreach (var act in doing.Acts)
        {
            act.Do(at);
            each?.Invoke(at);
        }
        return at;
    }

    private static void Sound(AtTable at)
    {
        var (desk, needle, work) = (at.Desk, at.Needle, at.Desk.Work);
        Assert.Same(desk.Piece, work.Piece);
        Assert.True(work.OnCloth(needle.Valley, needle.Row), "the hand is off the cloth");
        if (needle.Area is { } area) Assert.True(work.OnCloth(area.From, area.Top) && work.OnCloth(area.To, area.Bottom), "what is marked is off the cloth");
        if (needle.Thread is { } thread) Assert.NotNull(desk.Piece.Thread(thread));
        if (needle.Drawing is { } figure) Assert.NotNull(desk.Piece.Figure(figure));
        // The mirror rule, cell by cell, and each cable in exactly one run.
        var cables = 0;
        foreach (var run in work.Runs)
        {
            cables += run.Cables;
            for (var v = run.From.Number; v <= run.To.Number; v++)
            {
                Assert.True(work.IsWorked(new Valley(v), run.Row));
                Assert.Equal(((v + run.Row.Index + (int)run.Phase) & 1) == 0 ? Level.Up : Level.Down, run.LevelAt(new Valley(v)));
            }
        }
        Assert.Equal(work.Cables, cables);
        Assert.All(Offered.At(at.Place), v => Assert.True(v.Can(at.Place)));
    }

    [Fact]
    public void Nothing_breaks_whatever_is_done()
    {
        var acts = 0L;
        Anything.Sample(doing =>
        {
            var at = After(doing, Sound);
            Interlocked.Add(ref acts, doing.Acts.Length);
            at.Hand.Hear("blur", "");
            Assert.Same(at.Desk.History.Now.Piece, at.Piece); // no stroke is left hanging
            // It can be put away and taken up again.
            var text = PieceWriter.Write(at.Piece);
            Assert.Equal(text, PieceWriter.Write(PieceReader.Read(text)));
        }, iter: 1200, threads: 1, print: Tell);
        TestContext.Current.TestOutputHelper?.WriteLine($"{acts} acts");
        Assert.True(acts > 20_000, $"{acts} acts");
    }

    [Fact]
    public void A_verb_offered_is_done_or_says_why_not()
    {
        Gen.Select(Anything, AtTable.Pick([.. Verb.All])).Sample((doing, verb) =>
        {
            var at = After(doing);
            var (can, before, said) = (verb.Can(at.Place), at.Place.State, at.Said.Count);
            verb.Do(at.Place);
            Assert.NotEqual(before, at.Place.State);
            if (can) Assert.DoesNotContain(at.Said.Skip(said), w => w.EndsWith("not here.", StringComparison.Ordinal));
        }, iter: 300, threads: 1, print: t => Tell(t.Item1) + " | " + t.Item2.Words);
    }

    [Fact]
    public void Undone_and_done_again_it_is_the_same_piece()
    {
        Anything.Sample(doing =>
        {
            var at = After(doing);
            at.Hand.Hear("blur", "");
            var moments = new List<Piece> { at.Piece };
            while (at.Desk.History.CanUndo) { at.Key("Ctrl+z"); moments.Add(at.Piece); }
            moments.Reverse();
            Assert.Same(moments[0], at.Piece);
            foreach (var moment in moments.Skip(1)) { at.Key("Ctrl+y"); Assert.Same(moment, at.Piece); }
            Sound(at);
        }, iter: 200, threads: 1, print: Tell);
    }

    [Fact]
    public void A_stroke_taken_back_leaves_the_piece_as_it_was()
    {
        Gen.Select(Anything, Gen.Select(Gen.Double[0, 900], Gen.Double[0, 600]).Array[1, 6], AtTable.Pick(PointerKind.Mouse, PointerKind.Pen), Gen.Bool).Sample((doing, places, kind, other) =>
        {
            var at = After(doing);
            at.Hand.Hear("blur", "");
            var (piece, history, drawing) = (at.Piece, at.Desk.History, at.Needle.Drawing);
            var buttons = other ? PointerButtons.Other : PointerButtons.Main;
            at.Point(PointerMove.Down, places[0].Item1, places[0].Item2, kind, 77, buttons);
            foreach (var (x, y) in places) at.Point(PointerMove.Move, x, y, kind, 77, buttons);
            at.Point(PointerMove.Cancel, 0, 0, kind, 77);
            Assert.Same(piece, at.Piece);
            Assert.Same(history, at.Desk.History);
            Assert.Equal(drawing, at.Needle.Drawing);
        }, iter: 300, threads: 1, print: t => Tell(t.Item1));
    }

    /// <summary>Two fingers, however they come down, move and go up, and however long the first was there alone.</summary>
    [Fact]
    public void A_pinch_leaves_nothing()
    {
        var finger = Gen.Select(Gen.Double[0, 900], Gen.Double[0, 600]);
        Gen.Select(Anything, finger.Array[1, 4], Gen.Int[0, 600], Gen.Select(Gen.Int[1, 2], finger).Array[0, 8], Gen.Select(Gen.Bool, Gen.Bool, Gen.Int[0, 900])).Sample((doing, first, wait, both, end) =>
        {
            var at = After(doing);
            at.Hand.Hear("blur", "");
            at.Time.Advance(Pointing.Lately); // no pen about
            var (piece, history, place) = (at.Piece, at.Desk.History, at.Needle.Place);
            void Finger(PointerMove move, int id, (double X, double Y) p) => at.Point(move, p.X, p.Y, PointerKind.Touch, 100 + id, size: 20);
            Finger(PointerMove.Down, 1, first[0]);
            foreach (var p in first) Finger(PointerMove.Move, 1, p);
            at.Time.Advance(TimeSpan.FromMilliseconds(wait));
            Finger(PointerMove.Down, 2, (450, 300));
            foreach (var (id, p) in both) Finger(PointerMove.Move, id, p);
            var up = end.Item1 ? 1 : 2;
            Finger(end.Item2 ? PointerMove.Cancel : PointerMove.Up, up, (450, 300));
            at.Time.Advance(TimeSpan.FromMilliseconds(end.Item3));
            Finger(PointerMove.Move, 3 - up, (300, 200));
            Finger(PointerMove.Up, 3 - up, (300, 200));
            Assert.Same(piece, at.Piece);
            Assert.Same(history, at.Desk.History);
            Assert.Equal((place.Drawing, place.Another, place.Area), (at.Needle.Place.Drawing, at.Needle.Place.Another, at.Needle.Place.Area));
        }, iter: 300, threads: 1, print: t => Tell(t.Item1));
    }
}
