using Pleatwright.Shelf;
using Pleatwright.Files;

namespace Pleatwright.App.Host;

/// <summary>
/// The shelf, and the drawer of figures and the stash beside it, over HTTP; docs/shelf.md describes each address. A failure answers with a <see cref="ShelfFault"/>. A write
/// heard to its end is carried through, even when whoever sent it has gone meanwhile.
/// </summary>
/// <param name="shelf">The pieces.</param>
/// <param name="figures">The drawer of figures.</param>
/// <param name="stash">The stash.</param>
/// <param name="patience">How long what is sent may be on its way, which on one machine takes a moment; null for as long as usual.</param>
public sealed class ShelfApi(IShelf shelf, ITextShelf figures, IStashShelf stash, TimeSpan? patience = null)
{
    private const int MostLetters = 8 * 1024; // the largest small request, in bytes

    private static readonly TimeSpan UsualPatience = TimeSpan.FromSeconds(20);

    private const int Small = 256 * 1024; // so much of any number at once

    private static readonly SemaphoreSlim FewUploads = new(4); // of those larger, each of which may be as large as a piece can be

    /// <summary>
    /// Answers, in place of the file of that name, which shelf there is. The file speaks for hosting without a shelf;
    /// this must come before the routes, among which a compressed file would win.
    /// </summary>
    public static void SayKind(IApplicationBuilder app) => app.Map("/shelf-kind.json", branch => branch.Run(context =>
    {
        context.Response.Headers.CacheControl = "no-store";
        return Answer(ShelfKind.Files, ShelfJson.Default.ShelfKind).ExecuteAsync(context);
    }));

    /// <summary>Puts the addresses on the host.</summary>
    public void Map(IEndpointRouteBuilder host)
    {
        host.Map("/api/{**rest}", () => Answer(new ShelfFault(nameof(ShelfTrouble.NotFound), "There is nothing at this address."), ShelfJson.Default.ShelfFault, 404));
        MapTexts(host, shelf, "/api/shelf", "/api/shelf/pieces");
        MapTexts(host, figures, "/api/figures", "/api/figures");
        var piece = host.MapGroup("/api/shelf/pieces/{name}");
        piece.MapGet("/place", c => Do(c, async cancel =>
        {
            if (await shelf.LoadPlaceAsync(Name(c), cancel) is not { } stored) return Results.NoContent();
            c.Response.Headers.ETag = Tag(stored.Edition);
            return Results.Bytes(stored.Text, "application/json");
        }));
        piece.MapPut("/place", c => Do(c, async cancel =>
        {
            var name = Name(c);
            if (OverOrFirst(c.Request, out var over) is { } refused) return refused;
            return await BodyAsync(c, cancel, async text =>
            {
                c.Response.Headers.ETag = Tag(await shelf.SavePlaceAsync(name, text, over));
                return Results.NoContent();
            });
        }));
        piece.MapPost("/duplicate", c => Do(c, async cancel =>
            Answer(new ShelfName((await shelf.DuplicateAsync(Name(c))).ToString()), ShelfJson.Default.ShelfName, 201)));
        MapStash(host.MapGroup("/api/stash"));
    }

