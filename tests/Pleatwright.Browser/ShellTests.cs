namespace Pleatwright.Browser.Tests;

public class ShellTests(Chromium chromium)
{
    [Theory]
    [InlineData("shelf")]
    [InlineData("table")]
    [InlineData("order")]
    [InlineData("plate")]
    [InlineData("stitch")]
    public async Task Every_view_opens_on_every_screen_without_a_complaint_or_a_serious_fault(string view)
    {
        await using var bench = await OpenBench.AtAsync(chromium, view);
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
