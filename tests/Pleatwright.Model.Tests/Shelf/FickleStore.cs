using System.Text;
using Pleatwright.Shelf;

namespace Pleatwright.Tests.Shelf;

/// <summary>What befalls a store.</summary>
public enum Fate
{
    /// <summary>Nothing.</summary>
    Sound,

    /// <summary>One call fails, before anything was done; those after it are done.</summary>
    Fails,

    /// <summary>One call is done, and its answer is lost; those after it are done.</summary>
    LosesTheAnswer,

    /// <summary>The power fails at one call, before it is done.</summary>
    Dies,

    /// <summary>The power fails at one call that writes, and half of what it wrote is there.</summary>
    Tears,

    /// <summary>The power fails at one call, and what was written last before it never reached the disk, though it said so.</summary>
    Lies,

    /// <summary>The power fails at one call; what was to be done before it was not, and it was.</summary>
    Reorders,
}

/// <summary>A folder in memory that fails, loses answers, tears, lies and reorders as told, and to which names may be one file that are not one text.</summary>
internal sealed class FickleStore(TimeProvider clock, Fate fate, int at, bool oneFile) : IFileStore
{
    private readonly SortedDictionary<string, (string Path, byte[] Text, DateTimeOffset Modified)> files = new(StringComparer.Ordinal);
    private readonly List<(string Key, (string, byte[], DateTimeOffset)? Before)> undone = []; // by the last change
    private int calls;
    private bool dead;

    public string Place => "a folder";

    /// <summary>Whether the power failed.</summary>
    public bool IsDead => dead;

    /// <summary>Every text that stands in it.</summary>
    public IEnumerable<(string Path, byte[] Text)> All => files.Values.Select(f => (f.Path, f.Text));

    /// <summary>The same disk under a new program, and nothing befalls it any more.</summary>
    public FickleStore Again()
    {
        var store = new FickleStore(clock, Fate.Sound, 0, oneFile);
        foreach (var (key, file) in files) store.files[key] = file;
        return store;
    }

    public Task<IAsyncDisposable> HoldAsync(CancellationToken cancel) => Task.FromResult<IAsyncDisposable>(new Held());

    public Task<IReadOnlyList<StoredFile>> FilesAsync(string folder, CancellationToken cancel) => Do<IReadOnlyList<StoredFile>>(() =>
        [.. In(folder).Where(f => !f.Tail.Contains('/', StringComparison.Ordinal)).Select(f => new StoredFile(f.Tail, f.File.Text.Length, f.File.Modified))], false);

    public Task<IReadOnlyList<string>> FoldersAsync(string folder, CancellationToken cancel) => Do<IReadOnlyList<string>>(() =>
        [.. In(folder).Where(f => f.Tail.Contains('/', StringComparison.Ordinal)).Select(f => f.Tail.Split('/')[0]).DistinctBy(KeyOf)], false);

    public Task<byte[]?> ReadAsync(string path, CancellationToken cancel) => Do(() => files.TryGetValue(KeyOf(path), out var file) ? file.Text : null, false);

    public Task WriteAsync(string path, byte[] content, CancellationToken cancel) => Do(() =>
    {
        Set(path, content);
        return true;
    }, true, () => Set(path, content[..(content.Length / 2)]));

    public Task MoveAsync(string from, string to, CancellationToken cancel) => Do(() =>
    {
        var moved = files.Where(f => f.Key == KeyOf(from) || f.Key.StartsWith(KeyOf(from) + "/", StringComparison.Ordinal)).ToList();
        if (moved.Count == 0) throw new ShelfException(ShelfTrouble.Unavailable, "there is nothing to move");
        foreach (var (key, file) in moved)
        {
            var target = to + file.Path[from.Length..];
            if (files.ContainsKey(KeyOf(target)) && KeyOf(target) != key) throw new ShelfException(ShelfTrouble.Taken, "it would go over another");
            Remove(key);
            Set(target, file.Text);
        }
        return true;
    }, true);

    public Task DeleteAsync(string path, CancellationToken cancel) => Do(() =>
    {
        Remove(KeyOf(path));
        return true;
    }, true);

    private string KeyOf(string path) => oneFile ? path.Normalize(NormalizationForm.FormC).ToUpperInvariant() : path;

    private IEnumerable<(string Tail, (string Path, byte[] Text, DateTimeOffset Modified) File)> In(string folder) => files
        .Where(f => folder.Length == 0 || f.Key.StartsWith(KeyOf(folder) + "/", StringComparison.Ordinal))
        .Select(f => (folder.Length == 0 ? f.Value.Path : string.Join('/', f.Value.Path.Split('/')[folder.Split('/').Length..]), f.Value));

    private void Set(string path, byte[] content)
    {
        var key = KeyOf(path);
        undone.Add((key, files.TryGetValue(key, out var before) ? before : null));
        files[key] = (before.Path ?? path, content, clock.GetUtcNow());
    }

    private void Remove(string key)
    {
        if (!files.Remove(key, out var before)) return;
        undone.Add((key, before));
    }

    private void Undo()
    {
        for (var i = undone.Count - 1; i >= 0; i--)
            if (undone[i].Before is { } before) files[undone[i].Key] = before;
            else files.Remove(undone[i].Key);
        undone.Clear();
    }

    private Task<T> Do<T>(Func<T> act, bool changes, Action? half = null)
    {
        if (dead) throw Gone();
        if (changes && ++calls == at)
        {
            dead = fate >= Fate.Dies;
            switch (fate)
            {
                case Fate.Fails: throw Gone();
                case Fate.Tears: half?.Invoke(); throw Gone();
                case Fate.Dies: throw Gone();
                case Fate.Lies: Undo(); throw Gone();
                case Fate.Reorders: Undo(); act(); throw Gone();
                case Fate.LosesTheAnswer: act(); throw Gone();
            }
        }
        if (changes) undone.Clear();
        return Task.FromResult(act());
    }

    private static ShelfException Gone() => new(ShelfTrouble.Unavailable, "the disk does not answer");

    private sealed class Held : IAsyncDisposable
    {
        public ValueTask DisposeAsync() => ValueTask.CompletedTask;
    }
}