    // Pieces and figures alike: listed at one address, each under another.
    private void MapTexts(IEndpointRouteBuilder host, ITextShelf texts, string all, string each)
    {
        host.MapGet(all, c => Do(c, async cancel => Answer(await texts.ListAsync(cancel), ShelfJson.Default.ShelfContents)));
        host.MapPost(each, c => Do(c, async cancel =>
        {
            var name = PieceName.Parse(c.Request.Query["name"]);
            return await BodyAsync(c, cancel, async text =>
            {
                var made = await texts.CreateAsync(name, text);
                c.Response.Headers.ETag = Tag(made.Edition);
                c.Response.Headers.Location = $"{each}/{Uri.EscapeDataString(made.Name.ToString())}";
                return Answer(new ShelfName(made.Name.ToString()), ShelfJson.Default.ShelfName, 201);
            });
        }));
        var one = host.MapGroup(each + "/{name}");
        one.MapGet("", c => Do(c, async cancel =>
        {
            var stored = await texts.LoadAsync(Name(c), cancel);
            c.Response.Headers.ETag = Tag(stored.Edition);
            return Results.Bytes(stored.Text, "application/json");
        }));
        one.MapPut("", c => Do(c, async cancel =>
        {
            var name = Name(c);
            if (Edition(c.Request) is not { } over)
                return Answer(new ShelfFault(nameof(ShelfTrouble.Conflict), "A save names the edition it replaces, in If-Match."), ShelfJson.Default.ShelfFault, 428);
            var kind = c.Request.Query["by"] == "bench" ? SaveKind.Auto : SaveKind.Kept;
            return await BodyAsync(c, cancel, async text =>
            {
                c.Response.Headers.ETag = Tag(await texts.SaveAsync(name, text, over, kind));
                return Results.NoContent();
            });
        }));
        one.MapDelete("", c => Do(c, async _ =>
        {
            await texts.DeleteAsync(Name(c));
            return Results.NoContent();
        }));
        one.MapPost("/rename", c => Do(c, async _ =>
        {
            await texts.RenameAsync(Name(c), PieceName.Parse(c.Request.Query["to"]));
            return Results.NoContent();
        }));
        one.MapPost("/undelete", c => Do(c, async cancel =>
            Answer(new ShelfName((await texts.UndoDeleteAsync(Name(c))).ToString()), ShelfJson.Default.ShelfName)));
        one.MapGet("/versions", c => Do(c, async cancel =>
            Answer(await texts.VersionsAsync(Name(c), cancel), ShelfJson.Default.IReadOnlyListPieceVersion)));
        one.MapGet("/versions/{number:int}", c => Do(c, async cancel =>
            Results.Bytes(await texts.LoadVersionAsync(Name(c), Number(c), cancel), "application/json")));
        one.MapPost("/versions/{number:int}/restore", c => Do(c, async cancel =>
        {
            c.Response.Headers.ETag = Tag(await texts.RestoreAsync(Name(c), Number(c)));
            return Results.NoContent();
        }));
    }

    private void MapStash(RouteGroupBuilder host)
    {
        host.MapGet("", c => Do(c, async cancel =>
        {
            if (await stash.LoadStashAsync(cancel) is not { } stored) return Results.NoContent();
            c.Response.Headers.ETag = Tag(stored.Edition);
            return Results.Bytes(stored.Text, "application/json");
        }));
        host.MapPut("", c => Do(c, async cancel =>
        {
            if (OverOrFirst(c.Request, out var over) is { } refused) return refused;
            return await BodyAsync(c, cancel, async text =>
            {
                c.Response.Headers.ETag = Tag(await stash.SaveStashAsync(text, over));
                return Results.NoContent();
            });
        }));
        host.MapGet("/versions", c => Do(c, async cancel =>
            Answer(await stash.StashVersionsAsync(cancel), ShelfJson.Default.IReadOnlyListPieceVersion)));
        host.MapGet("/versions/{number:int}", c => Do(c, async cancel =>
            Results.Bytes(await stash.LoadStashVersionAsync(Number(c), cancel), "application/json")));
    }

    private static PieceName Name(HttpContext context) => PieceName.Parse((string?)context.Request.RouteValues["name"]);

    private static int Number(HttpContext context) => int.Parse((string)context.Request.RouteValues["number"]!, System.Globalization.CultureInfo.InvariantCulture);

    private static string Tag(Edition edition) => $"\"{edition}\"";

    private static Edition? Edition(HttpRequest request) =>
        request.Headers.IfMatch is [{ Length: > 2 and < 100 } tag] && tag[0] == '"' && tag[^1] == '"' ? new Edition(tag[1..^1]) : null;

    // What may be the first of its kind says so.
    private static IResult? OverOrFirst(HttpRequest request, out Edition? over) => (over = Edition(request)) is null && request.Headers.IfNoneMatch != "*"
        ? Answer(new ShelfFault(nameof(ShelfTrouble.Conflict), "A save names the edition it replaces, in If-Match, or If-None-Match: * where there is none."), ShelfJson.Default.ShelfFault, 428)
        : null;

