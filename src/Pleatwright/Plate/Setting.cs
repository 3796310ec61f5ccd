using System.Collections.Immutable;
using Pleatwright.Plate.Parts;
using Pleatwright.Plate.Sections;

namespace Pleatwright.Plate;

/// <summary>
/// Sets the sections of a plate on pages, one below another: a section begins where the one before ends, unless too little of the page is
/// left; its columns end level; a drawing is never cut.
/// </summary>
internal sealed class Setting
{
    // Less of a section than this at the foot of a page looks forlorn (millimetres, our own choice).
    private const double Least = 26, LeastLarge = 46;

    private const double Between = 5; // one section and the next

    private const double BackHeight = 78; // of the wrong side, but for learners

    private const int Many = 1500; // items; of more, columns are not made to end level

    private readonly PlateDocument document;
    private readonly double tight;
    private readonly List<Page> pages;
    private readonly double panelScale;
    private double y = double.PositiveInfinity;

    private readonly Func<double, ImmutableArray<ChartPages.ChartBand>> chart;
    private readonly bool dry;
    private readonly Dictionary<Section, Tag> wholes = []; // of which all of a section is, wherever it stands

    private Setting(PlateDocument document, List<Page> pages, double tight, double panelScale, Func<double, ImmutableArray<ChartPages.ChartBand>> chart, bool dry)
    {
        this.chart = chart;
        this.dry = dry;
        this.document = document;
        this.pages = pages;
        this.tight = tight;
        this.panelScale = panelScale;
    }

    /// <summary>Sets sections on pages after those that are there.</summary>
    /// <param name="document">The plate.</param>
    /// <param name="sections">Its sections.</param>
    /// <param name="pages">The pages so far; more are added.</param>
    /// <param name="tight">Share of its size at which running matter is set.</param>
    /// <param name="panelScale">How large the panels of the chart are drawn: 0 as small as can be counted, 1 as large as serves.</param>
    /// <param name="chart">The chart drawn so large.</param>
    /// <param name="dry">Whether only the pages are wanted, not what is drawn on them.</param>
    /// <returns>On which page each section begins.</returns>
    public static List<(Section Section, int Page)> Set(PlateDocument document, IReadOnlyList<Section> sections, List<Page> pages, double tight, double panelScale, Func<double, ImmutableArray<ChartPages.ChartBand>> chart, bool dry = false)
    {
        var setting = new Setting(document, pages, tight, panelScale, chart, dry);
        var begins = new Dictionary<Section, int>();
        foreach (var (i, section) in sections.Index())
        {
            if (begins.ContainsKey(section)) continue;
            setting.next = i + 1 < sections.Count ? sections[i + 1] : null;
            setting.filled = 0;
            setting.Put(section);
            begins[section] = setting.beganOn;
            if (setting.filled > 0) begins[sections[i + 1]] = setting.filled;
        }
        return [.. sections.Select(s => (s, begins[s]))];
    }

    /// <summary>Sets sections on the last of the pages, from so far down on.</summary>
    /// <returns>How far down they reach; null where they do not fit.</returns>
    public static double? SetOn(PlateDocument document, IReadOnlyList<Section> sections, List<Page> pages, double tight, double at, bool dry = false)
    {
        var count = pages.Count;
        var setting = new Setting(document, pages, tight, 0, _ => [], dry) { y = at };
        foreach (var section in sections) setting.Put(section);
        return pages.Count > count ? null : setting.y;
    }

    private Section? next; // the section after the one that is set
    private int filled;    // the page on which it was set already, where the one before left room; else 0

    private PlateOptions Options => document.Options;

    private Look Look => Options.Look with { Tight = tight };

    private Box Inner => Page.InnerOf(Options.Paper);

    private int beganOn;

