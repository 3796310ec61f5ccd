using Pleatwright.Cloth;
using Pleatwright.Files;

namespace Pleatwright.Tests.Commands;

/// <summary>The command recut: what it writes, tells and refuses.</summary>
public sealed class RecutCommandTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pleatwright-");

    public void Dispose() => folder.Delete(recursive: true);

    private string In(string name) => Path.Combine(folder.FullName, name);

    [Theory]
    [InlineData("size"), InlineData("count"), InlineData("proportions")]
    public void A_piece_of_every_form_is_recut_from_five_rows_a_space_to_four_and_proves_without_new_errors(string keep)
    {
        foreach (var example in new[] { "quay-yoke", "harbour-wall", "quay-bishop", "net-float" }.Select(Program.Example))
        {
            var target = In(Path.GetFileName(example));
            var run = Program.Run("recut", example, "--keep", keep, "--cable-rows", "4", "-o", target, "--force", "--json");
            if (run.Exit != 0)
            {
                Assert.Contains("do not fit on the ball", run.Complaint); // a ball of another size has only so much room
                continue;
            }
            var json = run.Json;
            Assert.Equal(keep, json.GetProperty("keep").GetString());
            Assert.Equal(5, json.GetProperty("before").GetProperty("cableRowsPerSpace").GetInt32());
            Assert.Equal(4, json.GetProperty("after").GetProperty("cableRowsPerSpace").GetInt32());
            Assert.True(json.GetProperty("after").GetProperty("counts").GetProperty("error").GetInt32() <= json.GetProperty("before").GetProperty("counts").GetProperty("error").GetInt32(), example);
            Assert.Contains(json.GetProperty("changes").EnumerateArray(), c => c.GetProperty("kind").GetString() == "otherGauge" && c.GetProperty("message").GetString() == "5 cable rows to a space become 4.");
            var piece = PieceReader.Read(File.ReadAllBytes(target));
            Assert.Equal(json.GetProperty("after").GetProperty("pleats").GetInt32(), new PleatingPlan(piece.Cloth).Pleats);
            if (keep == "size") Assert.Equal(json.GetProperty("before").GetProperty("finishedWidthMm").GetDouble(), json.GetProperty("after").GetProperty("finishedWidthMm").GetDouble());
        }
    }

    [Fact]
    public void Every_option_is_taken_and_each_change_told()
    {
        var target = In("yoke.piece.json");
        var run = Program.Run("recut", Program.Example("quay-yoke"), "--keep", "size", "--pleats-per-inch", "16", "--take-up", "1/4 in", "--row-spacing", "1/2 in", "--cable-rows", "6", "-o", target, "--units", "inches");
        Assert.True(run.Exit == 0, run.Error);
        Assert.Contains("20 pleats an inch become 16; a pleat takes up 1/4 in instead of 0.2 in; gathering rows lie 1/2 in apart instead of 3/8 in; 5 cable rows to a space become 6.", run.Out);
        Assert.Contains("“kite” is drawn again", run.Out);
        Assert.Contains("Written: " + target, run.Out);
        var gauge = PieceReader.Read(File.ReadAllBytes(target)).Cloth.Gauge;
        Assert.Equal((16, 0.25, 0.5, 6), (gauge.PleatsPerInch, Math.Round(gauge.TakeUp.Inches, 9), gauge.RowSpacing.Inches, gauge.CableRowsPerSpace));
    }

    [Fact]
    public void One_figure_is_scaled_by_a_factor_or_to_a_width()
    {
        Assert.Equal(0, Program.Run("recut", Program.Example("quay-yoke"), "--figure", "crab", "--scale", "1.5", "-o", In("a.json")).Exit);
        Assert.Equal(0, Program.Run("recut", Program.Example("quay-yoke"), "--figure", "crab", "--width", "45", "-o", In("b.json")).Exit);
        Assert.Equal(File.ReadAllBytes(In("a.json")), File.ReadAllBytes(In("b.json"))); // 30 pleats times one and a half
        var piece = PieceReader.Read(File.ReadAllBytes(In("a.json")));
        Assert.Equal((45, 23), (piece.Figure("crab")!.Width, piece.Figure("kite")!.Width));
    }

    [Fact]
    public void No_file_is_written_over_without_being_told_to()
    {
        var target = In("there.json");
        File.WriteAllText(target, "kept");
        var run = Program.Run("recut", Program.Example("quay-yoke"), "--cable-rows", "4", "-o", target);
        Assert.Equal(2, run.Exit);
        Assert.Contains("--force writes over it", run.Complaint);
        Assert.Equal("kept", File.ReadAllText(target));
        Assert.Equal(0, Program.Run("recut", Program.Example("quay-yoke"), "--cable-rows", "4", "-o", target, "--force").Exit);
    }

    [Theory]
    [InlineData("no other gauge was given")]
    [InlineData("“wide” is not a choice here", "--keep", "wide", "--cable-rows", "4")]
    [InlineData("--cable-rows takes 1 to 20", "--cable-rows", "0")]
    [InlineData("--pleats-per-inch takes a number more than nothing", "--pleats-per-inch", "-3")]
    [InlineData("--row-spacing takes a length with its unit", "--row-spacing", "3/8")]
    [InlineData("A pleat cannot take up less cloth than its finished width", "--pleats-per-inch", "2")]
    [InlineData("the piece has no figure “whale”; it has “lighthouse”, “crab”, “kite”", "--figure", "whale", "--scale", "2")]
    [InlineData("--scale scales one figure; name it with --figure", "--scale", "2")]
    [InlineData("--figure takes either --scale or --width", "--figure", "crab")]
    [InlineData("--figure scales one figure at the gauge as it is", "--figure", "crab", "--scale", "2", "--cable-rows", "4")]
    [InlineData("is too many stitches", "--pleats-per-inch", "5000", "--take-up", "1 in", "--row-spacing", "0.1 mm")]
    public void What_cannot_be_done_is_refused_in_one_line_and_nothing_is_written(string complaint, params string[] options)
    {
        var run = Program.Run(["recut", Program.Example("quay-yoke"), "-o", In("out.json"), .. options]);
        Assert.Equal(2, run.Exit);
        Assert.Contains(complaint, run.Complaint, StringComparison.OrdinalIgnoreCase);
        Assert.Empty(folder.GetFiles());
    }
}
