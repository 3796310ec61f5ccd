namespace Pleatwright.Tests;

public class FontTests
{
    /// <summary>The screen is set in the plate's own fonts: the page gets the very files, with their licences.</summary>
    [Fact]
    public void The_bench_serves_the_fonts_of_the_plate()
    {
        var served = Directory.GetFiles(Repository.Path("src", "Pleatwright.Bench", "wwwroot", "fonts"));
        Assert.All(served, file => Assert.Equal(File.ReadAllBytes(Repository.Path("src", "Pleatwright.Typefaces", Path.GetFileName(file))), File.ReadAllBytes(file)));
        var style = File.ReadAllText(Repository.Path("src", "Pleatwright.Bench", "wwwroot", "app.css"));
        var fonts = served.Where(f => f.EndsWith(".ttf")).Select(Path.GetFileName).ToArray();
        Assert.NotEmpty(fonts);
        Assert.All(fonts, f => Assert.Contains($"url(\"fonts/{f}\")", style));
        Assert.All(fonts, f => Assert.Contains(served, l => Path.GetFileName(l) == f!.Split('-')[0] + "-OFL.txt"));
    }
}
