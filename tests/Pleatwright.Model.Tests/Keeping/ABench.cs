using System.Text;
using Pleatwright.Bench.Model;
using Pleatwright.Bench.Model.Basket;
using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Shelf;

namespace Pleatwright.Tests.Keeping;

/// <summary>A folder of pieces, and the benches that work on it.</summary>
internal sealed class AShelf
{
    public AShelf()
    {
        Faults = new Faults(Thread.Time);
        Files = new MemoryFiles(Thread.Time, Faults);
        Shelf = new FileShelf(Files, Thread.Time);
        Figures = new FileTexts(Files, Thread.Time, Goods.Figures);
        Stash = new FileStash(Files, Thread.Time);
        Browser = new FakeBrowser(Faults);
    }

    public OneThread Thread { get; } = new();

    /// <summary>Whether benches begin to keep the drawer, which takes its moment.</summary>
    public bool WithDrawer { get; init; }

    /// <summary>Whether it is the browser's own.</summary>
    public bool InBrowserOnly { get; init; }

    public Faults Faults { get; }

    public MemoryFiles Files { get; }

    /// <summary>The shelf itself, with no wire between.</summary>
    public FileShelf Shelf { get; }

    /// <summary>The drawer of figures beside it, with no wire between.</summary>
    public FileTexts Figures { get; }

    public FileStash Stash { get; }

    /// <summary>The browser that benches are opened in.</summary>
    public FakeBrowser Browser { get; }

    /// <summary>What a bench wrote over that was another's; must stay empty.</summary>
    public List<string> WrittenOver { get; } = [];

    /// <summary>Told of each figure saved: its name, and what stood there before.</summary>
    public Action<PieceName, byte[]?>? FigureWrote { get; set; }

    /// <summary>The titles of what stands on the shelf, sorted.</summary>
    public IEnumerable<string> Titles => Files.All.Where(f => !f.Path.StartsWith('.') && f.Path.EndsWith(PieceName.Ending, StringComparison.Ordinal))
        .Select(f => PieceReader.Read(f.Text).Title).Order(StringComparer.Ordinal);

    /// <summary>Opens a bench in a tab.</summary>
    public ABench Open(FakeBrowser.Tab? reloaded = null, FakeBrowser? browser = null) => new(this, (browser ?? Browser).Open(reloaded));
}

/// <summary>A bench in a tab: desk, keeper and basket over a shelf that fails as ordered.</summary>
internal sealed class ABench
{
    private static readonly Piece Plain = new("Plain",
        new ClothPlan(new Panel(Length.FromInches(2)), Gauge.FromPleatsPerInch(10, Length.FromInches(0.3), Length.FromInches(0.375), 5), 3), [Some.Floss('a', "#b3202c")], [], []);

    private readonly AShelf at;

    public ABench(AShelf at, FakeBrowser.Tab tab)
    {
        this.at = at;
        Tab = tab;
        var shelf = new ScriptedShelf(at.Shelf, at.Stash, at.Faults, tab, at.Files, Wrote) { InBrowserOnly = at.InBrowserOnly };
        at.Thread.Do(() =>
        {
            Desk = new Desk(at.Thread.Time) { AtRest = Effort.Drawing }; // keeping knows nothing of the order, and a law has no time to wait for a search
            Keeper = new Keeper(Desk, shelf, tab, tab, at.Thread.Time);
            Basket = new Workbasket(Desk, shelf, Keeper, tab, at.Thread.Time);
            Places = new PlaceKeeper(Keeper, tab, at.Thread.Time, Desk.Say);
            Drawer = new FigureKeeper(new ScriptedTexts(at.Figures, at.Faults, tab, at.Files, (name, before) => at.FigureWrote?.Invoke(name, before)), Keeper, tab, at.Thread.Time, Desk.Say);
            Desk.Said += Said.Add;
        });
        at.Thread.Do(Keeper.StartAsync);
        at.Thread.Do(Places.Start);
        if (at.WithDrawer) at.Thread.Do(Drawer.StartAsync);
    }

    public FakeBrowser.Tab Tab { get; }

    public Desk Desk { get; private set; } = null!;

    public Keeper Keeper { get; private set; } = null!;

    public Workbasket Basket { get; private set; } = null!;

    public PlaceKeeper Places { get; private set; } = null!;

    public FigureKeeper Drawer { get; private set; } = null!;

    /// <summary>What the bench has said.</summary>
    public List<string> Said { get; } = [];

    /// <summary>Whether a stroke is under way.</summary>
    public bool IsDrawing => !ReferenceEquals(Desk.Piece, Desk.History.Now.Piece);

    /// <summary>The title of the piece on the table.</summary>
    public string Title => Desk.History.Now.Piece.Title;

    /// <summary>Every title of the history, oldest first.</summary>
    public IEnumerable<string> Titles => Desk.History.Past.Reverse().Append(Desk.History.Now).Concat(Desk.History.Future).Select(m => m.Piece.Title);

    /// <summary>A small piece, quick to lay.</summary>
    public static Piece Small(string title) => Plain with { Title = title };

    // What was written over must be ours, or stand somewhere still.
    private void Wrote(PieceName name, byte[]? before)
    {
        if (before is null || at.Files.All.Any(f => f.Text.AsSpan().SequenceEqual(before))) return;
        var text = Encoding.UTF8.GetString(before);
        if (Tab.Of.Sent.Contains(text) || Tab.Of.Texts.Contains(text) || Desk.History.Past.Append(Desk.History.Now).Any(m => PieceWriter.Write(m.Piece) == text)) return;
        at.WrittenOver.Add($"{name}: {PieceReader.Read(before).Title} by {Title}");
    }

    public void Retitle(string title) => at.Thread.Do(() => Desk.Edit("a new title", p => p with { Title = title }));

    /// <summary>A stroke under way.</summary>
    public void Stroke(string title) => at.Thread.Do(() => Desk.Draft(Desk.Piece with { Title = title }, "a stroke"));

    public void New(string title) => at.Thread.Do(() => Keeper.NewAsync(Small(title)));

    public void OpenPiece(string name) => at.Thread.Do(() => Keeper.OpenAsync(PieceName.Parse(name)));

    public void Close(bool killed = false) => at.Thread.Do(() => Tab.Close(killed));

    public ABench Reload()
    {
        Close();
        return at.Open(Tab);
    }
}
