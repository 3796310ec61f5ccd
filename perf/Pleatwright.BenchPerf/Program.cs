// The published bench in real Chromium: how long it takes to come up, and how long from an edit until cloth, proof,
// order and amounts show it: one argument, the folder the program was published to. Or many readers of a bench served as
// plain files: readers ADDRESS COUNT.
using Microsoft.Playwright;
using Pleatwright.BenchPerf;
using Pleatwright.Perf;

if (args is ["readers", var address, var count])
{
    Console.WriteLine(Machine.Describe());
    await Readers.MeasureAsync(new Uri(address), int.Parse(count, System.Globalization.CultureInfo.InvariantCulture));
    return 0;
}
if (args is not [var published] || !Directory.Exists(published))
{
    Console.Error.WriteLine("Name the folder the program was published to: dotnet publish src/Pleatwright.App -c Release -o FOLDER");
    return 2;
}
Console.WriteLine(Machine.Describe());
using var playwright = await Playwright.CreateAsync();
await using var browser = await playwright.Chromium.LaunchAsync(new()
{
    ExecutablePath = Environment.GetEnvironmentVariable("PLEATWRIGHT_CHROMIUM") ?? "/usr/bin/chromium",
    Headless = true,
    Args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
});
Console.WriteLine("Chromium " + browser.Version);
await FirstLoad.MeasureAsync(browser, published);
foreach (var cables in (int[])[1_500, 6_000, 24_000]) await Edits.MeasureAsync(browser, published, cables);
return 0;
