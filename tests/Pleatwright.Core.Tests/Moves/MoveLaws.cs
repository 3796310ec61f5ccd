using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Moves;
using Pleatwright.Order;
using Pleatwright.Order.Telling;
using Pleatwright.Tests.Endurance;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Moves;

/// <summary>What holds of the moves of every step of every piece.</summary>
public class MoveLaws
{
    private static WorkingOrder Plan(Piece piece) => Planner.Plan(Work.Lay(piece), Effort.Drawing);

    private static IEnumerable<(Direction Told, Passage Passage)> Steps(WorkingOrder order) =>
        from told in Directions.Write(order, LevelWords.UpDown) let passage = StepMoves.Of(order, told) where passage is not null select (told, passage);

    private static void Every(Action<WorkingOrder, Direction, Passage> holds) => MoveGen.Pieces.Sample(piece =>
    {
        var order = Plan(piece);
        foreach (var (told, passage) in Steps(order)) holds(order, told, passage);
    }, iter: Long.Of(60, 1000));

    // Only where a thread was tied off does another begin anywhere.
    private static bool Ends(Move move) => move.Kind == MoveKind.TieOff && move.Time.Number == move.Time.Of;

    [Fact]
    public void Every_move_ends_where_the_next_begins() => Every((_, _, passage) =>
    {
        foreach (var (move, next) in passage.Moves.Zip(passage.Moves.Skip(1)))
            if (!Ends(move)) Assert.Equal((move.Out, move.Emerges), (next.From, next.Lies));
    });

    [Fact]
    public void A_thread_carried_on_begins_where_it_was_left() => Every((order, _, passage) =>
    {
        foreach (var step in order.Steps)
            if (step.Starts == StartKind.Carry)
                Assert.Equal(StepMoves.Of(order, order.Steps[order.LastStepOf(step) - 1]).Moves[^1].Out, StepMoves.Of(order, step).Moves.First(m => m.Kind != MoveKind.Turn).From);
    });

    // On the face of the cloth and inside it by turns: wherever thread has lain, the needle next goes through; only coming up and going down changes the face.
    [Fact]
    public void The_thread_lies_over_and_goes_under_by_turns() => Every((_, _, passage) => Assert.All(passage.Moves, move =>
    {
        if (!move.Pierces) { Assert.Equal(move.Lies, move.Emerges); return; }
        Assert.Equal(move.In == move.Out, move.Lies != move.Emerges);
        if (move.Kind is MoveKind.Cable or MoveKind.Rope or MoveKind.Step)
        {
            // over two pleats, through the second of them against the way
            Assert.Equal(2 * passage.Way, move.In.Across - move.From.Across);
            Assert.Equal(-passage.Way, move.Out.Across - move.In.Across);
            Assert.Equal(move.In.Pleat, move.Out.Pleat);
        }
        if (move.Kind == MoveKind.Half) Assert.Equal((passage.Way, -passage.Way), ((int)(move.In.Across - move.From.Across), (int)(move.Out.Across - move.In.Across)));
    }));

    // Every pleat of a run is gone through once for the stitch that ends in it, and thread lies over it as often as the lattice has cables and half stitches there.
    [Fact]
    public void A_run_covers_each_pleat_as_often_as_the_lattice_says() => Every((order, told, passage) =>
    {
        if (told.Step is not { } step) return;
        var run = order.Work.Runs[step.RunIndex];
        var (low, high) = (Math.Min(step.From.Number, step.To.Number), Math.Max(step.From.Number, step.To.Number));
        var front = passage.Moves.Where(m => m.Lies == ClothSide.Right).ToList();
        for (var p = low; p <= high + 1; p++)
        {
            var pleat = new Pleat(p);
            var halves = (step.HalfAtBegin && pleat == First() ? 1 : 0) + (step.HalfAtEnd && pleat == Last() ? 1 : 0);
            var cables = Enumerable.Range(low, high - low + 1).Count(v => new Valley(v).LeftPleat == pleat || new Valley(v).RightPleat == pleat);
            Assert.Equal(cables + halves, front.Count(m => m.Over is var (a, b) && p >= a.Number && p <= b.Number));
            Assert.Equal(1 + halves, front.Count(m => m.In != m.Out && m.In.Pleat == pleat));
        }

        Pleat First() => order.TravelsRight(step) ? step.From.LeftPleat : step.From.RightPleat;
        Pleat Last() => order.TravelsRight(step) ? step.To.RightPleat : step.To.LeftPleat;
    });

