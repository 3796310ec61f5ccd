using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Letters;

namespace Pleatwright.Tests.Letters;

public class AlphabetTests
{
    public static TheoryData<string> Names => [.. Alphabet.All.Select(a => a.Name)];

    /// <summary>The blocks as the Unicode Character Database has them.</summary>
    [Theory, MemberData(nameof(Names))]
    public void It_has_every_letter_of_Latin_1_and_Latin_Extended_A(string name)
    {
        var alphabet = Alphabet.Named(name)!;
        var lacking = Enumerable.Range(0x41, 0x17f - 0x41 + 1).Select(c => (char)c).Where(char.IsLetter)
            .Where(c => c is not ('ª' or 'º' or 'µ') && !Composed.Characters(c.ToString()).All(made => alphabet.Has(made.Character)));
        Assert.Empty(lacking);
        Assert.All("0123456789&-'.,!?ẞȘșȚț", c => Assert.True(alphabet.Has(c.ToString()), $"{c}"));
    }

    // The decompositions of the Unicode Character Database; the runtime knows none where it runs without the system's tables, as it does here and in the browser.
    private static IEnumerable<(string Character, string Parts)> Decompositions() =>
        File.ReadLines(Repository.Path("tests", "Pleatwright.Core.Tests", "Letters", "decompositions.txt")).Where(l => !l.StartsWith('#')).Select(l => l.Split(';'))
            .Select(f => (Of(f[0]), string.Concat(f[1].Split(' ').Select(Of))));

    private static string Of(string hex) => ((char)int.Parse(hex, NumberStyles.HexNumber, CultureInfo.InvariantCulture)).ToString();

    [Theory, MemberData(nameof(Names))]
    public void A_letter_and_a_combining_mark_are_the_letter_they_make(string name)
    {
        Assert.All(Decompositions(), d =>
        {
            Assert.Equal([(d.Character, 0)], Composed.Characters(d.Parts));
            Assert.True(Alphabet.Named(name)!.Has(d.Character), d.Character);
        });
        Assert.True(Decompositions().Count() > 150);
    }

    [Fact]
    public void An_accented_letter_is_drawn_as_the_letter_that_Unicode_says_with_a_mark()
    {
        Assert.All(Decompositions(), d =>
        {
            var made = Composed.Of(d.Character)!;
            Assert.Equal(d.Parts[..1], made.Letter switch { "ı" => "i", "ȷ" => "j", var letter => letter });
            Assert.NotEmpty(made.Marks);
        });
        // All marks of one kind are one combining character, but for those that the trade draws otherwise.
        foreach (var kind in Decompositions().GroupBy(d => d.Parts[1]))
            Assert.Single(kind.Select(d => Composed.Of(d.Character)!.Marks[^1]).Where(m => m is not ("side" or "turned") && (m != "comma" || kind.Key == '\u0326')).Distinct());
    }

    [Theory]
    [InlineData("Жan", "“Ж” (character 1, U+0416)")]
    [InlineData("Ann 漢", "“漢” (character 5, U+6F22)")]
    [InlineData("a\u0332", "character 2, U+0332")]
    [InlineData("Ann\u0007", "character 4 (U+0007)")]
    [InlineData("a😀", "“😀” (character 2, U+1F600)")]
    public void A_character_that_is_lacking_is_named_with_its_place(string text, string said)
    {
        var refused = Assert.Throws<ArgumentException>(() => Typesetter.Set(new LetteringOptions { Text = text, Source = Alphabet.All[0] }, 5));
        Assert.Contains(said, refused.Message);
    }

    [Fact]
    public void Half_a_character_is_refused() =>
        Assert.Contains("character 2 (U+D83D)", Assert.Throws<ArgumentException>(() => Typesetter.Set(new LetteringOptions { Text = "x\ud83d", Source = Alphabet.All[0] }, 5)).Message);

    [Fact]
    public void What_is_out_of_range_is_refused()
    {
        var usual = new LetteringOptions { Text = "Ann", Source = Alphabet.All[0] };
        foreach (var options in new[]
        {
            usual with { Text = "" }, usual with { Text = " \n " }, usual with { Text = new string('n', Figure.MostLetters + 1) }, usual with { Text = string.Join('\n', Enumerable.Repeat("a", 13)) },
            usual with { Height = 0 }, usual with { Height = 401 }, usual with { Across = 0 }, usual with { Arrangement = Arrangement.Monogram, Text = "A" }, usual with { Arrangement = Arrangement.Monogram, Text = "ABCD" },
        })
            Assert.Throws<ArgumentException>(() => Typesetter.Set(options, 5));
    }

