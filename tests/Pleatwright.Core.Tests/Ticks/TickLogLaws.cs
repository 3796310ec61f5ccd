using System.Text;
using CsCheck;
using Pleatwright.Files;
using Pleatwright.Ticks;
using static Pleatwright.Tests.Files.Schemas;

namespace Pleatwright.Tests.Ticks;

/// <summary>Logs of ticks come together the same in whatever order, of each stitch the later word; and are read back as written.</summary>
public class TickLogLaws
{
    private static readonly string[] Names = ["c0", "c1", "h4", "b1.0.0.0.0.cable"];

    /// <summary>What a maker said of a few stitches, in minutes that go up and down as clocks do.</summary>
    private static readonly Gen<(int Line, int From, int Long, bool Ticked, long Minute)> AWord = Gen.Select(Gen.Int[0, 3], Gen.Int[-6, 12], Gen.Int[0, 5], Gen.Bool, Gen.Long[0, 6]);

    private static readonly Gen<TickLog> ALog = AWord.Array[0, 12].Select(words => words.Aggregate(TickLog.Nothing, Said));

    private static TickLog Said(TickLog log, (int Line, int From, int Long, bool Ticked, long Minute) word)
    {
        var now = Cells(log).Where(c => c.Value.Ticked).Select(c => c.Key).ToHashSet();
        for (var at = word.From; at <= word.From + word.Long; at++)
            if (word.Ticked) now.Add((Names[word.Line], at));
            else now.Remove((Names[word.Line], at));
        return log.Become(now.GroupBy(c => c.Line).Select(g => KeyValuePair.Create(g.Key, Stretches(g.Select(c => c.At)))), word.Minute);
    }

    private static System.Collections.Immutable.ImmutableArray<(int, int)> Stretches(IEnumerable<int> cells)
    {
        var found = new List<(int From, int To)>();
        foreach (var at in cells.Order())
            if (found.Count > 0 && found[^1].To == at - 1) found[^1] = (found[^1].From, at);
            else found.Add((at, at));
        return [.. found];
    }

    private static Dictionary<(string Line, int At), (bool Ticked, long Minute)> Cells(TickLog log) =>
        (from line in log.Lines from s in line.Value from at in Enumerable.Range(s.From, s.To - s.From + 1) select ((line.Key, at), (s.Ticked, s.Minute))).ToDictionary(c => c.Item1, c => c.Item2);

    [Fact]
    public void Brought_together_it_is_cell_by_cell_the_later_word_and_of_one_minute_the_tick() => Gen.Select(ALog, ALog).Sample((a, b) =>
    {
        var (ours, theirs, both) = (Cells(a), Cells(b), Cells(a.With(b)));
        Assert.Equal(ours.Keys.Union(theirs.Keys).Order(), both.Keys.Order());
        foreach (var (cell, (ticked, minute)) in both)
        {
            var said = new[] { ours, theirs }.Where(c => c.ContainsKey(cell)).Select(c => c[cell]).ToList();
            Assert.Equal(said.Max(s => s.Minute), minute);
            Assert.Equal(said.Any(s => s.Minute == minute && s.Ticked), ticked);
        }
    });

    [Fact]
    public void The_order_and_the_number_of_times_make_no_difference() => Gen.Select(ALog, ALog, ALog).Sample((a, b, c) =>
    {
        Assert.Equal(a.With(b), b.With(a));
        Assert.Equal(a.With(b).With(c), a.With(b.With(c)));
        Assert.Equal(a, a.With(a));
        Assert.Equal(a.With(b), a.With(b).With(b));
    });

    [Fact]
    public void What_a_maker_says_last_knowing_the_rest_stands_whatever_the_clocks_show() => Gen.Select(ALog, ALog, AWord).Sample((a, b, word) =>
    {
        var known = a.With(b);
        var said = Said(known, word);
        foreach (var again in new[] { said.With(a), b.With(said), said.With(known) }) Assert.Equal(said, again);
        for (var at = word.From; at <= word.From + word.Long; at++)
            Assert.Equal(word.Ticked, Cells(said).TryGetValue((Names[word.Line], at), out var s) && s.Ticked);
    });

