using System.Collections.Concurrent;
using Microsoft.Playwright;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Teaching;
using Pleatwright.Proof;

namespace Pleatwright.Browser.Tests;

/// <summary>The students' page as a file on a phone: no server, no network.</summary>
public sealed class StudentPageTests(Chromium chromium) : IDisposable
{
    // A pack takes a second to make, and the same example serves several tests.
    private static readonly ConcurrentDictionary<string, Lazy<string>> Pages = new();

    private static string PageOf(string example) => Pages.GetOrAdd(example, name => new(() => Written(Example(name)))).Value;

    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("page");
    private readonly ConcurrentQueue<string> complaints = new();

    public void Dispose() => folder.Delete(recursive: true);

    // A yoke whose first row has three runs and is worked turned; the examples may be drawn anew, and it stays.
    private const string ThreeRuns = "three-runs";

    private static Piece Example(string name) =>
        PieceReader.Read(File.ReadAllBytes(name == ThreeRuns ? Repository.Path("tests", "Pleatwright.Browser", "Pieces", name + ".piece.json") : Repository.Path("examples", name + ".piece.json")));

    private static string Written(Piece piece)
    {
        var work = Work.Lay(piece);
        var plate = PlateMaker.Make(work, Planner.Plan(work), Proofreading.Read(work), new PlateOptions());
        return StudentPage.Write(ClassPack.Make(plate, new ClassOptions(8)));
    }

    private Uri Save(Piece piece) => Save(Written(piece));

    private Uri Save(string page)
    {
        var path = Path.Combine(folder.FullName, "page.html");
        File.WriteAllText(path, page);
        return new Uri(path);
    }

    private async Task<IPage> OpenAsync(IBrowserContext context, Uri address)
    {
        var page = await context.NewPageAsync();
        page.Console += (_, m) => { if (m.Type is "error" or "warning") complaints.Enqueue(m.Text); };
        page.PageError += (_, e) => complaints.Enqueue(e);
        page.Dialog += (_, d) => { complaints.Enqueue($"dialog: {d.Message}"); _ = d.DismissAsync(); };
        page.Request += (_, r) => { if (!r.Url.StartsWith("file:", StringComparison.Ordinal) && !r.Url.StartsWith("data:", StringComparison.Ordinal)) complaints.Enqueue($"request: {r.Url}"); };
        await page.GotoAsync(address.ToString());
        return page;
    }

    private Task<IBrowserContext> PhoneAsync(bool dark = false) => chromium.ContextAsync(new BrowserNewContextOptions
    {
        ViewportSize = Screens.Phone, HasTouch = true, IsMobile = true, Offline = true, ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light,
    });

    private static Task<string?> Text(IPage page, string id) => page.Locator("#" + id).TextContentAsync();

    private static async Task ToCablesAsync(IPage page)
    {
        while (!(await Text(page, "name"))!.StartsWith("Step", StringComparison.Ordinal)) await page.Locator("#done").TapAsync();
    }

