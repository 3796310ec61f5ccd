using System.Text;
using CsCheck;
using Pleatwright.Files;
using Pleatwright.Tests.Shopping;
using static Pleatwright.Tests.Files.Schemas;

namespace Pleatwright.Tests.Files;

public class StashFileTests
{
    private const string Small = """
        { "stash": 1,
          "threads": [ { "name": "sail red", "colour": "#b3202c", "skeins": 1.5 } ],
          "cloths": [ { "name": "lawn", "colour": "#f4efe3", "width": "44 in", "left": "2 m" } ],
          "rates": { "money": "crowns", "skein": 1.4, "hour": 9 },
          "pace": { "sittings": [ { "cables": 200, "minutes": 60 } ], "cablesAnHour": [150, 220] } }
        """;

    private static string Example => Repository.Path("examples", "harbour.stash.json");

    [Fact]
    public void Read_write_read_is_the_same_and_fits_the_schema() => StashGen.Stashes.Sample(stash =>
    {
        var written = StashWriter.Write(stash);
        var again = StashReader.Read(written);
        Assert.Equal(stash, again);
        Assert.Equal(written, StashWriter.Write(again));
        Assert.True(FitsStash(written), written);
        Assert.True(StashReader.IsStash(Encoding.UTF8.GetBytes(written)));
    }, threads: 1, iter: 60);

    [Fact]
    public void The_example_reads_and_fits_the_schema()
    {
        var stash = StashReader.Read(File.ReadAllBytes(Example));
        Assert.Equal(7, stash.Threads.Length);
        Assert.True(FitsStash(File.ReadAllText(Example)));
        Assert.False(StashReader.IsStash(File.ReadAllBytes(Repository.Path("examples", "harbour-morning.piece.json"))));
    }

    // Each: what to change in the small stash, what into, what the error must point at, and how. The schema refuses it too, where it can see it.
    [Theory]
    [InlineData("\"stash\": 1", "\"stash\": 2", "2", "newer")]
    [InlineData("\"stash\": 1", "\"stash\": \"one\"", "\"one\"", "whole number")]
    [InlineData("{ \"stash\": 1,", "{", "{", "lacks the key “stash”")]
    [InlineData("\"skeins\": 1.5", "\"skeins\": -1", "-1", "from 0 to 10000")]
    [InlineData("\"skeins\": 1.5", "\"skeins\": \"1.5\"", "\"1.5\"", "a number")]
    [InlineData("\"skeins\"", "\"skiens\"", "{ \"name\": \"sail red\"", "lacks the key “skeins”")]
    [InlineData("\"skeins\": 1.5", "\"skeins\": 1.5, \"code\": 321", "\"code\"", "no key “code”")]
    [InlineData("#b3202c", "red", "\"red\"", "#b3202c")]
    [InlineData("\"sail red\"", "\"\"", "\"\"", "name you call it by")]
    [InlineData("\"44 in\"", "\"44\"", "\"44\"", "length with its unit")]
    [InlineData("\"2 m\"", "\"-2 m\"", "\"-2 m\"", "more than nothing")]
    [InlineData("\"hour\": 9", "\"hour\": true", "true", "a number from 0")]
    [InlineData("\"crowns\"", "\"golden crowns\"", "\"golden", "longer than 8")]
    [InlineData("\"minutes\": 60", "\"minutes\": 0", "0 } ], \"cablesAnHour\"", "from 0.01")]
    [InlineData("[150, 220]", "[220, 150]", "[220", "the smaller first")]
    [InlineData("[150, 220]", "[150]", "[150", "two numbers")]
    [InlineData("\"2 m\" }", "\"2 m\"", "],\n  \"rates\"", "not valid JSON")]
    public void What_is_wrong_is_said_with_its_place(string find, string put, string at, string words)
    {
        Assert.True(FitsStash(Small));
        var broken = Small.Replace(find, put, StringComparison.Ordinal);
        Assert.NotEqual(Small, broken);
        var error = Assert.Throws<PieceFormatException>(() => StashReader.Read(broken));
        Assert.Contains(words, error.Message, StringComparison.Ordinal);
        var before = broken[..broken.IndexOf(at, StringComparison.Ordinal)];
        Assert.Equal((before.Count(c => c == '\n') + 1, before.Length - before.LastIndexOf('\n')), (error.Line, error.Column));
        if (words is not ("not valid JSON" or "the smaller first")) Assert.False(FitsStash(broken));
    }

    [Fact]
    public void Whatever_is_done_to_a_file_it_is_read_or_refused_with_a_place() => Gen.Select(Gen.Int[0, Small.Length - 1], Gen.Int[0, 9], Gen.OneOf("", "\"", "{", "]", "9", "\0", "é", "\n")).Sample((at, cut, put) =>
    {
        var broken = Small.Remove(at, Math.Min(cut, Small.Length - at)).Insert(at, put);
        try
        {
            StashReader.Read(broken);
        }
        catch (PieceFormatException e)
        {
            Assert.InRange(e.Line, 1, broken.Count(c => c == '\n') + 1);
            Assert.True(e.Column >= 1 && e.Message.Length > 0);
        }
    });

    [Fact]
    public void A_list_taken_in_replaces_what_has_its_name_adds_the_rest_and_takes_nothing_away() => Gen.Select(StashGen.Stashes, StashGen.Stashes).Sample((stash, coming) =>
    {
        var with = stash.With(coming.Threads, coming.Cloths);
        Assert.Equal(with, with.With(coming.Threads, coming.Cloths)); // twice is once
        Assert.Equal(stash, stash.With(stash.Threads, stash.Cloths));
        Assert.Equal(stash.Threads.Select(t => t.Name.ToUpperInvariant()), with.Threads.Take(stash.Threads.Length).Select(t => t.Name.ToUpperInvariant()));
        Assert.All(coming.Threads, t => Assert.Contains(t, with.Threads));
        Assert.InRange(with.Threads.Length, Math.Max(stash.Threads.Length, coming.Threads.Length), stash.Threads.Length + coming.Threads.Length);
        Assert.Equal((stash.Rates, stash.Pace), (with.Rates, with.Pace));
    });
}
