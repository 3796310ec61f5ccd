using Pleatwright.Shelf;

namespace Pleatwright.Tests.Keeping;

/// <summary>A folder in memory, so that the real <see cref="FileShelf"/> stands on something a test can break.</summary>
public sealed class MemoryFiles(TimeProvider clock, Faults faults) : IFileStore
{
    private readonly SortedDictionary<string, (byte[] Text, DateTimeOffset Modified)> files = new(StringComparer.Ordinal);
    private readonly SemaphoreSlim one = new(1);
    private readonly AsyncLocal<object?> who = new();
    private readonly Dictionary<string, object?> lastBy = new(StringComparer.Ordinal);

    /// <inheritdoc/>
    public string Place => "a folder";

    /// <summary>Every text that stands in it, versions too.</summary>
    public IEnumerable<(string Path, byte[] Text)> All => files.Select(f => (f.Key, f.Value.Text));

    /// <summary>Writes a file as another program would.</summary>
    public void Put(string path, byte[] text)
    {
        files[path] = (text, clock.GetUtcNow());
        lastBy[path] = null;
    }

    /// <summary>All of it is gone.</summary>
    public void Clear() => files.Clear();

    /// <summary>Says who does what follows in this flow.</summary>
    public void By(object one) => who.Value = one;

    /// <summary>Who wrote, moved or removed a file last; null for another program.</summary>
    public object? LastBy(string path) => lastBy.GetValueOrDefault(path);

    /// <inheritdoc/>
    public async Task<IAsyncDisposable> HoldAsync(CancellationToken cancel)
    {
        await one.WaitAsync(cancel);
        return new Held(one);
    }

    /// <inheritdoc/>
    public Task<IReadOnlyList<StoredFile>> FilesAsync(string folder, CancellationToken cancel) => Do<IReadOnlyList<StoredFile>>(() =>
        [.. In(folder).Where(n => !n.Contains('/', StringComparison.Ordinal)).Select(n => (n, File: files[Path(folder, n)])).Select(f => new StoredFile(f.n, f.File.Text.Length, f.File.Modified))]);

    /// <inheritdoc/>
    public Task<IReadOnlyList<string>> FoldersAsync(string folder, CancellationToken cancel) => Do<IReadOnlyList<string>>(() =>
        [.. In(folder).Where(n => n.Contains('/', StringComparison.Ordinal)).Select(n => n.Split('/')[0]).Distinct()]);

    /// <inheritdoc/>
    public Task<byte[]?> ReadAsync(string path, CancellationToken cancel) => Do(() => files.TryGetValue(path, out var file) ? file.Text : null);

    /// <inheritdoc/>
    public Task WriteAsync(string path, byte[] content, CancellationToken cancel) => Do(() =>
    {
        files[path] = (content, clock.GetUtcNow());
        lastBy[path] = who.Value;
        return true;
    });

    /// <inheritdoc/>
    public Task MoveAsync(string from, string to, CancellationToken cancel) => Do(() =>
    {
        foreach (var path in files.Keys.Where(k => k == from || k.StartsWith(from + "/", StringComparison.Ordinal)).ToList())
        {
            files.Add(to + path[from.Length..], files[path]); // never over another
            files.Remove(path);
            lastBy[path] = lastBy[to + path[from.Length..]] = who.Value;
        }
        return true;
    });

    /// <inheritdoc/>
    public Task DeleteAsync(string path, CancellationToken cancel) => Do(() =>
    {
        lastBy[path] = who.Value;
        return files.Remove(path);
    });

    private static string Path(string folder, string name) => folder.Length == 0 ? name : $"{folder}/{name}";

    private IEnumerable<string> In(string folder) =>
        folder.Length == 0 ? files.Keys : files.Keys.Where(k => k.StartsWith(folder + "/", StringComparison.Ordinal)).Select(k => k[(folder.Length + 1)..]);

    private async Task<T> Do<T>(Func<T> act)
    {
        await faults.OnDiskAsync();
        return act();
    }

    private sealed class Held(SemaphoreSlim one) : IAsyncDisposable
    {
        public ValueTask DisposeAsync()
        {
            one.Release();
            return ValueTask.CompletedTask;
        }
    }
}
