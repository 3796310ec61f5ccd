using System.Collections.Concurrent;
using System.Diagnostics;
using Microsoft.Playwright;
using Pleatwright.App.Host;
using Pleatwright.Chart;
using Pleatwright.Files;
using Xunit.Sdk;

namespace Pleatwright.Browser.Tests;

/// <summary>Sizes at which every view is looked at.</summary>
public static class Screens
{
    public static ViewportSize Desktop => new() { Width = 1440, Height = 900 };

    public static ViewportSize Tablet => new() { Width = 820, Height = 1180 };

    public static ViewportSize Phone => new() { Width = 390, Height = 844 };

    public static IEnumerable<(string Name, ViewportSize Size)> All => [("desktop", Desktop), ("tablet", Tablet), ("phone", Phone)];

    public static TheoryData<string> Named => [.. All.Select(s => s.Name)];

    public static ViewportSize Of(string name) => All.First(s => s.Name == name).Size;
}

/// <summary>
/// A bench served from a shelf of its own and open in a page. When it is put away it fails the test on anything the
/// page complained about: an error in the console, an exception, a request that failed.
/// </summary>
public sealed class OpenBench : IAsyncDisposable
{
    private readonly ConcurrentQueue<string> complaints = new();
    private readonly Chromium chromium;
    private readonly Window window;
    private readonly Uri address;
    private readonly bool touch;
    private ViewportSize size;
    private bool dark, leaving;

    private OpenBench(BenchHost host, string folder, Chromium chromium, Window window, bool touch, ViewportSize size, bool dark)
    {
        Host = host;
        Folder = folder;
        this.chromium = chromium;
        this.window = window;
        this.touch = touch;
        this.size = size;
        this.dark = dark;
        address = host.Url;
    }

    public BenchHost Host { get; private set; }

    /// <summary>The shelf's folder.</summary>
    public string Folder { get; }

    public IBrowserContext Context => window.Context;

    public IPage Page { get; private set; } = null!;

    /// <summary>What a test provoked on purpose, and which is therefore no complaint.</summary>
    public List<string> Expected { get; } = [];

    /// <summary>The file of the piece in hand, without its ending; "*" where the shelf has no other.</summary>
    public string Name { get; private set; } = "*";

    /// <summary>It stands on for the next test: <see cref="DisposeAsync"/> only looks for complaints.</summary>
    public bool Stays { get; set; }

    /// <summary>A test found fault with it: the next had better open another.</summary>
    public bool IsSpoilt { get; private set; }

    /// <summary>Its screen is touched.</summary>
    public bool IsTouched => touch;

    private int laid, failures = Chromium.Failures;

    /// <summary>Serves a shelf with the bench that people get, where PLEATWRIGHT_PUBLISHED names it, else with the one just built.</summary>
    public static Task<BenchHost> ServeAsync(string folder, int port = 0) => BenchHost.StartAsync(folder, port, unpacked: PublishedTests.Published);

    /// <summary>Opens the bench at a view; "" is where it opens by itself. "Before" is a script that the page runs before its own.</summary>
    public static async Task<OpenBench> AtAsync(Chromium chromium, string view = "", ViewportSize? size = null, bool dark = false,
        bool touch = false, Action<string>? fillShelf = null, string? before = null)
    {
        var folder = Directory.CreateTempSubdirectory("shelf").FullName;
        fillShelf?.Invoke(folder);
        var host = await ServeAsync(folder);
        var bench = new OpenBench(host, folder, chromium, await chromium.BorrowAsync(touch, host.Url), touch, size ?? Screens.Desktop, dark);
        bench.Page = await bench.NewPageAsync();
        await bench.Page.AddInitScriptAsync(before ?? "globalThis.noPainter = true;"); // a second program that paints covers nobody looks at
        await bench.GoAsync(view);
        return bench;
    }

    /// <summary>Puts a piece of its own on the shelf and opens it, whatever lies on the table.</summary>
    public async Task LayAsync(string piece)
    {
        await ClearAsync();
        Name = $"piece{++laid}";
        await File.WriteAllTextAsync(Path.Combine(Folder, Name + ".piece.json"), piece);
        if (await Page.Locator(".bench[data-view=shelf]").CountAsync() > 0) await SeeAsync("table");
        await SeeAsync("shelf");
        await Page.Locator("#piece-" + Convert.ToHexString(System.Text.Encoding.UTF8.GetBytes(Name))).ClickAsync();
        await ToStitchAsync();
    }

    // At the table, nothing over the cloth and the hand with nothing but the needle: what it did last it would do still.
    private async Task ToStitchAsync()
    {
        await Page.Locator(".bench[data-view=table] #table-cloth").FocusAsync();
        await AtTheTable.PutAwayAsync(this);
        await Page.Locator(".doings [role=radio]").First.EvaluateAsync("stitch => stitch.click()");
        await Page.Locator(".doings [role=radio][aria-checked=true]:first-child").WaitForAsync(new() { State = WaitForSelectorState.Attached });
    }

