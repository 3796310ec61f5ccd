using CsCheck;
using Pleatwright.Bench.Model;
using Pleatwright.Bench.Model.Chair;
using Pleatwright.Bench.Model.Drafts;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Moves;
using Pleatwright.Chart.Edit;
using Pleatwright.Order;
using Pleatwright.Tests.Keeping;

namespace Pleatwright.Tests.Chair;

/// <summary>A chair in a bench in a browser.</summary>
internal sealed class AChair
{
    public AChair(AShelf at, FakeBrowser.Tab? reloaded = null, FakeBrowser? browser = null, int after = 0)
    {
        At = at;
        Bench = at.Open(reloaded, browser);
        if (after > 0) at.Thread.Pass(after); // the bench is looked at before the chair is sat at
        at.Thread.Do(() => Ticking = new Ticking(Bench.Desk, Bench.Keeper, Bench.Places, Bench.Tab));
        at.Thread.Do(Ticking.SitDownAsync);
    }

    public AShelf At { get; }

    public ABench Bench { get; }

    public Ticking Ticking { get; private set; } = null!;

    public void Do(Action<Ticking> act) => At.Thread.Do(() => act(Ticking));

    public void Edit(Func<Piece, Piece> change)
    {
        At.Thread.Do(() => Bench.Desk.Edit("an edit", change));
        At.Thread.Do(Ticking.SitDownAsync);
    }

    public void Open(string example)
    {
        At.Thread.Do(() => Bench.Keeper.OpenExampleAsync(example));
        At.Thread.Do(Ticking.SitDownAsync);
    }
}

public class TickingLaws
{
    private enum Act { Tick, Ten, Item, Back, GoTo, Undo, Redo, Hold, Left, Recolour, Right, Reload, Key }

    private static readonly Gen<(Act Act, int Number)[]> Acts =
        Gen.Select(Gen.Int[0, 12].Select(n => (Act)n), Gen.Int[0, 400]).Array[1, 40];

    [Fact]
    public void Whatever_is_done_at_the_chair_counts_add_up_and_the_place_comes_back() => Gen.Select(Gen.Int[0, 8].Select(i => Examples.Names.ElementAt(i % Examples.Names.Count())), Acts).Sample((example, acts) =>
    {
        var at = new AShelf();
        var chair = new AChair(at);
        chair.Open(example);
        var used = false; // a tick makes an example the maker's own, as an edit does
        foreach (var (act, number) in acts)
        {
            var t = chair.Ticking;
            var (done, tick) = (t.Done, t.Tick);
            switch (act)
            {
                case Act.Tick:
                    chair.Do(c => c.TickOne());
                    Assert.Equal(Math.Min(done + 1, t.Work.Ticks), t.Done);
                    break;
                case Act.Ten: chair.Do(c => c.TickMany(10)); Assert.InRange(t.Done, done, done + 10); break;
                case Act.Item:
                    var item = t.Item;
                    chair.Do(c => c.TickItem());
                    Assert.True(t.Item > item || t.Now is null);
                    break;
                case Act.Back: chair.Do(c => c.TakeBack()); Assert.Equal(Math.Max(0, tick - 1), t.Tick); break;
                case Act.GoTo:
                    chair.Do(c => c.GoTo(number));
                    Assert.Equal(Math.Min(number, t.Work.Items.Length - 1), t.Item);
                    Assert.Equal(0, t.InItem);
                    break;
                case Act.Undo when t.CanUndo: chair.Do(c => c.Undo()); chair.Do(c => c.Redo()); Assert.Equal((done, tick), (t.Done, t.Tick)); break;
                case Act.Redo: chair.Do(c => c.Redo()); break;
                case Act.Hold: chair.Do(c => c.Hold(number % 2 == 0)); Assert.Equal((done, tick), (t.Done, t.Tick)); break;
                case Act.Key: chair.Do(c => c.Press((string[])["ArrowRight", "ArrowUp", "PageDown", "x", " "] is var keys ? keys[number % 5] : "")); break;
                case Act.Left or Act.Right:
                    chair.Edit(p => p with { Working = p.Working with { Hand = act == Act.Left ? Hand.Left : Hand.Right } });
                    Assert.Equal(0, t.Gone); // the other hand works the same stitches
                    break;
                case Act.Recolour:
                    chair.Edit(p => p with { Threads = [.. p.Threads.Select((f, i) => i == 0 ? f with { Strands = 1 + number % 6 } : f)] });
                    Assert.Equal(0, t.Gone);
                    break;
                case Act.Reload:
                    var written = t.Worked.Write();
                    at.Thread.Do(() => chair.Bench.Tab.Close());
                    chair = new AChair(at, chair.Bench.Tab, after: number % 3);
                    if (!used) { chair.Open(example); break; } // an example nothing was done to is begun anew
                    Assert.Equal(Examples.Read(example).Title, chair.Bench.Desk.Piece.Title);
                    Assert.Equal(written, chair.Ticking.Worked.Write());
                    break;
            }
            t = chair.Ticking;
            used |= t.Done > 0 || chair.Bench.Desk.History.CanUndo;
            Assert.Equal(t.Work.Next(t.Worked), t.Tick);
            Assert.Equal(t.Work.Done(t.Worked), t.Done);
            Assert.True(t.Tick == t.Work.Ticks || !t.Worked.Has(t.Work[t.Tick]));
            Assert.True(t.Now is null || t.InItem < t.Work.TicksOf(t.Item));
        }
    }, iter: 60);

