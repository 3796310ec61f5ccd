using System.Xml.Linq;
using Pleatwright.Chart;
using Pleatwright.Plate;
using Pleatwright.Plate.Writers;
using UglyToad.PdfPig;

namespace Pleatwright.Tests.Plate;

/// <summary>Titles and names come from anyone's file: in no format may they do more than be read.</summary>
public class HostileNameTests
{
    public static TheoryData<string> Names =>
    [
        "<script>alert(1)</script>",
        "</title></style><img src=x onerror=alert(1)>",
        "\" onmouseover=\"alert(1)",
        "]]> --> <!-- & &amp; &#0;",
        "url(https://example.invalid/x) @import 'y'",
        "\u202Eesrever\u2066 and \u0000\u0007\u001B[31m controls\r\n\tbroken",
        "港の朝 🪡 שלום",
        "\uD83Dhalf a pair",
        "(endstream) endobj /FontName/ABCDEF+ << >> \\",
        "wwwwwwwwww" + "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww",
        "",
    ];

    private static PlateDocument Plate(string name)
    {
        var work = SomeWorks.Of(true, ".rr.", "bbbb", "bbbb");
        var piece = work.Piece with
        {
            Title = name,
            Threads = [work.Piece.Threads[0] with { Name = name, Note = name }, work.Piece.Threads[1]],
        };
        return Plates.Of(Work.Lay(piece));
    }

    [Theory, MemberData(nameof(Names))]
    public void The_page_holds_the_words_and_nothing_else(string name)
    {
        var plate = Plate(name);
        var html = XDocument.Parse(HtmlWriter.Write(plate)).Root!;
        Nothing_runs_and_nothing_is_fetched(html);
        Assert.Equal(plate.Title, html.Element("head")!.Element("title")!.Value.Trim());
        Assert.Equal(plate.Title, html.Descendants("h1").Single().Value.Trim());
        Assert.StartsWith(plate.Threads[0].Name, html.Descendants("tbody").First().Descendants("th").First().Value);
    }

    [Theory, MemberData(nameof(Names))]
    public void The_drawing_holds_the_words_and_nothing_else(string name)
    {
        var plate = Plate(name);
        var svg = XDocument.Parse(SvgWriter.Write(plate.Title, plate.Sheets, plate.Carried)).Root!;
        Nothing_runs_and_nothing_is_fetched(svg);
        Assert.Equal(plate.Title, svg.Element(svg.Name.Namespace + "title")!.Value);
    }

    [Theory, MemberData(nameof(Names))]
    public void The_document_can_be_read_and_bears_the_title(string name)
    {
        var plate = Plate(name);
        var bytes = PdfWriter.Write(plate.Title, plate.Sheets, plate.Carried);
        using var read = PdfDocument.Open(bytes);
        Assert.Equal(plate.Title, read.Information.Title);
        Assert.True(read.TryGetXmpMetadata(out var metadata));
        Assert.Contains(plate.Title, XDocument.Parse(System.Text.Encoding.UTF8.GetString(metadata!.GetXmlBytes())).Root!.Value);
        Assert.Equal(bytes, PdfWriter.Write(plate.Title, plate.Sheets, plate.Carried));
        Assert.NotEmpty(read.GetPage(1).Letters);
    }

    [Theory, MemberData(nameof(Names))]
    public void The_text_has_no_controls_and_no_long_lines(string name)
    {
        var text = PlainTextWriter.Write(Plate(name));
        foreach (var line in text.Split('\n'))
        {
            Assert.InRange(line.Length, 0, 80);
            Assert.DoesNotContain(line, c => char.IsControl(c) || c is '\u202E' or '\u2066');
        }
    }

    [Fact]
    public void A_name_without_anything_to_read_still_gives_a_title() => Assert.Equal("Untitled", Plate(" \u200B\n").Title);

    private static void Nothing_runs_and_nothing_is_fetched(XElement root)
    {
        foreach (var element in root.DescendantsAndSelf())
        {
            if (element.Name.LocalName == "script") Assert.Equal("application/json", element.Attribute("type")?.Value); // data, which nothing runs
            Assert.DoesNotContain(element.Name.LocalName, (string[])["img", "iframe", "object", "embed", "link", "foreignObject", "use", "base", "form"]);
            if (element.Name.LocalName == "style")
                foreach (var part in element.Value.Split("url(").Skip(1)) Assert.StartsWith("data:font/ttf;base64,", part);
            foreach (var attribute in element.Attributes())
            {
                Assert.False(attribute.Name.LocalName.StartsWith("on", StringComparison.OrdinalIgnoreCase), attribute.ToString());
                if (element.Name.LocalName == "image" && attribute.Name.LocalName == "href") Assert.Matches("^data:image/jpeg;base64,[A-Za-z0-9+/]+=*$", attribute.Value); // pixels, which nothing runs
                else if (attribute.Name.LocalName is "href" or "src") Assert.StartsWith("#", attribute.Value);
                if (attribute.Name.LocalName == "clip-path") Assert.StartsWith("url(#", attribute.Value);
                else if (attribute.Name.LocalName != "data-name") Assert.DoesNotContain("url(", element.Name.LocalName is "svg" ? "" : attribute.Value);
            }
        }
    }
}
