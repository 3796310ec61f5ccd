using System.Text;
using CsCheck;
using Pleatwright.Files;
using Pleatwright.Tests.Shopping;

namespace Pleatwright.Tests.Files;

public class StashCsvTests
{
    private static StashList Read(string text) => StashCsv.Read(Encoding.UTF8.GetBytes(text));

    [Fact]
    public void Write_then_read_gives_every_thread_and_cloth_back() => StashGen.Stashes.Sample(stash =>
    {
        var list = StashCsv.Read(StashCsv.Write(stash));
        Assert.Equal(stash.Threads.AsEnumerable(), list.Threads);
        Assert.Equal(stash.Cloths.AsEnumerable(), list.Cloths);
    });

    // RFC 4180, section 2: CRLF between records, a header, as many fields in every line, quotes doubled inside quotes.
    [Fact]
    public void What_is_written_is_RFC_4180() => StashGen.Stashes.Sample(stash =>
    {
        var text = Encoding.UTF8.GetString(StashCsv.Write(stash)).TrimStart('\ufeff');
        var records = Records(text);
        Assert.Equal(1 + stash.Threads.Length + stash.Cloths.Length, records.Count);
        Assert.All(records, r => Assert.Equal(10, r.Count));
        Assert.Equal(["kind", "name", "colour", "skeins", "skein", "strands", "tex", "width", "left", "note"], records[0]);
    });

    // The grammar of RFC 4180 as it stands there, letter by letter.
    private static List<List<string>> Records(string text)
    {
        var records = new List<List<string>>();
        for (var at = 0; at < text.Length;)
        {
            var record = new List<string>();
            for (; ; at++)
            {
                var field = new StringBuilder();
                if (at < text.Length && text[at] == '"')
                {
                    for (at++; ; at++)
                    {
                        if (text[at] != '"') field.Append(text[at]);
                        else if (at + 1 < text.Length && text[at + 1] == '"') field.Append(text[at++]);
                        else break;
                    }
                    at++;
                }
                else
                {
                    for (; text[at] is not (',' or '\r' or '\n'); at++) field.Append(text[at] == '"' ? throw new FormatException("a quote in a plain field") : text[at]);
                }
                record.Add(field.ToString());
                if (text[at] == ',') continue;
                Assert.Equal("\r\n", text.Substring(at, 2));
                at += 2;
                break;
            }
            records.Add(record);
        }
        return records;
    }

    // The OWASP page "CSV Injection": no cell may begin with any of these.
    [Fact]
    public void No_cell_begins_like_a_formula() => StashGen.Stashes.Sample(stash =>
        Assert.All(Records(Encoding.UTF8.GetString(StashCsv.Write(stash)).TrimStart('\ufeff')).SelectMany(r => r),
            cell => Assert.All(cell.Split(',', ';', '\t'), part => Assert.DoesNotContain(part.Length == 0 ? ' ' : part[0], "=+-@\t\r\n＝＋－＠")))); // whatever separator it is opened with

    [Theory]
    [InlineData("name,colour\nrope,#8a6d3b\n", "rope", 1)]
    [InlineData("name;colour;skeins\nrope;#8a6d3b;2,5\n", "rope", 2.5)] // as many a country's spreadsheet writes it
    [InlineData("name\tcolour\tskeins\r\nrope\t#8a6d3b\t2.5", "rope", 2.5)]
    [InlineData("\ufeffColour , Name\n#8a6d3b, rope \n\n", "rope", 1)]
    [InlineData("kind,name,colour,skeins\nThread,'=rope,#8A6D3B,0\n", "=rope", 0)]
    public void Lists_of_other_makers_are_read(string text, string name, double skeins)
    {
        var thread = Assert.Single(Read(text).Threads);
        Assert.Equal((name, "#8a6d3b", skeins), (thread.Name, thread.Colour.ToString(), thread.Skeins));
    }

