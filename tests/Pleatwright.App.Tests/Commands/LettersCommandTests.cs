using Pleatwright.App.Commands;
using Pleatwright.App.Images;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Letters;

namespace Pleatwright.Tests.Commands;

/// <summary>The command letters, and the fonts it takes in and refuses.</summary>
public sealed class LettersCommandTests : IDisposable
{
    private static readonly string[] Fonts = [.. Directory.GetFiles(Path.Combine(Repository.Root, "src", "Pleatwright.Typefaces"), "*.ttf").Order()];

    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pleatwright-");

    public void Dispose() => folder.Delete(recursive: true);

    private string In(string name) => Path.Combine(folder.FullName, name);

    [Theory]
    [InlineData("--alphabet", "plain")]
    [InlineData("--alphabet", "roman", "--border", "--border-thread", "#2255aa")]
    [InlineData("--arrange", "down", "--cable-rows", "4")]
    [InlineData("--arrange", "band", "--across", "160")]
    [InlineData("--height", "21")]
    public void A_name_becomes_a_piece_that_proves(params string[] options)
    {
        var target = In("name.piece.json");
        var made = Program.Run(["letters", "Łucja", .. options, "-o", target, "--json"]);
        Assert.Equal(0, made.Exit);
        var counts = made.Json.GetProperty("counts");
        Assert.Equal((0, 0), (counts.GetProperty("error").GetInt32(), counts.GetProperty("warning").GetInt32()));
        Assert.Equal(["Ł", "u", "c", "j", "a"], made.Json.GetProperty("letters").EnumerateArray().Select(l => l.GetProperty("character").GetString()));
        var piece = PieceReader.Read(File.ReadAllBytes(target));
        Assert.Equal("Łucja", piece.Title);
        Assert.Equal("Łucja", piece.Figures.Single().Letters);
        Assert.Equal(made.Json.GetProperty("cables").GetInt32(), Smocking.Lay(piece).Runs.ToArray().Sum(r => r.Cables)); // what is told is what is laid
        Assert.True(made.Json.GetProperty("starts").GetInt32() > 0);
    }

    [Fact]
    public void A_monogram_is_one_figure()
    {
        var made = Program.Run("letters", "K", "M", "B", "--monogram", "--border", "-o", In("m.piece.json"), "--json");
        Assert.Equal(0, made.Exit);
        Assert.Equal([11, 21, 11], made.Json.GetProperty("letters").EnumerateArray().Select(l => l.GetProperty("rows").GetInt32()));
    }

    [Fact]
    public void A_file_that_is_there_is_written_over_only_when_told()
    {
        var target = In("name.piece.json");
        File.WriteAllText(target, "mine");
        var refused = Program.Run("letters", "Ann", "-o", target);
        Assert.Equal(2, refused.Exit);
        Assert.Equal($"pleatwright: {target}: there is a file of this name; --force writes over it.", refused.Complaint.Trim());
        Assert.Equal("mine", File.ReadAllText(target));
        Assert.Equal(0, Program.Run("letters", "Ann", "-o", target, "--force").Exit);
        Assert.Equal("Ann", PieceReader.Read(File.ReadAllBytes(target)).Title);
    }

    [Fact]
    public void Letters_go_into_a_piece_that_keeps_all_it_had()
    {
        var example = Path.Combine(Repository.Root, "examples", "quay-banner.piece.json");
        var made = Program.Run("letters", "Øya", "--into", example, "-o", In("with.piece.json"), "--json");
        Assert.Equal(0, made.Exit);
        Piece before = PieceReader.Read(File.ReadAllBytes(example)), after = PieceReader.Read(File.ReadAllBytes(In("with.piece.json")));
        Assert.Equal(before.Figures.Length + 1, after.Figures.Length);
        Assert.Equal(PieceWriter.Write(before), PieceWriter.Write(after with { Figures = after.Figures.RemoveAt(after.Figures.Length - 1), Placements = after.Placements.RemoveAt(after.Placements.Length - 1) }));
    }

