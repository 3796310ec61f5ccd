using Pleatwright.Bench.Model;
using Pleatwright.Bench.Model.Drafts;
using Pleatwright.Bench.Model.Working;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Tests.Keeping;

namespace Pleatwright.Tests.Working;

/// <summary>The ways of working told side by side: each as the commands tell it, planned off the hand's path, once.</summary>
public class WaysToldTests
{
    private sealed class Room(OneThread thread) : IPlanningRoom
    {
        public int Planned { get; private set; }

        public async Task<string?> PlanAsync(string piece, Action<double> told)
        {
            told(0.5);
            await Task.Delay(TimeSpan.FromSeconds(1), thread.Time);
            Planned++;
            return OrderText.Write(Smocking.Plan(Smocking.Lay(Smocking.Read(piece))));
        }

        public void Stop()
        {
        }
    }

    private readonly AShelf at = new();
    private readonly Room room;
    private Desk desk = null!;
    private WaysTold ways = null!;

    public WaysToldTests()
    {
        room = new Room(at.Thread);
        var tab = at.Open().Tab;
        at.Thread.Do(() =>
        {
            desk = new Desk(at.Thread.Time, new Orders(room, tab, at.Thread.Time));
            desk.Open(Examples.Read("first-pennant"));
            ways = new WaysTold(desk, at.Thread.Time);
        });
    }

    [Fact]
    public void Each_is_told_as_the_commands_tell_it_and_the_one_then_chosen_is_known_already()
    {
        at.Thread.Do(desk.SettleAsync);
        List<double> shares = [];
        ways.Changed += () => shares.Add(ways.Sought ?? 1);
        at.Thread.Do(() => ways.AskAsync(desk.Work));
        Assert.Null(ways.Sought);
        Assert.Equal(shares.Order(), shares);
        Assert.Contains(shares, s => s is > 0 and < 1);
        foreach (var told in Planner.InEveryWay(Smocking.Plan(desk.Work)))
        {
            var way = ways.Of(told.Way)!;
            Assert.Equal((told.Starts, told.TakeUps, told.LongestWaitRows, told.Turns), (way.Starts, way.LeftHanging, way.LongestWaitRows, way.Turns));
            Assert.Equal(told.Carried.Millimetres, way.Carried.Millimetres, 9);
        }
        Assert.Equal(3, room.Planned);
        at.Thread.Do(() => desk.Edit("way", p => p with { Working = p.Working with { Way = WayOfWorking.FewestStarts } }));
        at.Thread.Do(desk.SettleAsync);
        Assert.Equal(3, room.Planned);
    }

    [Fact]
    public void The_way_that_is_chosen_changes_nothing_of_what_is_told()
    {
        var draft = new WorkingDraft(desk);
        at.Thread.Do(() => ways.AskAsync(draft.Laid));
        var known = ways.Known;
        draft.SetWay(WayOfWorking.SpaceBySpace);
        at.Thread.Do(() => ways.AskAsync(draft.Laid));
        Assert.Equal(known, ways.Known);
        Assert.Equal(3, room.Planned);
    }

    [Fact]
    public void What_is_asked_for_while_answers_come_quickly_is_planned_once_and_what_cannot_be_kept_is_told_of_nothing()
    {
        at.Thread.Do(desk.SettleAsync); // which it does at rest by itself
        var draft = new WorkingDraft(desk);
        at.Thread.Do(() =>
        {
            for (var parked = 0; parked < 6; parked++)
            {
                draft.SetParkedThreads(parked % 3);
                _ = ways.AskAsync(draft.Laid);
            }
        });
        at.Thread.Pass(20);
        Assert.Equal(1 + 3, room.Planned);
        Assert.Equal(3, ways.Known.Length);
        draft.SetParkedThreads(-1);
        at.Thread.Do(() => ways.AskAsync(draft.Laid));
        Assert.Empty(ways.Known);
        Assert.Null(ways.Sought);
    }

    [Fact]
    public void Put_away_it_plans_no_further()
    {
        at.Thread.Do(() => { _ = ways.AskAsync(desk.Work); });
        at.Thread.Pass(1);
        ways.Dispose();
        at.Thread.Pass(5);
        Assert.InRange(room.Planned, 0, 1);
        Assert.Empty(ways.Known);
    }

    [Fact]
    public void Every_head_has_a_value_known_or_not()
    {
        Assert.Equal(WaysTold.Heads, WaysTold.Cells(null).Select(c => c.Head));
        Assert.Equal(["4", "1", "1 row", "7", "2 in"], WaysTold.Cells(new WayTold(WayOfWorking.RowByRow, 4, 1, 1, 7, Measure.Length.FromInches(2))).Select(c => c.Value));
        Assert.Equal("none", WaysTold.Cells(new WayTold(WayOfWorking.RowByRow, 4, 0, 0, 7, Measure.Length.FromInches(2))).ElementAt(2).Value);
    }
}
