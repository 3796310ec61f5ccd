using Microsoft.Extensions.Time.Testing;
using Pleatwright.Bench.Model.Keeping;

namespace Pleatwright.Tests.Keeping;

/// <summary>Journals given another key: what lies there makes way and is not lost.</summary>
public class JournalsTests
{
    [Fact]
    public async Task A_journal_that_is_moved_goes_over_none()
    {
        var time = new FakeTimeProvider();
        var browser = new FakeBrowser(new Faults(time));
        var tab = browser.Open();
        var journals = new Journals(tab, time);
        PieceKey from = PieceKey.OfNew("shelf", "1"), to = new("shelf", "Boat");
        foreach (var (key, text) in new[] { (from, "ours"), (to, "of a piece that is no more") })
            await tab.PutAsync(key.ToString(), new JournalNote(0, 1, 0, "", [new MomentText("drawn", text)]));
        Assert.True(await journals.MoveAsync(from, to));
        Assert.Equal("ours", await journals.PresentAsync(to));
        Assert.Null(await journals.PresentAsync(from));
        Assert.Equal(["of a piece that is no more", "ours"], browser.Texts.Order());
        Assert.Single(await journals.HeadsAsync("shelf"), h => h.Key.IsAside);
    }
}
