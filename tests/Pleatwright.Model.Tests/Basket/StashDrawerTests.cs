using System.Text;
using CsCheck;
using Pleatwright.Bench.Model.Basket;
using Pleatwright.Files;
using Pleatwright.Tests.Drafts;
using Pleatwright.Tests.Keeping;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Basket;

/// <summary>The stash as it is listed and changed, and what the piece on the table needs of it.</summary>
public class StashDrawerTests
{
    private readonly AShelf at = new();
    private readonly ABench bench;
    private readonly StashDrawer drawer;

    public StashDrawerTests()
    {
        bench = at.Open();
        at.Thread.Do(bench.Basket.OpenAsync);
        drawer = new StashDrawer(bench.Desk, bench.Basket);
    }

    [Fact]
    public void Whatever_is_pressed_the_stash_can_be_written_and_read_and_what_is_listed_is_in_it() =>
        Gen.Select(Gen.Int[0, 8], Gen.Int[0, Tables.Texts.Length - 1], Gen.Int[0, 40]).Array[1, 40].Sample(acts => at.Thread.Do(() =>
        {
            foreach (var (act, t, number) in acts)
            {
                var (text, stash) = (Tables.Texts[t], bench.Basket.Stash);
                switch (act)
                {
                    case 0: drawer.Find = text ?? ""; break;
                    case 1: drawer.Order = (StashOrder)(number % 3); break;
                    case 2 or 3: drawer.Keep(number % 3 == 0 && number < stash.Threads.Length ? number : null, drawer.Thread(null) with { Name = $"thread {number}" }); break;
                    case 4: drawer.Keep(null, drawer.Cloth(null) with { Name = $"cloth {number}" }); break;
                    case 5 when number < stash.Threads.Length: drawer.SetSkeins(number, text); break;
                    case 6 when number < stash.Threads.Length: drawer.RemoveThread(number); break;
                    case 7 when number < stash.Cloths.Length: drawer.RemoveCloth(number); break;
                    case 8: drawer.BringIn(number % 2 == 0 ? "list.csv" : "stash.json", Encoding.UTF8.GetBytes(number % 4 == 0 ? "name,colour,skeins\nrope,#c99a4b,2\n" : text ?? "")); break;
                }
                Assert.All(drawer.Threads, i => Assert.InRange(i, 0, bench.Basket.Stash.Threads.Length - 1));
                Assert.Equal(drawer.Threads.Count(), drawer.Threads.Distinct().Count());
                var written = StashWriter.Write(bench.Basket.Stash);
                Assert.Equal(written, StashWriter.Write(StashReader.Read(written)));
            }
        }), iter: 40, threads: 1);

    [Fact]
    public void Before_it_has_been_read_nothing_is_changed_and_nothing_is_said_to_be()
    {
        var unread = at.Open();
        var early = new StashDrawer(unread.Desk, unread.Basket);
        at.Thread.Do(() => early.BringIn("list.csv", "name,colour,skeins\nrope,#c99a4b,2\n"u8.ToArray()));
        Assert.Contains("nothing was brought in", early.Note, StringComparison.Ordinal);
        Assert.Empty(unread.Basket.Stash.Threads);
        var needs = new NeedList(unread.Desk, unread.Keeper, unread.Basket, at.Thread.Time);
        Assert.Contains("nothing was put in", needs.Bought(), StringComparison.Ordinal);
        Assert.Contains("nothing was taken off", needs.Worked(), StringComparison.Ordinal);
    }

    [Fact]
    public void What_the_piece_needs_is_bought_and_worked_and_another_thread_takes_its_place()
    {
        at.Thread.Do(() => bench.Desk.Open(Tables.Full));
        var needs = new NeedList(bench.Desk, bench.Keeper, bench.Basket, at.Thread.Time);
        at.Thread.Do(needs.LookAsync);
        Assert.NotNull(needs.List);
        Assert.False(needs.HasAll);
        Assert.NotEqual("No skein", needs.ToBuy.Skeins);
        at.Thread.Do(() => { needs.Bought(); needs.Renew(); });
        Assert.True(needs.HasAll);
        Assert.Equal(("No skein", "no cloth"), needs.ToBuy);
        var line = needs.List!.Threads.First(needs.MayTakeInstead);
        var words = needs.TakeInstead(line, new StashThread("sea glass", Colour.Parse("#7fb6a8"), 3));
        Assert.StartsWith("Everything is now worked in sea glass", words, StringComparison.Ordinal);
        Assert.Contains(bench.Desk.Piece.Threads, t => t.Name == "sea glass");
        needs.TickTable(false);
        Assert.Empty(needs.List!.Pieces);
        Assert.NotEmpty(needs.Text);
    }
}
