using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Pieces;

/// <summary>A file that the page hands over.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Type">Its media type.</param>
/// <param name="Content">What is in it.</param>
public readonly record struct HandedOver(string Name, string Type, byte[] Content);

/// <summary>A file that the maker hands in, read when its turn comes.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Read">Reads it.</param>
public sealed record HandedIn(string Name, Func<Task<byte[]>> Read);

/// <summary>The shelf as it is looked at: what lies there, what was last done with it, what went wrong.</summary>
public sealed class Board(Keeper keeper, PlaceKeeper places, FigureKeeper figures)
{
    /// <summary>The most files brought in at once.</summary>
    public const int MostFiles = 500;

    /// <summary>What the names of files that may hold pieces end with, as a page lists them.</summary>
    public static string Endings { get; } = string.Join(',', [".json", Bundle.Ending, .. CarriedPiece.Endings]);

    private const int FaultsTold = 5;

    /// <summary>What lies on the shelf; null until it was looked at.</summary>
    public ShelfContents? Contents { get; private set; }

    /// <summary>What was last done, for the maker; empty when nothing was.</summary>
    public string Note { get; private set; } = "";

    /// <summary>Why something could not be done; empty when all is well.</summary>
    public string Trouble { get; private set; } = "";

    /// <summary>Figures brought in that lie in the drawer in another state: the maker says of each which stays, and until then nothing is done.</summary>
    public IReadOnlyList<DrawerDoubt> Doubts { get; private set; } = [];

    /// <summary>The figure just taken out of the drawer, by its name on the shelf, to be put back by one press.</summary>
    public string? FigureTakenOut { get; private set; }

    /// <summary>The piece just taken off, to be put back by one press.</summary>
    public PieceName? TakenOff { get; private set; }

    /// <summary>The piece just asked for that is dear to open: it is opened by one press more.</summary>
    public ShelfEntry? Dear { get; private set; }

    /// <summary>What this browser holds of pieces, whether the shelf answers or not.</summary>
    public IReadOnlyList<HeldPiece> Held { get; private set; } = [];

    /// <summary>Whether the shelf does not answer.</summary>
    public bool IsUnseen { get; private set; }

    /// <summary>What waits in this browser to go to the shelf, the piece on the table apart; nothing while the shelf is unseen, for then all is shown.</summary>
    public IReadOnlyList<HeldPiece> OnlyHere => IsUnseen ? [] : [.. Held.Where(h => h.Stand != HeldStand.InStep && !keeper.IsOnTable(h))];

    /// <summary>Looks at the shelf again.</summary>
    public async Task LookAgainAsync()
    {
        try
        {
            Contents = await keeper.Shelf.ListAsync();
            (Trouble, IsUnseen) = ("", false);
            await figures.LookAsync();
        }
        catch (ShelfException e)
        {
            Trouble = e.Message;
            IsUnseen = e.Trouble == ShelfTrouble.Unavailable;
            if (IsUnseen) Contents = null;
        }
        Held = await keeper.HeldAsync();
    }

    /// <summary>Puts a piece that this browser holds on the table.</summary>
    /// <returns>Whether it lies there.</returns>
    public Task<bool> OpenAsync(HeldPiece piece) => TryAsync(() => keeper.OpenAsync(piece));

    /// <summary>A piece that this browser holds as a file, to take away; null when it cannot be had.</summary>
    public async Task<HandedOver?> ExportAsync(HeldPiece piece)
    {
        HandedOver? file = null;
        await TryAsync(async () =>
        {
            file = new HandedOver(PieceName.Nearest(piece.Title).FileName, "application/json", await keeper.TextAsync(piece));
            Note = $"“{piece.Title}” was exported.";
        });
        return file;
    }

    /// <summary>Puts a piece of the shelf on the table.</summary>
    /// <returns>Whether it lies there.</returns>
    public Task<bool> OpenAsync(ShelfEntry entry) => TryAsync(async () =>
    {
        try
        {
            await keeper.OpenAsync(PieceName.Parse(entry.Name));
        }
        catch (DearPieceException)
        {
            Dear = entry;
            throw;
        }
    });