    [Fact]
    public void Cut_for_another_gauge_the_ticks_are_asked_about_and_undone_they_hold()
    {
        var chair = new AChair(new AShelf());
        chair.Open("first-pennant");
        chair.Do(c => c.TickMany(7));
        void Recut() => chair.At.Thread.Do(() =>
        {
            var draft = new GaugeDraft(chair.Bench.Desk);
            draft.SetPerSpace(4);
            Assert.Contains(draft.Changes, c => c.Contains("ticked so far belongs to the piece as it was", StringComparison.Ordinal));
            Assert.True(draft.Keep());
        });
        Recut();
        chair.At.Thread.Do(chair.Ticking.SitDownAsync);
        Assert.True(chair.Ticking is { CutSince: true, InDoubt: true });
        Assert.Contains("cut for another gauge after 7 stitches were ticked", ChairWords.Doubt(chair.Ticking), StringComparison.Ordinal);
        chair.At.Thread.Do(() => chair.Bench.Desk.Undo());
        chair.At.Thread.Do(chair.Ticking.SitDownAsync);
        Assert.True(chair.Ticking is { CutSince: false, InDoubt: false, Done: 7 });
        chair.At.Thread.Do(() => chair.Bench.Desk.Redo());
        chair.At.Thread.Do(chair.Ticking.SitDownAsync);
        Assert.True(chair.Ticking is { CutSince: true, InDoubt: true });
        // It is asked after a reload, too, until the maker has said.
        chair.At.Thread.Pass(2);
        chair.At.Thread.Do(() => chair.Bench.Tab.Close());
        chair = new AChair(chair.At, chair.Bench.Tab, after: 1);
        Assert.True(chair.Ticking is { CutSince: true, InDoubt: true });
        chair.Do(c => c.BeginAnew());
        Assert.True(chair.Ticking is { CutSince: false, InDoubt: false, Done: 0, Tick: 0, Gone: 0 });
        chair.Do(c => c.Undo());
        Assert.Equal(7, chair.Ticking.Worked.Count);
    }

    [Fact]
    public void An_edit_elsewhere_keeps_the_place_and_an_edit_underfoot_is_told()
    {
        var chair = new AChair(new AShelf());
        chair.Open("harbour-morning");
        var work = chair.Bench.Desk.Work;
        chair.Do(c => Assert.True(c.GoToStep(20))); // well into the boats
        chair.Do(c => c.TickMany(3));
        var before = chair.Ticking.Worked.Write();

        // A lone cable between the last gathering rows, where nothing is cabled on the back: the order is planned anew.
        var thread = work.Piece.Threads[0].Key;
        chair.Edit(p => Draw.Cables(p, [(new Valley(2), new CableRow(work.CableRows - 3))], thread).Piece);
        Assert.Equal(before, chair.Ticking.Worked.Write());
        Assert.False(chair.Ticking.InDoubt);
        Assert.Equal(0, chair.Ticking.Gone);

        // Every figure taken off: what was stitched of them is told, and forgotten only when the maker says so.
        chair.Edit(p => p with { Placements = [] });
        Assert.True(chair.Ticking.Gone > 0);
        Assert.True(chair.Ticking.InDoubt);
        Assert.Equal(before, chair.Ticking.Worked.Write());
        chair.Do(c => c.PlaceIsRight());
        Assert.Equal(0, chair.Ticking.Gone);
        Assert.False(chair.Ticking.InDoubt);
    }

