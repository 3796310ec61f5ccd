using Pleatwright.Files;

namespace Pleatwright.Shelf;

/// <summary>A shelf of piece files in a store: the rules of <see cref="IShelf"/>, the same on disk and in the browser. Each piece has its place beside it.</summary>
internal sealed class FileShelf(IFileStore store, TimeProvider clock) : FileTexts(store, clock, Goods.Pieces), IShelf
{
    /// <summary>The folder kept out of sight beside the pieces.</summary>
    public static string VersionsFolder => Goods.Pieces.VersionsFolder;

    /// <summary>What the name of a place's file ends with.</summary>
    public const string PlaceEnding = ".place.json";

    /// <inheritdoc/>
    public async Task<StoredPlace?> LoadPlaceAsync(PieceName name, CancellationToken cancel = default) =>
        await Store.ReadAsync(PlaceOf(name), cancel) is { } text ? new StoredPlace(text, Edition.Of(text)) : null;

    /// <inheritdoc/>
    public async Task<Edition> SavePlaceAsync(PieceName name, byte[] text, Edition? over, CancellationToken cancel = default)
    {
        try
        {
            TickLogReader.Read(text);
        }
        catch (PieceFormatException e)
        {
            throw new ShelfException(ShelfTrouble.Unreadable, $"This is no place file: {e.Placed}");
        }
        await using var held = await Store.HoldAsync(cancel);
        if (!(await FileNamesAsync(cancel)).Contains(name.FileName, StringComparer.Ordinal)) throw Missing(name);
        var edition = Edition.Of(text);
        var standing = await Store.ReadAsync(PlaceOf(name), cancel);
        Edition? stands = standing is null ? null : Edition.Of(standing);
        if (stands == edition) return edition; // said twice
        if (stands != over) throw new ShelfException(ShelfTrouble.Conflict, $"“{name}” was ticked on another device meanwhile.");
        await Store.WriteAsync(PlaceOf(name), text, cancel);
        return edition;
    }

    /// <inheritdoc/>
    public async Task<PieceName> DuplicateAsync(PieceName name, CancellationToken cancel = default)
    {
        await using var held = await Store.HoldAsync(cancel);
        var text = await ReadAsync(name, cancel) ?? throw Missing(name);
        var copy = await FreeNameAsync(PieceName.Nearest($"{name} copy"), cancel);
        await Store.WriteAsync(copy.FileName, text, cancel);
        return copy;
    }

    /// <inheritdoc/>
    protected override async Task RenamedAsync(PieceName name, PieceName to, List<string> names, CancellationToken cancel)
    {
        if (names.Contains(PlaceOf(name), StringComparer.Ordinal)) await Store.MoveAsync(PlaceOf(name), PlaceOf(to), cancel);
    }

    /// <inheritdoc/>
    protected override async Task<Func<Task>> DeletingAsync(PieceName name, CancellationToken cancel)
    {
        if (await Store.ReadAsync(PlaceOf(name), cancel) is not { } place) return () => Task.CompletedTask;
        await Store.WriteAsync(PlaceAside(name), place, cancel);
        return async () =>
        {
            try { await Store.DeleteAsync(PlaceOf(name), cancel); }
            catch (ShelfException) { } // the piece is gone; its place makes way when the name is wanted again
        };
    }

    /// <inheritdoc/>
    protected override async Task PuttingBackAsync(PieceName name, CancellationToken cancel)
    {
        if (await Store.ReadAsync(PlaceAside(name), cancel) is not null && await Store.ReadAsync(PlaceOf(name), cancel) is null)
            await Store.MoveAsync(PlaceAside(name), PlaceOf(name), cancel);
    }

    // The place of a piece that is no more waits among its versions, so that no other of its name finds it.
    /// <inheritdoc/>
    protected override async Task MakingWayAsync(PieceName name, CancellationToken cancel)
    {
        if (await Store.ReadAsync(PlaceOf(name), cancel) is not { } place) return;
        await Store.WriteAsync(PlaceAside(name), place, cancel);
        await Store.DeleteAsync(PlaceOf(name), cancel);
    }

    private static string PlaceOf(PieceName name) => name + PlaceEnding;

    private string PlaceAside(PieceName name) => $"{FolderOf(name)}/{PlaceEnding[1..]}";
}
