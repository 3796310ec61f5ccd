using Pleatwright.App.Images;

namespace Pleatwright.Tests.Commands;

/// <summary>The command picture: what it writes and refuses.</summary>
public sealed class PictureCommandTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pleatwright-");

    public void Dispose() => folder.Delete(recursive: true);

    private string In(string name) => Path.Combine(folder.FullName, name);

    [Fact]
    public void A_picture_is_as_wide_as_asked_for_and_says_how_fine_it_is()
    {
        var run = Program.Run("picture", Program.Example("harbour-morning"), "-o", In("a.png"), "--width", "330");
        Assert.True(run.Exit == 0, run.Error);
        Assert.Equal($"Written: {In("a.png")}, 330 × 124 pixels, 30 to an inch of the finished piece.", run.Out.Trim());
        var picture = ImageFile.Read(In("a.png"));
        Assert.Equal((330, 124), (picture.Width, picture.Height));
        // In the middle lies the hull: blue.
        var blue = 0;
        for (var x = 0; x < picture.Width; x++)
            if (picture.Row(63)[4 * x + 2] > picture.Row(63)[4 * x] + 25) blue++;
        Assert.InRange(blue, 60, 180);
    }

    // poppler tells what pictures a PDF holds, and how finely they are printed.
    [Fact]
    public void The_cover_of_a_plate_is_painted_as_finely_as_print_is_judged()
    {
        Assert.Equal(0, Program.Run("plate", Program.Example("first-pennant"), "-o", In("a.pdf")).Exit);
        using var told = System.Diagnostics.Process.Start(new System.Diagnostics.ProcessStartInfo("pdfimages", ["-list", In("a.pdf")]) { RedirectStandardOutput = true })!;
        var first = told.StandardOutput.ReadToEnd().Split('\n')[2].Split(' ', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(("1", "jpeg"), (first[0], first[8]));
        Assert.InRange(int.Parse(first[12], System.Globalization.CultureInfo.InvariantCulture), 290, 310); // dots an inch across
        Assert.InRange(new FileInfo(In("a.pdf")).Length, 10_000, 1_500_000);
    }

    // Small enough for a phone without a network, and no drawing of every stitch.
    [Theory]
    [InlineData("harbour-morning"), InlineData("net-float")]
    public void The_students_page_carries_the_painted_picture_and_stays_small(string piece)
    {
        Assert.Equal(0, Program.Run("class", Program.Example(piece), "--students", "2", "-o", In("a.html")).Exit);
        var page = File.ReadAllText(In("a.html"));
        var pictures = page.Split("data:image/jpeg;base64,");
        Assert.Equal(2, pictures.Length);
        Assert.InRange(pictures[1].IndexOf('"', StringComparison.Ordinal), 20_000, 260_000);
        Assert.True(page.Length < 1_200_000, $"{page.Length} bytes");
    }

    [Fact]
    public void A_figure_is_framed_alone_and_a_size_is_heeded()
    {
        Assert.Equal(0, Program.Run("picture", Program.Example("harbour-morning"), "-o", In("boat.png"), "--width", "300", "--figure", "boat").Exit);
        var near = ImageFile.Read(In("boat.png"));
        Assert.InRange((double)near.Width / near.Height, 1.2, 2.2);
        Assert.Equal(0, Program.Run("picture", Program.Example("net-float"), "-o", In("knot.png"), "--width", "64", "--figure", "knot").Exit);
        var bad = Program.Run("picture", Program.Example("harbour-morning"), "-o", In("a.png"), "--size", "huge");
        Assert.Equal(2, bad.Exit);
        Assert.Contains("“huge”", bad.Complaint);
    }

    [Theory]
    [InlineData("0"), InlineData("15"), InlineData("12001"), InlineData("-5"), InlineData("many"), InlineData("1e3")]
    public void A_silly_width_is_refused(string width)
    {
        var run = Program.Run("picture", Program.Example("harbour-morning"), "-o", In("a.png"), "--width", width);
        Assert.Equal(2, run.Exit);
        Assert.Contains("--width takes 16 to 12000", run.Complaint);
        Assert.Empty(folder.GetFiles());
    }

    [Fact]
    public void What_cannot_be_made_is_refused_in_one_clear_line()
    {
        Refused("no figure is called “whale”; there is “boat”", "picture", Program.Example("harbour-morning"), "-o", In("a.png"), "--figure", "whale");
        Refused("a picture is written as .png", "picture", Program.Example("harbour-morning"), "-o", In("a.jpg"));
        Refused("there is no folder", "picture", Program.Example("harbour-morning"), "-o", In("none/a.png"));
        Refused("million in all can be made", "picture", Program.Example("quay-bishop"), "-o", In("a.png"), "--width", "12000");
        var lone = In("lone.piece.json");
        File.WriteAllText(lone, Unplaced());
        Refused("on the cloth nowhere in sight", "picture", lone, "-o", In("a.png"), "--figure", "sail");
        Assert.Equal(["lone.piece.json"], folder.GetFiles().Select(f => f.Name));

        void Refused(string why, params string[] args)
        {
            var run = Program.Run(args);
            Assert.Equal(2, run.Exit);
            Assert.Contains(why, run.Complaint);
        }

        static string Unplaced() => """
            { "pleatwright": 1, "title": "Lone",
              "cloth": { "form": "panel", "finishedWidth": "4 in", "gauge": { "pleatsPerInch": 12, "takeUp": "1/4 in", "rowSpacing": "3/8 in", "cableRowsPerSpace": 5 }, "gatheringRows": 4 },
              "threads": { "r": { "name": "red", "colour": "#b3202c" } },
              "figures": { "sail": { "rows": [ ".r.", "rrr" ] } },
              "place": [] }
            """;
    }
}
