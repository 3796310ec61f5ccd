using CsCheck;
using Pleatwright.Bench.Model;
using Pleatwright.Bench.Model.Working;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Tests.Drafts;
using Pleatwright.Tests.Keeping;

namespace Pleatwright.Tests.Working;

/// <summary>The order shown at the bench is the very one that the commands give, however it comes.</summary>
public class OrdersTests
{
    // A worker: it takes its time, may be stopped, and may not be there at all.
    private sealed class Room(OneThread thread) : IPlanningRoom
    {
        private TaskCompletionSource<string?>? under;

        public int Planned { get; private set; }

        public int Stopped { get; private set; }

        public bool Broken { get; set; }

        public double Takes { get; set; } = 2;

        public async Task<string?> PlanAsync(string piece, Action<double> told)
        {
            Assert.Null(under); // one at a time
            var mine = under = new TaskCompletionSource<string?>();
            for (var share = 0.0; share < 1 && !mine.Task.IsCompleted; share += 0.25)
            {
                told(share);
                await Task.WhenAny(mine.Task, Task.Delay(TimeSpan.FromSeconds(Takes / 4), thread.Time));
            }
            under = null;
            if (mine.Task.IsCompleted || Broken) return null;
            Planned++;
            return OrderText.Write(Smocking.Plan(Smocking.Lay(Smocking.Read(piece))));
        }

        public void Stop()
        {
            Stopped++;
            under?.TrySetResult(null);
        }
    }

    private readonly AShelf at = new();
    private readonly Room room;
    private readonly ABench bench;

    public OrdersTests()
    {
        room = new Room(at.Thread);
        bench = at.Open();
    }

    private Desk ADesk() => new(at.Thread.Time, new Orders(room, bench.Tab, at.Thread.Time));

    private static void IsTheCommands(Desk desk) => Assert.Equal(Smocking.Plan(Smocking.Lay(desk.Piece)).Steps, desk.Order.Steps);

    [Fact]
    public void Every_example_settles_to_the_order_of_the_commands()
    {
        Desk desk = null!;
        at.Thread.Do(() => desk = ADesk());
        foreach (var name in Examples.Names)
        {
            at.Thread.Do(() => desk.Open(Examples.Read(name)));
            at.Thread.Do(desk.SettleAsync);
            IsTheCommands(desk);
            Assert.Null(desk.Sought);
        }
    }

    [Fact]
    public void Whatever_is_edited_while_it_is_sought_the_order_at_rest_is_the_commands() =>
        Gen.Select(Gen.Int[0, 3], Gen.Double[0, 6], Gen.Bool).Array[1, 12].Sample(acts =>
        {
            Desk desk = null!;
            at.Thread.Do(() => desk = ADesk());
            at.Thread.Do(() => desk.Open(Examples.Read("first-pennant")));
            foreach (var (act, wait, settle) in acts)
            {
                at.Thread.Do(() =>
                {
                    switch (act)
                    {
                        case 0: desk.Edit("hand", p => p with { Working = p.Working with { Hand = p.Working.Hand == Hand.Left ? Hand.Right : Hand.Left } }); break;
                        case 1: desk.Edit("parked", p => p with { Working = p.Working with { ParkedThreads = (p.Working.ParkedThreads + 1) % 3 } }); break;
                        case 2: desk.Undo(); break;
                        default: desk.Edit("title", p => p with { Title = p.Title + "." }); break;
                    }
                    if (settle) _ = desk.SettleAsync();
                });
                at.Thread.Pass(wait);
                if (desk.Sought is { } share) Assert.InRange(share, 0, 1);
                Assert.Equal(desk.Work.Cables, desk.Order.Steps.Sum(s => s.Cables)); // an order of the very piece, at any moment
            }
            at.Thread.Do(desk.SettleAsync);
            IsTheCommands(desk);
            Assert.Null(desk.Sought);
        }, iter: 40, threads: 1);

    [Fact]
    public void It_is_planned_once_for_each_piece_and_remembered_through_a_reload()
    {
        for (var times = 0; times < 3; times++)
        {
            Desk desk = null!;
            at.Thread.Do(() => desk = ADesk()); // remembers nothing itself
            at.Thread.Do(desk.SettleAsync);
            at.Thread.Do(() => desk.Edit("title", p => p with { Title = "Another name" })); // which changes nothing of the order
            at.Thread.Do(desk.SettleAsync);
        }
        Assert.Equal(1, room.Planned);
    }

    [Fact]
    public void Only_so_many_are_remembered()
    {
        Desk desk = null!;
        at.Thread.Do(() => desk = ADesk());
        for (var i = 0; i < Orders.MostRemembered + 3; i++)
        {
            at.Thread.Do(() => desk.Edit("a length", p => p with { Working = p.Working with { WorkingLength = Length.FromCentimetres(40 + i) } }));
            at.Thread.Do(desk.SettleAsync);
        }
        Assert.Equal(Orders.MostRemembered, at.Browser.AllRemembered.Count(r => r.Key.StartsWith("order ", StringComparison.Ordinal)));
    }

    [Fact]
    public void One_that_is_wanted_no_more_is_stopped_in_time_and_the_newer_one_comes()
    {
        room.Takes = 60;
        Desk desk = null!;
        at.Thread.Do(() => desk = ADesk());
        at.Thread.Do(() => { _ = desk.SettleAsync(); });
        at.Thread.Pass(1);
        room.Takes = 1;
        at.Thread.Do(() => desk.Edit("hand", p => p with { Working = p.Working with { Hand = Hand.Left } }));
        at.Thread.Do(desk.SettleAsync, mostSeconds: 10);
        Assert.Equal(1, room.Stopped);
        IsTheCommands(desk);
    }

    [Fact]
    public void Where_there_is_no_worker_it_is_planned_here()
    {
        room.Broken = true;
        Desk desk = null!;
        at.Thread.Do(() => desk = ADesk());
        at.Thread.Do(desk.SettleAsync);
        Assert.Null(desk.Sought);
        Assert.Equal(Smocking.Plan(desk.Work, Effort.Resting).Steps, desk.Order.Steps);
        WorkingOrder other = null!;
        at.Thread.Do(async () => other = await desk.PlanAsync(Smocking.Lay(Tables.Full)));
        Assert.Equal(Smocking.Plan(Smocking.Lay(Tables.Full), Effort.Resting).Steps, other.Steps);
    }

    [Fact]
    public void A_long_rest_at_the_table_settles_it_by_itself()
    {
        Desk desk = null!;
        at.Thread.Do(() => desk = ADesk());
        at.Thread.Do(() => desk.Edit("hand", p => p with { Working = p.Working with { Hand = Hand.Left } }));
        at.Thread.Pass(3);
        Assert.Equal(0, room.Planned);
        at.Thread.Pass(30);
        Assert.Equal(1, room.Planned);
        IsTheCommands(desk);
    }
}
