using System.Net.Http.Json;
using System.Text.Json;
using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>All that is kept for the maker in one place.</summary>
/// <param name="Pieces">The pieces.</param>
/// <param name="Figures">The drawer of figures beside them.</param>
/// <param name="Stash">The stash beside them.</param>
public sealed record Shelves(IShelf Pieces, ITextShelf Figures, IStashShelf Stash);

/// <summary>Which shelf, drawer and stash this bench has: its host's when a host serves it, else the browser's own.</summary>
public static class ShelfChoice
{
    private const string Remembered = "shelf";
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30); // then the host is taken not to answer

    /// <summary>
    /// Asks whoever served the bench. When nobody answers (the bench was opened from the browser's own copy) it is the
    /// shelf of last time, so that a stopped host never seems an empty shelf.
    /// </summary>
    public static async Task<Shelves> MakeAsync(HttpClient http, IMemory memory, Func<IFileStore> browser, TimeProvider time)
    {
        http.Timeout = Patience;
        string? kind = null;
        try
        {
            kind = (await http.GetFromJsonAsync("shelf-kind.json", ShelfJson.Default.ShelfKind))?.Shelf;
        }
        catch (Exception e) when (e is HttpRequestException or OperationCanceledException or JsonException or NotSupportedException) { } // as if nobody had answered
        if (kind is "files" or "browser") memory.SetSetting(Remembered, kind);
        else kind = memory.Setting(Remembered);
        if (kind == "files")
        {
            var host = new HostShelf(http);
            return new Shelves(host, HostTexts.Figures(http), host);
        }
        var store = browser();
        return new Shelves(new FileShelf(store, time) { InBrowserOnly = true }, new FileTexts(store, time, Goods.Figures) { InBrowserOnly = true }, new FileStash(store, time));
    }
}
