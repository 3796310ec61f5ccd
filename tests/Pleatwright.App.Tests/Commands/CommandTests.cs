using System.Text.Json;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Plate;

namespace Pleatwright.Tests.Commands;

/// <summary>The commands as other programs rely on them: their keys, exit codes and one-line errors.</summary>
public sealed class CommandTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pleatwright-");

    public void Dispose() => folder.Delete(recursive: true);

    private static string[] Keys(JsonElement element) => [.. element.EnumerateObject().Select(p => p.Name)];

    [Fact]
    public void Plan_reports_cloth_pleats_and_threads()
    {
        var plan = Program.Run("plan", Program.Example("harbour-morning"), "--json").Json;
        Assert.Empty(new[] { "pleats", "cutWidthMm", "finishedWidthMm", "fullness", "gatheringRows", "fabricWidths", "threads" }.Except(Keys(plan)));
        Assert.Equal(176, plan.GetProperty("pleats").GetInt32());
        Assert.Equal(279.4, plan.GetProperty("finishedWidthMm").GetDouble());
        Assert.Equal((176 + 6) * 6.0, plan.GetProperty("cutWidthMm").GetDouble(), 4);
        Assert.Equal(6 / (25.4 / 16), plan.GetProperty("fullness").GetDouble(), 4);
        var work = Work.Lay(PieceReader.Read(File.ReadAllBytes(Program.Example("harbour-morning"))));
        Assert.Equal(work.Cables, plan.GetProperty("threads").EnumerateArray().Sum(t => t.GetProperty("cables").GetInt32()));
        foreach (var thread in plan.GetProperty("threads").EnumerateArray())
            Assert.Empty(new[] { "key", "cables", "halfStitches", "lengthMm", "needlefuls", "skeins" }.Except(Keys(thread)));
    }

    [Theory]
    [InlineData(".pdf")]
    [InlineData(".svg")]
    [InlineData(".html")]
    public void Whatever_takes_a_piece_takes_a_plate_that_carries_it(string ending)
    {
        var piece = Program.Example("first-pennant");
        string first = Path.Combine(folder.FullName, "first" + ending), second = Path.Combine(folder.FullName, "second" + ending);
        Assert.Equal(0, Program.Run("plate", piece, "-o", first).Exit);
        Assert.Equal(0, Program.Run("plate", first, "-o", second).Exit);
        Assert.Equal(File.ReadAllBytes(first), File.ReadAllBytes(second)); // the very piece, under the very name
        Assert.Equal("first-pennant.piece.json", PieceFinder.Read(File.ReadAllBytes(second)).FileName);
        foreach (var command in ending == ".pdf" ? (string[])["plan", "proof", "order", "shop"] : [])
            Assert.Equal(Program.Run(command, piece, "--json").Out, Program.Run(command, first, "--json").Out);
        if (ending == ".pdf") Assert.Equal(Program.Run("class", piece, "--students", "3", "--json").Out, Program.Run("class", first, "--students", "3", "--json").Out);
    }

    [Fact]
    public void A_plate_that_carries_none_or_breaks_off_is_told_in_one_line()
    {
        var whole = Path.Combine(folder.FullName, "whole.pdf");
        Program.Run("plate", Program.Example("first-pennant"), "-o", whole);
        var cut = Path.Combine(folder.FullName, "cut.pdf");
        File.WriteAllBytes(cut, File.ReadAllBytes(whole)[..20_000]);
        var dots = Path.Combine(folder.FullName, "dots.pdf");
        Program.Run("plate", Program.Example("first-pennant"), "--sheet", "dots", "-o", dots);
        foreach (var (path, words) in new[] { (cut, "the PDF breaks off"), (dots, "this PDF carries no piece") })
        {
            var refused = Program.Run("plan", path);
            Assert.Equal(2, refused.Exit);
            Assert.StartsWith($"pleatwright: {path}:1:1: {words}", refused.Complaint, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Proof_of_a_sound_piece_exits_0_and_of_a_flawed_one_1()
    {
        var sound = Program.Run("proof", Program.Example("first-pennant"), "--json");
        Assert.Equal(0, sound.Exit);
        Assert.Equal(0, sound.Json.GetProperty("counts").GetProperty("error").GetInt32());
        var flawed = Program.Run("proof", Program.Example("flawed-kite"), "--json");
        Assert.Equal(1, flawed.Exit);
        Assert.True(flawed.Json.GetProperty("counts").GetProperty("error").GetInt32() > 0);
        foreach (var finding in flawed.Json.GetProperty("findings").EnumerateArray())
        {
            Assert.Empty(new[] { "rule", "severity", "cableRow", "valleys", "message", "remedy" }.Except(Keys(finding)));
            Assert.Contains(finding.GetProperty("severity").GetString(), new[] { "error", "warning", "note" });
            Assert.Equal(2, finding.GetProperty("valleys").GetArrayLength());
        }
    }

    [Fact]
    public void Order_reports_every_cable_once()
    {
        var order = Program.Run("order", Program.Example("quay-yoke"), "--json").Json;
        Assert.Empty(new[] { "steps", "starts", "turns", "carriedMm", "lowerBoundStarts" }.Except(Keys(order)));
        var cells = new HashSet<(int, int)>();
        foreach (var step in order.GetProperty("steps").EnumerateArray())
        {
            Assert.Empty(new[] { "number", "thread", "cableRow", "from", "to", "cables", "begin", "end", "turned", "heldBegin", "starts", "tieOff", "halfStitches" }.Except(Keys(step)));
            int from = step.GetProperty("from").GetInt32(), to = step.GetProperty("to").GetInt32();
            for (var v = Math.Min(from, to); v <= Math.Max(from, to); v++) Assert.True(cells.Add((v, step.GetProperty("cableRow").GetInt32())));
            Assert.Contains(step.GetProperty("starts").GetString(), new[] { "new", "carry" });
            Assert.Contains(step.GetProperty("heldBegin").GetString(), new[] { "up", "down" });
        }
        Assert.Equal(Work.Lay(PieceReader.Read(File.ReadAllBytes(Program.Example("quay-yoke")))).Cables, cells.Count);
    }

    // A run worked with several needlefuls is several steps and one run; places in the piece file count runs.
    [Fact]
    public void Order_tells_which_run_a_step_belongs_to()
    {
        var steps = Program.Run("order", Program.Example("harbour-wall"), "--json").Json.GetProperty("steps").EnumerateArray().Select(s => s.GetProperty("run").GetInt32()).ToList();
        Assert.Equal([1, 1, 2, 2, 3], steps.Take(5));
    }

    [Fact]
    public void Order_prints_a_line_a_run_or_sentences_says_what_the_proof_has_against_it_and_reads_itself_back()
    {
        var table = Program.Run("order", Program.Example("harbour-wall")).Out;
        Assert.Contains("  step  row  at ", table);
        Assert.Contains(PrintedWords.Proved, table);
        Assert.Contains("; and 13 accents, each begun and fastened by itself, for which a needle is threaded 4 times.", table); // they were counted as three starts
        var sentences = Program.Run("order", Program.Example("harbour-wall"), "--edition", "learner", "--levels", "left-right").Out;
        Assert.Contains("Row 0, on gathering row 1. Start with a new needleful of r, “rope”, 4 strands.", sentences);
        Assert.Contains(PrintedWords.Proved, sentences);
        var flawed = Program.Run("order", Program.Example("flawed-kite")).Out; // it was silent about errors
        Assert.Contains("Not fit to stitch yet: the proof finds 1 error.", flawed);
        Assert.DoesNotContain(PrintedWords.Proved, flawed);
    }

    [Theory]
    [InlineData("{ \"pleatwright\": 1,\n  \"cloth\": 4 }", ":2:12:")]
    [InlineData("{ \"pleatwright\": 1", ":1:19:")]
    [InlineData("", ":1:1:")]
    [InlineData("[]", ":1:1:")]
    public void Unreadable_pieces_exit_2_with_one_located_line(string text, string located)
    {
        var path = Path.Combine(folder.FullName, "broken.piece.json");
        File.WriteAllText(path, text);
        foreach (var command in new[] { "plan", "proof", "order" })
        {
            var outcome = Program.Run(command, path, "--json");
            Assert.Equal(2, outcome.Exit);
            Assert.Empty(outcome.Out);
            Assert.Contains(path + located, outcome.Complaint, StringComparison.Ordinal);
        }
        Assert.Equal(text, File.ReadAllText(path));
    }

    [Theory]
    [InlineData(".pdf", "%PDF-")]
    [InlineData(".svg", "<")]
    [InlineData(".html", "<!DOCTYPE html>")]
    [InlineData(".txt", "First pennant")]
    public void Plate_is_written_in_the_format_its_name_says(string ending, string begins)
    {
        var path = Path.Combine(folder.FullName, "plate" + ending);
        Assert.Equal(0, Program.Run("plate", Program.Example("first-pennant"), "-o", path, "--paper", "Letter", "--left-handed").Exit);
        Assert.StartsWith(begins, File.ReadAllText(path), StringComparison.Ordinal);
        Assert.Single(folder.GetFiles());
    }

    [Theory]
    [InlineData]
    [InlineData("plan")]
    [InlineData("proof")]
    [InlineData("order")]
    [InlineData("plate")]
    [InlineData("class")]
    [InlineData("trace")]
    [InlineData("stash")]
    [InlineData("shop")]
    [InlineData("bench")]
    public void Help_is_in_words(params string[] command)
    {
        var help = Program.Run([.. command, "--help"]);
        Assert.Equal((0, ""), (help.Exit, help.Error));
        Assert.DoesNotContain("{", help.Out, StringComparison.Ordinal); // no type printing itself
    }

    [Fact]
    public void An_unwritable_path_exits_2_and_leaves_nothing_behind()
    {
        var taken = folder.CreateSubdirectory("taken.pdf");
        foreach (var path in new[] { taken.FullName, Path.Combine(folder.FullName, "missing", "plate.pdf"), Path.Combine(folder.FullName, "plate.doc"), Path.Combine(folder.FullName, new string('n', 300) + ".pdf") })
        {
            var outcome = Program.Run("plate", Program.Example("first-pennant"), "-o", path);
            Assert.Equal(2, outcome.Exit);
            Assert.NotEmpty(outcome.Complaint);
        }
        Assert.Empty(folder.GetFiles("*", SearchOption.AllDirectories));
    }

    [Fact]
    public void A_broken_piece_leaves_an_earlier_plate_untouched()
    {
        var plate = Path.Combine(folder.FullName, "plate.pdf");
        File.WriteAllText(plate, "yesterday's");
        var broken = Path.Combine(folder.FullName, "broken.piece.json");
        File.WriteAllText(broken, "{");
        Assert.Equal(2, Program.Run("plate", broken, "-o", plate).Exit);
        Assert.Equal("yesterday's", File.ReadAllText(plate));
    }

    [Theory]
    [InlineData("plan")]
    [InlineData("plan", "no-such-file.piece.json")]
    [InlineData("plan", "examples")]
    [InlineData("plan", "examples/harbour-morning.piece.json", "--units", "cubits")]
    [InlineData("order", "examples/harbour-morning.piece.json", "--levels", "over-under")]
    [InlineData("plate", "examples/harbour-morning.piece.json")]
    [InlineData("plate", "examples/harbour-morning.piece.json", "-o", "plate.pdf", "--paper", "papyrus")]
    [InlineData("bench", "--port", "70000")]
    [InlineData("bench", "--port", "harbour")]
    [InlineData("smock")]
    [InlineData("proof", "examples/harbour-morning.piece.json", "--jason")]
    public void Bad_usage_exits_2_with_one_line(params string[] arguments)
    {
        var outcome = Program.Run(arguments);
        Assert.Equal(2, outcome.Exit);
        Assert.Empty(outcome.Out);
        Assert.StartsWith("pleatwright: ", outcome.Error, StringComparison.Ordinal);
        Assert.Equal(1, outcome.Error.Count(c => c == '\n'));
        Assert.DoesNotContain("System.", outcome.Error, StringComparison.Ordinal); // nobody who smocks knows types
    }

    [Theory]
    [InlineData("There is no option --jason here", "proof", "--jason")]
    [InlineData("it is empty.json:1:1: the file is empty", "plan", "it is empty.json")]
    [InlineData("--width takes a whole number", "trace", "a.png", "-o", "a.json", "--width", "wide")]
    [InlineData("--title takes at most 200 characters", "trace", "a.png", "-o", "a.json", "--title", "LONG")]
    [InlineData("plate.txt: it cannot be written: its folder takes no files.", "plate", "PIECE", "-o", "/proc/self/plate.txt")]
    public void What_is_wrong_is_said_in_a_makers_words(string words, params string[] arguments)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "The folder that takes no files is the kernel's own.");
        File.WriteAllText(Path.Combine(folder.FullName, "it is empty.json"), " \n");
        var outcome = Program.Run([.. arguments.Select(a => a switch
        {
            "PIECE" => Program.Example("first-pennant"),
            "LONG" => new string('x', 201),
            _ when a.EndsWith(".json", StringComparison.Ordinal) => Path.Combine(folder.FullName, a),
            _ => a,
        })]);
        Assert.Equal(2, outcome.Exit);
        Assert.Contains(words, outcome.Complaint, StringComparison.Ordinal);
    }

    [Fact]
    public void Plan_tells_how_the_thread_is_cut()
    {
        var plan = Program.Run("plan", Program.Example("harbour-morning"), "--json").Json;
        var cutting = plan.GetProperty("cutting");
        var threads = plan.GetProperty("threads").EnumerateArray().ToDictionary(t => t.GetProperty("key").GetString()!);
        foreach (var floss in cutting.GetProperty("flosses").EnumerateArray())
        {
            var taken = floss.GetProperty("needlefuls").EnumerateArray().SelectMany(n => n.GetProperty("from").EnumerateArray()).Sum(f => f.GetProperty("strands").GetInt32());
            Assert.Equal(6 * floss.GetProperty("lengths").GetInt32(), taken + floss.GetProperty("spareStrands").GetInt32());
            foreach (var key in floss.GetProperty("threads").EnumerateArray())
                Assert.Equal(threads[key.GetString()!].GetProperty("needlefuls").GetInt32(), floss.GetProperty("needlefuls").EnumerateArray().Count(n => n.GetProperty("thread").GetString() == key.GetString()));
        }
        Assert.Contains("Cutting   Cut lengths of", Program.Run("plan", Program.Example("harbour-morning")).Out);
    }
}
