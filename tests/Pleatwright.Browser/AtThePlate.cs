using Microsoft.Playwright;

namespace Pleatwright.Browser.Tests;

/// <summary>What tests at the plate share.</summary>
internal static class AtThePlate
{
    /// <summary>Goes to the plate itself, whatever was printed last.</summary>
    public static async Task SeeAsync(OpenBench bench)
    {
        await bench.SeeAsync("plate");
        await bench.Page.GetByLabel("The plate", new() { Exact = true }).CheckAsync();
        await bench.Page.Locator(".plate-pages[aria-busy=false] img[alt*='Cover']").WaitForAsync();
    }

    /// <summary>Presses for a file and takes it, by another press where the bench asks for one after a long while.</summary>
    public static Task<IDownload> TakeAwayAsync(IPage page, Func<Task> press) => page.RunAndWaitForDownloadAsync(async () =>
    {
        await press();
        await page.Locator(".plate-choices [role=status]").Filter(new() { HasTextRegex = new("was handed|is ready") }).WaitForAsync();
        var save = page.Locator(".plate-choices button").Filter(new() { HasText = "Save " });
        if (await save.CountAsync() > 0) await save.ClickAsync();
    }, new() { Timeout = 2 * Chromium.Patience });

    /// <summary>Takes the print in a format, named by its ending in capitals.</summary>
    public static Task<IDownload> TakeAwayAsync(IPage page, string ending) =>
        TakeAwayAsync(page, () => page.Locator("button.format").Filter(new() { HasText = ending }).ClickAsync());
}