    /// <summary>
    /// As a bench that was never used: the first example on the table, on the shelf what is put there and nothing else, and in the browser nothing of what was.
    /// What was chosen, of the plate or of the chair, stays chosen.
    /// </summary>
    public async Task BeginAfreshAsync(string view, Action<string>? fillShelf = null)
    {
        await ClearAsync();
        await SeeAsync("table");
        await SeeAsync("shelf"); // what lay on the table is kept now
        await Page.Locator("ul[aria-label='Examples'] .swatch-open").GetByText("Harbour morning", new() { Exact = true }).ClickAsync();
        await ToStitchAsync();
        await Page.EvaluateAsync("""
            async () => {
              const ask = (request) => new Promise((done, fail) => { request.onsuccess = () => done(request.result); request.onerror = () => fail(request.error); });
              const db = await ask(indexedDB.open("pleatwright"));
              const names = [...db.objectStoreNames], all = db.transaction(names, "readwrite");
              for (const name of names) all.objectStore(name).clear();
              await new Promise((done, fail) => { all.oncomplete = done; all.onabort = fail; });
              db.close();
            }
            """);
        foreach (var folder in Directory.GetDirectories(Folder)) Directory.Delete(folder, recursive: true);
        foreach (var file in Directory.GetFiles(Folder)) File.Delete(file);
        fillShelf?.Invoke(Folder);
        Name = "*";
        await SeeAsync(view);
    }

    /// <summary>Goes to a view within the bench that stands.</summary>
    public async Task SeeAsync(string view)
    {
        await Page.EvaluateAsync("view => { location.hash = view; }", view);
        await Page.Locator($".bench[data-view={view}]").WaitForAsync();
    }

    /// <summary>Puts away what lies open.</summary>
    public async Task ClearAsync()
    {
        for (var i = 0; i < 5 && await Page.Locator("dialog[open]").CountAsync() > 0; i++)
        {
            await Page.Keyboard.PressAsync("Escape");
            await PaintedAsync();
        }
    }

    /// <summary>Another tab on the same bench.</summary>
    public async Task<IPage> NewPageAsync()
    {
        var page = await Context.NewPageAsync();
        await page.SetViewportSizeAsync(size.Width, size.Height);
        await page.EmulateMediaAsync(new() { ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light, ReducedMotion = ReducedMotion.Reduce }); // nothing is looked at on its way
        page.Console += (_, m) => { if (m.Type == "error") Complain($"console: {m.Text} ({m.Location})"); };
        page.PageError += (_, e) => Complain($"exception: {e}");
        page.RequestFailed += (_, r) => { if (!leaving && r.Failure != "net::ERR_ABORTED") Complain($"request: {r.Method} {r.Url}: {r.Failure}"); };
        return page;
    }

    /// <summary>Opens the address of a view and waits until the bench stands.</summary>
    public async Task GoAsync(string view)
    {
        await Page.GotoAsync(AddressOf(view));
        await StandsAsync(Page);
    }

    /// <summary>The address of a view; "" is where it opens by itself.</summary>
    public string AddressOf(string view) => new Uri(address, view.Length == 0 ? "/" : "/#" + view).ToString();

    /// <summary>Waits until the bench has come up.</summary>
    public static Task StandsAsync(IPage page) => page.Locator(".bench main").WaitForAsync();

    public async Task ReloadAsync()
    {
        await Page.ReloadAsync();
        await StandsAsync(Page);
    }

    /// <summary>Looks at what is open on another screen, or by another light.</summary>
    public async Task LookAsync(ViewportSize? size = null, bool? dark = null)
    {
        (this.size, this.dark) = (size ?? this.size, dark ?? this.dark);
        if (size is not null) await Page.SetViewportSizeAsync(size.Width, size.Height);
        if (dark is { } d) await Page.EmulateMediaAsync(new() { ColorScheme = d ? ColorScheme.Dark : ColorScheme.Light });
        await PaintedAsync();
    }

    /// <summary>Waits until the page has painted what stands now.</summary>
    public Task PaintedAsync() => Page.EvaluateAsync("new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))");

    /// <summary>Nothing reaches over the edge of the screen: the view scrolls within itself, the page never.</summary>
    public async Task FitsTheScreenAsync()
    {
        var over = await Page.EvaluateAsync<int[]>("[document.documentElement.scrollWidth - innerWidth, document.documentElement.scrollHeight - innerHeight]");
        Assert.True(over is [<= 0, <= 0], $"{Page.Url} is {over[0]} px too wide and {over[1]} px too tall at {Page.ViewportSize!.Width}");
    }