    [Theory]
    [InlineData("“Ж” (character 1, U+0416) is not among the letters of plain", "Жan")]
    [InlineData("a monogram is of two or three letters, not 1", "A", "--monogram")]
    [InlineData("there is no letter to stitch", " ")]
    [InlineData("“purple” is no colour written as #rrggbb", "A", "--thread", "purple")]
    [InlineData("“gothic” is not a choice here", "A", "--alphabet", "gothic")]
    [InlineData("--height takes 1 to 400", "A", "--height", "0")]
    [InlineData("there is no such file", "A", "--font", "no-such-font.ttf")]
    public void What_cannot_be_is_refused_with_one_line_and_nothing_is_written(string said, params string[] arguments)
    {
        var refused = Program.Run(["letters", .. arguments, "-o", In("x.piece.json")]);
        Assert.Equal(2, refused.Exit);
        Assert.Contains(said, refused.Complaint);
        Assert.Empty(folder.GetFiles());
    }

    [Fact]
    public void A_font_becomes_letters_whose_strokes_can_be_stitched()
    {
        foreach (var path in Fonts)
            foreach (var perSpace in new[] { 4, 5 })
            {
                using var font = FontFile.Read(path, File.ReadAllBytes(path));
                var gauge = Gauge.FromPleatsPerInch(16, Gauge.Common.TakeUp, Gauge.Common.RowSpacing, perSpace);
                var source = new FontLetters(font, gauge);
                foreach (var character in "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789&ÅéßøŁ".Select(c => c.ToString()))
                {
                    var shape = source.Shape(character, LetterSize.Least(perSpace))!;
                    foreach (var row in shape.Rows)
                        foreach (var run in LetterShape.Runs(row))
                            Assert.True(run.To - run.From + 1 >= LetterShape.LeastRun, $"{character} of {path}, {perSpace} rows:\n{string.Join('\n', shape.Rows)}");
                    // Nothing of it was lost: a letter of one piece is one piece, and reaches from line to line.
                    if (char.IsAsciiLetterUpper(character[0]) && character is not ("Q" or "J")) Assert.InRange(shape.Rows.Length, LetterSize.Least(perSpace).Capitals(3) - 1, LetterSize.Least(perSpace).Capitals(3) + 2);
                }
            }
    }

    [Fact]
    public void A_letter_that_the_font_lacks_is_named()
    {
        var refused = Program.Run("letters", "A漢", "--font", Fonts[0], "-o", In("x.piece.json"));
        Assert.Equal(2, refused.Exit);
        Assert.Contains("“漢” (character 2, U+6F22) is not among the letters of", refused.Complaint);
    }

    /// <summary>Whatever stands in a font file, it is read or refused.</summary>
    [Fact]
    public void A_font_that_is_cut_off_or_damaged_is_refused_or_read_and_never_ends_the_program()
    {
        var whole = File.ReadAllBytes(Fonts[0]);
        var random = new Random(19);
        for (var i = 0; i < 150; i++)
        {
            var bytes = i % 3 == 0 ? whole[..random.Next(whole.Length)] : (byte[])whole.Clone();
            for (var flips = i % 3 == 0 ? 0 : random.Next(1, 200); flips > 0; flips--) bytes[random.Next(i % 2 == 0 ? 600 : bytes.Length)] = (byte)random.Next(256);
            try
            {
                using var font = FontFile.Read("broken.ttf", bytes);
                var source = new FontLetters(font, Gauge.Common);
                foreach (var character in new[] { "H", "e", "&" }) source.Shape(character, LetterSize.Least(5));
            }
            catch (Exception e) when (e is UsageException or ArgumentException) { }
        }
        foreach (var bytes in new byte[][] { [], [0], [.. "no font at all"u8], [.. whole[..12]] })
            Assert.Contains("this is no font that can be read here", Assert.Throws<UsageException>(() => FontFile.Read("broken.ttf", bytes)).Message);
    }
}
