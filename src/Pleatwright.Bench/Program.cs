using System.Runtime.Versioning;
using Microsoft.AspNetCore.Components.WebAssembly.Hosting;
using Pleatwright.Bench;
using Pleatwright.Bench.Table;

[assembly: SupportedOSPlatform("browser")]

var builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<App>("#app");
builder.Services.AddSingleton<Desk>();
builder.Services.AddSingleton<Needle>();
await Painter.LoadAsync();
await builder.Build().RunAsync();
