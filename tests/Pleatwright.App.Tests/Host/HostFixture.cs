using System.Net.Http.Headers;
using Pleatwright.App.Host;

namespace Pleatwright.Tests.Host;

/// <summary>A host on a free port with a shelf of its own, and a client that speaks as the bench does.</summary>
internal sealed class ServedShelf : IAsyncDisposable
{
    public const string Piece = """{ "pleatwright": 1, "title": "Gull", "cloth": { "form": "panel", "finishedWidth": "4 in", "gatheringRows": 3 } }""";

    private readonly bool ownsFolder;

    private ServedShelf(string folder, bool ownsFolder, BenchHost host)
    {
        Folder = folder;
        this.ownsFolder = ownsFolder;
        Host = host;
        Client = new HttpClient { BaseAddress = host.Url };
        Client.DefaultRequestHeaders.Add(Guard.WriteHeader, "1");
    }

    public string Folder { get; }

    public BenchHost Host { get; }

    public HttpClient Client { get; }

    public static string Titled(string title) => Piece.Replace("Gull", title, StringComparison.Ordinal);

    public static async Task<ServedShelf> StartAsync(string? folder = null)
    {
        var own = folder ?? Directory.CreateTempSubdirectory("shelf").FullName;
        return new ServedShelf(own, folder is null, await BenchHost.StartAsync(own, 0));
    }

    /// <summary>A host on a store of the test's own making.</summary>
    public static async Task<ServedShelf> StartAsync(FolderStore store, TimeSpan? patience = null) => new(store.Place, ownsFolder: false, await BenchHost.StartAsync(store, 0, patience: patience));

    public static StringContent Json(string text) => new(text, new MediaTypeHeaderValue("application/json"));

    public static string Address(string name) => $"/api/shelf/pieces/{Uri.EscapeDataString(name)}";

    public string FileOf(string name) => Path.Combine(Folder, name + ".piece.json");

    public async Task<EntityTagHeaderValue> CreateAsync(string name, string? text = null)
    {
        var answer = await Client.PostAsync($"/api/shelf/pieces?name={Uri.EscapeDataString(name)}", Json(text ?? Piece));
        Assert.Equal(System.Net.HttpStatusCode.Created, answer.StatusCode);
        return answer.Headers.ETag!;
    }

    public Task<HttpResponseMessage> SaveAsync(string name, string text, EntityTagHeaderValue over, string query = "")
    {
        var request = new HttpRequestMessage(HttpMethod.Put, Address(name) + query) { Content = Json(text) };
        request.Headers.IfMatch.Add(over);
        return Client.SendAsync(request);
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await Host.DisposeAsync();
        if (ownsFolder) Directory.Delete(Folder, recursive: true);
    }
}