    [Fact]
    public void What_is_asked_for_is_ticked_and_no_more() => Gen.Select(ALog, ALog, Gen.Long[0, 9]).Sample((a, b, minute) =>
    {
        var became = a.Become(b.Ticked(), minute);
        Assert.Equal(b.Ticked().Select(l => (l.Key, string.Join(' ', l.Value))), became.Ticked().Select(l => (l.Key, string.Join(' ', l.Value))));
        Assert.Equal(b.Count, became.Count);
        Assert.Equal(became, became.Become(b.Ticked(), minute + 1)); // said again it is nothing new
    });

    [Fact]
    public void Written_it_is_read_back_and_written_the_same() => ALog.Sample(log =>
    {
        var text = TickLogWriter.Write(log);
        var read = TickLogReader.Read(text);
        Assert.Equal(log, read);
        Assert.Equal(text, TickLogWriter.Write(read));
        Assert.True(FitsPlace(text), text);
    }, threads: 1);

    [Fact]
    public void A_place_is_plain_to_read()
    {
        var log = TickLog.Of([new("c20", [new(40, 52, true, 29_560_000), new(53, 53, false, 29_560_001)]), new("h20", [new(-40, -40, true, 0)])]);
        Assert.Equal("""
            {
              "place": 1,
              "worked": {
                "c20": [
                  "40..52 2026-03-15T18:40Z",
                  "53 2026-03-15T18:41Z taken back"
                ],
                "h20": [
                  "-40 1970-01-01T00:00Z"
                ]
              }
            }

            """.ReplaceLineEndings("\n"), TickLogWriter.Write(log));
    }

    [Theory]
    [InlineData("""{ "place": 2, "worked": {} }""", 1, 12)]
    [InlineData("""{ "place": 1 }""", 1, 1)]
    [InlineData("""{ "place": 1, "worked": {}, "more": 1 }""", 1, 29)]
    [InlineData("""{ "place": 1, "worked": { "c 1": [] } }""", 1, 27)]
    [InlineData("""{ "place": 1, "worked": { "c1": ["4..2 2026-03-02T10:15Z"] } }""", 1, 34)]
    [InlineData("""{ "place": 1, "worked": { "c1": ["4 2026-03-02T10:15Z", "4 2026-03-02T10:15Z"] } }""", 1, 57)]
    [InlineData("""{ "place": 1, "worked": { "c1": ["4 2026-03-02T10:15"] } }""", 1, 34)]
    [InlineData("""{ "place": 1, "worked": { "c1": ["4 2026-03-02T10:15Z undone"] } }""", 1, 34)]
    [InlineData("""{ "place": 1, "worked": { "c1": [4] } }""", 1, 34)]
    public void What_is_no_place_is_refused_with_its_line_and_column(string text, int line, int column)
    {
        var fault = Assert.Throws<PieceFormatException>(() => TickLogReader.Read(text));
        Assert.Equal((line, column), (fault.Line, fault.Column));
        if (!fault.Message.Contains("in order", StringComparison.Ordinal) && !text.Contains("4..2 ", StringComparison.Ordinal)) Assert.False(FitsPlace(text)); // order is more than a schema sees
    }

    [Fact]
    public void Any_bytes_are_a_place_or_refused() => Gen.OneOf(Gen.Byte.Array[0, 60], ALog.Select(TickLogWriter.WriteUtf8).SelectMany(text => Gen.Select(Gen.Int[0, text.Length - 1], Gen.Byte).Select(change =>
    {
        var broken = text.ToArray();
        broken[change.Item1] = change.Item2;
        return broken;
    }))).Sample(bytes =>
    {
        try { Assert.Equal(TickLogReader.Read(bytes), TickLogReader.Read(TickLogWriter.WriteUtf8(TickLogReader.Read(bytes)))); }
        catch (PieceFormatException e) { Assert.True(e.Line > 0, Encoding.UTF8.GetString(bytes)); }
    });
}
