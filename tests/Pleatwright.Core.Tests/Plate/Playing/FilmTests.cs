using System.Text.Json;
using CsCheck;
using Jint;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Moves;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Playing;
using Pleatwright.Stitched;

namespace Pleatwright.Tests.Plate.Playing;

public class FilmTests
{
    private static readonly Gen<(Film Film, Work Work)> Films = Gen.Select(Drawn.Pieces, Gen.Enum<Hand>(), Gen.Enum<LevelWords>(), Gen.Bool).Where(p => p.Item1.Figures[0].Rows.Any(r => r.Any(c => c != Figure.Bare))).SelectMany((piece, hand, levels, back) =>
    {
        var order = Planner.Plan(Work.Lay(piece with { Working = piece.Working with { Hand = hand } }), Effort.Drawing);
        var steps = Directions.Write(order, levels).Where(d => d.Kind == DirectionKind.Step).ToList();
        return Gen.Int[0, steps.Count - 1].Select(i => (Film.Of(order, [steps[i]], levels, "A film", back), order.Work));
    });

    private static IEnumerable<(Lesson Lesson, Film Film, Pleatwright.Cloth.Gauge Gauge)> Lessons(Hand hand = Hand.Right) => Lesson.All.Select(l => l.Film(hand, LevelWords.UpDown) is var (film, gauge) ? (l, film, gauge) : default);

    private static double Far(Spot a, Spot b) => Math.Sqrt(Math.Pow(a.X - b.X, 2) + Math.Pow(a.Y - b.Y, 2));

    // The player's own script, run by an interpreter of JavaScript that is no browser.
    private sealed class PlayerScript
    {
        private readonly Engine engine = new();

        public PlayerScript() => engine.Execute(Player.Script);

        public JsonElement Poses(string film, string shares) => JsonDocument.Parse(engine.SetValue("data", film).SetValue("shares", shares).Evaluate("""
            (() => {
              const film = JSON.parse(data), takes = filmPlayer.unfold(film);
              return JSON.stringify(takes.map((t, i) => ({ say: t.caption, number: t.number, lain: filmPlayer.covers(film, t, t), from: t.from, in: t.in, out: t.out, poses: JSON.parse(shares).map(s => filmPlayer.pose(film, takes, i, s)) })));
            })()
            """).AsString()).RootElement;
    }

    [Fact]
    public void The_player_on_a_page_does_the_very_same()
    {
        double[] shares = [0, 0.1, 0.3, 0.34, 0.4, 0.52, 0.6, 0.75, 0.88, 0.93, 0.97, 1];
        var script = new PlayerScript();
        var checks = 0;
        void Same(Film film, Pleatwright.Cloth.Gauge gauge)
        {
            var played = script.Poses(FilmData.Of(film, gauge), JsonSerializer.Serialize(shares));
            Assert.Equal(film.Takes.Length, played.GetArrayLength());
            for (var i = 0; i < film.Takes.Length; i++)
            {
                Assert.Equal(film.Takes[i].Caption, played[i].GetProperty("say").GetString());
                Assert.Equal(film.Takes[i].Stitch, played[i].GetProperty("number").GetInt32());
                var covers = film.Covers(i, film.Takes[i]).SelectMany(c => c).ToList();
                var lain = played[i].GetProperty("lain").EnumerateArray().SelectMany(c => c.EnumerateArray()).ToList();
                Assert.Equal(covers.Count, lain.Count);
                foreach (var (spot, at) in covers.Zip(lain)) Assert.True(Far(spot, new(at[0].GetDouble(), at[1].GetDouble())) < 0.03, $"move {i} covers {spot} and {at}");
                for (var s = 0; s < shares.Length; s++)
                {
                    var (pose, told) = (Pose.At(film, i, shares[s]), played[i].GetProperty("poses")[s]);
                    // Places are written in thousandths of a pleat and a line.
                    void Near(Spot spot, JsonElement at) => Assert.True(Far(spot, new(at[0].GetDouble(), at[1].GetDouble())) < 0.02, $"move {i} at {shares[s]}: {spot} and {at}");
                    Near(pose.Eye, told.GetProperty("eye"));
                    Near(pose.Tip, told.GetProperty("tip"));
                    var (threads, seen) = (told.GetProperty("threads"), told.GetProperty("seen"));
                    Assert.Equal((pose.Threads.Length, pose.Seen.Length), (threads.GetArrayLength(), seen.GetArrayLength()));
                    for (var c = 0; c < pose.Threads.Length; c++)
                        foreach (var (spot, n) in new[] { pose.Threads[c].A, pose.Threads[c].B, pose.Threads[c].C, pose.Threads[c].D }.Select((p, n) => (p, n))) Near(spot, threads[c][n]);
                    for (var c = 0; c < pose.Seen.Length; c++) Assert.InRange(seen[c][1].GetDouble() - pose.Seen[c].To, -0.01, 0.01);
                    checks++;
                }
            }
        }
        foreach (var hand in Enum.GetValues<Hand>())
            foreach (var (_, film, gauge) in Lessons(hand)) Same(film, gauge);
        Films.Sample(f => Same(f.Film, f.Work.Pleating.Gauge), iter: 25, threads: 1);
        Assert.True(checks > 1000);
    }

