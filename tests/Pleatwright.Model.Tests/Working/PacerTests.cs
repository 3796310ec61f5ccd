using CsCheck;
using Pleatwright.Bench.Model.Working;
using Pleatwright.Order;
using Pleatwright.Tests.Drafts;

namespace Pleatwright.Tests.Working;

/// <summary>The order paced through: wherever one goes, one stands on a step there is, and its paragraph is on the page.</summary>
public class PacerTests
{
    [Fact]
    public void Whatever_is_pressed_the_step_is_there_and_its_direction_is_in_sight() =>
        Gen.Select(Gen.Int[0, 1], Gen.Select(Gen.Int[0, 8], Gen.Int[-3, 60]).Array[1, 8]).Sample((at, acts) =>
        {
            var (desk, _) = Tables.Set(at == 0 ? Tables.Full : Tables.Empty);
            var stand = new Stand(desk);
            var pacer = new Pacer(desk, stand);
            desk.Ordered += pacer.Ordered;
            try
            {
                foreach (var (act, number) in acts)
                {
                    var earlier = false;
                    switch (act)
                    {
                        case 0: pacer.GoTo(number); break;
                        case 1: pacer.GoTo(Tables.Texts[Math.Abs(number)]); break;
                        case 2: pacer.Pin(Tables.Texts[Math.Abs(number)]); break;
                        case 3: pacer.Pin(number); break;
                        case 4: pacer.Unpin(); break;
                        case 5: pacer.Say((LevelWords)(Math.Abs(number) % 2)); break;
                        case 6: pacer.Earlier(); earlier = true; break;
                        case 7: pacer.Later(); break;
                        default: Tables.Meanwhile(desk, Math.Abs(number) % Tables.Others); pacer.Ordered(); break;
                    }
                    Assert.InRange(stand.Step, 0, pacer.Steps.Length);
                    var (first, last) = (pacer.InSight.Start.Value, pacer.InSight.End.Value);
                    Assert.InRange(first, 0, Math.Max(0, pacer.Directions.Length));
                    Assert.InRange(last, first, pacer.Directions.Length);
                    if (stand.Step > 0 && !earlier) Assert.Contains(pacer.Directions[first..last], pacer.IsNow);
                    _ = (pacer.Short, pacer.Long, pacer.PlaceHere, pacer.PinnedHere, pacer.Sums.Count(), pacer.HasEarlier, pacer.HasLater);
                }
            }
            finally { desk.Ordered -= pacer.Ordered; }
        }, iter: 15, threads: 1);

    [Fact]
    public void A_run_fixed_to_a_place_is_followed_there()
    {
        var (desk, _) = Tables.Set(Tables.Full);
        var stand = new Stand(desk);
        var pacer = new Pacer(desk, stand);
        pacer.GoTo(1);
        var run = desk.Work.Runs[pacer.Here!.RunIndex];
        pacer.Pin(3);
        pacer.Ordered();
        Assert.Equal(run, desk.Work.Runs[pacer.Here!.RunIndex]);
        Assert.Equal(3, pacer.PinnedHere);
        pacer.Unpin();
        Assert.Null(pacer.PinnedHere);
    }
}