    [Fact]
    public void Levels_and_lines_are_those_of_the_lattice() => Every((order, told, passage) =>
    {
        if (told.Step is not { } step) return;
        var run = order.Work.Runs[step.RunIndex];
        var gauge = order.Work.Pleating.Gauge;
        foreach (var move in passage.Moves.Where(m => m.Stitch >= 0))
        {
            var (first, last) = move.Over!.Value;
            var half = first == last;
            var begin = half && move.Stitch == 0;
            var valley = !half ? new Valley(first.Number) : begin ? step.From : step.To;
            var level = run.LevelAt(valley);
            Assert.Equal(half ? level.Opposite() : level, move.Level);
            var line = half ? Lattice.HalfStitchLine(valley, step.Row, run.Phase) : Lattice.LineOf(step.Row, level);
            var shown = Assert.Single(move.Shows);
            Assert.Equal(line.Index + 0.5, shown.From.Down, 6);
            Assert.Equal(line.Index + 0.5, shown.To.Down, 6);
            Assert.Equal((first.Number - 1.0, (double)last.Number), (Math.Min(shown.From.Across, shown.To.Across), Math.Max(shown.From.Across, shown.To.Across)));
            Assert.Equal(step.Row.Index * gauge.CableRowHeight.Millimetres, move.In.Height.Millimetres, 6);
        }
    });

    [Fact]
    public void Moves_of_a_step_make_exactly_its_stitches() => Every((order, told, passage) =>
    {
        var count = told.Step is { } step ? HeldStitch.Of(step).Length : told.Band?.Count ?? told.Back?.Cables ?? told.Accents.Length;
        Assert.Equal(Enumerable.Range(0, count), passage.Stitches);
        if (told.Step is { } run) Assert.Equal(HeldStitch.Of(run).Select(s => s.Held), passage.Moves.Where(m => m.Stitch >= 0).Select(m => passage.Held(m)!.Value));
        if (told.Band is { } band)
            Assert.All(passage.Moves.Where(m => m.Stitch >= 0), m => Assert.Equal(band.Pass.Stitches[band.First + m.Stitch].Level, m.Level));
    });

    // The back view of the plate is reckoned apart; both say where a thread comes up and where it goes down.
    [Fact]
    public void The_thread_comes_up_and_goes_down_where_the_back_view_has_it() => Every((order, told, passage) =>
    {
        if (told.Step is not { } step) return;
        var paths = order.BackPaths().Where(p => p.Step == step.Number).ToList();
        Assert.Equal(paths[0].Points[^1].Pleat - 0.5, passage.Moves.Single(m => m.Kind == MoveKind.ComeUp).In.Across);
        if (!step.TieOff) return;
        var off = paths.Single(p => p.Kind == BackPathKind.TieOff);
        Assert.Equal(off.Points[0].Pleat - 0.5, passage.Moves.Single(m => m.Kind == MoveKind.GoDown).In.Across);
        Assert.Equal(off.Points[^1].Pleat - 0.5, passage.Moves[^1].In.Across);
    });