    [Fact]
    public void The_place_that_an_older_bench_kept_is_found_and_the_maker_is_asked_to_look()
    {
        var at = new AShelf();
        var chair = new AChair(at);
        chair.Open("harbour-morning");
        var (first, second) = (chair.Ticking.Work.TicksOf(0), chair.Ticking.Work.TicksOf(1));
        Assert.True(second > 2);
        at.Thread.Do(() => chair.Bench.Tab.RememberAsync($"place\n{chair.Bench.Keeper.Key}", "1 2 0123456789abcdef"));
        var again = new Ticking(chair.Bench.Desk, chair.Bench.Keeper, chair.Bench.Places, chair.Bench.Tab);
        at.Thread.Do(again.SitDownAsync);
        Assert.Equal(first + 2, again.Tick);
        Assert.True(again.InDoubt);
    }

    [Fact]
    public void Undo_at_the_chair_takes_back_a_tick_and_never_an_edit_of_the_design()
    {
        var chair = new AChair(new AShelf());
        var undoing = new Undoing(chair.Bench.Desk, chair.Bench.Basket, chair.Ticking);
        chair.Open("harbour-morning");
        chair.Edit(p => p with { Title = "Mine" });
        Assert.False(undoing.CanUndo(View.Stitch));
        chair.At.Thread.Do(() => undoing.Undo(View.Stitch));
        Assert.Equal("Mine", chair.Bench.Desk.Piece.Title);
        chair.Do(c => c.TickItem());
        Assert.Equal("a tick", undoing.Edit(View.Stitch));
        chair.At.Thread.Do(() => undoing.Undo(View.Stitch));
        Assert.Equal((0, "Mine"), (chair.Ticking.Done, chair.Bench.Desk.Piece.Title));
        chair.At.Thread.Do(() => undoing.Undo(View.Table));
        Assert.NotEqual("Mine", chair.Bench.Desk.Piece.Title);
    }

    [Fact]
    public void A_pedal_is_any_key_the_maker_presses_while_it_is_set()
    {
        var chair = new AChair(new AShelf());
        chair.Open("harbour-morning");
        chair.Do(c => c.SetPedal());
        chair.Do(c => Assert.True(c.Press("F13")));
        chair.Do(c => Assert.True(c.Press("F13")));
        Assert.Equal(1, chair.Ticking.Done);
        chair.Do(c => Assert.False(c.Press("F14")));
        chair.Do(c => c.SetPedal());
        chair.Do(c => c.Press("Escape"));
        Assert.Equal("F13", chair.Ticking.Pedal);
        var again = new Ticking(chair.Bench.Desk, chair.Bench.Keeper, chair.Bench.Places, chair.Bench.Tab);
        Assert.Equal("F13", again.Pedal);
    }
}

public class HeldSceneLaws
{
    // What the hands see is the chart, turned with the work: the lattice is the outside source, asked cell by cell.
    [Fact]
    public void The_scene_is_the_chart_as_held() => Chart.PieceGen.Pieces.Sample(piece =>
    {
        Work work;
        try { work = Work.Lay(piece); }
        catch (ArgumentException) { return; }
        var order = Planner.Plan(work, Effort.Drawing);
        var chair = ChairWork.Of(order, LevelWords.UpDown);
        for (var i = 0; i < chair.Items.Length; i++)
        {
            if (chair.Items[i].Step is not { } step || HeldScene.Of(order, chair.Items[i], Worked.Nothing, reach: 1000) is not { } scene) continue;
            Assert.Equal(chair.TicksOf(i), scene.Run.Length);
            Assert.Equal(work.Cables + work.Runs.ToArray().Sum(r => r.HalfStitches), scene.Run.Length + scene.Ahead.Length);
            Assert.Empty(scene.Worked);
            foreach (var s in scene.Run.Concat(scene.Ahead))
            {
                // Held back to the chart: turned by half a circle again.
                var left = step.Turned ? scene.Pleats - s.Left - s.Pleats : s.Left;
                var line = (int)(step.Turned ? scene.Lines - 1 - s.Line : s.Line);
                Assert.Equal(s.Held == Level.Up, (line % 2 == 0) != step.Turned);
                if (s.Pleats == 1) continue;
                var (valley, row) = (new Valley((int)left + 1), new CableRow(line / 2));
                Assert.Equal(s.Thread, work.ThreadAt(valley, row));
                Assert.Equal(Lattice.LevelAt(valley, row, work.PhaseAt(valley, row)), line % 2 == 0 ? Level.Up : Level.Down);
            }
            var onward = scene.IsForward ? 1 : -1;
            var cables = scene.Run.Where(s => s.Pleats == 2).ToArray();
            for (var c = 1; c < cables.Length; c++) Assert.Equal(cables[c - 1].Left + onward, cables[c].Left);
        }
    }, iter: 100);

