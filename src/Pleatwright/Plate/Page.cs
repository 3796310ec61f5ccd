using System.Collections.Immutable;
using Pleatwright.Thread;

namespace Pleatwright.Plate;

/// <summary>A sheet in the making: marks are put on it one after another, then it is finished.</summary>
internal sealed class Page(string name, Paper paper, Look look)
{
    private readonly List<Mark> marks = [];
    private readonly List<Tag> tags = [];
    private Tag? tag;
    private readonly List<Bookmark> bookmarks = [];

    public string Name { get; set; } = name;

    public Paper Paper { get; } = paper;

    /// <summary>The section that what is put on it now belongs to; empty for what belongs to none.</summary>
    public string Part { get; set; } = "";

    /// <summary>The section that what is put on it now is read in; null for none.</summary>
    public Tag? Section { get; set; }

    public Look Look { get; } = look;

    /// <summary>The columns of the last table on it, whose names the next table with the same need not repeat; none where it has none.</summary>
    public ImmutableArray<string> TableColumns { get; set; } = [];

    /// <summary>Where text and pictures go: inside the margins, above the footer.</summary>
    public Box Inner => InnerOf(Paper);

    /// <summary>The same of any page on a paper.</summary>
    public static Box InnerOf(Paper paper) => new(Margin, Margin, paper.Width - 2 * Margin, paper.Height - 2 * Margin - FooterHeight);

    public const double Margin = 14; // home printers reach it, and a thumb holds it

    private const double FooterHeight = 6;

    /// <summary>Has what is put on it belong to a part of what is read, until the scope is left.</summary>
    public TagScope As(Tag part) => new(this, part);

    /// <summary>Puts a mark; it is an ornament where it is not of a figure.</summary>
    public void Put(Mark mark)
    {
        Put(mark, tag is { Role: Role.Figure } figure ? figure : Tag.Ornament);
    }

    private void Put(Mark mark, Tag of)
    {
        marks.Add(mark);
        tags.Add(of);
        if (Section is { } section) of.Join(section);
    }

    /// <summary>Has all that is on it read in a section.</summary>
    public void Join(Tag section)
    {
        foreach (var of in tags) of.Join(section);
    }

    public void Put(IEnumerable<Mark> many)
    {
        foreach (var mark in many) Put(mark);
    }

    /// <summary>Puts a drawing, with what it shows in words.</summary>
    public void Figure(string alternate, params IEnumerable<Mark> drawn)
    {
        using var _ = As(Tag.Figure(alternate));
        Put(drawn);
    }

    /// <summary>Puts a line of text; it is read by itself where it is of nothing else.</summary>
    public void Text(double x, double y, string text, TypeStyle style, Anchor anchor = Anchor.Start)
    {
        Put(new Lettering(new Spot(x, y), text, style, anchor) { Part = Part }, tag ?? new Tag(Role.Paragraph));
    }

    /// <summary>The same, of a tag of its own.</summary>
    public void Text(Tag of, double x, double y, string text, TypeStyle style, Anchor anchor = Anchor.Start)
    {
        using var _ = As(of);
        Text(x, y, text, style, anchor);
    }

    public void Rule(double x1, double y1, double x2, double y2, Pen pen) => Put(new Shape(Outline.Line(x1, y1, x2, y2), null, pen));

    public void Fill(Box box, Colour colour) => Put(new Shape(Outline.Rectangle(box), colour));

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
        // what goes on from another page is not read again
        Text(depth < 0 ? Tag.Ornament : new Tag(depth == 0 ? Role.Heading : Role.Subheading), box.X, baseline, heading, Look.Heading);
        using var leading = As(depth < 0 ? Tag.Ornament : new Tag(Role.Paragraph));
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
        Text(Tag.Ornament, Inner.X, baseline, $"{heading}, continued", style);
        Rule(Inner.X, baseline + 2, Inner.Right, baseline + 2, Look.Fine);
        Part = part;
        return baseline + 5;
    }

    /// <summary>The sheet, with its footer: the title of the piece, the number of the page, and what has to be said against it on every page.</summary>
    public Sheet Finish(string title, int number, int of, string against = "")
    {
        Part = "";
        using var _ = As(Tag.Ornament);
        var y = Paper.Height - Margin + 2;
        var numbering = $"{number} of {of}";
        var room = Paper.Width - 2 * Margin - Typeface.Width(numbering, Look.Note) - 6;
        if (against.Length > 0) room = Math.Min(room, room / 2 - Typeface.Width(against, Look.Note with { Face = Face.TextBold }) / 2);
        Rule(Margin, y - 5, Paper.Width - Margin, y - 5, Look.Fine);
        Text(Margin, y, Wrapping.Shorten(title, Look.Note, room), Look.Note);
        Text(Paper.Width - Margin, y, numbering, Look.Note, Anchor.End);
        if (against.Length > 0) Text(Paper.Width / 2, y, against, Look.Note with { Face = Face.TextBold, Colour = Look.Alarm }, Anchor.Middle);
        return new Sheet(Name, Paper.Width, Paper.Height, [.. marks]) { Bookmarks = [.. bookmarks], Tags = [.. tags] };
    }

    /// <summary>While it lasts, what is put on a page belongs to a tag.</summary>
    internal readonly ref struct TagScope
    {
        private readonly Page page;
        private readonly Tag? before;

        public TagScope(Page page, Tag tag)
        {
            this.page = page;
            before = page.tag;
            page.tag = tag;
        }

        public void Dispose() => page.tag = before;
    }
}
