using System.Globalization;
using System.Text;
using Pleatwright.Files;
using Pleatwright.Order;
using Pleatwright.Order.Telling;
using Pleatwright.Plate.Parts;
using Pleatwright.Proof;

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
        Picture(page, plate);
        Facts(page, plate);
        Contents(page, plate);
        if (plate.Verdict is { } verdict) Proof(page, verdict);
        Key(page, plate);
        Materials(page, plate);
        Chart(page, plate);
        if (BackView.IsWanted(plate.Order)) Back(page, plate);
        Directions(page, plate);
        Open(page, "care", CautionsPart.Heading, "care");
        Element(page, "p", plate.Cautions);
        page.Append("</section>\n</main>\n").Append(Carrying.Element(CarriedPiece.InPage, plate.Carried)).Append("</body>\n</html>\n");
        return page.ToString();
    }

    private static void Picture(StringBuilder page, PlateDocument plate)
    {
        var drawing = StitchedPicture.Draw(plate.Work, 240);
        page.Append("<figure class=\"picture\">\n");
        page.Append(SvgWriter.Element("pic", $"{plate.Title}, stitched", $"How the finished piece will look. {plate.Summary}.", drawing.View, drawing.Marks));
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

    private static void Contents(StringBuilder page, PlateDocument plate)
    {
        page.Append("<nav aria-label=\"Contents\"><ul>\n");
        if (plate.Verdict is not null) Link("proof", Layout.ProofHeading);
        Link("key", "Key");
        Link("materials", "Materials");
        Link("chart", "Chart");
        if (BackView.IsWanted(plate.Order)) Link("back", BackView.Heading);
        if (plate.HasDirections) Link("directions", "Directions");
        Link("care", CautionsPart.Heading);
        page.Append("</ul></nav>\n");

        void Link(string id, string words) => page.Append($"<li><a href=\"#{id}\">{Escaping.Xml(words)}</a></li>\n");
    }

    private static void Proof(StringBuilder page, Verdict verdict)
    {
        Open(page, "proof", verdict.Headline, "proof");
        Element(page, "p", verdict.Counts);
        page.Append("<ul>\n");
        foreach (var finding in verdict.Findings)
        {
            page.Append(finding.Severity == Severity.Error ? "<li class=\"error\">" : "<li>");
            page.Append($"<strong>{Verdict.Name(finding.Severity)}.</strong> {Escaping.Xml(finding.Message)} <em>{Escaping.Xml(finding.Remedy)}</em></li>\n");
        }
        page.Append("</ul>\n</section>\n");
    }

    private static void Key(StringBuilder page, PlateDocument plate)
    {
        Open(page, "key", "Key", "key");
        if (plate.Threads.Length > 0)
        {
            page.Append("<div class=\"scroll\"><table>\n<caption>Threads</caption>\n<thead><tr><th scope=\"col\">Letter</th><th scope=\"col\">Thread</th><th scope=\"col\">Strands</th>" +
                "<th scope=\"col\">Stitches</th><th scope=\"col\">Length</th><th scope=\"col\">Needlefuls</th><th scope=\"col\">Skeins</th></tr></thead>\n<tbody>\n");
            foreach (var thread in plate.Threads)
            {
                page.Append(CultureInfo.InvariantCulture,
                    $"<tr><td><span class=\"brick\" style=\"background:{thread.Thread.Colour};color:{thread.Thread.Colour.LetterOn}\">{thread.Letter}</span></td>");
                page.Append($"<th scope=\"row\" dir=\"auto\">{Escaping.Xml(thread.Name)}");
                if (thread.Note.Length > 0) page.Append($" <small>{Escaping.Xml(thread.Note)}</small>");
                page.Append(CultureInfo.InvariantCulture,
                    $"</th><td>{thread.Thread.Strands}</td><td>{(thread.IsUsed ? thread.Stitches : "none")}</td><td>{thread.Length(plate.Options.Units)}</td><td>{thread.Use.Needlefuls}</td><td>{(thread.Skeins is { } skeins ? skeins : thread.SkeinWords)}</td></tr>\n");
            }
            page.Append("</tbody>\n</table></div>\n");
        }
        page.Append("<h3>On the chart</h3>\n<ul class=\"signs\">\n");
        foreach (var (i, entry) in plate.Signs.Index())
        {
            var id = $"sign{i}-";
            var box = new Box(0, 0, 13, 6.4);
            page.Append("<li>").Append(SvgWriter.Ornament(id, box, KeyPart.Draw(entry, box, plate.Options.Look)));
            Element(page, "span", entry.Words);
            page.Append("</li>\n");
        }
        page.Append("</ul>\n</section>\n");
    }

    private static void Materials(StringBuilder page, PlateDocument plate)
    {
        Open(page, "materials", "Materials", "materials");
        page.Append("<div class=\"columns\">\n");
        foreach (var group in plate.Materials)
        {
            page.Append("<div>");
            Element(page, "h3", group.Heading);
            page.Append("<ul>");
            foreach (var line in group.Lines)
            {
                page.Append("<li>");
                if (line.Label.Length > 0) Element(page, "b", line.Label);
                page.Append(Escaping.Xml(line.Words)).Append("</li>\n");
            }
            page.Append("</ul></div>\n");
        }
        page.Append("</div>\n</section>\n");
    }

    private static void Chart(StringBuilder page, PlateDocument plate)
    {
        var drawing = WholeChart.Draw(plate.Work, plate.Options);
        Open(page, "chart", "Chart", "chart");
        Sheet(page, "Chart", "cht", $"Chart of {plate.Title}",
            "Every stitch as a brick with the letter of its thread, on numbered pleats and gathering rows. The directions tell the same in words.", drawing);
        page.Append("</section>\n");
    }

    // A drawing a little larger than its own size, to be scrolled.
    private static void Sheet(StringBuilder page, string label, string id, string title, string description, Drawing drawing)
    {
        var width = Math.Round(drawing.View.Width * 1.15).ToString(CultureInfo.InvariantCulture);
        page.Append($"<div class=\"sheet\" role=\"region\" aria-label=\"{label}\" tabindex=\"0\"><div style=\"width:{width}mm\">\n");
        page.Append(SvgWriter.Element(id, title, description, drawing.View, drawing.Marks));
        page.Append("\n</div></div>\n");
    }

    private static void Back(StringBuilder page, PlateDocument plate)
    {
        Open(page, "back", BackView.Heading, "chart");
        var words = BackView.Words(plate.Order);
        var lead = BackView.Lead(plate.Work);
        Element(page, "p", $"{char.ToUpperInvariant(lead[0])}{lead[1..]}. {words}");
        Sheet(page, BackView.Heading, "bck", $"The back of {plate.Title}", words, BackView.Draw(plate.Order, Math.Max(180, plate.Work.Pleating.Pleats * 2.0), plate.Options.Look));
        page.Append("</section>\n");
    }

    private static void Directions(StringBuilder page, PlateDocument plate)
    {
        if (!plate.HasDirections) return;
        Open(page, "directions", "Directions", "directions");
        if (plate.Options.Edition == Edition.Plate)
        {
            Table(page, plate.Table);
            page.Append("</section>\n");
            return;
        }
        var listed = false;
        foreach (var paragraph in plate.Directions)
        {
            var step = paragraph.Kind is DirectionKind.Step;
            if (step != listed) page.Append(step ? "<ul class=\"steps\">\n" : "</ul>\n");
            listed = step;
            switch (paragraph.Kind)
            {
                case DirectionKind.Heading:
                    Element(page, "h3", paragraph.Text);
                    break;
                case DirectionKind.Step:
                    page.Append(CultureInfo.InvariantCulture,
                        $"<li><label><input type=\"checkbox\"/> <b>{paragraph.Step?.Number}</b> <span>{Escaping.Xml(paragraph.Text)}</span></label></li>\n");
                    break;
                case DirectionKind.LevelCheck:
                    page.Append("<p class=\"level\">").Append(Escaping.Xml(paragraph.Text)).Append("</p>\n");
                    break;
                default:
                    page.Append("<p class=\"remark\">").Append(Escaping.Xml(paragraph.Text)).Append("</p>\n");
                    break;
            }
        }
        if (listed) page.Append("</ul>\n");
        page.Append("</section>\n");
    }

    private static void Table(StringBuilder page, DirectionTable table)
    {
        foreach (var paragraph in table.Lead) Element(page, "p", paragraph);
        foreach (var block in table.Blocks)
        {
            if (block.Heading.Length > 0) Element(page, "h3", block.Heading);
            foreach (var note in block.Notes) Element(page, "p", note);
            if (block.Lines.Length > 0)
            {
                page.Append("<div class=\"scroll\"><table class=\"runs\">\n<thead><tr>");
                foreach (var name in block.Columns) page.Append($"<th scope=\"col\">{Escaping.Xml(name)}</th>");
                page.Append("</tr></thead>\n<tbody>\n");
                foreach (var line in block.Lines)
                {
                    page.Append(line.IsLevel ? "<tr class=\"met\">" : "<tr>");
                    foreach (var (i, cell) in line.Cells.Index())
                        page.Append(i == 0 ? $"<th scope=\"row\"><label><input type=\"checkbox\"/> {Escaping.Xml(cell)}</label></th>" : $"<td>{Escaping.Xml(cell)}</td>");
                    page.Append("</tr>\n");
                }
                page.Append("</tbody>\n</table></div>\n");
            }
            foreach (var after in block.After) Element(page, "p", after);
        }
    }

    private static void Open(StringBuilder page, string id, string heading, string classes) =>
        page.Append($"<section id=\"{id}\" class=\"{classes}\" aria-labelledby=\"{id}-h\">\n<h2 id=\"{id}-h\">{Escaping.Xml(heading)}</h2>\n");

    private static void Element(StringBuilder page, string name, string words) =>
        page.Append($"<{name}>").Append(Escaping.Xml(words)).Append($"</{name}>\n");
}
