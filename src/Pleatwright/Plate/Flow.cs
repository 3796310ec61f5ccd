namespace Pleatwright.Plate;

/// <summary>Running matter: blocks set one under another in columns, going on to a new page when one is full.</summary>
internal sealed class Flow
{
    private const double Gutter = 9;

    private readonly PlateOptions options;
    private readonly List<Page> pages;
    private readonly string heading;
    private readonly int columns;
    private readonly (int Page, double Bottom)? limit;
    private double top;
    private double y;
    private double lowest;
    private int column;

    /// <summary>Begins a section on a new page.</summary>
    /// <param name="options">How the plate is made.</param>
    /// <param name="pages">Where its pages are added.</param>
    /// <param name="heading">Its heading.</param>
    /// <param name="lead">A line beside the heading.</param>
    /// <param name="columns">Columns of ordinary print; large print has one.</param>
    /// <param name="tight">Share of its size at which the matter is set.</param>
    public Flow(PlateOptions options, List<Page> pages, string heading, string? lead, int columns, double tight = 1)
    {
        this.options = options;
        Look = options.Look with { Tight = tight };
        this.pages = pages;
        this.heading = heading;
        this.columns = Look.Large ? 1 : columns;
        NewPage(lead, first: true);
    }

    /// <summary>Goes on below what stands on the last of the pages.</summary>
    /// <param name="options">How the plate is made.</param>
    /// <param name="pages">Pages, at least one; more are added.</param>
    /// <param name="heading">The heading of its section, for pages on which it goes on.</param>
    /// <param name="at">How far down the last page it begins.</param>
    /// <param name="columns">Columns.</param>
    /// <param name="look">How its matter is dressed.</param>
    /// <param name="limit">Which page, of those in the end, it is to leave from a certain depth on, so that its columns end level; else null.</param>
    public Flow(PlateOptions options, List<Page> pages, string heading, double at, int columns, Look look, (int Page, double Bottom)? limit = null)
    {
        this.options = options;
        this.pages = pages;
        this.heading = heading;
        this.columns = columns;
        this.limit = limit;
        Look = look;
        top = y = lowest = at;
    }

    /// <summary>How its matter is dressed.</summary>
    public Look Look { get; }

    /// <summary>Whether only the room is wanted that it takes: nothing is drawn.</summary>
    public bool Dry { get; init; }

    /// <summary>Whether something on its first page is higher than the room there.</summary>
    public bool Overflows { get; private set; }

    /// <summary>How far down the page its longest column reaches.</summary>
    public double Lowest => Math.Max(lowest, y);

    public Page Page => pages[^1];

    /// <summary>Width of a column in millimetres.</summary>
    public double Width => (Page.Inner.Width - Gutter * (columns - 1)) / columns;

    /// <summary>Space left in this column in millimetres.</summary>
    public double Left => Bottom - y;

    private double Bottom => limit is { } l && l.Page == pages.Count ? l.Bottom : Page.Inner.Bottom;

    /// <summary>A block that is never broken over a column.</summary>
    /// <param name="height">Its height in millimetres.</param>
    /// <param name="draw">Draws it with its top left corner at the place given.</param>
    /// <param name="keep">Millimetres of what follows that must stay with it.</param>
    /// <param name="tag">What its words are a part of; a paragraph of its own where it is not given.</param>
    public void Add(double height, Action<Page, double, double> draw, double keep = 0, Tag? tag = null)
    {
        if (height + keep > Left && y > top) Next();
        Overflows |= pages.Count == 1 && height > Left + 0.01;
        if (!Dry)
        {
            using var _ = Page.As(tag ?? new Tag(Role.Paragraph));
            draw(Page, Page.Inner.X + column * (Width + Gutter), y);
        }
        y += height;
    }

    /// <summary>A gap; none at the top of a column.</summary>
    public void Gap(double height)
    {
        if (y > top) y += height;
    }

    /// <summary>A heading within the section, kept with what follows.</summary>
    /// <param name="words">Its words.</param>
    /// <param name="bookmark">Whether it gets an entry in the list of contents.</param>
    /// <param name="keep">Lines of running text that must follow it in the column.</param>
    public void Subheading(string words, bool bookmark = false, int keep = 3)
    {
        Gap(Look.Leading * 0.9);
        var lines = Wrapping.Lines(words, Look.Subheading, Width);
        var leading = Look.Subheading.Points * 0.47;
        var height = lines.Count * leading + 1.8;
        Add(height, (page, x, at) =>
        {
            if (bookmark) page.Bookmark(words, 1, at - 2);
            for (var i = 0; i < lines.Count; i++) page.Text(x, at + i * leading + Typeface.CapHeight(Look.Subheading) + 0.4, lines[i], Look.Subheading);
        }, keep: Look.Leading * keep, new Tag(Role.Subheading));
    }

    /// <summary>A paragraph with a label on its first line, in the margin its indent leaves.</summary>
    public void Labelled(string label, TypeStyle labelStyle, string words, TypeStyle style, double indent) =>
        Lay(words, style, indent, 1.2, 0, (page, x, baseline) => page.Text(x, baseline, label, labelStyle));

    /// <summary>A paragraph, broken over columns only when it is long.</summary>
    /// <param name="words">Its words.</param>
    /// <param name="style">Its type.</param>
    /// <param name="indent">Millimetres it is set in from the left.</param>
    /// <param name="after">The gap after it, in millimetres.</param>
    /// <param name="keep">Millimetres of what follows that must stay with it, when it is not broken itself.</param>
    public void Paragraph(string words, TypeStyle style, double indent = 0, double after = 1.2, double keep = 0) =>
        Lay(words, style, indent, after, keep, (_, _, _) => { });

    private const int LongestUnbroken = 6;

    /// <summary>Lines of a paragraph that stay in one column: all of it, or the first three of a long one.</summary>
    public int Unbroken(string words, TypeStyle style) => Wrapping.Lines(words, style, Width).Count is var lines && lines <= LongestUnbroken ? lines : 3;

    private void Lay(string words, TypeStyle style, double indent, double after, double keep, Action<Page, double, double> beside)
    {
        var lines = Wrapping.Lines(words, style, Width - indent);
        var leading = style.Points / Look.Body.Points * Look.Leading;
        var whole = lines.Count <= LongestUnbroken;
        var tag = new Tag(Role.Paragraph); // one, whatever it is broken over
        for (var i = 0; i < lines.Count; i++)
        {
            var (line, first) = (lines[i], i == 0);
            Add(leading, (page, x, at) =>
            {
                if (first) beside(page, x, at + leading * 0.75);
                page.Text(x + indent, at + leading * 0.75, line, style);
            }, keep: !first ? 0 : whole ? (lines.Count - 1) * leading + keep : 2 * leading, tag);
        }
        Gap(after);
    }

    private void Next()
    {
        lowest = Math.Max(lowest, y);
        if (column + 1 < columns)
        {
            column++;
            y = top;
        }
        else NewPage(null, first: false);
    }

    private void NewPage(string? lead, bool first)
    {
        if (pages.Count >= Layout.MostPages)
            throw new PlateTooLargeException(FormattableString.Invariant($"the plate comes to more than {Layout.MostPages} pages. Print the piece in parts, figure by figure."));
        var page = new Page(heading, options.Paper, options.Look) { Part = pages.Count > 0 ? pages[^1].Part : "", Section = pages.Count > 0 ? pages[^1].Section : null };
        pages.Add(page);
        top = y = lowest = first ? page.Heading(heading, lead) : page.RunningHead(heading);
        column = 0;
    }
}
