using Microsoft.Playwright;
using Pleatwright.Chart;
using Pleatwright.Files;

namespace Pleatwright.Browser.Tests;

/// <summary>The table worked by key, by pointer and by touch. What was done is read from the shelf's own file.</summary>
public class TableTests(WarmBench warm) : IClassFixture<WarmBench>
{
    private static ILocator Cloth(OpenBench bench) => bench.Page.Locator("#table-cloth");

    private static async Task Press(OpenBench bench, params string[] keys)
    {
        foreach (var key in keys) await bench.Page.Keyboard.PressAsync(key);
    }

    private static async Task<int> Cables(OpenBench bench) =>
        int.Parse((await bench.Page.Locator(".tape div", new() { HasText = "cables" }).Locator("dd").InnerTextAsync()).Replace(",", ""), System.Globalization.CultureInfo.InvariantCulture);

    private static Task CablesBecome(OpenBench bench, int cables) =>
        Assertions.Expect(bench.Page.Locator(".tape div", new() { HasText = "cables" }).Locator("dd")).ToHaveTextAsync(cables.ToString("N0", System.Globalization.CultureInfo.InvariantCulture));

    /// <summary>The piece as the shelf has it, once it satisfies a test.</summary>
    private static Task<Piece> OnShelf(OpenBench bench, Func<Piece, bool> until) => AtTheTable.OnShelfAsync(bench, until);

    private static Figure Boat(Piece piece) => piece.Figure("boat") ?? throw new Xunit.Sdk.XunitException("The boat is gone.");

    private async Task<OpenBench> AtTable(bool touch = false, ViewportSize? size = null)
    {
        var bench = await warm.ExampleAsync(size: size, touch: touch);
        await AtTheTable.OpenAsync(bench, "Cloth"); // the amounts are there
        await Cloth(bench).FocusAsync();
        return bench;
    }

    [Fact]
    public async Task Stitches_are_drawn_cleared_undone_and_done_again_by_key()
    {
        await using var bench = await AtTable();
        var before = await Cables(bench);
        await Press(bench, "PageUp", "PageUp", "r", "Control+ArrowRight", "Control+ArrowRight", "Control+ArrowRight");
        await CablesBecome(bench, before + 3);
        await Press(bench, ".", "ArrowLeft", " ");
        await CablesBecome(bench, before + 2);
        await Press(bench, "Control+z");
        await CablesBecome(bench, before + 3);
        await Press(bench, "Control+z", "Control+z", "Control+z");
        await CablesBecome(bench, before);
        await Press(bench, "Control+y", "Control+y", "Control+y", "Control+y");
        await CablesBecome(bench, before + 2);
    }

    [Fact]
    public async Task A_reload_in_the_middle_of_drawing_loses_at_most_the_last_second()
    {
        await using var bench = await AtTable();
        var before = await Cables(bench);
        await Press(bench, "PageUp", "PageUp", "r");
        for (var i = 0; i < 6; i++) await Press(bench, "Control+ArrowRight");
        await CablesBecome(bench, before + 6);
        await OpenBench.JournaledAsync(bench.Page, p => Work.Lay(p).Cables == before + 6);
        await Press(bench, "Control+ArrowRight");
        await bench.ReloadAsync();
        Assert.InRange(await Cables(bench), before + 6, before + 7);
    }

    [Fact]
    public async Task Areas_are_marked_copied_mirrored_filled_and_cleared_by_key()
    {
        await using var bench = await AtTable();
        var before = await Cables(bench);
        // On bare cloth above the boats: three cables in a row, then a copy of them two rows higher.
        await Press(bench, "PageUp", "PageUp", "s", "Control+ArrowRight", "r", "Control+ArrowRight", "Control+ArrowRight");
        await Press(bench, "ArrowLeft", "Shift+ArrowLeft", "Shift+ArrowLeft", "Control+c", "Escape", "ArrowUp", "ArrowUp", "Control+v");
        await CablesBecome(bench, before + 6);
        await Press(bench, "Shift+ArrowRight", "Shift+ArrowRight", "\\");
        var mirrored = await OnShelf(bench, p => p.Figures.Length == 2 && p.Figures[1].Rows[0].Contains("rrs", StringComparison.Ordinal));
        Assert.Contains("srr", mirrored.Figures[1].Rows[2], StringComparison.Ordinal);
        await Press(bench, "b", "*");
        await OnShelf(bench, p => p.Figures[1].Rows[0].Contains("bbb", StringComparison.Ordinal));
        await Press(bench, "Delete");
        await CablesBecome(bench, before + 3);
        await Press(bench, "Escape", "Control+a", "Control+a", "Delete"); // the whole cloth; the bands stay
        await OnShelf(bench, p => p.Figures.IsEmpty && p.Bands.Length == Piece(bench).Bands.Length);
    }

