using System.IO.Compression;

namespace Pleatwright.Browser.Tests;

public class ClassViewTests(WarmBench warm) : IClassFixture<WarmBench>
{
    [Fact]
    public async Task A_class_pack_is_shown_and_taken_away_in_every_format()
    {
        await using var bench = await warm.AfreshAsync("table");
        await AtThePlate.SeeAsync(bench);
        var page = bench.Page;
        await page.GetByLabel("Class pack, for a teacher").CheckAsync();
        await page.GetByLabel("Students").FillAsync("3");
        await page.GetByLabel("Spare kits").FillAsync("1");
        await page.GetByLabel("Sessions to share it over").FillAsync("2");
        await page.Locator(".plate-pages[aria-busy=false] img[alt*='Kit labels']").WaitForAsync();
        Assert.Equal(
            ["Teacher’s sheet", "Teacher’s sheet", "Register", "Kit labels", "Handout, right hand", "Handout, right hand", "Handout, left hand", "Handout, left hand"],
            (await page.Locator(".plate-pages[aria-busy=false] small").AllTextContentsAsync()).Select(t => t.Split(". ", 2)[1]));
        await bench.NoSeriousFaultAsync();
        foreach (var (ending, begins) in new[] { ("PDF", "%PDF"), ("HTML", "<!DO"), ("ZIP", "PK\u0003\u0004") })
        {
            var download = await AtThePlate.TakeAwayAsync(page, ending);
            Assert.Equal($"Harbour morning class.{ending.ToLowerInvariant()}", download.SuggestedFilename);
            var bytes = await File.ReadAllBytesAsync(await download.PathAsync());
            Assert.Equal(begins, System.Text.Encoding.Latin1.GetString(bytes, 0, 4));
            if (ending != "ZIP") continue;
            using var zip = new ZipArchive(new MemoryStream(bytes));
            Assert.Equal(5, zip.Entries.Count);
        }
        await page.SetViewportSizeAsync(Screens.Phone.Width, Screens.Phone.Height);
        await bench.PictureAsync("class-phone");
        await bench.FitsTheScreenAsync();
        await bench.NoSeriousFaultAsync();
        await page.GetByLabel("The plate", new() { Exact = true }).CheckAsync();
        await page.Locator(".plate-pages[aria-busy=false] img[alt*='Cover']").WaitForAsync();
    }
}
