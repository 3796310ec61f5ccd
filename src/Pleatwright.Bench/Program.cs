using System.Runtime.Versioning;
using Microsoft.AspNetCore.Components.WebAssembly.Hosting;
using Microsoft.AspNetCore.Components.WebAssembly.Services;
using Pleatwright.Bench;
using Pleatwright.Bench.Keeping;
using Pleatwright.Bench.Printing;
using Pleatwright.Bench.Tracing;
using Pleatwright.Bench.Working;
using Pleatwright.Bench.Model;
using Pleatwright.Bench.Model.Basket;
using Pleatwright.Bench.Model.Chair;
using Pleatwright.Bench.Model.Drawer;
using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Bench.Model.Printing;
using Pleatwright.Bench.Model.Showing;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Bench.Model.Tabletop;
using Pleatwright.Bench.Model.Tracing;
using Pleatwright.Bench.Model.Working;

[assembly: SupportedOSPlatform("browser")]

var builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<App>("#app");
await Painter.LoadAsync();
await Store.LoadAsync();
var memory = new BrowserMemory();
var shelves = await ShelfChoice.MakeAsync(new HttpClient { BaseAddress = new Uri(builder.HostEnvironment.BaseAddress) }, memory, () =>
{
    _ = Store.PersistAsync();
    return new BrowserStore();
}, TimeProvider.System);
builder.Services.AddSingleton(TimeProvider.System);
builder.Services.AddSingleton<IMemory>(memory);
builder.Services.AddSingleton<IJournalStore>(memory);
builder.Services.AddSingleton(shelves);
builder.Services.AddSingleton(shelves.Pieces);
builder.Services.AddSingleton(shelves.Stash);
builder.Services.AddSingleton<IPlanningRoom, WorkerRoom>();
builder.Services.AddSingleton<IOrders, Orders>();
builder.Services.AddSingleton<LazyAssemblyLoader>();
builder.Services.AddSingleton<Later>();
builder.Services.AddSingleton<Desk>();
builder.Services.AddSingleton<Needle>();
builder.Services.AddSingleton<Margin>();
builder.Services.AddSingleton<Over>();
builder.Services.AddSingleton<Preview>();
builder.Services.AddSingleton<PrintChoice>();
builder.Services.AddSingleton<IPressRoom, PressRoom>();
builder.Services.AddSingleton<Press>();
builder.Services.AddSingleton<ITracingRoom, TracingRoom>();
builder.Services.AddSingleton<Glass>();
builder.Services.AddSingleton<Stand>();
builder.Services.AddSingleton<Workbasket>();
builder.Services.AddSingleton<Keeper>();
builder.Services.AddSingleton(s => new PlaceKeeper(s.GetRequiredService<Keeper>(), memory, TimeProvider.System, s.GetRequiredService<Desk>().Say));
builder.Services.AddSingleton(s => new FigureKeeper(shelves.Figures, s.GetRequiredService<Keeper>(), memory, TimeProvider.System, s.GetRequiredService<Desk>().Say));
builder.Services.AddSingleton<DrawerHand>();
builder.Services.AddSingleton<Ticking>();
builder.Services.AddSingleton<Stage>();
builder.Services.AddSingleton<Undoing>();
var bench = builder.Build();
await bench.Services.GetRequiredService<Keeper>().StartAsync();
bench.Services.GetRequiredService<PlaceKeeper>().Start();
_ = bench.Services.GetRequiredService<FigureKeeper>().StartAsync();
_ = bench.Services.GetRequiredService<DrawerHand>(); // looks into the drawer for the piece that was opened
await bench.RunAsync();
