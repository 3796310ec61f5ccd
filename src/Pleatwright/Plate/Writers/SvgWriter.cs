using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Files;

namespace Pleatwright.Plate.Writers;

/// <summary>Sheets as one SVG: vector but for painted pictures, at true size, with nothing fetched from elsewhere and no script.</summary>
internal static class SvgWriter
{
    private const double Between = 8; // millimetres from one sheet to the next

    /// <summary>Writes the sheets, one under another, with the typefaces they use.</summary>
    /// <param name="title">Title of the document.</param>
    /// <param name="sheets">At least one sheet.</param>
    /// <param name="carried">The piece file that lies in it; null for none.</param>
    /// <exception cref="ArgumentException">There are no sheets.</exception>
    public static string Write(string title, ImmutableArray<Sheet> sheets, CarriedPiece? carried = null)
    {
        if (sheets.IsDefaultOrEmpty) throw new ArgumentException("A document has at least one sheet.", nameof(sheets));
        var width = sheets.Max(s => s.Width);
        var height = sheets.Sum(s => s.Height) + Between * (sheets.Length - 1);
        var body = new SvgBody("p");
        double top = 0;
        foreach (var sheet in sheets)
        {
            var left = (width - sheet.Width) / 2;
            body.Raw($"<g transform=\"translate({SvgBody.Number(left)} {SvgBody.Number(top)})\"><title>").Text(sheet.Name).Raw("</title>");
            body.Draw([new Shape(Outline.Rectangle(new Box(0, 0, sheet.Width, sheet.Height)), new Thread.Colour(255, 255, 255))]);
            body.Draw(sheet.Marks);
            body.Raw("</g>\n");
            top += sheet.Height + Between;
        }
        return Envelope(title, width, height, body, Fonts.Css(body.Faces), carried is null ? "" : Carrying.Element(CarriedPiece.InDrawing, carried));
    }

    /// <summary>Marks of any size as an element to put into a page, with its own title and description.</summary>
    /// <param name="id">What the names inside begin with; unlike for each drawing on a page.</param>
    /// <param name="title">A short name for those who cannot see it.</param>
    /// <param name="description">What it shows, for those who cannot see it.</param>
    /// <param name="view">The part shown, in millimetres.</param>
    /// <param name="marks">What is drawn.</param>
    public static string Element(string id, string title, string description, Box view, ImmutableArray<Mark> marks) => Element(id, view, marks,
        $"role=\"img\" aria-labelledby=\"{id}-t {id}-d\"",
        $"<title id=\"{id}-t\">{Escaping.Xml(title)}</title><desc id=\"{id}-d\">{Escaping.Xml(description)}</desc>");

    /// <summary>Marks as an element that says nothing to those who cannot see it, because words beside it do.</summary>
    public static string Ornament(string id, Box view, ImmutableArray<Mark> marks) => Element(id, view, marks, "aria-hidden=\"true\"", "");

    private static string Element(string id, Box view, ImmutableArray<Mark> marks, string attributes, string names)
    {
        var body = new SvgBody(id);
        body.Draw(marks);
        var styles = body.Styles();
        if (styles.Length > 0) styles = $"<style>\n{styles}</style>";
        return $"<svg xmlns=\"http://www.w3.org/2000/svg\" {attributes} viewBox=\"{SvgBody.Number(view.X)} {SvgBody.Number(view.Y)} {SvgBody.Number(view.Width)} {SvgBody.Number(view.Height)}\">{names}{styles}{body}</svg>";
    }

    private static string Envelope(string title, double width, double height, SvgBody body, string fonts, string carried) => string.Create(
        CultureInfo.InvariantCulture,
        $"""
        <?xml version="1.0" encoding="UTF-8"?>
        <svg xmlns="http://www.w3.org/2000/svg" width="{SvgBody.Number(width)}mm" height="{SvgBody.Number(height)}mm" viewBox="0 0 {SvgBody.Number(width)} {SvgBody.Number(height)}" xml:lang="en-GB" data-generator="Pleatwright">
        <title>{Escaping.Xml(title)}</title>
        {carried}<style>
        {fonts}{body.Styles()}</style>
        {body}</svg>

        """);
}