    /// <summary>Puts a piece of the shelf on the table, however dear it is.</summary>
    /// <returns>Whether it lies there.</returns>
    public Task<bool> OpenLargeAsync(ShelfEntry entry) => TryAsync(() => keeper.OpenLargeAsync(PieceName.Parse(entry.Name)));

    /// <summary>Puts an example on the table.</summary>
    /// <returns>Whether it lies there.</returns>
    public Task<bool> OpenExampleAsync(string name) => TryAsync(() => keeper.OpenExampleAsync(name));

    public Task<bool> DuplicateAsync(ShelfEntry entry) => TryAsync(async () =>
    {
        await keeper.SettleAsync(PieceName.Parse(entry.Name));
        Note = $"Duplicated as “{await keeper.Shelf.DuplicateAsync(PieceName.Parse(entry.Name))}”.";
    });

    public Task<bool> RenameAsync(ShelfEntry entry, string title) => TryAsync(async () =>
        Note = $"Renamed to “{await keeper.RenameAsync(PieceName.Parse(entry.Name), title.Trim(), entry.Problem is null)}”.");

    public Task<bool> DeleteAsync(ShelfEntry entry) => TryAsync(async () =>
    {
        var name = PieceName.Parse(entry.Name);
        await keeper.DeleteAsync(name);
        (Note, TakenOff) = ($"“{entry.Title}” was taken off the shelf.", name);
    });

    /// <summary>Puts a piece back that was taken off.</summary>
    public Task<bool> PutBackAsync(string name) => TryAsync(async () => Note = $"“{await keeper.Shelf.UndoDeleteAsync(PieceName.Parse(name))}” is back on the shelf.");

    /// <summary>Puts an earlier version of a piece back.</summary>
    public Task<bool> RestoreAsync(ShelfEntry entry, int number) => TryAsync(async () =>
    {
        await keeper.RestoreAsync(PieceName.Parse(entry.Name), number);
        Note = $"An earlier version of “{entry.Title}” was put back.";
    });

    /// <summary>An earlier version of a piece, to take away; null when it cannot be had.</summary>
    public async Task<HandedOver?> VersionAsync(ShelfEntry entry, int number)
    {
        HandedOver? file = null;
        await TryAsync(async () =>
        {
            var name = PieceName.Parse(entry.Name);
            file = new HandedOver($"{name} {number}{PieceName.Ending}", "application/json", await keeper.Shelf.LoadVersionAsync(name, number));
        });
        return file;
    }

    /// <summary>A piece as a file, to take away; null when it cannot be had.</summary>
    public async Task<HandedOver?> ExportAsync(ShelfEntry entry)
    {
        HandedOver? file = null;
        await TryAsync(async () =>
        {
            await keeper.SettleAsync(PieceName.Parse(entry.Name));
            var piece = await keeper.Shelf.LoadAsync(PieceName.Parse(entry.Name));
            file = new HandedOver(piece.Name.FileName, "application/json", piece.Text);
            Note = $"“{entry.Title}” was exported.";
        });
        return file;
    }

    /// <summary>Every piece with its place, and every figure of the drawer, in one file, to take away; null when one cannot be had.</summary>
    public async Task<HandedOver?> ExportAllAsync()
    {
        HandedOver? file = null;
        await TryAsync(async () =>
        {
            await keeper.SettleAsync();
            await places.SettleAsync();
            var all = new List<(StoredPiece, StoredPlace?)>();
            foreach (var name in (Contents?.Pieces ?? []).Where(p => p.Usable).Select(p => PieceName.Parse(p.Name)))
                all.Add((await keeper.Shelf.LoadAsync(name), await keeper.Shelf.LoadPlaceAsync(name)));
            await figures.SettleAsync();
            var drawn = new List<StoredPiece>();
            foreach (var name in (await figures.Shelf.ListAsync()).Pieces.Where(p => p.Usable).Select(p => PieceName.Parse(p.Name))) drawn.Add(await figures.Shelf.LoadAsync(name));
            file = new HandedOver("Smocking pieces" + Bundle.Ending, "application/zip", Bundle.Pack(all, drawn));
            Note = $"{Words.Of(all.Count, "piece")}{(drawn.Count > 0 ? $" and {Words.Of(drawn.Count, "figure")}" : "")} exported.";
        });
        return file;
    }

