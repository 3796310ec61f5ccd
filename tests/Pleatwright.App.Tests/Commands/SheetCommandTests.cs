using UglyToad.PdfPig;

namespace Pleatwright.Tests.Commands;

/// <summary>The sheets that prepare the cloth, and the sizes of a piece, from the command line.</summary>
public sealed class SheetCommandTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pleatwright-");

    public void Dispose() => folder.Delete(recursive: true);

    private string Out(string name) => Path.Combine(folder.FullName, name);

    [Theory]
    [InlineData("dots", "s.pdf", "Dot sheet")]
    [InlineData("blocking", "s.svg", "Blocking guide")]
    [InlineData("card", "s.pdf", "Pleating card")]
    public void Each_sheet_is_written_as_its_name_says(string sheet, string name, string heading)
    {
        Assert.Equal(0, Program.Run("plate", Program.Example("quay-bishop"), "--sheet", sheet, "-o", Out(name)).Exit);
        if (name.EndsWith(".svg", StringComparison.Ordinal))
        {
            Assert.StartsWith("<?xml", File.ReadAllText(Out(name)), StringComparison.Ordinal);
            Assert.Contains(heading, File.ReadAllText(Out(name)), StringComparison.Ordinal);
            return;
        }
        using var read = PdfDocument.Open(File.ReadAllBytes(Out(name)));
        Assert.Contains(heading, string.Join(" ", read.GetPage(1).GetWords().Select(w => w.Text)), StringComparison.Ordinal);
    }

    [Fact]
    public void A_size_is_chosen_by_its_name()
    {
        Assert.Equal(0, Program.Run("plate", Program.Example("quay-bishop"), "--sheet", "card", "--size", "neck 12 in", "-o", Out("s.pdf")).Exit);
        using var read = PdfDocument.Open(File.ReadAllBytes(Out("s.pdf")));
        Assert.Contains("342", read.GetPage(1).GetWords().Select(w => w.Text.Trim(',', ':')));
    }

    [Theory]
    [InlineData("--sheet", "ribbon", "--sheet takes plate, dots, blocking or card")]
    [InlineData("--size", "giant", "no size “giant”; it has “neck 10 in”, “neck 12 in”")]
    public void What_is_not_there_is_refused_in_one_line(string option, string value, string words)
    {
        var outcome = Program.Run("plate", Program.Example("quay-bishop"), option, value, "-o", Out("s.pdf"));
        Assert.Equal(2, outcome.Exit);
        Assert.Contains(words, outcome.Error);
        Assert.False(File.Exists(Out("s.pdf")));
    }

    [Fact]
    public void A_sheet_takes_no_other_ending()
    {
        var outcome = Program.Run("plate", Program.Example("quay-bishop"), "--sheet", "dots", "-o", Out("s.txt"));
        Assert.Equal(2, outcome.Exit);
        Assert.Contains(".pdf or .svg", outcome.Error);
    }

    [Fact]
    public void Plan_reports_panels_rows_sizes_and_swatch()
    {
        var plan = Program.Run("plan", Program.Example("quay-bishop"), "--json").Json;
        Assert.Equal(plan.GetProperty("pleats").GetInt32(), plan.GetProperty("panels").EnumerateArray().Sum(p => p.GetProperty("pleats").GetInt32()));
        Assert.Equal(84 * 25.4, plan.GetProperty("cutWidthMm").GetDouble(), 4);
        // Pitch at row j = 2π(r0 + j·s)·(sweep/360)/P.
        foreach (var (row, j) in plan.GetProperty("rows").EnumerateArray().Select((r, j) => (r, j)))
            Assert.Equal((279.4 + 2 * Math.PI * j * 9.525) / 318, row.GetProperty("pitchMm").GetDouble(), 4);
        Assert.Equal(["neck 10 in", "neck 12 in"], plan.GetProperty("sizes").EnumerateArray().Select(s => s.GetProperty("name").GetString()));
        Assert.All(plan.GetProperty("sizes").EnumerateArray(), s => Assert.True(s.GetProperty("fits").GetBoolean()));
        var ball = Program.Run("plan", Program.Example("net-float"), "--json").Json;
        Assert.InRange(ball.GetProperty("swatch").GetProperty("pitchMm").GetProperty("value").GetDouble(), 1.5, 1.7);
    }
}
