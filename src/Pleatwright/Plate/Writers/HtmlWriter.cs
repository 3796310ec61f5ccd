using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Order.Telling;
using Pleatwright.Plate.Parts;
using Pleatwright.Plate.Sections;

namespace Pleatwright.Plate.Writers;

/// <summary>
/// A plate as one self-contained page for screens and printers: nothing is fetched from elsewhere, no script runs, and
/// everything that came from the piece is escaped.
/// </summary>
internal static class HtmlWriter
{
    /// <summary>Writes the plate.</summary>
    public static string Write(PlateDocument plate) => PrintedWords.Proving(plate, Compose, PrintedWords.OfHtml);

    private static string Compose(PlateDocument plate)
    {
        var page = new StringBuilder();
        var title = Escaping.Xml(plate.Title);
        page.Append(HtmlHead.Write(plate.Title, plate.Options.LargePrint, Enum.GetValues<Face>(), HtmlStyle.Sheet));
        page.Append($"""
            <body>
            <header>
            <h1 dir="auto">{title}</h1>
            <p class="lead">{Escaping.Xml(plate.Summary)}</p>
            {(plate.IsProved && plate.HasDirections ? $"<p class=\"proved\">{PrintedWords.Proved}</p>" : "")}
            </header>
            <main>

            """);
        var sections = PlateSections.Of(plate);
        Picture(page, plate);
        Facts(page, plate);
        Contents(page, sections);
        if (plate.Verdict is { } verdict)
        {
            Open(page, "proof", verdict.Headline, "proof");
            Element(page, "p", verdict.Words);
            page.Append("</section>\n");
        }
        foreach (var section in sections) Section(page, section, plate);
        page.Append("</main>\n").Append(plate.Carried is { } carried ? Carrying.Element(CarriedPiece.InPage, carried) : "").Append("</body>\n</html>\n");
        return page.ToString();
    }

    private static void Picture(StringBuilder page, PlateDocument plate)
    {
        var drawing = StitchedPrint.Of(plate.Work, 140); // as fine as a page shows it that is so many millimetres wide in print
        page.Append("<figure class=\"picture\">\n");
        page.Append(SvgWriter.Element("pic", $"{plate.Title}, stitched", FigureWords.Picture(plate), drawing.View, drawing.Marks));
        page.Append("\n</figure>\n");
    }

    private static void Facts(StringBuilder page, PlateDocument plate)
    {
        page.Append("<dl class=\"facts\">\n");
        foreach (var fact in plate.Facts)
        {
            page.Append("<div>");
            Element(page, "dt", fact.Name);
            Element(page, "dd", fact.Value);
            page.Append("</div>\n");
        }
        page.Append("</dl>\n");
    }

    private static void Contents(StringBuilder page, ImmutableArray<Section> sections)
    {
        page.Append("<nav aria-label=\"Contents\"><ul>\n");
        foreach (var section in sections) page.Append($"<li><a href=\"#{section.Id}\">{Escaping.Xml(section.Heading)}</a></li>\n");
        page.Append("</ul></nav>\n");
    }

    // Items of one kind that follow each other are one list, or one table.
    private static void Section(StringBuilder page, Section section, PlateDocument plate)
    {
        Open(page, section.Id, section.Heading, section.Id == PlateSections.ChartId && plate.Options.Edition == Edition.Learner ? "chart whole" : section.Id);
        if (section.Lead is { } lead && section.Id != PlateSections.DirectionsId) page.Append("<p class=\"remark\">").Append(Escaping.Xml(lead.Capital())).Append(".</p>\n");
        var columns = section.Items.Any(i => i is Labelled);
        if (columns) page.Append("<div class=\"columns\">\n");
        Item? last = null;
        foreach (var item in section.Items)
        {
            if (last?.GetType() != item.GetType())
            {
                page.Append(After(last));
                page.Append(Before(item));
            }
            Put(page, item, last, plate);
            last = item;
        }
        page.Append(After(last));
        if (columns) page.Append("</div></div>\n");
        page.Append("</section>\n");
    }

    private static string Before(Item item) => item switch
    {
        KeyThread => "<div class=\"scroll\"><table>\n<caption>Threads</caption>\n<thead><tr><th scope=\"col\">Letter</th><th scope=\"col\">Thread</th><th scope=\"col\">Strands</th>" +
            "<th scope=\"col\">Stitches</th><th scope=\"col\">Length</th><th scope=\"col\">Needlefuls</th><th scope=\"col\">Skeins</th></tr></thead>\n<tbody>\n",
        KeySign => "<h3>On the chart</h3>\n<ul class=\"signs\">\n",
        Step => "<ul class=\"steps\">\n",
        StitchShown => "<div class=\"drawn\">\n",
        _ => "",
    };

    private static string After(Item? item) => item switch
    {
        KeyThread => "</tbody>\n</table></div>\n",
        KeySign or Step => "</ul>\n",
        StitchShown => "</div>\n",
        _ => "",
    };

