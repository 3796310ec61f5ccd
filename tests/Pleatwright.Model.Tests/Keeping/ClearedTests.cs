using Pleatwright.Bench.Model.Keeping;

namespace Pleatwright.Tests.Keeping;

/// <summary>A browser may clear all that it keeps, where room runs short, under the hand of who draws.</summary>
public class ClearedTests
{
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void What_a_browser_clears_is_told_as_that_and_the_piece_on_the_table_is_kept_again_with_its_way_back(bool inBrowserOnly)
    {
        var at = new AShelf { InBrowserOnly = inBrowserOnly };
        var bench = at.Open();
        bench.New("Boat");
        foreach (var title in (string[])["Boat 1", "Boat 2", "Boat 3"]) bench.Retitle(title);
        at.Thread.Pass(10);
        at.Browser.Clear();
        if (inBrowserOnly) at.Files.Clear();
        bench.Retitle("Boat 4");
        at.Thread.Pass(10);
        Assert.Equal((Kept.Safe, true), (bench.Keeper.State, bench.Keeper.WasCleared));
        Assert.Contains(Keeper.ClearedWords, bench.Said);
        Assert.DoesNotContain(bench.Said, s => s.Contains("another bench", StringComparison.Ordinal) || s.Contains("deleted", StringComparison.Ordinal));
        Assert.Equal(["Boat 4"], at.Titles);
        at.Thread.Do(async () => Assert.Empty((await at.Shelf.ListAsync()).Deleted)); // no twin among what was taken off
        var whole = bench.Titles.ToList();

        bench = bench.Reload();
        at.Thread.Pass(10);
        Assert.Equal((Kept.Safe, "Boat 4"), (bench.Keeper.State, bench.Title));
        Assert.Equal(whole, bench.Titles);
        bench.Retitle("Boat 5"); // later edits reach the shelf
        at.Thread.Pass(10);
        Assert.Equal(["Boat 5"], at.Titles);
    }

    [Fact]
    public void Cleared_twice_it_is_kept_again_twice()
    {
        var at = new AShelf { InBrowserOnly = true };
        var bench = at.Open();
        bench.New("Boat");
        for (var turn = 1; turn <= 2; turn++)
        {
            at.Thread.Pass(10);
            at.Browser.Clear();
            at.Files.Clear();
            bench.Retitle($"Boat {turn}");
            at.Thread.Pass(10);
            Assert.Equal([$"Boat {turn}"], at.Titles);
        }
        Assert.Equal(2, bench.Said.Count(s => s == Keeper.ClearedWords));
    }
}