    [Theory]
    [InlineData("", 1, 1, "empty")]
    [InlineData("title,colour\n", 1, 1, "no column is called “title”")]
    [InlineData("name,skeins\n", 1, 1, "name and colour among them")]
    [InlineData("name,colour,name\n", 1, 13, "second time")]
    [InlineData("name,colour\nrope,brown\n", 2, 6, "#rrggbb")]
    [InlineData("name,colour\n\"two\nlines\",brown\n", 3, 8, "#rrggbb")]
    [InlineData("note,name,colour\n\"a\nb\",\"c\nd\",\"e\nf\"\n", 4, 4, "#rrggbb")]
    [InlineData("name,colour\n,#8a6d3b\n", 2, 1, "the name you call it by")]
    [InlineData("name,colour,skeins\nété,#8a6d3b,many\n", 2, 13, "a number from 0")]
    [InlineData("name,colour,skeins\nrope,#8a6d3b,1,2\n", 2, 16, "4 cells under 3 columns")]
    [InlineData("name,colour,strands\nrope,#8a6d3b,2.5\n", 2, 14, "whole number")]
    [InlineData("kind,name,colour\nribbon,rope,#8a6d3b\n", 2, 1, "“thread” or “cloth”")]
    [InlineData("kind,name,colour,width\ncloth,lawn,#8a6d3b,44\n", 2, 20, "length with its unit")]
    [InlineData("kind,name,colour\ncloth,lawn,#8a6d3b\n", 2, 1, "“width”")]
    [InlineData("name,colour\n\"rope,#8a6d3b\n", 2, 1, "quotation marks")]
    [InlineData("name,colour\nrope,#8a6d3b\nro\"pe,#8a6d3b\n", 3, 1, "quotation marks")]
    public void What_is_wrong_is_said_with_its_place(string text, int line, int column, string words)
    {
        var error = Assert.Throws<PieceFormatException>(() => Read(text));
        Assert.Contains(words, error.Message, StringComparison.Ordinal);
        Assert.Equal((line, column), (error.Line, error.Column));
    }

    [Fact]
    public void Text_that_is_not_UTF_8_is_refused_with_its_place()
    {
        byte[] latin = [.. "name,colour\nab"u8, 0xe9, .. ",#8a6d3b\n"u8];
        var error = Assert.Throws<PieceFormatException>(() => StashCsv.Read(latin));
        Assert.Equal((2, 3), (error.Line, error.Column));
    }

    [Fact]
    public void For_the_colours_alone_a_list_may_hold_anything_else()
    {
        var thread = Assert.Single(StashCsv.Read("shop,colour,name,price\nquay,#8a6d3b,ro\"pe,3\n"u8, forColours: true).Threads);
        Assert.Equal("ro\"pe", thread.Name);
    }

    // Fuzz: what a careless hand, a broken program or a spiteful one may send.
    private static readonly Gen<string> Broken = Gen.Select(StashGen.Stashes, Gen.Int[0, 4000], Gen.Int[0, 30],
        Gen.OneOf("", "\"", ",", "\r\n", "\n", "\"\"", ";", "'=", "\0", "\ud800", "é,", new string('"', 99)))
        .Select((stash, at, cut, put) =>
        {
            var text = Encoding.UTF8.GetString(StashCsv.Write(stash));
            at %= text.Length + 1;
            return text.Remove(at, Math.Min(cut, text.Length - at)).Insert(at, put);
        });

    [Fact]
    public void Whatever_is_done_to_a_list_it_is_read_or_refused_with_a_place() => Gen.OneOf(Broken, Gen.String, Gen.OneOf(",", "\"", "\n", "name", "colour", "#8a6d3b", "a").Array[0, 20].Select(string.Concat)).Sample(text =>
    {
        foreach (var loose in new[] { false, true })
        {
            try
            {
                StashCsv.Read(Encoding.UTF8.GetBytes(text), loose);
            }
            catch (PieceFormatException e)
            {
                Assert.InRange(e.Line, 1, text.Count(c => c is '\n' or '\r') + 1);
                Assert.True(e.Column >= 1 && e.Message.Length > 0);
            }
        }
    }, iter: 500);

    [Fact]
    public void Bytes_of_any_kind_are_read_or_refused() => Gen.Byte.Array[0, 60].Sample(bytes =>
    {
        try { StashCsv.Read(bytes); }
        catch (PieceFormatException e) { Assert.True(e is { Line: >= 1, Column: >= 1 }); }
    });
}