    private static Piece Piece(OpenBench _) => PieceReader.Read(File.ReadAllBytes(Repository.Path("examples", "harbour-morning.piece.json")));

    [Fact]
    public async Task All_that_can_be_done_here_is_found_and_done_by_key()
    {
        await using var bench = await AtTable();
        await Press(bench, "/");
        await Assertions.Expect(bench.Page.Locator("#do-find")).ToBeFocusedAsync();
        await bench.NoSeriousFaultAsync();
        await bench.Page.Keyboard.TypeAsync("square");
        await Press(bench, "Enter");
        await OnShelf(bench, p => Boat(p).Square);
        await Assertions.Expect(Cloth(bench)).ToBeFocusedAsync();
        await Press(bench, "?");
        await Assertions.Expect(bench.Page.Locator(".keys")).ToBeVisibleAsync();
        await bench.NoSeriousFaultAsync();
        await Press(bench, "Escape");
        await Assertions.Expect(bench.Page.Locator("dialog[open]")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task A_sheet_opened_from_the_list_stays_and_the_Enter_that_opened_it_does_not_answer_it()
    {
        await using var bench = await AtTable();
        var reels = await bench.Page.Locator(".reel").CountAsync();
        foreach (var (sought, title) in new[] { ("from side to side", "A band from side to side"), ("the cloth…", "The cloth"), ("an accent…", "An accent"), ("another thread", "Another thread") })
        {
            await Cloth(bench).FocusAsync();
            await Press(bench, "/");
            await Assertions.Expect(bench.Page.Locator("#do-find")).ToBeFocusedAsync();
            await bench.Page.Keyboard.TypeAsync(sought);
            await Press(bench, "Enter");
            await bench.PaintedAsync();
            await Assertions.Expect(bench.Page.Locator("dialog[open] h2").First).ToHaveTextAsync(title);
            await Press(bench, "Escape");
            await Assertions.Expect(bench.Page.Locator("dialog[open]")).ToHaveCountAsync(0);
        }
        Assert.Equal(reels, await bench.Page.Locator(".reel").CountAsync());
    }

    [Fact]
    public async Task A_thread_is_added_changed_and_taken_away()
    {
        await using var bench = await AtTable();
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Another thread" }).ClickAsync();
        await bench.Page.GetByLabel("Your name for it").FillAsync("gull grey");
        await bench.Page.GetByLabel("Letter", new() { Exact = true }).FillAsync("g");
        await bench.NoSeriousFaultAsync();
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Add the thread" }).ClickAsync();
        var added = await OnShelf(bench, p => p.Threads.Any(t => t.Name == "gull grey"));
        Assert.Equal('g', added.Threads[^1].Key.Letter);
        await AtTheTable.OpenAsync(bench, "Threads");
        await bench.Page.GetByLabel("Change thread r").ClickAsync();
        await bench.Page.GetByLabel("Work it instead in").SelectOptionAsync("g");
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Take this thread away" }).ClickAsync();
        var gone = await OnShelf(bench, p => p.Threads.All(t => t.Key.Letter != 'r'));
        Assert.Contains('g', Boat(gone).Rows[0]);
    }

    [Fact]
    public async Task The_cloth_is_changed_and_says_what_it_comes_to()
    {
        await using var bench = await AtTable();
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Change the cloth" }).ClickAsync();
        await bench.Page.GetByLabel("Finished width").FillAsync("12 miles");
        await bench.Page.GetByLabel("Finished width").BlurAsync();
        await Assertions.Expect(bench.Page.Locator(".field .wrong")).ToBeVisibleAsync();
        await bench.Page.GetByLabel("Finished width").FillAsync("12 in");
        await bench.Page.GetByLabel("Finished width").BlurAsync();
        await Assertions.Expect(bench.Page.Locator(".comes-to")).ToContainTextAsync("192 pleats");
        await bench.NoSeriousFaultAsync();
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Lay this cloth" }).ClickAsync();
        await Assertions.Expect(bench.Page.Locator(".tape")).ToContainTextAsync("192");
        await OnShelf(bench, p => new Pleatwright.Cloth.PleatingPlan(p.Cloth).Pleats == 192);
    }

    [Fact]
    public async Task A_pointer_draws_a_run_in_one_stroke_and_one_undo_takes_it_back()
    {
        await using var bench = await AtTable();
        var before = await Cables(bench);
        var (x, y) = await PlaceOf(bench, 80, 10);
        var (x2, _) = await PlaceOf(bench, 92, 10);
        await bench.Page.Mouse.MoveAsync(x, y);
        await bench.Page.Mouse.DownAsync();
        await bench.Page.Mouse.MoveAsync(x2, y, new() { Steps = 3 });
        await bench.Page.Mouse.UpAsync();
        Assert.True(await Cables(bench) >= before + 5);
        await Press(bench, "Control+z");
        await CablesBecome(bench, before);
    }

    [Fact]
    public async Task An_area_is_marked_and_carried_by_pointer()
    {
        await using var bench = await AtTable();
        await bench.Page.GetByRole(AriaRole.Radio, new() { Name = "Take hold" }).ClickAsync();
        var (x, y) = await PlaceOf(bench, 88, 20);
        var (x2, y2) = await PlaceOf(bench, 98, 22);
        await bench.Page.Mouse.MoveAsync(x, y);
        await bench.Page.Mouse.DownAsync();
        await bench.Page.Mouse.MoveAsync(x2, y2, new() { Steps = 8 });
        await bench.Page.Mouse.UpAsync();
        await OnShelf(bench, p => p.Placements[0].Centre.Valleys is > 94 and < 102);
        await bench.Page.GetByRole(AriaRole.Radio, new() { Name = "Stitch", Exact = true }).ClickAsync();
    }

    [Fact]
    public async Task A_finger_draws_and_wheel_and_keys_zoom()
    {
        await using var bench = await AtTable(touch: true, size: Screens.Phone);
        var before = await Cables(bench);
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Put away" }).ClickAsync();
        var (x, y) = await PlaceOf(bench, 88, 25); // bare, below the boat on which the table opens
        await bench.Page.Touchscreen.TapAsync(x, y);
        await AtTheTable.OpenAsync(bench, "Cloth");
        await CablesBecome(bench, before + 1);
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Put away" }).ClickAsync();
        var (x0, _) = await PlaceOf(bench, 82, 25);
        await bench.Page.Mouse.MoveAsync(x, y);
        await bench.Page.Keyboard.DownAsync("Control");
        await bench.Page.Mouse.WheelAsync(0, -240);
        await bench.Page.Keyboard.UpAsync("Control");
        await bench.PaintedAsync();
        var (x1, _) = await PlaceOf(bench, 82, 25);
        var (x3, _) = await PlaceOf(bench, 88, 25);
        Assert.True(x3 - x1 > (x - x0) * 1.3);
    }

    [Fact]
    public async Task A_finding_points_to_its_place()
    {
        await using var bench = await AtTable();
        await AtTheTable.OpenAsync(bench, "Proof");
        var here = await bench.Page.Locator("#here-words").InnerTextAsync();
        await bench.Page.Locator(".finding-words").First.ClickAsync();
        await Assertions.Expect(bench.Page.Locator("#here-words")).Not.ToHaveTextAsync(here);
        await Assertions.Expect(bench.Page.Locator(".finding[data-chosen] .remedy")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task A_remedy_is_done_at_one_press_and_undone()
    {
        await using var bench = await AtTable();
        var before = await Cables(bench);
        await Press(bench, "PageUp", "PageUp", "r", " "); // a lone cable on bare cloth
        await CablesBecome(bench, before + 1);
        await AtTheTable.OpenAsync(bench, "Proof");
        await bench.Page.Locator(".mend", new() { HasText = "Take the cable out" }).ClickAsync();
        await AtTheTable.OpenAsync(bench, "Cloth");
        await CablesBecome(bench, before);
        await Cloth(bench).FocusAsync();
        await Press(bench, "Control+z");
        await CablesBecome(bench, before + 1);
    }

    private static Task<(float X, float Y)> PlaceOf(OpenBench bench, int valley, int row) => AtTheTable.PlaceOfAsync(bench, valley, row);
}
