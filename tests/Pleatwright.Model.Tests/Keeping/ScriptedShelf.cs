using Pleatwright.Shelf;

namespace Pleatwright.Tests.Keeping;

/// <summary>Named texts behind a wire that fails as ordered; a tab that is closed asks nothing more and hears no answer.</summary>
public class ScriptedTexts(ITextShelf shelf, Faults faults, FakeBrowser.Tab tab, MemoryFiles files, Action<PieceName, byte[]?>? wrote = null) : ITextShelf
{
    /// <inheritdoc/>
    public bool InBrowserOnly { get; init; }

    /// <inheritdoc/>
    public Task<ShelfContents> ListAsync(CancellationToken cancel = default) => OnWireAsync(() => shelf.ListAsync(cancel));

    /// <inheritdoc/>
    public Task<StoredPiece> LoadAsync(PieceName name, CancellationToken cancel = default) => OnWireAsync(() => shelf.LoadAsync(name, cancel));

    /// <inheritdoc/>
    public Task<StoredPiece> CreateAsync(PieceName wanted, byte[] text, CancellationToken cancel = default) => OnWireAsync(() =>
    {
        tab.Of.Sent.Add(System.Text.Encoding.UTF8.GetString(text));
        return shelf.CreateAsync(wanted, text, cancel);
    });

    /// <inheritdoc/>
    public Task<Edition> SaveAsync(PieceName name, byte[] text, Edition over, SaveKind kind, CancellationToken cancel = default) =>
        OnWireAsync(async () =>
        {
            var before = await StandingAsync(name);
            tab.Of.Sent.Add(System.Text.Encoding.UTF8.GetString(text));
            var edition = await shelf.SaveAsync(name, text, over, kind, cancel);
            wrote?.Invoke(name, before);
            return edition;
        });

    /// <inheritdoc/>
    public Task RenameAsync(PieceName name, PieceName to, CancellationToken cancel = default) => OnWireAsync(async () =>
    {
        await shelf.RenameAsync(name, to, cancel);
        return true;
    });

    /// <inheritdoc/>
    public Task DeleteAsync(PieceName name, CancellationToken cancel = default) => OnWireAsync(async () =>
    {
        await shelf.DeleteAsync(name, cancel);
        return true;
    });

    /// <inheritdoc/>
    public Task<PieceName> UndoDeleteAsync(PieceName name, CancellationToken cancel = default) => OnWireAsync(() => shelf.UndoDeleteAsync(name, cancel));

    /// <inheritdoc/>
    public Task<IReadOnlyList<PieceVersion>> VersionsAsync(PieceName name, CancellationToken cancel = default) => OnWireAsync(() => shelf.VersionsAsync(name, cancel));

    /// <inheritdoc/>
    public Task<byte[]> LoadVersionAsync(PieceName name, int number, CancellationToken cancel = default) => OnWireAsync(() => shelf.LoadVersionAsync(name, number, cancel));

    /// <inheritdoc/>
    public Task<Edition> RestoreAsync(PieceName name, int number, CancellationToken cancel = default) => OnWireAsync(() => shelf.RestoreAsync(name, number, cancel));

    private async Task<byte[]?> StandingAsync(PieceName name)
    {
        try { return (await shelf.LoadAsync(name)).Text; }
        catch (ShelfException) { return null; }
    }

    /// <summary>A call over the wire.</summary>
    protected async Task<T> OnWireAsync<T>(Func<Task<T>> call)
    {
        if (tab.Closed) await new TaskCompletionSource().Task;
        files.By(tab);
        try
        {
            return await faults.OnWireAsync(call);
        }
        finally
        {
            if (tab.Closed) await new TaskCompletionSource().Task;
        }
    }
}

/// <summary>A shelf and a stash behind such a wire.</summary>
public sealed class ScriptedShelf(IShelf shelf, IStashShelf stash, Faults faults, FakeBrowser.Tab tab, MemoryFiles files, Action<PieceName, byte[]?> wrote)
    : ScriptedTexts(shelf, faults, tab, files, wrote), IShelf, IStashShelf
{
    private readonly IShelf pieces = shelf;

    /// <inheritdoc/>
    public Task<StoredPlace?> LoadPlaceAsync(PieceName name, CancellationToken cancel = default) => OnWireAsync(() => pieces.LoadPlaceAsync(name, cancel));

    /// <inheritdoc/>
    public Task<Edition> SavePlaceAsync(PieceName name, byte[] text, Edition? over, CancellationToken cancel = default) => OnWireAsync(() => pieces.SavePlaceAsync(name, text, over, cancel));

    /// <inheritdoc/>
    public Task<PieceName> DuplicateAsync(PieceName name, CancellationToken cancel = default) => OnWireAsync(() => pieces.DuplicateAsync(name, cancel));

    /// <inheritdoc/>
    public Task<StoredStash?> LoadStashAsync(CancellationToken cancel = default) => OnWireAsync(() => stash.LoadStashAsync(cancel));

    /// <inheritdoc/>
    public Task<Edition> SaveStashAsync(byte[] text, Edition? over, CancellationToken cancel = default) => OnWireAsync(() => stash.SaveStashAsync(text, over, cancel));

    /// <inheritdoc/>
    public Task<IReadOnlyList<PieceVersion>> StashVersionsAsync(CancellationToken cancel = default) => OnWireAsync(() => stash.StashVersionsAsync(cancel));

    /// <inheritdoc/>
    public Task<byte[]> LoadStashVersionAsync(int number, CancellationToken cancel = default) => OnWireAsync(() => stash.LoadStashVersionAsync(number, cancel));
}
