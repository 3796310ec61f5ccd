using Pleatwright.Thread;

namespace Pleatwright.Plate;

/// <summary>A sheet in the making: marks are put on it one after another, then it is finished.</summary>
internal sealed class Page(string name, Paper paper, Look look)
{
    private readonly List<Mark> marks = [];
    private readonly List<Bookmark> bookmarks = [];

    public string Name { get; set; } = name;

    public Paper Paper { get; } = paper;

    /// <summary>The section that what is put on it now belongs to; empty for what belongs to none.</summary>
    public string Part { get; set; } = "";

    public Look Look { get; } = look;

    /// <summary>Where text and pictures go: inside the margins, above the footer.</summary>
    public Box Inner => InnerOf(Paper);

    /// <summary>The same of any page on a paper.</summary>
    public static Box InnerOf(Paper paper) => new(Margin, Margin, paper.Width - 2 * Margin, paper.Height - 2 * Margin - FooterHeight);

    public const double Margin = 14; // home printers reach it, and a thumb holds it

    private const double FooterHeight = 6;

    public void Put(Mark mark) => marks.Add(mark);

    public void Put(IEnumerable<Mark> many) => marks.AddRange(many);

    public void Text(double x, double y, string text, TypeStyle style, Anchor anchor = Anchor.Start) =>
        marks.Add(new Lettering(new Spot(x, y), text, style, anchor) { Part = Part });

    public void Rule(double x1, double y1, double x2, double y2, Pen pen) => marks.Add(new Shape(Outline.Line(x1, y1, x2, y2), null, pen));

    public void Fill(Box box, Colour colour) => marks.Add(new Shape(Outline.Rectangle(box), colour));

    public void Bookmark(string title, int depth, double y) => bookmarks.Add(new Bookmark(title, depth, y));

    /// <summary>Room for a heading and its line of explanation at the top of a page of drawings.</summary>
    public static double HeadingHeight(Look look) => look.Large ? 24 : 14;

    /// <summary>
    /// A section's heading with a fine rule under it and a line of explanation, at the top or further down; returns how far down the
    /// section may begin. A depth below 0 makes no bookmark.
    /// </summary>
    public double Heading(string heading, string? lead, int depth = 0, double? at = null)
    {
        var part = Part;
        Part = "";
        var box = Inner;
        var baseline = (at ?? box.Y) + Typeface.CapHeight(Look.Heading) + 0.6;
        Text(box.X, baseline, heading, Look.Heading);
        if (depth >= 0) Bookmark(heading, depth, (at ?? box.Y) - 4);
        if (lead is not null)
        {
            var wide = Typeface.Width(heading, Look.Heading) + Typeface.Width(lead, Look.Lead) + 8 <= box.Width;
            if (wide) Text(box.Right, baseline, lead, Look.Lead, Anchor.End);
            else
            {
                foreach (var line in Wrapping.Lines(lead, Look.Lead, box.Width))
                {
                    baseline += Look.Lead.Points * 0.46;
                    Text(box.X, baseline, line, Look.Lead);
                }
            }
        }
        Part = part;
        var rule = baseline + 2.6;
        Rule(box.X, rule, box.Right, rule, Look.Fine);
        return rule + 4;
    }

    /// <summary>A small head at the top of a page on which a section goes on; returns how far down it may go on.</summary>
    public double RunningHead(string heading)
    {
        var part = Part;
        Part = "";
        var style = Look.Lead with { Points = Look.Large ? 16 : 10 };
        var baseline = Inner.Y + Typeface.CapHeight(style);
        Text(Inner.X, baseline, $"{heading}, continued", style);
        Rule(Inner.X, baseline + 2, Inner.Right, baseline + 2, Look.Fine);
        Part = part;
        return baseline + 5;
    }

    /// <summary>The sheet, with its footer: the title of the piece, the number of the page, and what has to be said against it on every page.</summary>
    public Sheet Finish(string title, int number, int of, string against = "")
    {
        Part = "";
        var y = Paper.Height - Margin + 2;
        var numbering = $"{number} of {of}";
        var room = Paper.Width - 2 * Margin - Typeface.Width(numbering, Look.Note) - 6;
        if (against.Length > 0) room = Math.Min(room, room / 2 - Typeface.Width(against, Look.Note with { Face = Face.TextBold }) / 2);
        Rule(Margin, y - 5, Paper.Width - Margin, y - 5, Look.Fine);
        Text(Margin, y, Wrapping.Shorten(title, Look.Note, room), Look.Note);
        Text(Paper.Width - Margin, y, numbering, Look.Note, Anchor.End);
        if (against.Length > 0) Text(Paper.Width / 2, y, against, Look.Note with { Face = Face.TextBold, Colour = Look.Alarm }, Anchor.Middle);
        return new Sheet(Name, Paper.Width, Paper.Height, [.. marks]) { Bookmarks = [.. bookmarks] };
    }
}
