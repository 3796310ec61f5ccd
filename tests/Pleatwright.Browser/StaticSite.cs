using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Pleatwright.App.Host;

namespace Pleatwright.Browser.Tests;

/// <summary>The bench as plain static files, with no shelf behind it.</summary>
internal sealed class StaticSite : IAsyncDisposable
{
    private readonly WebApplication app;

    private StaticSite(WebApplication app) => this.app = app;

    public string Url => app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();

    public static async Task<StaticSite> StartAsync()
    {
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions
        {
            ApplicationName = typeof(BenchHost).Assembly.GetName().Name,
            ContentRootPath = AppContext.BaseDirectory,
        });
        builder.WebHost.UseKestrelCore().UseStaticWebAssets().ConfigureKestrel(k => k.Listen(IPAddress.Loopback, 0));
        builder.Services.AddRoutingCore();
        var app = builder.Build();
        app.UseRouting();
        app.MapStaticAssets(Path.Combine(AppContext.BaseDirectory, "pleatwright.staticwebassets.endpoints.json"));
        app.MapFallbackToFile("index.html");
        await app.StartAsync();
        return new StaticSite(app);
    }

    public async ValueTask DisposeAsync()
    {
        await app.StopAsync();
        await app.DisposeAsync();
    }
}
