var builder = WebApplication.CreateBuilder(args);
builder.WebHost.UseUrls("http://127.0.0.1:5077");
builder.WebHost.UseStaticWebAssets();
var app = builder.Build();
app.MapStaticAssets();
app.MapFallbackToFile("index.html");
app.Run();
