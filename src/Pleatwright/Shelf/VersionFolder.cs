using System.Globalization;

namespace Pleatwright.Shelf;

/// <summary>
/// The earlier states of one text, each a file of its own in a folder. A version is named by number, moment and reason, so that a folder
/// looked at by hand speaks for itself and sorts by age whatever the clock said.
/// </summary>
/// <param name="store">The store it is in.</param>
/// <param name="clock">Tells the moment a version was kept, for show only.</param>
/// <param name="folder">The folder.</param>
/// <param name="ending">What the name of every version ends with.</param>
internal sealed class VersionFolder(IFileStore store, TimeProvider clock, string folder, string ending)
{
    /// <summary>Where the shelf keeps the versions of a file that stands in its root; null where it is none of which versions are kept.</summary>
    public static VersionFolder? Of(IFileStore store, TimeProvider clock, string fileName)
    {
        if (fileName == FileStash.FileName) return new(store, clock, FileStash.VersionsFolder, ".json");
        foreach (var goods in (ReadOnlySpan<Goods>)[Goods.Pieces, Goods.Figures])
            if (fileName.EndsWith(goods.Ending, StringComparison.Ordinal) && PieceName.TryParse(fileName[..^goods.Ending.Length], out var name, out _))
                return new(store, clock, $"{goods.VersionsFolder}/{name}", goods.Ending);
        return null;
    }

    private const string Moment = "yyyy-MM-dd HHmmss";

    /// <summary>The versions, latest first; files of other names are passed over.</summary>
    public async Task<IReadOnlyList<PieceVersion>> ListAsync(CancellationToken cancel)
    {
        var versions = new List<PieceVersion>();
        foreach (var file in await store.FilesAsync(folder, cancel))
            if (file.Problem is null && Read(file) is { } version)
                versions.Add(version);
        return [.. versions.OrderByDescending(v => v.Number)];
    }

    /// <summary>Where a version lies.</summary>
    public string PathOf(PieceVersion version) => $"{folder}/{NameOf(version)}";

    /// <summary>The text of a version, or null when there is none of this number.</summary>
    public async Task<byte[]?> LoadAsync(int number, CancellationToken cancel) =>
        (await ListAsync(cancel)).FirstOrDefault(v => v.Number == number) is { } version ? await store.ReadAsync(PathOf(version), cancel) : null;

    /// <summary>
    /// Keeps a text as the latest version and lets those go that are too many. The same text twice running is kept once, for it would
    /// push an older one out for nothing.
    /// </summary>
    public async Task KeepAsync(byte[] text, KeptBecause because, CancellationToken cancel)
    {
        var versions = await ListAsync(cancel);
        if (versions is [var last, ..] && last.Bytes == text.Length
            && await store.ReadAsync(PathOf(last), cancel) is { } same && same.AsSpan().SequenceEqual(text)) return;
        var number = versions is [var latest, ..] ? latest.Number + 1 : 1;
        await store.WriteAsync(PathOf(new PieceVersion(number, clock.GetUtcNow(), because, text.Length)), text, cancel);
        foreach (var old in versions.Skip(IShelf.MostVersions - 1)) await store.DeleteAsync(PathOf(old), cancel);
    }

    private string NameOf(PieceVersion version) => string.Create(CultureInfo.InvariantCulture,
        $"{version.Number:000000} {version.Kept.UtcDateTime.ToString(Moment, CultureInfo.InvariantCulture)} {version.Because.ToString().ToLowerInvariant()}{ending}");

    private PieceVersion? Read(StoredFile file)
    {
        if (!file.Name.EndsWith(ending, StringComparison.Ordinal)) return null;
        if (file.Name[..^ending.Length].Split(' ') is not [var number, var day, var time, var because]) return null;
        return int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var n)
            && DateTime.TryParseExact($"{day} {time}", Moment, CultureInfo.InvariantCulture,
                DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out var kept)
            && Enum.TryParse<KeptBecause>(because, ignoreCase: true, out var why) && Enum.IsDefined(why)
            ? new PieceVersion(n, kept, why, file.Bytes)
            : null;
    }
}