    private void Put(Section section)
    {
        if (section.Apart) y = double.PositiveInfinity;
        var begun = false;
        foreach (var group in Groups(section))
            switch (group[0])
            {
                case TheChart:
                    foreach (var band in chart(panelScale))
                    {
                        if (band.Pages is { } whole)
                        {
                            FillFirst();
                            Own(section, whole, ref begun);
                            continue;
                        }
                        if (begun && y + band.Height > Inner.Bottom) FillFirst();
                        Begin(section, band.Height, ref begun);
                        if (!dry) band.Draw(pages[^1], Inner.X, y);
                        y += band.Height + 4;
                    }
                    break;
                case TheTrueChart:
                    Own(section, first => ChartPages.TrueScale(document.Work, Options, first), ref begun);
                    break;
                case TheBack:
                    foreach (var strip in Back(section))
                    {
                        Begin(section, strip.View.Height, ref begun);
                        pages[^1].Figure(BackView.Words(document.Order), new Inset(strip.Marks, new Spot(Inner.X + (Inner.Width - strip.View.Width) / 2 - strip.View.X, y - strip.View.Y)));
                        y += strip.View.Height + 3;
                    }
                    break;
                default:
                    Matter(section, group, ref begun);
                    break;
            }
        y += Between * Look.Tight * Look.Tight;
    }

    // The stitches, where there is room that the chart does not take.
    private void FillFirst()
    {
        if (filled > 0 || next?.Id != PlateSections.StitchesId || double.IsPositiveInfinity(y) || !Fits(next)) return;
        var (began, stitches) = (beganOn, next);
        next = null;
        Put(stitches);
        (filled, beganOn) = (beganOn, began);
    }

    // Whether a section fits on the rest of the page.
    private bool Fits(Section section)
    {
        List<Page> scratch = [new Page(section.Heading, Options.Paper, Options.Look)];
        var trial = new Setting(document, scratch, tight, panelScale, chart, dry: true) { y = y };
        trial.Put(section);
        return scratch.Count == 1;
    }

    // Items that are set together: drawings by themselves, tables across the page, the rest in columns.
    private static IEnumerable<List<Item>> Groups(Section section)
    {
        var group = new List<Item>();
        foreach (var item in section.Items)
        {
            if (group.Count > 0 && Kind(item) != Kind(group[^1]))
            {
                // a heading goes with the lines it is over
                var heads = item is Lines && group[^1] is Headed ? 1 : 0;
                if (group.Count > heads) yield return group[..^heads];
                group = [.. group[^heads..]];
            }
            group.Add(item);
            if (Kind(item) == 2)
            {
                yield return group;
                group = [];
            }
        }
        if (group.Count > 0) yield return group;

        static int Kind(Item item) => item switch { Lines => 1, TheChart or TheTrueChart or TheBack => 2, _ => 0 };
    }

    private double HeadingHeight(Section section) => section.Id == PlateSections.CareId ? 0 : HeadingHeightOf(Options);

    private static double HeadingHeightOf(PlateOptions options) => options.LargePrint ? Page.HeadingHeight(options.Look) : 11.5;

    /// <summary>The room for the chart under the heading of its section.</summary>
    public static (double Width, double Height) ChartRoom(PlateOptions options) => Page.InnerOf(options.Paper) is var inner ? (inner.Width, inner.Height - HeadingHeightOf(options)) : default;

    private ImmutableArray<Drawing> Back(Section section) =>
        BackView.Strips(document.Order, Inner.Width, Options.Edition == Edition.Learner || Options.LargePrint ? Inner.Height - HeadingHeight(section) - 5 * Look.Leading : BackHeight, Options.Look, Options.Edition == Edition.Learner);

    // Pages that something has for itself.
    private void Own(Section section, Func<int, List<Page>> make, ref bool begun)
    {
        var made = make(pages.Count + 1);
        if (!begun && made.Count > 0) beganOn = pages.Count + 1;
        begun |= made.Count > 0;
        Limit(made.Count);
        foreach (var page in made) page.Join(Whole(section));
        pages.AddRange(made);
        y = double.PositiveInfinity;
    }

    private Tag Whole(Section section)
    {
        if (!wholes.TryGetValue(section, out var whole)) wholes[section] = whole = new Tag(Role.Section);
        return whole;
    }

    private void Limit(int more)
    {
        if (pages.Count + more > Layout.MostPages)
            throw new PlateTooLargeException(FormattableString.Invariant($"the plate comes to more than {Layout.MostPages} pages. Print the piece in parts, figure by figure."));
    }

