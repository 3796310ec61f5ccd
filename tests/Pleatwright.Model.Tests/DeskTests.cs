using Pleatwright.Bench.Model;
using Pleatwright.Measure;

namespace Pleatwright.Tests;

public class DeskTests
{
    // Cutting refuses it, and the amounts are counted where nobody waits for them.
    [Fact]
    public void A_needleful_longer_than_its_skein_is_said_and_breaks_nothing()
    {
        var thread = new OneThread();
        var said = new List<string>();
        thread.Do(() =>
        {
            var desk = new Desk(thread.Time);
            desk.Said += said.Add;
            var piece = Examples.Read("first-pennant");
            desk.Open(piece with { Threads = [.. piece.Threads.Select(t => t with { SkeinLength = Length.FromInches(4) })] });
            Assert.Equal(desk.Piece.Threads.Length, desk.Amounts.Length);
            Assert.All(desk.Amounts, a => Assert.Equal(0, a.Skeins));
            desk.Edit("a title", p => p with { Title = "Another" });
        });
        thread.Pass(5);
        Assert.Contains("gives no needleful", Assert.Single(said), StringComparison.Ordinal);
    }
}