    private static IResult Answer<T>(T value, System.Text.Json.Serialization.Metadata.JsonTypeInfo<T> type, int status = 200) =>
        Results.Json(value, type, statusCode: status);

    private async Task<IResult> BodyAsync(HttpContext context, CancellationToken cancel, Func<byte[], Task<IResult>> use)
    {
        if (context.Request.ContentType?.Split(';')[0].Trim() != "application/json")
            return Answer(new ShelfFault(nameof(ShelfTrouble.Unreadable), "Pieces, figures, places and the stash are sent as application/json."), ShelfJson.Default.ShelfFault, 415);
        if (context.Request.ContentLength > PieceReader.MostBytes) throw TooLarge(null);
        return await use(await ReadAsync(context.Request.Body, cancel)); // heard to its end before anything waits for it
    }

    // Whoever sends slowly holds up nobody who sends little, and others for no longer than the patience lasts.
    private async Task<byte[]> ReadAsync(Stream body, CancellationToken cancel)
    {
        using var late = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        late.CancelAfter(patience ?? UsualPatience);
        using var heard = new MemoryStream();
        var isLarge = false;
        try
        {
            var chunk = new byte[16 * 1024];
            for (int taken; (taken = await body.ReadAsync(chunk, late.Token)) > 0;)
            {
                if (!isLarge && heard.Length + taken > Small)
                {
                    late.CancelAfter(Timeout.InfiniteTimeSpan);
                    await FewUploads.WaitAsync(cancel);
                    isLarge = true;
                    late.CancelAfter(patience ?? UsualPatience);
                }
                heard.Write(chunk, 0, taken);
            }
            return heard.ToArray();
        }
        catch (IOException e) when (e is not BadHttpRequestException) // a chunk of impossible size, for one
        {
            throw new BadHttpRequestException("The body cannot be read.", StatusCodes.Status400BadRequest, e);
        }
        catch (OperationCanceledException e) when (!cancel.IsCancellationRequested)
        {
            throw new BadHttpRequestException("The body came too slowly.", StatusCodes.Status408RequestTimeout, e);
        }
        finally
        {
            if (isLarge) FewUploads.Release();
        }
    }

    private static ShelfException TooLarge(Exception? inner) =>
        new(ShelfTrouble.Unreadable, $"This is larger than {PieceReader.MostBytes / 1024 / 1024} MB, which no piece needs.", inner);

    private static async Task Do(HttpContext context, Func<CancellationToken, Task<IResult>> act)
    {
        context.Response.Headers.CacheControl = "no-store";
        IResult result;
        try
        {
            if (context.Request.Path.Value is { Length: > MostLetters }) throw new ShelfException(ShelfTrouble.BadName, "The address is too long.");
            result = await act(context.RequestAborted);
        }
        catch (ShelfException e)
        {
            result = Fault(e, StatusOf(e.Trouble));
        }
        catch (BadHttpRequestException e)
        {
            result = Fault(e.StatusCode == 413 ? TooLarge(e) : new ShelfException(ShelfTrouble.Unreadable, "The request broke off; nothing was changed.", e), e.StatusCode);
        }
        catch (OperationCanceledException) when (context.RequestAborted.IsCancellationRequested)
        {
            return; // nobody is listening any more
        }
        await result.ExecuteAsync(context);
    }

    private static IResult Fault(ShelfException e, int status) =>
        Answer(new ShelfFault(e.Trouble.ToString(), e.Message), ShelfJson.Default.ShelfFault, status);

    private static int StatusOf(ShelfTrouble trouble) => trouble switch
    {
        ShelfTrouble.NotFound => 404,
        ShelfTrouble.Conflict => 412,
        ShelfTrouble.Taken => 409,
        ShelfTrouble.BadName => 400,
        ShelfTrouble.Unreadable => 422,
        ShelfTrouble.Full => 507,
        ShelfTrouble.ReadOnly => 403,
        _ => 503,
    };
}
