using System.Net;
using System.Net.Http.Headers;

namespace Pleatwright.Tests.Host;

public class StashTests
{
    private static string Stash(string name) => $$"""{ "stash": 1, "threads": [ { "name": "{{name}}", "colour": "#b3202c", "skeins": 1 } ] }""";

    private static async Task<HttpResponseMessage> SaveAsync(ServedShelf shelf, string text, EntityTagHeaderValue? over)
    {
        using var request = new HttpRequestMessage(HttpMethod.Put, "/api/stash") { Content = ServedShelf.Json(text) };
        if (over is null) request.Headers.IfNoneMatch.Add(EntityTagHeaderValue.Any);
        else request.Headers.IfMatch.Add(over);
        return await shelf.Client.SendAsync(request);
    }

    [Fact]
    public async Task It_is_a_real_file_beside_the_pieces_with_its_earlier_ones()
    {
        await using var shelf = await ServedShelf.StartAsync();
        Assert.Equal(HttpStatusCode.NoContent, (await shelf.Client.GetAsync("/api/stash")).StatusCode);
        var first = await SaveAsync(shelf, Stash("red"), null);
        Assert.Equal(HttpStatusCode.NoContent, first.StatusCode);
        Assert.Equal(Stash("red"), File.ReadAllText(Path.Combine(shelf.Folder, "stash.json")));
        var second = await SaveAsync(shelf, Stash("blue"), first.Headers.ETag);
        Assert.Equal(Stash("blue"), await shelf.Client.GetStringAsync("/api/stash"));
        Assert.Contains("\"number\":1", await shelf.Client.GetStringAsync("/api/stash/versions"), StringComparison.Ordinal);
        Assert.Equal(Stash("red"), await shelf.Client.GetStringAsync("/api/stash/versions/1"));
        Assert.Equal(HttpStatusCode.NotFound, (await shelf.Client.GetAsync("/api/stash/versions/9")).StatusCode);
        Assert.NotEqual(first.Headers.ETag, second.Headers.ETag);
        // it is no piece, and no piece's version
        Assert.DoesNotContain("stash", (await shelf.Client.GetStringAsync("/api/shelf")).Replace(shelf.Folder, "", StringComparison.Ordinal), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Two_benches_lose_nothing()
    {
        await using var shelf = await ServedShelf.StartAsync();
        var first = await SaveAsync(shelf, Stash("red"), null);
        await SaveAsync(shelf, Stash("blue"), first.Headers.ETag);
        var late = await SaveAsync(shelf, Stash("green"), first.Headers.ETag);
        Assert.Equal(HttpStatusCode.PreconditionFailed, late.StatusCode);
        Assert.Equal(Stash("blue"), await shelf.Client.GetStringAsync("/api/stash"));
        Assert.Equal(Stash("green"), await shelf.Client.GetStringAsync("/api/stash/versions/2"));
        Assert.Equal(HttpStatusCode.PreconditionFailed, (await SaveAsync(shelf, Stash("violet"), null)).StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, (await SaveAsync(shelf, Stash("blue"), null)).StatusCode); // said twice
    }

    [Fact]
    public async Task What_is_no_stash_is_refused_with_its_place_and_a_save_names_what_it_replaces()
    {
        await using var shelf = await ServedShelf.StartAsync();
        var refused = await SaveAsync(shelf, "{ \"stash\": 1,\n \"threads\": 3 }", null);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Contains("line 2, column 13", await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal((HttpStatusCode)428, (await shelf.Client.PutAsync("/api/stash", ServedShelf.Json(Stash("red")))).StatusCode);
        Assert.False(File.Exists(Path.Combine(shelf.Folder, "stash.json")));
    }
}
