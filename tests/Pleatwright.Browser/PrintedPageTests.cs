using Microsoft.Playwright;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Writers;
using Pleatwright.Proof;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;

namespace Pleatwright.Browser.Tests;

/// <summary>The plate's web page printed on paper by a browser, and read back with an independent reader.</summary>
public sealed class PrintedPageTests(Chromium chromium)
{
    private static PlateDocument PlateOf(string example, bool large, bool learner)
    {
        var work = Work.Lay(PieceReader.Read(File.ReadAllBytes(Repository.Path("examples", example + ".piece.json"))));
        return PlateMaker.Make(work, Planner.Plan(work), Proofreading.Read(work), new PlateOptions { LargePrint = large, Edition = learner ? Edition.Learner : Edition.Plate });
    }

    private async Task<byte[]> PrintAsync(string html, string paper)
    {
        await using var context = await chromium.ContextAsync(new BrowserNewContextOptions { ColorScheme = ColorScheme.Dark }); // a dark screen prints on white paper all the same
        var page = await context.NewPageAsync();
        await page.SetContentAsync(html);
        await page.EvaluateAsync("() => document.fonts.ready");
        return await page.PdfAsync(new PagePdfOptions { Format = paper });
    }

    private static string Line(IEnumerable<Word> words) => string.Join(' ', words.Select(w => w.Text));

    [Theory]
    [InlineData("quay-yoke", "A4", false, false)]
    [InlineData("gulls-turning", "Letter", true, false)]
    [InlineData("harbour-wall", "Letter", false, true)]
    public async Task Nothing_is_lost_cut_or_pale(string example, string paper, bool large, bool learner)
    {
        var plate = PlateOf(example, large, learner);
        using var read = PdfDocument.Open(await PrintAsync(HtmlWriter.Write(plate), paper));
        var pages = read.GetPages().ToList();
        var (shortSide, longSide) = paper == "A4" ? (595.0, 842.0) : (612.0, 792.0);
        var printed = pages.SelectMany(p => p.GetWords()).GroupBy(w => w.Text).ToDictionary(g => g.Key, g => g.Count());

        foreach (var page in pages)
        {
            Assert.Equal((shortSide, longSide), (Math.Min(page.Width, page.Height), Math.Max(page.Width, page.Height)), (a, b) => Math.Abs(a.Item1 - b.Item1) < 2 && Math.Abs(a.Item2 - b.Item2) < 2);
            // within the margins on every side, so nothing runs off the paper
            Assert.All(page.Letters, l => Assert.True(l.BoundingBox.Left > 40 && l.BoundingBox.Right < page.Width - 40 && l.BoundingBox.Bottom > 20 && l.BoundingBox.Top < page.Height - 40, $"page {page.Number}: {l.Value} at {l.BoundingBox}"));
            Assert.True(page.Letters.Count > 120 || page.Paths.Count > 100, $"page {page.Number} is all but empty");
            Assert.Contains($"{page.Number} of {pages.Count}", Line(page.GetWords()));
        }

        // every word of the table is there as often as it is told, each page of it under the names of its columns
        Assert.NotEmpty(plate.Table.Lines);
        var cells = learner ? plate.Directions.Select(d => d.Text) : plate.Table.Lines.SelectMany(l => l.Cells);
        foreach (var word in cells.SelectMany(c => c.Split(' ', StringSplitOptions.RemoveEmptyEntries)).GroupBy(w => w))
            Assert.True(printed.GetValueOrDefault(word.Key) >= word.Count(), $"{word.Key}: {printed.GetValueOrDefault(word.Key)} of {word.Count()}");
        foreach (var page in pages)
        {
            var words = page.GetWords().ToList();
            if (!learner && words.Any(w => w.Text is "G3" or "G4" or "G5" or "G3+1")) Assert.Contains(words, w => w.Text is "step" or "band" or "steps" or "rows");
        }

        // charts are not cut: the frame of each is on one page; a learner's, which is all in one, lies along the paper's longer side
        var chart = pages.First(p => p.GetWords().Any(w => w.Text == "Chart" && w.Letters[0].PointSize > 12));
        if (learner) Assert.True(chart.Width > chart.Height);
        var drawn = chart.Paths.Select(p => p.GetBoundingRectangle()).Where(b => b is not null).Select(b => b!.Value).ToList();
        Assert.All(drawn, b => Assert.True(b.Left > 40 && b.Right < chart.Width - 40 && b.Bottom > 20 && b.Top < chart.Height - 40));
        if (learner) Assert.InRange(Math.Max((drawn.Max(b => b.Right) - drawn.Min(b => b.Left)) / (chart.Width - 96), (drawn.Max(b => b.Top) - drawn.Min(b => b.Bottom)) / (chart.Height - 190)), 0.85, 1.3);

        // colours are printed, in the key and on the chart
        foreach (var thread in plate.Threads.Where(t => t.IsUsed))
            foreach (var page in new[] { chart, pages.First(p => p.GetWords().Any(w => w.Text == thread.Name.Split(' ')[0])) })
                Assert.Contains(page.Paths, p => p.IsFilled && p.FillColor?.ToRGBValues() is { } c
                    && Math.Abs(c.r * 255 - thread.Thread.Colour.Red) < 2 && Math.Abs(c.g * 255 - thread.Thread.Colour.Green) < 2 && Math.Abs(c.b * 255 - thread.Thread.Colour.Blue) < 2);
        // words are dark on white, though the screen was dark
        Assert.All(pages[0].Letters.Where(l => l.FontSize < 30), l => Assert.True(l.Color?.ToRGBValues() is not { } c || Math.Min(c.r, Math.Min(c.g, c.b)) < 0.6 || l.Value.Trim().Length is 0 or 1 && plate.Threads.Any(t => t.Letter == l.Value)));

        // no heading stands alone at a page's foot, and large print is large
        foreach (var page in pages.SkipLast(1))
            Assert.DoesNotContain(page.GetWords().Where(w => w.BoundingBox.Bottom < 75), w => w.Text is "Key" or "Materials" or "Directions" or "Chart");
        var body = pages.SelectMany(p => p.Letters).GroupBy(l => Math.Round(l.PointSize, 1)).MaxBy(g => g.Count())!.Key;
        Assert.Equal(large ? 16 : 9.5, body, 0.3);
    }
}
