using System.Runtime.Versioning;
using Microsoft.AspNetCore.Components.WebAssembly.Hosting;
using Pleatwright.Bench;
using Pleatwright.Bench.Keeping;
using Pleatwright.Bench.Table;

[assembly: SupportedOSPlatform("browser")]

var builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<App>("#app");
builder.Services.AddSingleton<Desk>();
builder.Services.AddSingleton<Needle>();
builder.Services.AddSingleton<Pleatwright.Bench.Printing.PrintChoice>();
builder.Services.AddSingleton<Pleatwright.Bench.Tracing.Glass>();
builder.Services.AddSingleton<Pleatwright.Bench.Working.Stand>();
await Painter.LoadAsync();
await Store.LoadAsync();
var (shelf, stash) = await ShelfChoice.MakeAsync(new HttpClient { BaseAddress = new Uri(builder.HostEnvironment.BaseAddress) });
builder.Services.AddSingleton(shelf);
builder.Services.AddSingleton(stash);
builder.Services.AddSingleton<Pleatwright.Bench.Basket.Workbasket>();
builder.Services.AddSingleton<Keeper>();
var bench = builder.Build();
await bench.Services.GetRequiredService<Keeper>().StartAsync();
await bench.RunAsync();
