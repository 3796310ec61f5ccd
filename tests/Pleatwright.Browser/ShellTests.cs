namespace Pleatwright.Browser.Tests;

public class ShellTests(Chromium chromium)
{
    [Theory]
    [InlineData("shelf")]
    [InlineData("table")]
    [InlineData("order")]
    [InlineData("plate")]
    [InlineData("stitch")]
    public async Task Every_view_opens_without_a_complaint_or_a_serious_fault(string view)
    {
        foreach (var dark in new[] { false, true })
        {
            await using var bench = await OpenBench.AtAsync(chromium, view, dark: dark);
            await bench.Page.WaitForTimeoutAsync(300);
            await bench.NoSeriousFaultAsync();
            foreach (var (name, size) in Screens.All)
            {
                await bench.Page.SetViewportSizeAsync(size.Width, size.Height);
                await bench.Page.WaitForTimeoutAsync(200);
                await bench.PictureAsync($"{view}-{name}{(dark ? "-dark" : "")}");
            }
        }
    }
}