    // Further than about three pleats a thread is not floated: it is cabled across on the back, and holds the pleats (as practitioners tell it; docs/directions.md). Directions, moves
    // and what is drawn of the path go by one rule: words and moves are compared here.
    [Fact]
    public void A_carry_further_than_three_pleats_is_cabled_across_and_said_so()
    {
        var far = 0;
        Every((order, told, passage) =>
        {
            if (told.Kind != DirectionKind.Step || (told.Step?.CarriedPleats ?? told.Band?.CarriedPleats ?? told.Back?.CarriedPleats) is not { } pleats) return;
            var across = passage.Moves.Where(m => m.Kind == MoveKind.Across).ToList();
            Assert.Equal(Math.Abs(pleats) > 3, told.Text.Contains($"cabled across {Math.Abs(pleats)} pleats", StringComparison.Ordinal));
            if (Math.Abs(pleats) <= 3) { Assert.Empty(across); return; }
            far++;
            // every pleat on the way lies under the thread, one after the other, and none beyond
            var onward = Math.Sign(pleats);
            double left = across[0].From.Across, to = left + pleats;
            Assert.Equal(Enumerable.Range(1, Math.Abs(pleats) - 1).Select(i => (left + onward * (i - 1), left + onward * (i + 1), left + onward * i)), across.Select(m => (m.From.Across, m.In.Across, m.Out.Across)));
            Assert.All(across, m => Assert.Equal((ClothSide.Wrong, ClothSide.Wrong, m.In.Height), (m.Lies, m.Emerges, m.From.Height)));
            Assert.Equal(Enumerable.Range(0, across.Count).Select(i => i % 2 == 0 ? Level.Up : Level.Down), across.Select(m => passage.Held(m)!.Value));
            Assert.Equal(to, passage.Moves[passage.Moves.IndexOf(across[^1]) + 1] is { Kind: MoveKind.ComeUp } up ? up.In.Across : passage.Moves.First(m => m.Stitch == 0).From.Across);
            var captions = new MoveWords(new Vocabulary(LevelWords.UpDown)).Of(passage, order.Work.Pleating.Gauge, told.Accents);
            Assert.Contains($"cabled across {Math.Abs(pleats)} pleats on the back: small cable 1 of {across.Count}.", captions[passage.Moves.IndexOf(across[0])], StringComparison.Ordinal);
        });
        Assert.True(far > 0);
    }

    [Fact]
    public void A_left_handed_maker_does_the_very_mirror() => Drawn.Pieces.Sample(piece =>
    {
        var order = Plan(piece);
        var pleats = order.Work.Pleating.Pleats;
        foreach (var step in order.Steps)
        {
            var mirrored = step with { From = new(pleats - step.From.Number), To = new(pleats - step.To.Number) };
            var other = Plan(Drawn.Mirrored(piece) with { Working = piece.Working with { Hand = Hand.Left } });
            var right = Sewing.Stitches(StepMoves.PassOf(order, step), order.Work.Pleating.Gauge).Select(m => Key(m, 0));
            var left = Sewing.Stitches(StepMoves.PassOf(other, mirrored), order.Work.Pleating.Gauge).Select(m => Key(m, pleats));
            Assert.Equal(right, left);
            var (rise, gauge) = (Sewing.Stitches(StepMoves.PassOf(order, step), order.Work.Pleating.Gauge).First().In, order.Work.Pleating.Gauge);
            var way = order.TravelsRight(step) ? 1 : -1;
            Assert.Equal(Sewing.Secure(rise, way, step.Turned, gauge).Select(m => Key(m, 0)), Sewing.Secure(Mirror(rise, pleats), -way, step.Turned, gauge).Select(m => Key(m, pleats)));
            Assert.Equal(Sewing.TieOff(rise, way, step.Cables, Level.Up, gauge).Select(m => Key(m, 0)), Sewing.TieOff(Mirror(rise, pleats), -way, step.Cables, Level.Up, gauge).Select(m => Key(m, pleats)));
        }

        static Prick Mirror(Prick at, int pleats) => pleats == 0 ? at : at with { Across = pleats - at.Across, Toward = -at.Toward };
        static object Key(Move m, int pleats) => (m.Kind, m.Stitch, Mirror(m.From, pleats), Mirror(m.In, pleats), Mirror(m.Out, pleats), m.Lies, m.Emerges, m.Level);
    }, iter: Long.Of(20, 400));

