namespace Pleatwright.Browser.Tests;

/// <summary>A walk through every view, on every screen, by day and by night.</summary>
public class ShellTests(WarmBench warm) : IClassFixture<WarmBench>
{
    [Fact]
    public async Task Every_view_opens_on_every_screen_without_a_complaint_or_a_serious_fault()
    {
        await using var bench = await warm.AfreshAsync("shelf");
        foreach (var view in new[] { "shelf", "table", "order", "stash", "plate", "stitch" })
        {
            await bench.LookAsync(Screens.Desktop, dark: false);
            await bench.SeeAsync(view);
            if (view is "plate") await AtThePlate.SeeAsync(bench);
            foreach (var dark in new[] { false, true })
            {
                await bench.LookAsync(dark: dark);
                await bench.NoSeriousFaultAsync();
                foreach (var (name, size) in Screens.All)
                {
                    await bench.LookAsync(size);
                    await bench.FitsTheScreenAsync();
                    await bench.PictureAsync($"{view}-{name}{(dark ? "-dark" : "")}");
                }
            }
        }
    }
}