    /// <summary>
    /// Brings in piece files, plates that carry a piece, figures for the drawer, and files of many of them, and with a piece its place, by the same name beside it; what cannot be read is told of by its
    /// name, and the others come in.
    /// </summary>
    public Task<bool> BringInAsync(IEnumerable<HandedIn> files) => TryAsync(async () =>
    {
        var (brought, drawn) = (0, 0);
        var doubts = new List<DrawerDoubt>();
        var refused = new List<string>();
        var names = new Dictionary<string, PieceName>(); // on the shelf, by what the file was called without its ending
        var places = new List<(string Path, byte[] Text)>();
        foreach (var file in files)
        {
            try
            {
                var content = await file.Read();
                var many = file.Name.EndsWith(Bundle.Ending, StringComparison.OrdinalIgnoreCase);
                foreach (var (name, text) in many ? Bundle.Unpack(content) : [(file.Name, content)])
                {
                    var path = many ? $"{file.Name}/{name}" : name;
                    if (Bundle.IsPlace(name)) { places.Add((path, text)); continue; } // when its piece is there
                    try
                    {
                        if (Bundle.IsFigure(name) || FigureReader.IsFigure(text))
                        {
                            if (await figures.BringInAsync(text) is { } doubt) doubts.Add(doubt);
                            else drawn++;
                            continue;
                        }
                        names[PieceName.StemOf(path)] = await BringInOneAsync(Path.GetFileName(name), text);
                        brought++;
                    }
                    catch (PieceFormatException fault) { refused.Add(fault.Located(Path.GetFileName(name))); }
                }
            }
            catch (Exception fault) when (fault is IOException or InvalidDataException) { refused.Add($"{file.Name}: {fault.Message}"); }
        }
        foreach (var (path, text) in places)
        {
            var name = Path.GetFileName(path);
            try
            {
                if (names.TryGetValue(path[..^FileShelf.PlaceEnding.Length], out var piece)) await BringInPlaceAsync(piece, text);
                else refused.Add($"{name}: a place comes in with its piece, by the same name");
            }
            catch (PieceFormatException fault) { refused.Add(fault.Located(name)); }
        }
        string[] came = [brought > 0 || drawn == 0 ? Words.Of(brought, "piece") : "", drawn > 0 ? Words.Of(drawn, "figure") : ""];
        Note = brought + drawn > 0 ? $"{string.Join(" and ", came.Where(c => c.Length > 0))} brought in." : doubts.Count > 0 ? "" : "Nothing was brought in.";
        Doubts = doubts;
        if (refused.Count > 0) Note += $" Not brought in: {string.Join("; ", refused.Take(FaultsTold))}{(refused.Count > FaultsTold ? $"; and {refused.Count - FaultsTold} more" : "")}";
    });

    /// <summary>Puts a figure brought in in place of the drawer's, which stays among its earlier versions.</summary>
    public Task<bool> PutInPlaceAsync(DrawerDoubt doubt) => PutAsync(doubt, doubt.Mine, doubt.Standing.State, $"{doubt.Standing.Name} is in your drawer as it was brought in; what was there is among its earlier versions.");

    /// <summary>Keeps a figure brought in beside the drawer's, as another.</summary>
    public Task<bool> KeepAsAnotherAsync(DrawerDoubt doubt)
    {
        var another = figures.AsAnother(doubt.Mine);
        return PutAsync(doubt, another, null, $"{another.Name} is in your drawer.");
    }