    /// <summary>No fault that axe calls serious or critical, on what is shown once nothing is at work any more: a view at work looks otherwise for a moment.</summary>
    public async Task NoSeriousFaultAsync()
    {
        await Assertions.Expect(Page.Locator("[aria-busy=true]")).ToHaveCountAsync(0);
        await Axe.NoSeriousFaultAsync(Page);
    }

    /// <summary>Takes a picture into the folder that PLEATWRIGHT_PICTURES names; nothing when it names none.</summary>
    public async Task PictureAsync(string name)
    {
        if (Environment.GetEnvironmentVariable("PLEATWRIGHT_PICTURES") is not { Length: > 0 } folder) return;
        Directory.CreateDirectory(folder);
        await Page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(folder, name + ".png") });
    }

    /// <summary>What the shelf has in a file once it holds what is wanted: what the page shows is kept a moment later.</summary>
    /// <param name="files">The file's name, or a pattern that several fit.</param>
    /// <param name="read">Reads its text.</param>
    /// <param name="until">What is wanted.</param>
    public async Task<T> OnShelfAsync<T>(string files, Func<byte[], T> read, Func<T, bool> until)
    {
        for (var clock = Stopwatch.StartNew(); clock.ElapsedMilliseconds < Chromium.Patience; await Task.Delay(25))
        {
            foreach (var file in Directory.GetFiles(Folder, files))
            {
                try
                {
                    if (read(await File.ReadAllBytesAsync(file)) is var held && until(held)) return held;
                }
                catch (IOException) { } // being replaced this moment
            }
        }
        throw new XunitException($"The shelf never had {files} as wanted, but {Directory.GetFiles(Folder, files).Select(File.ReadAllText).FirstOrDefault() ?? "nothing"}");
    }

    /// <summary>Waits until the browser's own journal holds a present that is as wanted; what stands there outlasts a kill.</summary>
    public static async Task JournaledAsync(IPage page, Func<Piece, bool> until)
    {
        string[] held = [];
        for (var clock = Stopwatch.StartNew(); clock.ElapsedMilliseconds < Chromium.Patience; await Task.Delay(25))
        {
            held = await page.EvaluateAsync<string[]>("""
                async () => {
                  const ask = (request) => new Promise((done, fail) => { request.onsuccess = () => done(request.result); request.onerror = () => fail(request.error); });
                  const opening = indexedDB.open("pleatwright");
                  opening.onupgradeneeded = () => opening.transaction.abort(); // it was cleared; the bench makes it, nobody else
                  const db = await ask(opening).catch(() => null);
                  if (!db) return [];
                  try {
                    const of = db.transaction(["heads", "moments"]);
                    const [keys, heads] = await Promise.all([ask(of.objectStore("heads").getAllKeys()), ask(of.objectStore("heads").getAll())]);
                    return (await Promise.all(keys.map((key, i) => ask(of.objectStore("moments").get([key, heads[i].at]))))).map(m => m?.text ?? "");
                  } finally { db.close(); }
                }
                """);
            if (held.Any(text => text.Length > 0 && until(PieceReader.Read(System.Text.Encoding.UTF8.GetBytes(text))))) return;
        }
        throw new XunitException($"The journal never held what was wanted, but {string.Join('\n', held)}");
    }

    /// <summary>Stops the host, as a maker would who shuts its window.</summary>
    public ValueTask StopHostAsync() => Host.DisposeAsync();

    /// <summary>Starts it again where it was.</summary>
    public async Task RestartHostAsync() => Host = await ServeAsync(Folder, Host.Url.Port);

    public async ValueTask DisposeAsync()
    {
        if (failures != Chromium.Failures)
        {
            IsSpoilt = true;
            await TellAsync();
        }
        failures = Chromium.Failures;
        if (!Stays) await CloseAsync();
        var faults = complaints.Where(c => !Expected.Exists(e => c.Contains(e, StringComparison.Ordinal))).ToList();
        IsSpoilt |= faults.Count > 0;
        complaints.Clear();
        Expected.Clear();
        Assert.True(faults.Count == 0, string.Join("\n", faults));
    }

    /// <summary>Closes it, whatever it complained of.</summary>
    public async Task CloseAsync()
    {
        leaving = true;
        await chromium.GiveBackAsync(window, touch, address);
        await Host.DisposeAsync();
        Directory.Delete(Folder, recursive: true);
    }

    // A failure far away is told by what the page showed.
    private async Task TellAsync()
    {
        foreach (var page in Context.Pages)
        {
            try
            {
                var shown = await page.Locator("body").AriaSnapshotAsync(new() { Timeout = 5000 });
                TestContext.Current.TestOutputHelper?.WriteLine($"{page.Url} showed, at {page.ViewportSize?.Width} by {page.ViewportSize?.Height}:\n{shown}");
            }
            catch (Exception e) when (e is PlaywrightException or TimeoutException) { }
        }
    }

    private void Complain(string words) => complaints.Enqueue(words);
}