    private static void Put(StringBuilder page, Item item, Item? last, PlateDocument plate)
    {
        switch (item)
        {
            case Headed headed:
                if (plate.Materials.Any(m => m.Heading == headed.Words)) page.Append(last is null ? "<div>" : "</div>\n<div>");
                Element(page, "h3", headed.Words);
                break;
            case Words words:
                page.Append(words.Tone switch { Tone.Remark => "<p class=\"remark\">", Tone.Check => "<p class=\"level\">", _ => "<p>" }).Append(Escaping.Xml(words.Text)).Append("</p>\n");
                break;
            case Labelled labelled:
                page.Append("<ul>");
                foreach (var line in labelled.Lines)
                {
                    page.Append("<li>");
                    if (line.Label.Length > 0) Element(page, "b", line.Label);
                    page.Append(Escaping.Xml(line.Words)).Append("</li>\n");
                }
                page.Append("</ul>");
                break;
            case KeyThread key: Thread(page, key.Thread, plate.Options); break;
            case KeySign sign:
                var box = new Box(0, 0, 13, 6.4);
                page.Append("<li>").Append(SvgWriter.Ornament($"sign{plate.Signs.IndexOf(sign.Sign)}-", box, KeyPart.Draw(sign.Sign, box, plate.Options.Look)));
                Element(page, "span", sign.Sign.Words);
                page.Append("</li>\n");
                break;
            case StitchShown shown:
                page.Append("<figure>");
                page.Append(SvgWriter.Element($"st{shown.Number}-", shown.Stitch.Name, shown.Stitch.Words, shown.Stitch.Drawing.View, shown.Stitch.Drawing.Marks));
                page.Append($"<figcaption><strong>{Escaping.Xml(shown.Stitch.Name)}.</strong> {Escaping.Xml(shown.Stitch.Words)}</figcaption></figure>\n");
                break;
            case Lines lines: Table(page, lines.Block); break;
            case Step step:
                page.Append($"<li><label><input type=\"checkbox\"/> <b>{step.Number}</b> <span>{Escaping.Xml(step.Text)}</span></label></li>\n");
                break;
            case TheChart: Chart(page, plate); break;
            case TheTrueChart: break; // a screen has no true size
            case TheBack:
                Sheet(page, BackView.Heading, "bck", $"The back of {plate.Title}", BackView.Words(plate.Order), BackView.Draw(plate.Order, Math.Max(180, plate.Work.Pleating.Pleats * 2.0), plate.Options.Look));
                break;
            case Framed framed: Element(page, "p", framed.Text); break;
        }
    }

    private static void Thread(StringBuilder page, ThreadEntry thread, PlateOptions options)
    {
        page.Append(CultureInfo.InvariantCulture,
            $"<tr><td><span class=\"brick\" style=\"background:{thread.Thread.Colour};color:{thread.Thread.Colour.LetterOn}\">{thread.Letter}</span></td>");
        page.Append($"<th scope=\"row\" dir=\"auto\">{Escaping.Xml(thread.Name)}");
        if (thread.Note.Length > 0) page.Append($" <small>{Escaping.Xml(thread.Note)}</small>");
        page.Append(CultureInfo.InvariantCulture,
            $"</th><td>{thread.Thread.Strands}</td><td>{(thread.IsUsed ? thread.Stitches : "none")}</td><td>{thread.Length(options.Units)}</td><td>{thread.Use.Needlefuls}</td><td>{(thread.Skeins is { } skeins ? skeins : thread.SkeinWords)}</td></tr>\n");
    }

    private static void Chart(StringBuilder page, PlateDocument plate)
    {
        foreach (var (i, part) in ChartPages.Drawings(plate).Index())
            Sheet(page, part.Title, $"cht{i}", $"Chart of {plate.Title}: {part.Title}", FigureWords.Chart, part.Drawing);
    }

    // A drawing a little larger than its own size, to be scrolled.
    private static void Sheet(StringBuilder page, string label, string id, string title, string description, Drawing drawing)
    {
        var width = Math.Round(drawing.View.Width * 1.15).ToString(CultureInfo.InvariantCulture);
        page.Append($"<div class=\"sheet\" role=\"region\" aria-label=\"{Escaping.Xml(label)}\" tabindex=\"0\"><div style=\"--w:{width}mm\">\n");
        page.Append(SvgWriter.Element(id, title, description, drawing.View, drawing.Marks));
        page.Append("\n</div></div>\n");
    }

    // What lies beneath a line has a row of its own there, under the name of its column.
    private static void Table(StringBuilder page, TableBlock block)
    {
        var beneath = block.LastBeneath;
        var across = block.Columns.Length - (beneath ? 1 : 0);
        var rows = beneath ? " rowspan=\"2\"" : "";
        page.Append("<div class=\"scroll\"><table class=\"runs\">\n<thead><tr>");
        foreach (var (i, name) in block.Columns[..across].Index()) page.Append($"<th scope=\"col\"{(i == 0 ? rows : "")}>{Escaping.Xml(name)}</th>");
        if (beneath) page.Append(CultureInfo.InvariantCulture, $"</tr>\n<tr><th scope=\"col\" colspan=\"{across - 1}\">{Escaping.Xml(block.Columns[across])}</th>");
        page.Append("</tr></thead>\n<tbody>\n");
        foreach (var line in block.Lines)
        {
            page.Append(line.IsLevel ? "<tr class=\"met\">" : "<tr>");
            foreach (var (i, cell) in line.Cells[..Math.Min(across, line.Cells.Length)].Index())
                page.Append(i == 0 ? $"<th scope=\"row\"{rows}><label><input type=\"checkbox\"/> {Escaping.Xml(cell)}</label></th>" : $"<td>{Escaping.Xml(cell)}</td>");
            if (beneath) page.Append(CultureInfo.InvariantCulture, $"</tr>\n<tr class=\"beneath\"><td colspan=\"{across - 1}\">{Escaping.Xml(line.Cells.Length > across ? line.Cells[across] : "")}</td>");
            page.Append("</tr>\n");
        }
        page.Append("</tbody>\n</table></div>\n");
    }

    private static void Open(StringBuilder page, string id, string heading, string classes) =>
        page.Append($"<section id=\"{id}\" class=\"{classes}\" aria-labelledby=\"{id}-h\">\n<h2 id=\"{id}-h\">{Escaping.Xml(heading)}</h2>\n");

    private static void Element(StringBuilder page, string name, string words) =>
        page.Append($"<{name}>").Append(Escaping.Xml(words)).Append($"</{name}>\n");
}
