using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Plate;

namespace Pleatwright.Tests.Plate;

/// <summary>Whole plates on their pages: what is said is there, and stays on the paper.</summary>
public class LayoutTests
{
    private static IEnumerable<Lettering> Words(IEnumerable<Mark> marks, Spot move = default) => marks.SelectMany(m => m switch
    {
        Lettering lettering => [lettering with { At = new Spot(lettering.At.X + move.X, lettering.At.Y + move.Y) }],
        Inset { Clip: null } inset => Words(inset.Marks, new Spot(move.X + inset.Move.X, move.Y + inset.Move.Y)),
        _ => (IEnumerable<Lettering>)[], // what is clipped cannot run out
    });

    private static Piece Piece(string title, string threads, string rest = "") => PieceReader.Read($$"""
        { "pleatwright": 1, "title": "{{title}}", "cloth": { "form": "panel", "finishedWidth": "6 in", "gatheringRows": 5 }, "threads": { {{threads}} } {{rest}} }
        """);

    private const string Red = "\"r\": { \"name\": \"red\", \"colour\": \"#b3202c\" }";
    private const string Bar = ", \"figures\": { \"f\": { \"rows\": [\"rrr\", \"rrr\"] } }, \"place\": [ { \"figure\": \"f\", \"gatheringRow\": 2 } ]";

    public static TheoryData<Piece> Pieces =>
    [
        Piece("Nothing on it", ""),
        Piece(new string('W', 200), Red, Bar),
        Piece(string.Concat(Enumerable.Repeat("a lamp on the wall ", 10)), Red.Replace("red", new string('w', 90), StringComparison.Ordinal), Bar),
        Piece("בוקר בנמל", Red.Replace("red", "אדום מפרש", StringComparison.Ordinal), Bar),
        Piece("Many threads", string.Join(", ", "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ".Select((c, i) => $"\"{c}\": {{ \"name\": \"thread number {i}\", \"colour\": \"#2040{i + 16:x2}\" }}"))),
        .. ((string[])["flawed-kite", "quay-bishop", "net-float", "harbour-wall"]).Select(n => Plates.Example(n).Piece),
    ];

    [Theory, MemberData(nameof(Pieces), DisableDiscoveryEnumeration = true)]
    public void No_words_run_off_the_paper_or_into_the_footer(Piece piece)
    {
        var work = Work.Lay(piece);
        foreach (var options in (PlateOptions[])[new(), new() { Paper = Paper.Letter, LargePrint = true, TrueScaleChart = true }, new() { Edition = Edition.Learner }])
            foreach (var sheet in Plates.Of(work, options).Sheets)
                foreach (var words in Words(sheet.Marks))
                {
                    var width = words.Upward ? 0 : Typeface.Width(words.Text, words.Style);
                    var left = words.Anchor switch { Anchor.Start => words.At.X, Anchor.Middle => words.At.X - width / 2, _ => words.At.X - width };
                    Assert.True(left >= 12 && left + width <= sheet.Width - 12 && words.At.Y >= 14 && words.At.Y <= sheet.Height - 11.9, $"{sheet.Name}: {words.Text} at {words.At}, {width} wide");
                }
    }

    [Theory, MemberData(nameof(ExcerptTests.Examples), MemberType = typeof(ExcerptTests))]
    public void Nothing_that_is_read_reaches_below_the_room_of_its_page(string example)
    {
        foreach (var paper in Paper.All)
            foreach (var options in (PlateOptions[])[new() { Paper = paper }, new() { Paper = paper, LargePrint = true }, new() { Paper = paper, Edition = Edition.Learner }])
                foreach (var (number, sheet) in Plates.OfExample(example, options).Sheets.Index())
                    Assert.All(sheet.Marks.OfType<Lettering>().Where(l => l.Part.Length > 0),
                        l => Assert.True(l.At.Y <= Page.InnerOf(paper).Bottom + 0.05, $"{paper.Name}, page {number + 1}: “{l.Text}” is set at {l.At.Y:0.0}"));
    }

    [Theory, MemberData(nameof(Pieces), DisableDiscoveryEnumeration = true)]
    public void The_contents_on_the_cover_name_the_pages_that_are_there(Piece piece)
    {
        var plate = Plates.Of(Work.Lay(piece), new PlateOptions { TrueScaleChart = true });
        var cover = Words(plate.Sheets[0].Marks).Select(w => w.Text).ToList();
        foreach (var section in Pleatwright.Plate.Sections.PlateSections.Of(plate))
        {
            var there = plate.Sheets.ToList().FindIndex(s => s.Bookmarks.Any(b => b.Depth == 0 && (b.Title == section.Heading || b.Title.StartsWith(section.Heading + " ", StringComparison.Ordinal))));
            var said = cover.SingleOrDefault(w => w.StartsWith(section.Heading + " p. ", StringComparison.Ordinal));
            if (there < 0 && section.Spare) Assert.Null(said);
            else Assert.Equal(FormattableString.Invariant($"{section.Heading} p. {there + 1}"), said);
        }
    }

    [Fact]
    public void Of_very_many_threads_the_cover_says_how_many_more_there_are()
    {
        var cover = Words(Plates.Of(Work.Lay(((TheoryDataRow<Piece>)Pieces.ElementAt(4)).Data)).Sheets[0].Marks).Select(w => w.Text).ToList();
        var more = Assert.Single(cover, w => w.EndsWith("threads more, in the key", StringComparison.Ordinal));
        Assert.Equal(52, cover.Count(w => w.StartsWith("thread number", StringComparison.Ordinal)) + int.Parse(more.Split(' ')[1], System.Globalization.CultureInfo.InvariantCulture));
    }

    [Fact]
    public void Backsmocking_alone_is_told_too()
    {
        var plate = Plates.Of(Work.Lay(Piece("Bare", "")));
        Assert.Single(plate.Table.Lines); // its five rows once
    }

    // A level check belongs to the row before it, a label to its words: neither may be parted from them by a column's end.
    [Theory, MemberData(nameof(Pieces), DisableDiscoveryEnumeration = true)]
    public void No_column_begins_with_a_level_check_or_ends_with_a_label(Piece piece)
    {
        var work = Work.Lay(piece);
        foreach (var large in (bool[])[false, true])
            foreach (var sheet in Plates.Of(work, new PlateOptions { LargePrint = large, Edition = Edition.Learner }, []).Sheets)
            {
                var look = large ? Look.LargePrint : Look.Booklet;
                var inner = Page.InnerOf(new PlateOptions().Paper);
                foreach (var column in sheet.Marks.OfType<Lettering>().Where(w => w.Part == "directions").GroupBy(w => !large && w.At.X > sheet.Width / 2))
                    Assert.NotEqual(look.Accent, column.MinBy(w => w.At.Y)!.Style.Colour);
                foreach (var column in sheet.Marks.OfType<Lettering>().Where(w => w.Part == "materials").GroupBy(w => large ? 0 : (int)((w.At.X - inner.X + 0.01) / ((inner.Width + 9) / 3))))
                    if (column.MaxBy(w => w.At.Y) is { } last)
                        Assert.False(last.Style == look.Note && column.Count(w => w.At.Y == last.At.Y) == 1 && last.Text is "Gauge" or "Rows" or "Pitch" or "Cloth" or "Pleats", last.Text);
            }
    }
}