    // Makes room for so much; the heading of the section before its first.
    private void Begin(Section section, double height, ref bool begun)
    {
        var heading = begun ? 0 : HeadingHeight(section);
        if (y + heading + height > Inner.Bottom + 0.01)
        {
            Limit(1);
            pages.Add(new Page(section.Heading, Options.Paper, Options.Look));
            y = Inner.Y;
            if (begun) y = pages[^1].RunningHead(section.Heading);
        }
        pages[^1].Section = Whole(section);
        if (begun) return;
        if (pages[^1].Name != section.Heading) pages[^1].Name += $", {section.Heading}";
        begun = true;
        beganOn = pages.Count;
        if (heading > 0) y = pages[^1].Heading(section.Heading, section.Lead, 0, y);
        else pages[^1].Bookmark(section.Heading, 0, y);
    }

    private void Matter(Section section, List<Item> items, ref bool begun)
    {
        var columns = items[^1] is Lines ? 1 : Options.LargePrint ? section.LargeColumns : section.Columns;
        // a few lines are read across the page
        if (columns > 1 && !Options.LargePrint && items.Count <= 6 && items.All(i => i is Headed or Words) && Trial(1, null, Inner.Y).Height <= 11 * Look.Leading) columns = 1;
        if (section.MostColumns > columns && !Options.LargePrint && tight < 0.9 && Trial(section.MostColumns, null, Inner.Y).Height < Trial(columns, null, Inner.Y).Height - 4) columns = section.MostColumns;
        // a heading keeps its distance from what ended above it
        if (begun && items[0] is Headed && y > Inner.Y + 20) y += Look.Leading * 0.9;
        var least = Options.LargePrint ? LeastLarge : Least;
        // as it stands under its heading
        var under = begun || double.IsPositiveInfinity(y) ? (double?)null : y + HeadingHeight(section);
        var height = items.Count > Many ? least : Trial(columns, null, under).Height;
        var needed = height >= Inner.Height && !double.IsInfinity(height) ? height : Math.Min(least, height);
        // a caption stays with its drawing
        if (section.Items.Contains(new TheBack())) needed = Trial(columns, null).Height + Back(section)[0].View.Height + 3;
        Begin(section, needed, ref begun);
        pages[^1].Part = section.Id;
        var count = items.Count > Many ? int.MaxValue : Trial(columns, null).Count;
        (int, double)? limit = null;
        // Columns end level: the least depth of the last page that takes no page more.
        if (columns > 1 && count <= 8)
        {
            double lowest = (count == 1 ? y : Inner.Y + 6) + 5, most = Inner.Bottom;
            while (most - lowest > 1.5)
            {
                var middle = (lowest + most) / 2;
                if (Trial(columns, (count, middle)).Count > count) lowest = middle;
                else most = middle;
            }
            limit = (pages.Count - 1 + count, most);
        }
        var flow = new Flow(Options, pages, section.Heading, y, columns, Look, limit) { Dry = dry };
        Lay(items, flow);
        y = flow.Lowest + 2;
        foreach (var page in pages) page.Part = "";

        // How many pages it takes, the first begun already; how high it stands on the last, and how high where all of it fits.
        (int Count, double Lowest, double Height) Trial(int columns, (int Page, double Bottom)? limit, double? from = null)
        {
            var at = from ?? (double.IsPositiveInfinity(y) ? Inner.Y : y);
            List<Page> scratch = [new Page(section.Heading, Options.Paper, Options.Look) { TableColumns = pages.Count > 0 && !double.IsPositiveInfinity(y) ? pages[^1].TableColumns : [] }];
            var flow = new Flow(Options, scratch, section.Heading, at, columns, Look, limit) { Dry = true };
            Lay(items, flow);
            return (scratch.Count, flow.Lowest, flow.Overflows && at > Inner.Y + 20 ? Inner.Height : scratch.Count == 1 ? flow.Lowest - at : double.PositiveInfinity);
        }
    }

    private static void Lay(List<Item> items, Flow flow)
    {
        for (var i = 0; i < items.Count; i++) Typesetting.Lay(items, i, flow);
    }
}