    /// <summary>Capitals and small letters are as high as the issue of their making asked: about 9 and 15 rows, and as high as a maker asks where lines lie on gathering rows.</summary>
    [Theory]
    [InlineData("plain", 4, null, 9)]
    [InlineData("plain", 5, null, 11)]
    [InlineData("roman", 5, null, 16)]
    [InlineData("roman", 4, null, 13)]
    [InlineData("plain", 5, 20, 21)]
    [InlineData("plain", 5, 27, 31)]
    [InlineData("roman", 5, 20, 16)]
    public void Capitals_are_so_many_rows_high(string name, int perSpace, int? asked, int rows)
    {
        var set = Typesetter.Set(new LetteringOptions { Text = "H", Source = Alphabet.Named(name)!, Height = asked }, perSpace);
        Assert.Equal(rows, set.Figure.Height);
    }

    [Fact]
    public void The_large_letter_of_a_monogram_is_in_the_middle_and_twice_as_large()
    {
        var set = Typesetter.Set(new LetteringOptions { Text = "ABC", Source = Alphabet.Named("plain")!, Arrangement = Arrangement.Monogram }, 5);
        var heights = set.Letters.Select(l => l.Shape.Rows.Length).ToList();
        Assert.Equal([11, 21, 11], heights);
        Assert.All(set.Letters, l => Assert.Equal(set.Letters[1].Shape.Top + set.Letters[1].Shape.Bottom, l.Shape.Top + l.Shape.Bottom)); // all on one middle
    }

    /// <summary>Whatever a border goes round, it is even: the same from left and right, from top and bottom, bare all round inside.</summary>
    [Theory]
    [InlineData("Ann", 5)]
    [InlineData("Ågot Łucja", 4)]
    [InlineData("Q&Y", 7)]
    public void A_border_is_even_and_keeps_clear(string text, int perSpace)
    {
        var set = Typesetter.Set(new LetteringOptions { Text = text, Source = Alphabet.Named("roman")!, Border = true, BorderThread = 'b' }, perSpace);
        var rows = set.Figure.Rows.Select(r => r.Replace('a', Figure.Bare)).ToList();
        Assert.All(rows, r => Assert.Equal(r, string.Concat(r.Reverse())));
        Assert.Equal(rows, Enumerable.Reverse(rows));
        for (var y = 0; y < rows.Count; y++)
            for (var x = 0; x < rows[y].Length; x++)
                if (set.Figure.Rows[y][x] == 'a')
                {
                    Assert.All(Enumerable.Range(x - Border.Beside, 2 * Border.Beside + 1), at => Assert.NotEqual('b', set.Figure.Rows[y][at]));
                    Assert.All(Enumerable.Range(y - Border.Above, 2 * Border.Above + 1), at => Assert.NotEqual('b', set.Figure.Rows[at][x]));
                }
    }

    [Fact]
    public void Letters_go_into_a_piece_where_there_is_room_and_the_file_keeps_what_they_say()
    {
        var piece = Smocking.Read(File.ReadAllBytes(Path.Combine(Repository.Root, "examples", "quay-banner.piece.json")));
        var thread = piece.Threads[0];
        var lettered = LetteredPiece.Into(piece, new LetteringOptions { Text = "Øya", Source = Alphabet.All[0] }, thread);
        Assert.Equal(piece.Threads, lettered.Piece.Threads); // its own thread was taken
        var back = PieceReader.Read(PieceWriter.WriteUtf8(lettered.Piece));
        Assert.Equal("Øya", back.Figure(lettered.Figure)!.Letters);
        Assert.Equal("Øya", back.Figure(lettered.Figure)!.Mirrored().Letters);
        Smocking.Lay(back);
    }

    [Theory]
    [InlineData("name x\nzones 2\n\n= A\n##\n", "x.txt:5: a run has at least 3 cables")]
    [InlineData("name x\nzones 2\n\n= A\n###\n####\n", "x.txt:6: this row is 4 valleys wide")]
    [InlineData("name x\nzones 2\n\n= A\n###\n\n= A\n###\n", "x.txt:8: A is drawn twice")]
    [InlineData("name x\nzones 2\n\n= A\n##x\n", "x.txt:5: “x” is neither # nor .")]
    [InlineData("name x\nzones 2\n\n= A\n\n", "x.txt:4: nothing is drawn under it")]
    [InlineData("name x\n", "x.txt: an alphabet has a name and zones")]
    [InlineData("colour red\n", "x.txt:1: “colour” is no setting")]
    public void What_is_wrong_in_an_alphabets_file_is_told_with_its_line(string file, string said) =>
        Assert.Contains(said, Assert.Throws<FormatException>(() => AlphabetReader.Read("x.txt", file)).Message);
}
