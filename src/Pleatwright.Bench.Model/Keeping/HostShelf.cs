using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>Named texts as real files that the bench's host serves.</summary>
/// <param name="http">The host.</param>
/// <param name="all">The address at which they are listed.</param>
/// <param name="each">The address under which each is found by its name.</param>
public class HostTexts(HttpClient http, string all, string each) : ITextShelf
{
    /// <summary>The figures of the drawer.</summary>
    public static HostTexts Figures(HttpClient http) => new(http, "api/figures", "api/figures");

    /// <inheritdoc/>
    public bool InBrowserOnly => false;

    /// <inheritdoc/>
    public Task<ShelfContents> ListAsync(CancellationToken cancel = default) => GetAsync(all, ShelfJson.Default.ShelfContents, cancel);

    /// <inheritdoc/>
    public async Task<StoredPiece> LoadAsync(PieceName name, CancellationToken cancel = default)
    {
        using var answer = await SendAsync(HttpMethod.Get, Address(name), cancel);
        return new StoredPiece(name, await BytesAsync(answer, cancel), EditionOf(answer));
    }

    /// <inheritdoc/>
    public async Task<StoredPiece> CreateAsync(PieceName wanted, byte[] text, CancellationToken cancel = default)
    {
        using var answer = await SendAsync(HttpMethod.Post, $"{each}?name={Uri.EscapeDataString(wanted.ToString())}", cancel, text);
        return new StoredPiece(PieceName.Parse((await BodyAsync(answer, ShelfJson.Default.ShelfName, cancel)).Name), text, EditionOf(answer));
    }

    /// <inheritdoc/>
    public async Task<Edition> SaveAsync(PieceName name, byte[] text, Edition over, SaveKind kind, CancellationToken cancel = default)
    {
        using var answer = await SendAsync(HttpMethod.Put, Address(name) + (kind == SaveKind.Auto ? "?by=bench" : ""), cancel, text, over);
        return EditionOf(answer);
    }

    /// <inheritdoc/>
    public async Task RenameAsync(PieceName name, PieceName to, CancellationToken cancel = default) =>
        (await SendAsync(HttpMethod.Post, $"{Address(name)}/rename?to={Uri.EscapeDataString(to.ToString())}", cancel)).Dispose();

    /// <inheritdoc/>
    public async Task DeleteAsync(PieceName name, CancellationToken cancel = default) =>
        (await SendAsync(HttpMethod.Delete, Address(name), cancel)).Dispose();

