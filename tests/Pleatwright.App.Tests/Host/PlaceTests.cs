using System.Net;
using System.Net.Http.Headers;

namespace Pleatwright.Tests.Host;

/// <summary>The place of a piece over HTTP: a real file beside the piece, which goes along with it.</summary>
public class PlaceTests
{
    private static string Place(int to) => $$"""{ "place": 1, "worked": { "c5": [ "1..{{to}} 2026-03-02T10:15Z" ] } }""";

    private static string Address(string name) => ServedShelf.Address(name) + "/place";

    private static async Task<HttpResponseMessage> SaveAsync(ServedShelf shelf, string name, string text, EntityTagHeaderValue? over)
    {
        using var request = new HttpRequestMessage(HttpMethod.Put, Address(name)) { Content = ServedShelf.Json(text) };
        if (over is null) request.Headers.IfNoneMatch.Add(EntityTagHeaderValue.Any);
        else request.Headers.IfMatch.Add(over);
        return await shelf.Client.SendAsync(request);
    }

    [Fact]
    public async Task It_stands_beside_its_piece_and_a_save_names_what_it_replaces()
    {
        await using var shelf = await ServedShelf.StartAsync();
        await shelf.CreateAsync("Boat");
        Assert.Equal(HttpStatusCode.NoContent, (await shelf.Client.GetAsync(Address("Boat"))).StatusCode);
        var first = await SaveAsync(shelf, "Boat", Place(3), null);
        Assert.Equal(HttpStatusCode.NoContent, first.StatusCode);
        Assert.Equal(Place(3), File.ReadAllText(Path.Combine(shelf.Folder, "Boat.place.json")));
        Assert.Equal(HttpStatusCode.PreconditionFailed, (await SaveAsync(shelf, "Boat", Place(4), null)).StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, (await SaveAsync(shelf, "Boat", Place(3), null)).StatusCode); // said twice
        Assert.Equal(HttpStatusCode.NoContent, (await SaveAsync(shelf, "Boat", Place(5), first.Headers.ETag)).StatusCode);
        Assert.Equal(HttpStatusCode.PreconditionFailed, (await SaveAsync(shelf, "Boat", Place(6), first.Headers.ETag)).StatusCode);
        Assert.Equal(Place(5), await shelf.Client.GetStringAsync(Address("Boat")));
        Assert.Equal((HttpStatusCode)428, (await shelf.Client.PutAsync(Address("Boat"), ServedShelf.Json(Place(7)))).StatusCode);
        Assert.DoesNotContain("place.json", await shelf.Client.GetStringAsync("/api/shelf"), StringComparison.Ordinal); // it is no piece
    }

    [Fact]
    public async Task It_goes_with_its_piece_and_there_is_none_without_one()
    {
        await using var shelf = await ServedShelf.StartAsync();
        await shelf.CreateAsync("Boat");
        await SaveAsync(shelf, "Boat", Place(3), null);
        Assert.Equal(HttpStatusCode.NotFound, (await SaveAsync(shelf, "Crab", Place(3), null)).StatusCode);
        await shelf.Client.PostAsync($"{ServedShelf.Address("Boat")}/rename?to=Skiff", null);
        Assert.Equal(Place(3), await shelf.Client.GetStringAsync(Address("Skiff")));
        Assert.False(File.Exists(Path.Combine(shelf.Folder, "Boat.place.json")));
        await shelf.Client.DeleteAsync(ServedShelf.Address("Skiff"));
        Assert.False(File.Exists(Path.Combine(shelf.Folder, "Skiff.place.json")));
        await shelf.Client.PostAsync($"{ServedShelf.Address("Skiff")}/undelete", null);
        Assert.Equal(Place(3), await shelf.Client.GetStringAsync(Address("Skiff")));
        await shelf.Client.PostAsync($"{ServedShelf.Address("Skiff")}/duplicate", null);
        Assert.Equal(HttpStatusCode.NoContent, (await shelf.Client.GetAsync(Address("Skiff copy"))).StatusCode);
    }

    [Fact]
    public async Task What_is_no_place_is_refused_with_its_line()
    {
        await using var shelf = await ServedShelf.StartAsync();
        await shelf.CreateAsync("Boat");
        var refused = await SaveAsync(shelf, "Boat", "{ \"place\": 1,\n \"worked\": 3 }", null);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Contains("line 2, column 12", await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.False(File.Exists(Path.Combine(shelf.Folder, "Boat.place.json")));
    }
}
