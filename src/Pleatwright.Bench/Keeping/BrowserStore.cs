using System.Runtime.InteropServices.JavaScript;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Shelf;

namespace Pleatwright.Bench.Keeping;

/// <summary>The browser's own storage as a shelf's store. Texts are UTF-8, as every piece file is.</summary>
public sealed class BrowserStore : IFileStore
{
    /// <inheritdoc/>
    public string Place => "this browser";

    /// <inheritdoc/>
    public async Task<IAsyncDisposable> HoldAsync(CancellationToken cancel)
    {
        try
        {
            return new Held(await Store.HoldAsync());
        }
        catch (JSException e)
        {
            throw new ShelfException(ShelfTrouble.Busy, "Another tab has been writing to this shelf for a while; nothing was changed. Try again.", e);
        }
    }

    /// <inheritdoc/>
    public Task<IReadOnlyList<StoredFile>> FilesAsync(string folder, CancellationToken cancel) => Try<IReadOnlyList<StoredFile>>(async () =>
        [.. JsonSerializer.Deserialize(await Store.FilesAsync(folder), StoreJson.Default.FileFactArray)!
            .Select(f => new StoredFile(f.Name, f.Bytes, DateTimeOffset.FromUnixTimeMilliseconds(f.Modified)))]);

    /// <inheritdoc/>
    public Task<IReadOnlyList<string>> FoldersAsync(string folder, CancellationToken cancel) => Try<IReadOnlyList<string>>(async () =>
        JsonSerializer.Deserialize(await Store.FoldersAsync(folder), StoreJson.Default.StringArray)!);

    /// <inheritdoc/>
    public Task<byte[]?> ReadAsync(string path, CancellationToken cancel) => Try(async () =>
        await Store.ReadAsync(path) is { } text ? Encoding.UTF8.GetBytes(text) : null);

    /// <inheritdoc/>
    public Task WriteAsync(string path, byte[] content, CancellationToken cancel) => Try(async () =>
    {
        await Store.WriteAsync(path, Encoding.UTF8.GetString(content));
        return true;
    });

    /// <inheritdoc/>
    public Task MoveAsync(string from, string to, CancellationToken cancel) => Try(async () =>
    {
        await Store.MoveAsync(from, to);
        return true;
    });

    /// <inheritdoc/>
    public Task DeleteAsync(string path, CancellationToken cancel) => Try(async () =>
    {
        await Store.RemoveAsync(path);
        return true;
    });

    private static async Task<T> Try<T>(Func<Task<T>> act)
    {
        try
        {
            return await act();
        }
        catch (JSException e)
        {
            throw e.Message.Contains("QuotaExceeded", StringComparison.Ordinal)
                ? new ShelfException(ShelfTrouble.Full, "The browser gives the bench no more room. What stood on the shelf is untouched; export pieces to files, delete some, and try again.", e)
                : new ShelfException(ShelfTrouble.Unavailable, $"The browser does not let the bench keep pieces just now ({e.Message}). Export this piece to a file to be safe.", e);
        }
    }

    private sealed class Held(int hold) : IAsyncDisposable
    {
        public ValueTask DisposeAsync()
        {
            Store.Release(hold);
            return ValueTask.CompletedTask;
        }
    }
}

internal sealed record FileFact(string Name, long Bytes, long Modified);

[JsonSourceGenerationOptions(JsonSerializerDefaults.Web)]
[JsonSerializable(typeof(FileFact[]))]
[JsonSerializable(typeof(string[]))]
[JsonSerializable(typeof(JournalText))]
[JsonSerializable(typeof(JournalHead[]))]
internal sealed partial class StoreJson : JsonSerializerContext;