    /// <inheritdoc/>
    public Task<PieceName> UndoDeleteAsync(PieceName name, CancellationToken cancel = default) => NameFromAsync($"{Address(name)}/undelete", cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<PieceVersion>> VersionsAsync(PieceName name, CancellationToken cancel = default) =>
        GetAsync($"{Address(name)}/versions", ShelfJson.Default.IReadOnlyListPieceVersion, cancel);

    /// <inheritdoc/>
    public async Task<byte[]> LoadVersionAsync(PieceName name, int number, CancellationToken cancel = default)
    {
        using var answer = await SendAsync(HttpMethod.Get, VersionAddress(name, number), cancel);
        return await BytesAsync(answer, cancel);
    }

    /// <inheritdoc/>
    public async Task<Edition> RestoreAsync(PieceName name, int number, CancellationToken cancel = default)
    {
        using var answer = await SendAsync(HttpMethod.Post, VersionAddress(name, number) + "/restore", cancel);
        return EditionOf(answer);
    }

    /// <summary>Where one is found.</summary>
    protected string Address(PieceName name) => $"{each}/{Uri.EscapeDataString(name.ToString())}";

    private string VersionAddress(PieceName name, int number) => string.Create(CultureInfo.InvariantCulture, $"{Address(name)}/versions/{number}");

    /// <summary>Which edition an answer speaks of.</summary>
    protected static Edition EditionOf(HttpResponseMessage answer) =>
        answer.Headers.ETag is { Tag: { Length: > 2 } tag } ? new Edition(tag[1..^1]) : throw Strange(null);

    /// <summary>The name that an act gave.</summary>
    protected async Task<PieceName> NameFromAsync(string address, CancellationToken cancel)
    {
        using var answer = await SendAsync(HttpMethod.Post, address, cancel);
        return PieceName.Parse((await BodyAsync(answer, ShelfJson.Default.ShelfName, cancel)).Name);
    }

    /// <summary>An answer as a value.</summary>
    protected async Task<T> GetAsync<T>(string address, JsonTypeInfo<T> type, CancellationToken cancel)
    {
        using var answer = await SendAsync(HttpMethod.Get, address, cancel);
        return await BodyAsync(answer, type, cancel);
    }

    /// <summary>Sends a request; what is refused is thrown.</summary>
    protected async Task<HttpResponseMessage> SendAsync(HttpMethod method, string address, CancellationToken cancel, byte[]? text = null, Edition? over = null)
    {
        using var request = new HttpRequestMessage(method, address);
        if (method != HttpMethod.Get) request.Headers.Add("Pleatwright-Bench", "1");
        if (over is { } edition) request.Headers.IfMatch.Add(new EntityTagHeaderValue($"\"{edition}\""));
        else if (method == HttpMethod.Put) request.Headers.IfNoneMatch.Add(EntityTagHeaderValue.Any);
        if (text is not null) request.Content = new ByteArrayContent(text) { Headers = { ContentType = new("application/json") } };
        HttpResponseMessage answer;
        try
        {
            answer = await http.SendAsync(request, cancel);
        }
        catch (Exception e) when (IsSilence(e, cancel))
        {
            throw Silent(e);
        }
        if (answer.IsSuccessStatusCode) return answer;
        using (answer)
        {
            var fault = await BodyAsync(answer, ShelfJson.Default.ShelfFault, cancel);
            throw new ShelfException(Enum.TryParse<ShelfTrouble>(fault.Trouble, out var trouble) ? trouble : ShelfTrouble.Unavailable, fault.Message);
        }
    }

    /// <summary>An answer as a text.</summary>
    protected static async Task<byte[]> BytesAsync(HttpResponseMessage answer, CancellationToken cancel)
    {
        try { return await answer.Content.ReadAsByteArrayAsync(cancel); }
        catch (Exception e) when (e is IOException || IsSilence(e, cancel)) { throw Silent(e); } // it stopped in the middle
    }

    // Who waits too long gives up by itself, and says so as if it had been told to.
    private static bool IsSilence(Exception e, CancellationToken cancel) =>
        e is HttpRequestException || (e is OperationCanceledException && !cancel.IsCancellationRequested);

    private static ShelfException Silent(Exception inner) => new(ShelfTrouble.Unavailable,
        "The bench's host does not answer. What you do is kept in this browser meanwhile; start the host again (pleatwright bench) and it goes to the shelf.", inner);

    private static async Task<T> BodyAsync<T>(HttpResponseMessage answer, JsonTypeInfo<T> type, CancellationToken cancel)
    {
        try
        {
            return await answer.Content.ReadFromJsonAsync(type, cancel) ?? throw Strange(null);
        }
        catch (Exception e) when (e is JsonException or NotSupportedException or IOException || IsSilence(e, cancel))
        {
            throw Strange(e);
        }
    }

    private static ShelfException Strange(Exception? inner) =>
        new(ShelfTrouble.Unavailable, "What answers at this address is not the bench's host. Open the address that pleatwright bench printed.", inner);
}

/// <summary>The shelf of real files that the bench's host serves, and the stash beside it.</summary>
public sealed class HostShelf(HttpClient http) : HostTexts(http, "api/shelf", "api/shelf/pieces"), IShelf, IStashShelf
{
    private const string Stash = "api/stash";

    /// <inheritdoc/>
    public async Task<StoredPlace?> LoadPlaceAsync(PieceName name, CancellationToken cancel = default)
    {
        using var answer = await SendAsync(HttpMethod.Get, PlaceAddress(name), cancel);
        return answer.StatusCode == HttpStatusCode.NoContent ? null : new StoredPlace(await BytesAsync(answer, cancel), EditionOf(answer));
    }

    /// <inheritdoc/>
    public async Task<Edition> SavePlaceAsync(PieceName name, byte[] text, Edition? over, CancellationToken cancel = default)
    {
        using var answer = await SendAsync(HttpMethod.Put, PlaceAddress(name), cancel, text, over);
        return EditionOf(answer);
    }

    /// <inheritdoc/>
    public Task<PieceName> DuplicateAsync(PieceName name, CancellationToken cancel = default) => NameFromAsync($"{Address(name)}/duplicate", cancel);

    /// <inheritdoc/>
    public async Task<StoredStash?> LoadStashAsync(CancellationToken cancel = default)
    {
        using var answer = await SendAsync(HttpMethod.Get, Stash, cancel);
        return answer.StatusCode == HttpStatusCode.NoContent ? null : new StoredStash(await BytesAsync(answer, cancel), EditionOf(answer));
    }

    /// <inheritdoc/>
    public async Task<Edition> SaveStashAsync(byte[] text, Edition? over, CancellationToken cancel = default)
    {
        using var answer = await SendAsync(HttpMethod.Put, Stash, cancel, text, over);
        return EditionOf(answer);
    }

    /// <inheritdoc/>
    public Task<IReadOnlyList<PieceVersion>> StashVersionsAsync(CancellationToken cancel = default) =>
        GetAsync($"{Stash}/versions", ShelfJson.Default.IReadOnlyListPieceVersion, cancel);

    /// <inheritdoc/>
    public async Task<byte[]> LoadStashVersionAsync(int number, CancellationToken cancel = default)
    {
        using var answer = await SendAsync(HttpMethod.Get, string.Create(CultureInfo.InvariantCulture, $"{Stash}/versions/{number}"), cancel);
        return await BytesAsync(answer, cancel);
    }

    private string PlaceAddress(PieceName name) => $"{Address(name)}/place";
}
