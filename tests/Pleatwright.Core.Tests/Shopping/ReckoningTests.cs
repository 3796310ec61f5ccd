using CsCheck;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Shopping;

namespace Pleatwright.Tests.Shopping;

public class ReckoningTests
{
    private static readonly Gen<ShoppingList> Lists = Gen.Int[0, 5000].Array[1, 5].Select(stitches => ShoppingList.Of(
        stitches.Select((n, i) => new PieceNeeds($"piece {i}", [], new ClothNeed($"piece {i}", new ClothPlan(new Panel(Length.FromInches(4 + i)), Gauge.Common, 4)), n)), Stash.Empty));

    [Fact]
    public void Totals_are_the_sums_of_what_is_shown() => Gen.Select(Lists, StashGen.Rates, StashGen.Paces).Sample((list, rates, pace) =>
    {
        var reckoning = Reckoning.Of(list, rates, pace);
        Assert.Equal(reckoning.Pieces.Sum(p => p.Hours?.Low), reckoning.Hours?.Low ?? 0);
        Assert.Equal(reckoning.Pieces.Sum(p => p.Work?.High), reckoning.Work?.High ?? 0);
        Assert.Equal((reckoning.Thread ?? 0) + (reckoning.Cloth ?? 0) + (reckoning.Work?.Low ?? 0), reckoning.Total?.Low ?? 0);
        Assert.Equal(rates is { Skein: null, Cloth: null } && (rates.Hour is null || pace.CablesAnHour is null), reckoning.Total is null);
        Assert.All(reckoning.Pieces, p => Assert.True(p.Hours is null || p.Hours.Value.Low <= p.Hours.Value.High));
        decimal?[] shown = [reckoning.Thread, reckoning.Cloth, reckoning.Total?.Low, reckoning.Total?.High];
        Assert.All(shown, amount => Assert.Equal(amount, amount is { } a ? Math.Round(a, 2) : null));
    });

    // The sittings 4, 5, 6 cables in 3, 4, 4 minutes are the points of NoInt2 of the NIST Statistical Reference Datasets:
    // certified slope 0.727272727272727 minutes a cable, standard deviation 0.0420827318078432; Student's t with 2 degrees of
    // freedom is 4.303 (NIST/SEMATECH e-Handbook).
    [Fact]
    public void The_pace_is_the_certified_slope_and_its_range()
    {
        var pace = new Pace { Sittings = [new(4, 3), new(5, 4), new(6, 4)] };
        var (slow, middle, quick) = pace.CablesAnHour!.Value;
        Assert.Equal(60 / 0.727272727272727, middle, 9);
        Assert.Equal(60 / (0.727272727272727 + 4.303 * 0.0420827318078432), slow, 2);
        Assert.Equal(60 / (0.727272727272727 - 4.303 * 0.0420827318078432), quick, 2);
        Assert.True(pace.HasRange);
        var hours = pace.Hours(1000)!.Value;
        Assert.Equal(1000 / quick, (double)hours.Low, 9);
        Assert.Equal(1000 / slow, (double)hours.High, 9);
    }

    [Fact]
    public void Sittings_too_few_or_too_unlike_never_promise_more_than_twice_the_pace()
    {
        var one = new Pace { Sittings = [new(200, 60)] };
        Assert.Equal((200, 200, 200), one.CablesAnHour!.Value);
        Assert.False(one.HasRange);
        var unlike = new Pace { Sittings = [new(200, 60), new(200, 180)] };
        var (slow, middle, quick) = unlike.CablesAnHour!.Value;
        Assert.False(unlike.HasRange);
        Assert.True(slow > 0 && slow < middle && Math.Abs(quick - 2 * middle) < 1e-9);
    }

    [Fact]
    public void What_the_maker_says_serves_until_sittings_are_timed()
    {
        var said = new Pace { Said = (150, 200), Besides = new Between(1, 2) };
        Assert.Equal(new Between(4, 6), said.Hours(600)!.Value.Rounded(6));
        Assert.Equal(200, (said with { Sittings = [new(200, 60)] }).CablesAnHour!.Value.Middle);
        Assert.Null(Pace.Unknown.Hours(600));
    }
}