    /// <summary>Leaves the drawer as it is.</summary>
    public void LeaveOut(DrawerDoubt doubt) => Doubts = [.. Doubts.Where(d => d != doubt)];

    private Task<bool> PutAsync(DrawerDoubt doubt, KeptFigure kept, string? over, string words) => TryAsync(async () =>
    {
        LeaveOut(doubt);
        figures.Put(kept, over);
        await figures.SettleAsync();
        Note = words;
    });

    /// <summary>Gives a figure of the drawer another name.</summary>
    public Task<bool> RenameAsync(DrawerFigure figure, string name) => TryAsync(async () =>
    {
        await figures.RenameAsync(figure, name);
        Note = $"Renamed to “{name.Trim()}”.";
    });

    /// <summary>Takes a figure out of the drawer.</summary>
    public Task<bool> TakeOutAsync(DrawerFigure figure) => TryAsync(async () =>
    {
        await figures.TakeOutAsync(figure);
        (Note, FigureTakenOut) = ($"“{figure.Kept?.Name ?? figure.Name}” was taken out of the drawer. Pieces that use it keep theirs.", figure.Name);
    });

    /// <summary>Puts a figure back into the drawer that was taken out.</summary>
    public Task<bool> PutFigureBackAsync(string name) => TryAsync(async () =>
    {
        await figures.PutBackAsync(name);
        Note = $"“{name}” is back in your drawer.";
    });

    /// <summary>Puts an earlier version of a figure back.</summary>
    public Task<bool> RestoreAsync(DrawerFigure figure, int number) => TryAsync(async () =>
    {
        await figures.RestoreAsync(figure, number);
        Note = $"An earlier version of “{figure.Kept?.Name ?? figure.Name}” was put back.";
    });

    /// <summary>A figure of the drawer as a file, to take away; null when it cannot be had.</summary>
    public async Task<HandedOver?> ExportAsync(DrawerFigure figure)
    {
        HandedOver? file = null;
        await TryAsync(async () =>
        {
            await figures.SettleAsync();
            var stored = await figures.Shelf.LoadAsync(PieceName.Parse(figure.Name));
            file = new HandedOver(Goods.Figures.FileOf(stored.Name), "application/json", stored.Text);
            Note = $"“{figure.Kept?.Name ?? figure.Name}” was exported.";
        });
        return file;
    }

    /// <summary>An earlier version of a figure, to take away; null when it cannot be had.</summary>
    public async Task<HandedOver?> VersionAsync(DrawerFigure figure, int number)
    {
        HandedOver? file = null;
        await TryAsync(async () =>
        {
            var name = PieceName.Parse(figure.Name);
            file = new HandedOver($"{name} {number}{Goods.Figures.Ending}", "application/json", await figures.Shelf.LoadVersionAsync(name, number));
        });
        return file;
    }

    private async Task<PieceName> BringInOneAsync(string fileName, byte[] text)
    {
        var found = PieceFinder.Read(text); // read here first, so that the fault names the maker's own file
        return (await keeper.Shelf.CreateAsync(PieceName.Nearest(PieceName.StemOf(found.FileName ?? fileName)), found.Utf8)).Name;
    }

    private async Task BringInPlaceAsync(PieceName piece, byte[] text)
    {
        TickLogReader.Read(text);
        await keeper.Shelf.SavePlaceAsync(piece, text, over: null);
    }

    // Does something with the shelf; what cannot be done is said, and the list shows what is.
    private async Task<bool> TryAsync(Func<Task> act)
    {
        (Note, TakenOff, FigureTakenOut, Dear) = ("", null, null, null);
        try
        {
            await act();
            await LookAgainAsync();
            return true;
        }
        catch (ShelfException e)
        {
            await LookAgainAsync();
            Trouble = e.Message;
            return false;
        }
    }
}