    // No needle and no thread jumps: from one moment to the next it moves as far as a hand can lead it, also from the end of one move to the beginning of the next.
    [Fact]
    public void Nothing_jumps() => Films.Sample(f =>
    {
        const int steps = 120;
        var film = f.Film;
        Pose? before = null;
        for (var i = 0; i < film.Takes.Length; i++)
        {
            var goesOn = i > 0 && film.Takes[i - 1] is var last && film.Takes[i] is var now && last.Seen == now.Seen && last.Turned == now.Turned && last.Move.Pierces && now.Move.Pierces && last.Move.Emerges == last.Seen && last.Move.Out == now.Move.From;
            if (!goesOn) before = null;
            for (var s = 0; s <= steps; s++)
            {
                var pose = Pose.At(film, i, s / (double)steps);
                if (before is not null && film.Takes[i].Move.Pierces) Assert.InRange(Far(before.Eye, pose.Eye), 0, 0.45 * film.Pitch);
                before = pose;
            }
        }
    }, iter: 40);

    [Fact]
    public void The_needle_goes_through_the_cloth_where_the_move_says() => Films.Sample(f =>
    {
        for (var i = 0; i < f.Film.Takes.Length; i++)
        {
            var (film, take) = (f.Film, f.Film.Takes[i]);
            if (!take.Move.Pierces || take.Move.In == take.Move.Out) continue;
            var pose = Pose.At(film, i, Gestures.Still);
            Spot into = film.Place(take, take.Move.In), outOf = film.Place(take, take.Move.Out);
            // Both places lie on the needle, and between them nothing of it is seen.
            double On(Spot p) => ((p.X - pose.Eye.X) * (pose.Tip.X - pose.Eye.X) + (p.Y - pose.Eye.Y) * (pose.Tip.Y - pose.Eye.Y)) / Math.Pow(Far(pose.Eye, pose.Tip), 2);
            Assert.Equal(0, Far(into, Pose.Between(pose.Eye, pose.Tip, On(into))), 6);
            Assert.Equal(0, Far(outOf, Pose.Between(pose.Eye, pose.Tip, On(outOf))), 6);
            if (take.Seen != take.Move.Lies) continue;
            Assert.Equal([(0, On(into)), (On(outOf), 1)], pose.Seen.Select(s => (Math.Round(s.From, 9), Math.Round(s.To, 9))).Select(s => (s.Item1, s.Item2)), (a, b) => Math.Abs(a.Item1 - b.Item1) + Math.Abs(a.Item2 - b.Item2) < 1e-6);
        }
    }, iter: 60);

    // While the needle is in the pleat the thread is held on the side that the level says, as the hands see it.
    [Fact]
    public void The_thread_is_held_above_or_below_the_needle() => Films.Sample(f =>
    {
        for (var i = 0; i < f.Film.Takes.Length; i++)
        {
            var (film, take) = (f.Film, f.Film.Takes[i]);
            if (take.Move.Level is not { } level || take.Move.Lies != take.Seen) continue;
            var held = take.Turned ? level.Opposite() : level;
            var curve = Pose.At(film, i, Gestures.Still).Threads[0];
            var needle = film.Place(take, take.Move.In).Y;
            Assert.Equal(held == Level.Up, curve.At(0.5).Y < needle);
            // and it comes to lie where the chart draws the stitch
            if (take.Move.Shows is not [{ Kind: ShapeKind.Bar } shown]) continue;
            var lies = Pose.At(film, i, 1).Threads[0];
            Assert.Equal(0, Far(lies.A, film.Place(shown.From.Across, shown.From.Down, take.Turned, take.Seen)), 6);
            Assert.Equal(0, Far(lies.D, film.Place(shown.To.Across, shown.To.Down, take.Turned, take.Seen)), 6);
        }
    }, iter: 60);

    // A stitch in motion ends where the stitched picture has it, on the same pleats.
    [Fact]
    public void Stitches_end_where_the_stitched_picture_lays_them() => Films.Sample(f =>
    {
        var table = new OnTable(new StitchedPiece(f.Work));
        var laid = LaidStitch.Of(f.Work);
        foreach (var take in f.Film.Takes.Where(t => t.Move.Kind is MoveKind.Cable && t.Move.Lies == ClothSide.Right))
        {
            var shown = take.Move.Shows.Single();
            Assert.Contains(laid, l => l.Down == (float)shown.From.Down && l.Across == (float)Math.Min(shown.From.Across, shown.To.Across) && l.ToAcross == (float)Math.Max(shown.From.Across, shown.To.Across));
            var x = table.Place((float)shown.To.Across, (float)shown.To.Down).X;
            Assert.InRange(f.Film.Place(shown.To.Across, shown.To.Down, false, ClothSide.Right).X - x, -0.35 * f.Film.Pitch, 0.35 * f.Film.Pitch);
        }
    }, iter: 40);