    // What is held is where the moves of the step lay it, stitch by stitch: runs and the back, bands and accents.
    [Fact]
    public void What_the_chair_holds_lies_on_the_path_of_the_moves() => Moves.MoveGen.Pieces.Sample(piece =>
    {
        var order = Planner.Plan(Work.Lay(piece), Effort.Drawing);
        var gauge = order.Work.Pleating.Gauge;
        var chair = ChairWork.Of(order, LevelWords.UpDown);
        for (var i = 0; i < chair.Items.Length; i++)
        {
            var passage = StepMoves.Of(order, chair.Items[i].Told)!;
            var (turned, pleats, lines) = (passage.Turned, order.Work.Pleating.Pleats, 2 * order.Work.CableRows);
            var sewn = passage.Moves.Where(m => m.Stitch >= 0).ToList();
            if (HeldScene.Of(order, chair.Items[i], Worked.Nothing) is { } scene)
            {
                Assert.Equal(sewn.Count, scene.Run.Length);
                foreach (var (move, held) in sewn.Zip(scene.Run))
                {
                    var mirrored = turned != (move.Lies == ClothSide.Wrong);
                    double a = Held(move.From.Across, mirrored), b = Held(move.In.Across, mirrored);
                    Assert.Equal((Math.Min(a, b), Math.Abs(a - b)), (held.Left, (double)held.Pleats));
                    Assert.Equal(passage.Held(move), held.Held);
                    // a line lies half a line beside the needle, on the side where the thread was held
                    var row = move.In.On(gauge).Down;
                    Assert.Equal(turned ? lines - row : row, held.Line + (held.Held == Level.Up ? 1 : 0), 6);
                    Assert.Equal(passage.Rightward(move.Lies), scene.IsForward);
                }
                continue;
            }
            var shapes = chair.Items[i].Band is { } band ? HeldBand.Of(order.Work, band).Shapes.Where(s => s.Stitch >= 0 && s.Stitch < band.Count) : HeldAccents.Shapes(order.Work, chair.Items[i].Told.Accents);
            var shown = from move in sewn from shape in move.Shows where shape.Kind != ShapeKind.Hidden select shape;
            Assert.Equal(shown.Select(Key).Order(), shapes.Where(s => s.Shape.Kind != ShapeKind.Hidden).Select(s => Key(turned ? s.Shape with { From = Back(s.Shape.From), To = Back(s.Shape.To) } : s.Shape)).Order());
            // thread inside a fold goes as the needle does
            foreach (var slip in shapes.Where(s => s.Shape.Kind == ShapeKind.Hidden))
            {
                var move = Assert.Single(sewn, m => m.LastStitch == slip.Stitch);
                var (from, to) = turned ? (Back(slip.Shape.From), Back(slip.Shape.To)) : (slip.Shape.From, slip.Shape.To);
                Assert.Equal((move.In.On(gauge).Down, move.Out.On(gauge).Down), (from.Down, to.Down), (a, b) => Math.Abs(a.Item1 - b.Item1) + Math.Abs(a.Item2 - b.Item2) < 1e-6);
            }

            double Held(double across, bool mirrored) => mirrored ? pleats - across : across;
            ChartPlace Back(ChartPlace place) => new(pleats - place.Across, -place.Down);
            static string Key(StitchShape s) => FormattableString.Invariant($"{s.Kind} {s.From.Across:0.###} {s.From.Down:0.###} {s.To.Across:0.###} {s.To.Down:0.###} {s.Width:0.###}");
        }
    }, iter: 60);
}