    [Fact]
    public void Bands_and_accents_of_a_left_hand_are_the_mirror_too() => Gen.Select(MoveGen.Bands, Gen.OneOf([.. Accent.All]), Gen.Int[2, 8]).Sample((band, accent, half) =>
    {
        var stitch = BandStitch.Named(band.Stitch)!;
        LaidBand Lay(Hand hand) => LaidBand.Lay(0, band, stitch, 2 * half, 5, hand);
        foreach (var (right, left) in Lay(Hand.Right).Passes.Zip(Lay(Hand.Left).Passes))
            Assert.Equal(Sewing.Stitches(right, Gauge.Common).Select(m => Key(m, 0)), Sewing.Stitches(left, Gauge.Common).Select(m => Key(m, 2 * half)));
        if (accent is not Flowerette) return;
        var laid = new LaidAccent(0, new AccentMark(accent.Name, Centre.Middle, new GatheringRow(3), new ThreadKey('r')), accent, new Valley(10), 2);
        Assert.Equal(Sewing.Accent(laid, 0, Gauge.Common, Hand.Right).Select(m => Key(m, 0)), Sewing.Accent(laid, 0, Gauge.Common, Hand.Left).Select(m => Key(m, 20)));

        static Prick Mirror(Prick at, int pleats) => pleats == 0 ? at : at with { Across = pleats - at.Across, Toward = -at.Toward };
        static object Key(Move m, int pleats) => (m.Kind, m.Stitch, Mirror(m.From, pleats), Mirror(m.In, pleats), Mirror(m.Out, pleats), m.Level);
    }, iter: Long.Of(50, 1000));

    [Fact]
    public void An_accents_words_tell_each_of_its_moves() => Assert.All(Accent.All, accent =>
    {
        Assert.Equal(accent.Manner, string.Concat(accent.Parts.Select(p => p.Words)));
        var laid = new LaidAccent(0, new AccentMark(accent.Name, Centre.Middle, new GatheringRow(3), new ThreadKey('r')), accent, new Valley(10), 2);
        Assert.Equal(accent.Parts.Sum(p => p.Moves), Sewing.Accent(laid, 0, Gauge.Common, Hand.Right).Length);
    });

    [Fact]
    public void Every_move_has_a_caption_in_the_words_of_the_directions() => Every((order, told, passage) =>
    {
        foreach (var levels in Enum.GetValues<LevelWords>())
        {
            var captions = new MoveWords(new Vocabulary(levels)).Of(passage, order.Work.Pleating.Gauge, told.Accents);
            Assert.Equal(passage.Moves.Length, captions.Length);
            Assert.All(captions, c => Assert.Matches(@"^[A-Z][^{}]*\.$", c));
            foreach (var (move, caption) in passage.Moves.Zip(captions))
                if (move.Kind is MoveKind.Cable)
                {
                    var held = told.Step is { } step ? HeldStitch.Of(step)[move.Stitch].Held : passage.Held(move)!.Value;
                    Assert.StartsWith($"{Phrases.A(Phrases.Level(held, levels)).Capital()} cable. ", caption, StringComparison.Ordinal);
                    Assert.Contains(Phrases.Thread(held, levels), caption, StringComparison.Ordinal);
                }
        }
        var opens = LongWords.RunsOpen();
        Assert.All((string[])[MoveWords.Securing, MoveWords.ComingUp, MoveWords.Beginning, MoveWords.GoingDown, MoveWords.TyingOff], words => Assert.Contains(words, opens, StringComparison.Ordinal));
    });

    // As the needle of a right hand goes against the way of its stitches, it is told so in either way of holding.
    [Fact]
    public void A_caption_says_which_way_the_needle_goes()
    {
        var order = Plan(Drawn.Piece(5, "aaa") with { Back = Backsmocking.None });
        string[] Captions(WorkingOrder of, LevelWords levels) => [.. new MoveWords(new Vocabulary(levels)).Of(StepMoves.Of(of, of.Steps[0]), of.Work.Pleating.Gauge, [])];
        Assert.Equal("Needle through the next pleat, from right to left, with the thread above the needle.", Captions(order, LevelWords.UpDown).First(c => c.StartsWith("An up", StringComparison.Ordinal))["An up cable. ".Length..]);
        Assert.Equal("Needle through the next pleat, toward you, with the thread left of the needle.", Captions(order, LevelWords.LeftRight).First(c => c.StartsWith("A left", StringComparison.Ordinal))["A left cable. ".Length..]);
        var left = Plan(order.Work.Piece with { Working = order.Work.Piece.Working with { Hand = Hand.Left } });
        Assert.Contains("from left to right", Captions(left, LevelWords.UpDown).First(c => c.StartsWith("An up", StringComparison.Ordinal)), StringComparison.Ordinal);
    }
}