    [Fact]
    public void Every_move_of_the_issue_can_be_shown_without_a_piece()
    {
        string[] wanted = ["secure", "first cable", "up cable", "down cable", "half stitch", "mirror row", "next row", "carry", "carry further", "change the colour", "wait and take up", "tie off", "backsmocking",
            .. BandStitch.All.Where(s => !s.OnLattice).Select(s => s.Name), .. Pleatwright.Chart.Accents.Accent.All.Select(a => a.Name)];
        Assert.Equal(wanted, Lesson.All.Select(l => l.Name));
        MoveKind[] Kinds(string name) => [.. Lesson.Named(name)!.Film(Hand.Right, LevelWords.UpDown).Film.Takes.Select(t => t.Move.Kind)];
        Assert.Contains(MoveKind.Half, Kinds("half stitch"));
        Assert.Contains(MoveKind.Turn, Kinds("next row"));
        Assert.Contains(MoveKind.Carry, Kinds("next row"));
        Assert.Contains(MoveKind.Carry, Kinds("carry"));
        Assert.DoesNotContain(MoveKind.Turn, Kinds("carry"));
        Assert.DoesNotContain(MoveKind.Across, Kinds("carry"));
        Assert.Equal(3, Kinds("carry further").Count(k => k == MoveKind.Across)); // over four pleats
        Assert.DoesNotContain(MoveKind.Carry, Kinds("carry further"));
        Assert.Contains(MoveKind.Wait, Kinds("wait and take up"));
        Assert.Contains(MoveKind.TakeUp, Kinds("wait and take up"));
        Assert.Equal(2, Lesson.Named("change the colour")!.Film(Hand.Right, LevelWords.UpDown).Film.Takes.Select(t => t.Thread).Distinct().Count());
        Assert.All(Lesson.Named("up cable")!.Film(Hand.Right, LevelWords.UpDown).Film.Takes, t => Assert.StartsWith("An up cable.", t.Caption, StringComparison.Ordinal));
        Assert.All(Lesson.Named("down cable")!.Film(Hand.Left, LevelWords.LeftRight).Film.Takes, t => Assert.StartsWith("A right cable.", t.Caption, StringComparison.Ordinal));
        Assert.NotEmpty(Lesson.Named("mirror row")!.Film(Hand.Right, LevelWords.UpDown).Film.Ground);
        Assert.All(Lessons(), l => Assert.InRange(l.Film.Takes.Length, 1, 60));
    }

    [Fact]
    public void A_left_handed_lesson_is_the_mirror_of_the_right_handed()
    {
        foreach (var ((lesson, right, _), (_, left, _)) in Lessons().Zip(Lessons(Hand.Left)))
        {
            if (lesson.Name is "knot" or "bullion" or "detached chain") continue; // they lie the same way for either hand
            Assert.Equal(right.Takes.Select(t => t.Move.Kind), left.Takes.Select(t => t.Move.Kind));
            var pleats = right.Valleys.Length - 1;
            foreach (var (r, l) in right.Takes.Zip(left.Takes)) Assert.Equal((pleats - r.Move.In.Across, r.Move.In.Height, r.Move.Level), (l.Move.In.Across, l.Move.In.Height, l.Move.Level));
        }
    }

    [Fact]
    public void A_sheet_of_stills_has_a_still_of_every_kind_of_move_with_its_caption()
    {
        foreach (var (_, film, _) in Lessons())
        {
            var sheets = ContactSheet.Of(film, Paper.All[0], Look.Booklet);
            var said = string.Join(' ', sheets.SelectMany(s => s.Marks).OfType<Lettering>().Select(l => l.Text));
            Assert.All(film.Takes.Select(t => t.Caption).Distinct(), caption => Assert.Contains(caption, said, StringComparison.Ordinal));
            Assert.Equal(ContactSheet.Shown(film).Count, sheets.SelectMany(s => s.Marks).OfType<Inset>().Count());
        }
    }

    [Fact]
    public void A_long_row_is_small_on_a_page()
    {
        var order = Planner.Plan(Work.Lay(Drawn.Piece(5, new string('a', 399))), Effort.Drawing);
        var step = Directions.Write(order, LevelWords.UpDown).First(d => d.Step is not null);
        var film = Film.Of(order, [step], LevelWords.UpDown, "Long");
        var page = PlayPage.Write(film, order.Work.Pleating.Gauge);
        Assert.InRange(page.Length, 1000, 40_000);
        Assert.DoesNotContain("http://", page.Replace("http://www.w3.org/", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.DoesNotContain("https://", page, StringComparison.Ordinal);
    }
}
