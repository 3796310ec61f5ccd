using System.Xml.Linq;
using Pleatwright.Plate;
using Pleatwright.Plate.Writers;

namespace Pleatwright.Tests.Plate;

public class HtmlWriterTests
{
    private static XElement Page(PlateDocument plate) => XDocument.Parse(HtmlWriter.Write(plate)).Root!;

    [Fact]
    public void The_same_piece_gives_the_same_page() =>
        Assert.Equal(HtmlWriter.Write(Plates.OfExample("quay-banner")), HtmlWriter.Write(Plates.OfExample("quay-banner")));

    [Fact]
    public void Headings_go_down_one_by_one_and_tables_and_pictures_are_named()
    {
        var page = Page(Plates.OfExample("flawed-kite"));
        var level = 0;
        foreach (var heading in page.Descendants().Where(e => e.Name.LocalName is ['h', >= '1' and <= '6']))
        {
            var next = heading.Name.LocalName[1] - '0';
            Assert.True(next <= level + 1, $"h{level} is followed by h{next}");
            level = next;
        }
        Assert.Single(page.Descendants("h1"));
        Assert.Single(page.Descendants("main"));
        Assert.Equal("en-GB", page.Attribute("lang")!.Value);
        foreach (var th in page.Descendants("th")) Assert.Contains(th.Attribute("scope")!.Value, (string[])["col", "row"]);
        var ids = page.DescendantsAndSelf().Attributes("id").Select(a => a.Value).ToList();
        Assert.Equal(ids.Count, ids.Distinct().Count());
        foreach (var svg in page.Descendants().Where(e => e.Name.LocalName == "svg"))
            Assert.True(svg.Attribute("aria-hidden") is not null
                || svg.Attribute("aria-labelledby")!.Value.Split(' ').All(id => svg.Elements().Any(e => e.Attribute("id")?.Value == id && e.Value.Length > 0)));
        foreach (var link in page.Descendants("a")) Assert.Contains(link.Attribute("href")!.Value[1..], ids);
    }

    [Fact]
    public void Every_step_can_be_ticked_and_says_what_the_directions_say()
    {
        var plate = Plates.OfExample("quay-banner", new PlateOptions { Edition = Edition.Learner });
        var steps = plate.Directions.Where(d => d.Kind is Pleatwright.Order.DirectionKind.Step).ToList();
        var labels = Page(plate).Descendants("label").ToList();
        Assert.Equal(steps.Count, labels.Count);
        foreach (var (i, label) in labels.Index())
        {
            Assert.Equal("checkbox", label.Element("input")!.Attribute("type")!.Value);
            Assert.Equal(steps[i].Text, label.Element("span")!.Value.Trim());
        }
    }

    [Fact]
    public void Every_line_of_the_table_can_be_ticked_and_stands_in_its_cells()
    {
        var plate = Plates.OfExample("harbour-wall");
        var rows = Page(plate).Descendants("tbody").Where(b => b.Parent!.Attribute("class")?.Value == "runs").Descendants("tr").ToList();
        var lines = plate.Table.Lines.ToList();
        var over = rows.Where(r => r.Attribute("class")?.Value != "beneath").ToList();
        Assert.Equal(lines.Count, over.Count);
        foreach (var (line, row) in lines.Zip(over))
        {
            Assert.Equal("checkbox", row.Descendants("input").Single().Attribute("type")!.Value);
            var beneath = row.ElementsAfterSelf("tr").FirstOrDefault() is { } next && next.Attribute("class")?.Value == "beneath" ? next.Elements() : [];
            Assert.Equal(line.Cells, row.Elements().Concat(beneath).Select(e => e.Value.Trim()));
        }
    }

    // What lies beneath a line has its own row under its own name, and no cell is without a column.
    [Theory, InlineData("harbour-wall"), InlineData("gulls-turning"), InlineData("quay-yoke")]
    public void Every_row_of_a_table_fills_its_columns(string example)
    {
        foreach (var table in Page(Plates.OfExample(example)).Descendants("table"))
            foreach (var part in (XElement[])[table.Element("thead")!, table.Element("tbody")!])
            {
                var (columns, owed) = (Widths(table.Element("thead")!.Elements("tr").First()).Sum(c => c.Across), 0);
                foreach (var row in part.Elements("tr"))
                {
                    var cells = Widths(row);
                    Assert.Equal(columns, cells.Sum(c => c.Across) + owed);
                    owed = cells.Where(c => c.Down > 1).Sum(c => c.Across);
                }
                Assert.Equal(0, owed);
            }

        static List<(int Across, int Down)> Widths(XElement row) => [.. row.Elements().Select(c => ((int?)c.Attribute("colspan") ?? 1, (int?)c.Attribute("rowspan") ?? 1))];
    }

    [Fact]
    public void Every_stretch_of_a_colour_has_its_letter_once_on_the_chart()
    {
        var work = SomeWorks.Of(true, ".rrrr.", "bbbbbb", "bbbbbb");
        var chart = Page(Plates.Of(work)).Descendants().Last(e => e.Name.LocalName == "svg" && e.Attribute("aria-labelledby")?.Value.StartsWith("cht", StringComparison.Ordinal) == true);
        var letters = chart.Descendants().Where(e => e.Name.LocalName == "text").Select(e => e.Value).Where(t => t is "r" or "b").ToList();
        Assert.Equal(["b", "r"], letters.Order());
    }
}
