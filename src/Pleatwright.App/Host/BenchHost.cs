using System.Net;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Pleatwright.Shelf;
using Pleatwright.Files;

namespace Pleatwright.App.Host;

/// <summary>The bench and a shelf, served to this machine alone until disposed.</summary>
public sealed class BenchHost : IAsyncDisposable
{
    private readonly WebApplication app;

    private BenchHost(WebApplication app, string shelf)
    {
        this.app = app;
        Shelf = shelf;
        Url = new Uri(app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First());
    }

    /// <summary>The address to open, on 127.0.0.1 with the port in use.</summary>
    public Uri Url { get; }

    /// <summary>The shelf's folder, as a full path.</summary>
    public string Shelf { get; }

    /// <summary>The shelf when none is named: "Smocking pieces" among the user's documents, else in the home folder.</summary>
    public static string DefaultShelf
    {
        get
        {
            var home = Environment.GetFolderPath(Environment.SpecialFolder.MyDocuments, Environment.SpecialFolderOption.DoNotVerify);
            if (home.Length == 0) home = Environment.GetFolderPath(Environment.SpecialFolder.UserProfile, Environment.SpecialFolderOption.DoNotVerify);
            return Path.Combine(home.Length == 0 ? Directory.GetCurrentDirectory() : home, "Smocking pieces");
        }
    }

    /// <summary>Starts serving.</summary>
    /// <param name="shelfFolder">The shelf's folder; made when it is not there.</param>
    /// <param name="port">The port on 127.0.0.1, or 0 for any free one.</param>
    /// <param name="cancel">Gives the start up.</param>
    /// <param name="unpacked">The folder of an unpacked program whose bench is served; null for this program's own.</param>
    /// <exception cref="ShelfException">The folder cannot be used as a shelf.</exception>
    /// <exception cref="IOException">The port is taken, or may not be used.</exception>
    public static Task<BenchHost> StartAsync(string shelfFolder, int port, CancellationToken cancel = default, string? unpacked = null) =>
        StartAsync(new FolderStore(shelfFolder, TimeProvider.System), port, cancel, unpacked);

    /// <summary>Starts serving a store.</summary>
    /// <inheritdoc cref="StartAsync(string, int, CancellationToken, string)" path="/exception"/>
    internal static async Task<BenchHost> StartAsync(FolderStore store, int port, CancellationToken cancel = default, string? unpacked = null, TimeSpan? patience = null)
    {
        // The empty builder reads no settings and no environment, so that nothing can bind it anywhere else.
        var program = unpacked ?? AppContext.BaseDirectory;
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions
        {
            ApplicationName = typeof(BenchHost).Assembly.GetName().Name,
            ContentRootPath = program,
            EnvironmentName = Environments.Production,
        });
        if (unpacked is null) builder.WebHost.UseStaticWebAssets();
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel =>
        {
            kestrel.Listen(IPAddress.Loopback, port);
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = PieceReader.MostBytes;
            kestrel.Limits.MaxRequestHeadersTotalSize = 16 * 1024;
            kestrel.Limits.MaxConcurrentConnections = 1000;
        });
        builder.Services.AddRoutingCore();
        var app = builder.Build();
        try
        {
            app.UseMiddleware<Guard>(ContentPolicy.For(app.Environment.WebRootFileProvider));
            ShelfApi.SayKind(app);
            app.UseRouting();
            new ShelfApi(new FileShelf(store, TimeProvider.System), new FileTexts(store, TimeProvider.System, Goods.Figures), new FileStash(store, TimeProvider.System), patience).Map(app);
            app.MapStaticAssets(Path.Combine(program, "pleatwright.staticwebassets.endpoints.json"));
            app.MapFallbackToFile("index.html");
            await app.StartAsync(cancel);
        }
        catch
        {
            await app.DisposeAsync();
            throw;
        }
        return new BenchHost(app, store.Place);
    }

    /// <summary>Serves until cancelled, then lets requests under way finish.</summary>
    public async Task RunAsync(CancellationToken cancel)
    {
        var stopped = new TaskCompletionSource();
        await using var registration = cancel.Register(stopped.SetResult);
        await stopped.Task;
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await app.StopAsync();
        await app.DisposeAsync();
    }
}
