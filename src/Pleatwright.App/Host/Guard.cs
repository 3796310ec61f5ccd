using System.Globalization;

namespace Pleatwright.App.Host;

/// <summary>
/// Stands before everything: answers only to this machine's own names with our port (a page elsewhere may point its
/// name at 127.0.0.1), refuses what another site sends, and puts the security headers on every answer.
/// </summary>
public sealed class Guard(RequestDelegate next, string contentPolicy)
{
    /// <summary>The header every write must carry. A page of another site cannot set it without asking, and is never given leave.</summary>
    public const string WriteHeader = "Pleatwright-Bench";

    /// <summary>Passes a request on or refuses it.</summary>
    public async Task InvokeAsync(HttpContext context)
    {
        PutHeaders(context.Response.Headers);
        var refusal = Refusal(context);
        if (refusal is null)
        {
            await next(context);
            return;
        }
        context.Response.StatusCode = refusal.Value.Status;
        context.Response.ContentType = "text/plain; charset=utf-8";
        await context.Response.WriteAsync(refusal.Value.Word + "\n");
    }

    private void PutHeaders(IHeaderDictionary headers)
    {
        headers.ContentSecurityPolicy = contentPolicy;
        headers.XContentTypeOptions = "nosniff";
        headers.XFrameOptions = "DENY";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "camera=(), microphone=(), geolocation=(), payment=(), usb=(), screen-wake-lock=(self)";
    }

    private static (int Status, string Word)? Refusal(HttpContext context)
    {
        var request = context.Request;
        if (!IsOurs(request.Host, context.Connection.LocalPort))
            return (StatusCodes.Status421MisdirectedRequest, "The bench answers only on this machine's own address; open the address it printed.");
        var reads = HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method);
        if (reads && !request.Path.StartsWithSegments("/api")) return null;
        if (request.Headers.Origin is [var origin, ..] && origin != $"http://{request.Host}")
            return (StatusCodes.Status403Forbidden, "Another site may not use the shelf.");
        if (request.Headers["Sec-Fetch-Site"] is [var site, ..] && site != "same-origin" && !(reads && site == "none"))
            return (StatusCodes.Status403Forbidden, "Another site may not use the shelf.");
        if (!reads && request.Headers[WriteHeader].Count == 0)
            return (StatusCodes.Status403Forbidden, $"A write to the shelf must carry the header {WriteHeader}.");
        return null;
    }

    private static bool IsOurs(HostString host, int port) =>
        host.Host is "127.0.0.1" or "localhost" or "[::1]" or "::1" && (host.Port ?? 80) == port
        && host.Value == (host.Port is { } p ? string.Create(CultureInfo.InvariantCulture, $"{host.Host}:{p}") : host.Host);
}