    private static async Task PictureAsync(IPage page, string name)
    {
        if (Environment.GetEnvironmentVariable("PLEATWRIGHT_PICTURES") is { Length: > 0 } pictures)
            await page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(pictures, name + ".png") });
    }

    private static Task NoSeriousFaultAsync(IPage page) => Axe.NoSeriousFaultAsync(page);

    [Fact]
    public async Task It_ticks_undoes_and_keeps_its_place_without_a_network()
    {
        await using var context = await PhoneAsync();
        var page = await OpenAsync(context, Save(PageOf(ThreeRuns)));
        Assert.StartsWith("On the back, 1 of ", await Text(page, "name"), StringComparison.Ordinal);
        Assert.True(await page.Locator("#undo").IsDisabledAsync());
        await ToCablesAsync(page);
        for (var i = 0; i < 3; i++) await page.Locator("#tick").TapAsync();
        Assert.Equal("3 of 19", await Text(page, "tally"));
        await page.Locator("#undo").TapAsync();
        Assert.Equal("2 of 19", await Text(page, "tally"));
        Assert.Equal("up", await page.Locator(".word text").TextContentAsync());
        Assert.Contains("kept on this device", await Text(page, "kept"), StringComparison.Ordinal);
        await PictureAsync(page, "student-light");
        await NoSeriousFaultAsync(page);

        await page.ReloadAsync();
        Assert.Equal(("Step 1", "2 of 19"), (await Text(page, "name"), await Text(page, "tally")));
        await page.CloseAsync();
        page = await OpenAsync(context, new Uri(Path.Combine(folder.FullName, "page.html")));
        Assert.Equal(("Step 1", "2 of 19"), (await Text(page, "name"), await Text(page, "tally")));

        await page.Locator("#done").TapAsync();
        Assert.Equal("Step 2", await Text(page, "name"));
        await page.Locator("#undo").TapAsync();
        Assert.Equal(("Step 1", "18 of 19"), (await Text(page, "name"), await Text(page, "tally")));
        Assert.Equal("Tick the last", await Text(page, "tick"));
        await page.Locator("#goto").FillAsync("20");
        await page.Locator("#goto").PressAsync("Enter");
        await page.Locator("#goto").BlurAsync();
        Assert.Equal("Step 20", await Text(page, "name"));
        for (var i = 0; i < 60; i++) await page.EvaluateAsync("document.getElementById('done').click()");
        Assert.Equal("All stitched", await Text(page, "name"));
        Assert.Contains("count your needles and pins back", await Text(page, "said"), StringComparison.Ordinal);
        await page.Locator("#again").TapAsync();
        Assert.Equal("All stitched", await Text(page, "name")); // it asks first
        await page.Locator("#again").TapAsync();
        Assert.StartsWith("On the back, 1 of ", await Text(page, "name"), StringComparison.Ordinal);
        Assert.Empty(complaints);
    }

    [Fact]
    public async Task It_says_when_to_turn_and_what_waits_and_passes_over_a_back_that_is_done()
    {
        await using var context = await PhoneAsync();
        var page = await OpenAsync(context, Save(PageOf("quay-yoke")));
        await page.Locator("#front").TapAsync();
        Assert.Equal(("Step 1", false), (await Text(page, "name"), await page.Locator("#front").IsVisibleAsync()));
        Assert.False(await page.Locator("#turned").IsVisibleAsync());
        await page.Locator("#done").TapAsync();
        Assert.Equal("Turn the work: bottom edge up", await Text(page, "turned")); // something to do, until the first stitch is ticked
        await page.Locator("#tick").TapAsync();
        Assert.Equal("Work turned, bottom edge up", await Text(page, "turned"));
        Assert.Equal("Run 1 of 3 in this row. ", await Text(page, "row"));
        await page.GetByLabel("Sideways").CheckAsync();
        Assert.Equal("Work turned, top edge on your right hand", await Text(page, "turned"));
        for (var i = 0; i < 3; i++) await page.Locator("#done").TapAsync();
        Assert.Equal(("Step 5", "Turn the work back: top edge on your left hand"), (await Text(page, "name"), await Text(page, "turned")));
        for (var i = 0; i < 2; i++) await page.Locator("#done").TapAsync();
        Assert.Equal("Run 1 of 2 in this row. Waiting at the back: r since step 5.", await Text(page, "row"));
        await page.Locator("#undo").TapAsync();
        Assert.Empty(complaints);
    }

    [Fact]
    public async Task Either_hand_either_hold_large_type_and_the_dark()
    {
        await using var context = await PhoneAsync(dark: true);
        var page = await OpenAsync(context, Save(PageOf(ThreeRuns)));
        await ToCablesAsync(page);
        Assert.Contains("From 54 left of the centre (pleat 15)", await Text(page, "said"), StringComparison.Ordinal);
        var before = await page.Locator(".now .edge").BoundingBoxAsync();
        await page.GetByLabel("Left-handed").CheckAsync();
        await page.GetByText("The steps are told for the other hand now").WaitForAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "It is right" }).TapAsync();
        Assert.False(await page.Locator("#changed").IsVisibleAsync());
        Assert.DoesNotContain("From 54 left of the centre (pleat 15)", await Text(page, "said"), StringComparison.Ordinal); // it begins at the other end
        Assert.Contains(" right of the centre (pleat ", await Text(page, "said"), StringComparison.Ordinal);
        var after = await page.Locator(".now .edge").BoundingBoxAsync();
        Assert.True(before!.X < 100 && after!.X > 200, $"{before.X} {after!.X}");
        await page.GetByLabel("Sideways").CheckAsync();
        Assert.Equal("left", await page.Locator(".word text").TextContentAsync());
        Assert.Contains("the first left", await Text(page, "said"), StringComparison.Ordinal);
        await page.GetByLabel("Large type").CheckAsync();
        await PictureAsync(page, "student-dark-large-sideways");
        await NoSeriousFaultAsync(page);
        await page.ReloadAsync();
        Assert.Equal("left", await page.Locator(".word text").TextContentAsync());
        Assert.True(await page.GetByLabel("Large type").IsCheckedAsync());
        Assert.True(await page.GetByLabel("Left-handed").IsCheckedAsync());
        var dark = await page.EvaluateAsync<string>("getComputedStyle(document.documentElement).backgroundColor");
        await page.Locator("#theme").SelectOptionAsync("light");
        Assert.NotEqual(dark, await page.EvaluateAsync<string>("getComputedStyle(document.documentElement).backgroundColor"));
        await NoSeriousFaultAsync(page);
        Assert.False(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth > innerWidth"));
        Assert.Empty(complaints);
    }

    [Fact]
    public async Task Bands_and_accents_are_counted_too()
    {
        await using var context = await PhoneAsync();
        var page = await OpenAsync(context, Save(PageOf("harbour-wall")));
        while (!(await Text(page, "name"))!.StartsWith("Bands", StringComparison.Ordinal)) await page.Locator("#done").TapAsync();
        for (var i = 0; i < 5; i++) await page.Locator("#tick").TapAsync();
        Assert.StartsWith("5 of ", await Text(page, "tally"), StringComparison.Ordinal);
        Assert.True(await page.Locator(".held .now").CountAsync() > 0);
        await PictureAsync(page, "student-band");
        await NoSeriousFaultAsync(page);
        Assert.Empty(complaints);
    }

    [Fact]
    public async Task Where_nothing_may_be_kept_it_says_so_and_the_address_holds_the_place()
    {
        await using var context = await PhoneAsync();
        await context.AddInitScriptAsync("Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('refused', 'SecurityError'); } })");
        var page = await OpenAsync(context, Save(PageOf("first-pennant")));
        await ToCablesAsync(page);
        await page.Locator("#tick").TapAsync();
        await page.Locator("#tick").TapAsync();
        Assert.Contains("This browser keeps nothing", await Text(page, "kept"), StringComparison.Ordinal);
        Assert.StartsWith("2 of", await Text(page, "tally"), StringComparison.Ordinal);
        await page.ReloadAsync();
        Assert.Equal("Step 1", await Text(page, "name"));
        Assert.StartsWith("2 of", await Text(page, "tally"), StringComparison.Ordinal);
        Assert.Empty(complaints);
    }

    [Fact]
    public async Task A_page_made_anew_after_a_change_asks_to_be_looked_at()
    {
        await using var context = await PhoneAsync();
        var piece = Example("first-pennant");
        var page = await OpenAsync(context, Save(piece));
        await ToCablesAsync(page);
        Save(piece with { Working = piece.Working with { First = FirstWay.Down, MayTurn = false } });
        await page.ReloadAsync();
        await page.GetByText("The piece has changed since you last ticked").WaitForAsync();
        await page.EvaluateAsync("localStorage.setItem(Object.keys(localStorage)[0], '{not a place')"); // nor does what makes no sense
        await page.ReloadAsync();
        Assert.StartsWith("On the back, 1 of ", await Text(page, "name"), StringComparison.Ordinal);
        Assert.Empty(complaints);
    }

    [Fact]
    public async Task Hostile_titles_and_names_are_only_read()
    {
        await using var context = await PhoneAsync();
        foreach (var name in (string[])
                 [
                     "<script>alert(1)</script>", "</title></style></script><img src=x onerror=alert(1)>", "\" onmouseover=\"alert(1)", "</script><script>alert(1)</script>",
                     "<!--<script>", "\u2028alert(1)\u2029", "__proto__", "${alert(1)}", "\u202Eesrever",
                 ])
        {
            var piece = Example("first-pennant");
            var page = await OpenAsync(context, Save(piece with { Title = name, Threads = [piece.Threads[0] with { Name = name, Note = name }] }));
            await ToCablesAsync(page);
            var read = name.Replace("\u202E", "", StringComparison.Ordinal).Replace('\u2028', ' ').Replace('\u2029', ' ').Trim();
            Assert.Equal(read, await page.Locator("h1").TextContentAsync());
            Assert.Equal(read, (await page.TitleAsync()).Trim());
            Assert.Equal($"p {read}, 4 strands", await Text(page, "thread"));
            Assert.Equal(0, await page.Locator("img, body script script").CountAsync());
            await page.CloseAsync();
        }
        Assert.Empty(complaints);
    }
}
