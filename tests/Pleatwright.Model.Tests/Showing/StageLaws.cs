using CsCheck;
using Pleatwright.Bench.Model;
using Pleatwright.Bench.Model.Showing;
using Pleatwright.Chart;
using Pleatwright.Plate.Playing;

namespace Pleatwright.Tests.Showing;

public class StageLaws
{
    private enum Act { Play, Slower, Back, Next, Loop, Present, Still, Hold, FromBack, Learn, Step, Ended, LateEnd, Key }

    private static readonly string[] Keys = [" ", "ArrowLeft", "ArrowRight", "s", "l", "p", "Escape", "q"];

    private static readonly Gen<(Act Act, int Number)[]> Acts = Gen.Select(Gen.Enum<Act>(), Gen.Int[-3, 200]).Array[1, 40];

    private static Stage AStage(Piece? piece = null)
    {
        var desk = new Desk(TimeProvider.System);
        if (piece is not null) desk.Open(piece);
        var stage = new Stage(desk);
        stage.Open();
        return stage;
    }

    private static void Do(Stage stage, Act act, int number)
    {
        switch (act)
        {
            case Act.Play: stage.Play(); break;
            case Act.Slower: stage.Slower(); break;
            case Act.Back: stage.Back(); break;
            case Act.Next: stage.Next(); break;
            case Act.Loop: stage.Loop(); break;
            case Act.Present: stage.Present(number % 2 == 0); break;
            case Act.Still: stage.BeStill(number % 2 == 0); break;
            case Act.Hold: stage.Hold(number % 2 == 0); break;
            case Act.FromBack: stage.SeeFromBack(number % 2 == 0); break;
            case Act.Learn: stage.Learn(Stage.Lessons[Math.Abs(number) % Stage.Lessons.Length]); break;
            case Act.Step: stage.ShowStep(number); break;
            case Act.Ended: stage.Ended(stage.Begun); break;
            case Act.LateEnd: stage.Ended(stage.Begun - 1); break;
            default: stage.Press(Keys[Math.Abs(number) % Keys.Length]); break;
        }
    }

    private static readonly Lazy<Piece> Two = new(() => Drawn.Piece(5, "aabbb", "bbaaa"));

    [Fact]
    public void Whatever_is_pressed_there_is_a_move_to_look_at_with_its_words() => Acts.Sample(acts =>
    {
        var stage = AStage(Two.Value);
        foreach (var (act, number) in acts)
        {
            Do(stage, act, number);
            Assert.InRange(stage.At, 0, stage.Moves - 1);
            Assert.EndsWith(".", stage.Caption, StringComparison.Ordinal);
            Assert.Equal($"{Words.Of(stage.At + 1)} of {Words.Of(stage.Moves)}", stage.Number);
            Assert.Contains(stage.Pace, (double[])[1, 0.5, 0.25]);
            Assert.False(stage.Playing && stage.Still); // where the system asks for less motion nothing ever moves
            Assert.InRange(stage.Step, 0, stage.Steps);
            Assert.Equal(stage.Step > 0, stage.LessonName.Length == 0);
        }
    }, iter: 150);

    [Fact]
    public void Playing_goes_through_every_move_once_and_stops() => Gen.Int[0, Stage.Lessons.Length - 1].Sample(lesson =>
    {
        var stage = AStage();
        stage.Learn(Stage.Lessons[lesson]);
        stage.Play();
        List<int> played = [stage.At];
        while (stage.Playing)
        {
            stage.Ended(stage.Begun);
            if (stage.Playing) played.Add(stage.At);
        }
        Assert.Equal(Enumerable.Range(0, stage.Moves), played);
        stage.Play();
        Assert.Equal((0, true), (stage.At, stage.Playing)); // from the beginning again
    }, iter: 30);

    [Fact]
    public void A_loop_stays_with_its_move_until_it_is_let_go() => Gen.Int[0, 5].Sample(times =>
    {
        var stage = AStage();
        stage.Learn("mirror row");
        stage.Next();
        stage.Loop();
        stage.Play();
        for (var i = 0; i < times; i++)
        {
            var begun = stage.Begun;
            stage.Ended(begun);
            Assert.Equal((1, begun + 1), (stage.At, stage.Begun));
        }
        stage.Loop();
        stage.Ended(stage.Begun);
        Assert.Equal(2, stage.At);
    });

    [Fact]
    public void The_end_of_a_move_that_is_no_longer_played_changes_nothing() => Acts.Sample(acts =>
    {
        var stage = AStage(Two.Value);
        foreach (var (act, number) in acts)
        {
            Do(stage, act, number);
            var before = (stage.At, stage.Begun, stage.Playing);
            stage.Ended(stage.Begun - 1);
            if (!stage.Playing) stage.Ended(stage.Begun);
            Assert.Equal(before, (stage.At, stage.Begun, stage.Playing));
        }
    }, iter: 80);

    [Fact]
    public void Back_undoes_next_and_holding_keeps_the_move() => Gen.Int[0, Stage.Lessons.Length - 1].Sample(lesson =>
    {
        var stage = AStage();
        stage.Learn(Stage.Lessons[lesson]);
        for (var at = 0; at + 1 < stage.Moves; at++)
        {
            stage.Next();
            stage.Back();
            Assert.Equal(at, stage.At);
            stage.Next();
        }
        var last = stage.At;
        stage.Hold(true);
        Assert.Equal(last, stage.At);
        stage.Hold(false);
        Assert.Equal(last, stage.At);
    }, iter: 30);

    [Fact]
    public void Where_nothing_may_move_play_goes_from_still_to_still()
    {
        var stage = AStage();
        stage.Learn("first cable");
        stage.BeStill(true);
        var seen = new List<int>();
        for (var i = 0; i <= stage.Moves; i++)
        {
            seen.Add(stage.At);
            stage.Play();
            Assert.False(stage.Playing);
        }
        Assert.Equal([.. Enumerable.Range(0, stage.Moves), 0], seen);
    }

    [Fact]
    public void The_cell_under_the_hand_leads_to_its_step()
    {
        var desk = new Desk(TimeProvider.System);
        desk.Open(Two.Value);
        var stage = new Stage(desk);
        stage.Open();
        foreach (var run in desk.Work.Runs.ToArray())
            for (var v = run.From.Number; v <= run.To.Number; v++)
            {
                stage.ShowAt(new(v), run.Row);
                var step = desk.Order.Steps[stage.Step - 1];
                Assert.Equal(run.Row, step.Row);
                Assert.InRange(v, Math.Min(step.From.Number, step.To.Number), Math.Max(step.From.Number, step.To.Number));
            }
    }

    // The worker is handed every part of what lies under the needle once: first the one under it now, then those after it, then those before.
    [Fact]
    public void What_lies_under_the_needle_is_handed_out_once_the_nearest_first() => Gen.Select(Gen.Int[0, Stage.Lessons.Length - 1], Gen.Int[0, 60]).Sample((lesson, at) =>
    {
        var stage = AStage();
        stage.Learn(Stage.Lessons[lesson]);
        stage.GoTo(at);
        var parts = new List<Lying>();
        while (stage.ToPaint() is { } part) parts.Add(part);
        Assert.InRange(stage.At, parts[0].First, parts[0].Last);
        Assert.Equal(Enumerable.Range(0, stage.Moves), parts.SelectMany(p => Enumerable.Range(p.First, p.Last - p.First + 1)).Order());
        Assert.Null(stage.ToPaint());
    }, iter: 60);
}
