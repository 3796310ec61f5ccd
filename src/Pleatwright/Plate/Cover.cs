using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Plate.Parts;
using Pleatwright.Plate.Sections;

namespace Pleatwright.Plate;

/// <summary>The first page: title, the stitched picture, the threads, the figures that matter, and what is inside.</summary>
internal static class Cover
{
    /// <summary>Lays the page out.</summary>
    /// <param name="document">The plate.</param>
    /// <param name="contents">Sections with the pages they begin on.</param>
    /// <param name="fronts">Sections that stand on it, under the pictures.</param>
    /// <param name="tight">Share of its size at which their matter is set.</param>
    /// <param name="colours">Whether it shows other colour ways.</param>
    public static Page Lay(PlateDocument document, IReadOnlyList<(string Section, int Page)> contents, ImmutableArray<Section> fronts, double tight, bool colours = true)
    {
        var (page, room) = Blank(document, contents);
        var height = Height(document, fronts, tight)!.Value;
        var strip = StripOf(document, fronts, room.Width);
        var pictures = room with { Height = room.Height - height - strip - 4 };
        Pictures(page, document, pictures, strip, colours ? WaysOf(document) : []);
        if (height > 0) Setting.SetOn(document, fronts, [page], tight, room.Bottom - height + AboveFronts);
        return page;
    }

    /// <summary>Which of the sections that may stand on it it has room for, in their order, with the picture no smaller than without them.</summary>
    /// <param name="document">The plate.</param>
    /// <param name="sections">All its sections.</param>
    /// <param name="tight">Share of its size at which their matter is set.</param>
    /// <param name="colours">Whether it shows other colour ways.</param>
    public static ImmutableArray<Section> Takes(PlateDocument document, ImmutableArray<Section> sections, double tight, bool colours = true)
    {
        var (_, room) = Blank(document, [.. sections.Select(s => (s.Heading, 10))]);
        var full = StitchedPicture.HeightOf(document.Work, room.Width - 2 * Mount) + 2 * Mount;
        var ways = colours && WaysOf(document) is { IsEmpty: false } some ? WaysHeight(document, room.Width, some, document.Options.Look) + WaysGap : 0;
        var photograph = PublishedWords.Photograph(document.Published.Credit).Length > 0 ? PhotographLeast : 0;
        // those that fill it best
        ImmutableArray<Section> fronts = [.. sections.Where(s => s.Front)], taken = [];
        var best = 0.0;
        for (var which = 1; which < 1 << fronts.Length; which++)
        {
            ImmutableArray<Section> few = [.. fronts.Where((_, i) => (which >> i & 1) == 1)];
            if (Height(document, few, tight) is { } height && height > best && full + ways + photograph + StripOf(document, few, room.Width) + 9 + height <= room.Height) (best, taken) = (height, few);
        }
        return taken;
    }

    private const double AboveFronts = 5;

    // How high sections stand; null where they do not fit on a page.
    private static double? Height(PlateDocument document, ImmutableArray<Section> fronts, double tight)
    {
        if (fronts.IsEmpty) return 0;
        var top = Page.InnerOf(document.Options.Paper).Y;
        return Setting.SetOn(document, fronts, [new Page("", document.Options.Paper, document.Options.Look)], tight, top, dry: true) - top + AboveFronts;
    }

    // The page with all that is always on it, and the room that is left.
    private static (Page Page, Box Room) Blank(PlateDocument document, IReadOnlyList<(string Section, int Page)> contents)
    {
        var page = new Page("Cover", document.Options.Paper, document.Options.Look);
        var inner = page.Inner;
        page.Bookmark(document.Title, 0, 0);
        var y = Title(page, document, inner);
        var foot = Contents(page, contents, inner);
        foot = Facts(page, document, inner, foot);
        if (document.Verdict is { } verdict) foot = Warning(page, verdict, inner, foot);
        return (page, new Box(inner.X, y, inner.Width, foot - y));
    }

    // The key shows the threads, too.
    private static double StripOf(PlateDocument document, ImmutableArray<Section> fronts, double width) =>
        fronts.Any(s => s.Id == PlateSections.KeyId) ? 0 : StripHeight(document, document.Options.Look, width);

    /// <summary>Whether there are other colour ways to show.</summary>
    public static bool HasColourWays(PlateDocument document) => !WaysOf(document).IsEmpty;

    private static ImmutableArray<Proof.ColourWay> WaysOf(PlateDocument document) => document.Options.Edition == Edition.Plate ? document.Published.ColourWays : [];

    /// <summary>Whether a cover always names other colour ways under their pictures; large print may have no room for them, and learners have none.</summary>
    public static bool ShowsColourWays(PlateOptions options) => options is { Edition: Edition.Plate, LargePrint: false };

    // What is said under a picture of a colour way: its colours, and which thread has which.
    private static IReadOnlyList<string> WayWords(Proof.ColourWay way, bool first, Look look, double wide) =>
        [.. Wrapping.Lines((first ? "Or in " : "or in ") + way.Name, look.Note, wide).Take(2), .. Wrapping.Lines(MaterialsPart.Say(way), look.Note, wide)];

    private const double OneLine = 0.7; // of its size, to which a title is set smaller to stand on one line (our own choice)

    private static double Title(Page page, PlateDocument document, Box inner)
    {
        var look = page.Look;
        var style = look.Title;
        var lines = Wrapping.Lines(document.Title, style, inner.Width);
        // on one line where it need not be much smaller for that
        if (lines.Count == 2 && Typeface.Width(document.Title, style) is var wide && style.Points * inner.Width / wide is var fitting && fitting >= style.Points * OneLine)
            (style, lines) = (style with { Points = Math.Floor(fitting * 10) / 10 }, [document.Title]);
        while ((lines.Count > 2 && style.Points > 18) || (lines.Count > 6 && style.Points > 8))
        {
            style = style with { Points = style.Points - 2 };
            lines = Wrapping.Lines(document.Title, style, inner.Width);
        }
        lines = Wrapping.Even(document.Title, style, inner.Width);
        double leading = style.Points * 0.42, toLead = Math.Max(8, look.Lead.Points * 0.62);
        var y = inner.Y + 4 + Typeface.CapHeight(style);
        var (title, lead) = (new Tag(Role.Title), new Tag(Role.Paragraph));
        foreach (var line in lines)
        {
            page.Text(title, inner.X, y, line, style);
            y += leading;
        }
        y += toLead - leading;
        foreach (var line in Wrapping.Lines(document.Summary, look.Lead, inner.Width))
        {
            page.Text(lead, inner.X, y, line, look.Lead);
            y += look.Lead.Points * 0.46;
        }
        if (PublishedWords.Credit(document.Published.Credit) is { Length: > 0 } credit)
            foreach (var line in Wrapping.Lines(Tidy.Line(credit), look.Body, inner.Width))
            {
                page.Text(inner.X, y + look.Body.Points * 0.04, line, look.Body);
                y += look.Leading;
            }
        y += 9 - toLead;
        page.Rule(inner.X, y, inner.Right, y, page.Look.Fine);
        return y + 7;
    }

    // The sections and their pages, in a line or two at the foot; returns how far down the space above ends.
    private static double Contents(Page page, IReadOnlyList<(string Section, int Page)> contents, Box inner)
    {
        var look = page.Look;
        var style = look.Large ? look.Body : look.Note;
        var lines = new List<List<string>> { new() };
        double at = 0, leading = style.Points * 0.5;
        const double gap = 6;
        foreach (var (section, number) in contents)
        {
            var entry = string.Create(CultureInfo.InvariantCulture, $"{section} p. {number}");
            var wide = Typeface.Width(entry, style);
            if (at > 0 && at + wide > inner.Width)
            {
                lines.Add([]);
                at = 0;
            }
            lines[^1].Add(entry);
            at += wide + gap;
        }
        var top = inner.Bottom - lines.Count * leading - 0.5;
        foreach (var (i, line) in lines.Index())
        {
            var x = inner.X;
            foreach (var entry in line)
            {
                page.Text(x, top + (i + 0.75) * leading, entry, style);
                x += Typeface.Width(entry, style) + gap;
            }
        }
        page.Rule(inner.X, top - 2, inner.Right, top - 2, look.Fine);
        return top - 5;
    }

    // What a buyer looks for first, in columns of labelled lines.
    private static double Facts(Page page, PlateDocument document, Box inner, double foot)
    {
        var look = page.Look;
        var columns = look.Large ? 1 : 2;
        const double gutter = 9;
        var width = (inner.Width - gutter * (columns - 1)) / columns;
        var label = document.Facts.Max(f => Typeface.Width(f.Name, look.Note)) + 3;
        var set = document.Facts.Select(f => (f.Name, Lines: Wrapping.Lines(f.Value, look.Body, width - label))).ToList();
        var total = set.Sum(f => f.Lines.Count);
        // where the columns are most nearly as long as each other
        var split = columns == 1 ? set.Count : Enumerable.Range(1, set.Count).MinBy(n => Math.Max(set.Take(n).Sum(f => f.Lines.Count), total - set.Take(n).Sum(f => f.Lines.Count)));
        var most = Math.Max(set.Take(split).Sum(f => f.Lines.Count), set.Skip(split).Sum(f => f.Lines.Count));
        var places = new List<(int Column, int Line)>();
        foreach (var (i, _) in set.Index())
            places.Add(i < split ? (0, set.Take(i).Sum(f => f.Lines.Count)) : (1, set.Skip(split).Take(i - split).Sum(f => f.Lines.Count)));
        var top = foot - most * look.Leading;
        foreach (var ((name, lines), (col, line)) in set.Zip(places))
        {
            var x = inner.X + col * (width + gutter);
            var y = top + (line + 0.75) * look.Leading;
            using var _ = page.As(new Tag(Role.Paragraph));
            page.Text(x, y, name, look.Note);
            for (var i = 0; i < lines.Count; i++) page.Text(x + label, y + i * look.Leading, lines[i], look.Body);
        }
        return top - 5;
    }

    private static double Warning(Page page, Verdict verdict, Box inner, double foot)
    {
        var look = page.Look;
        var words = Wrapping.Lines(verdict.Words, look.Body, inner.Width - 10);
        var height = look.Leading * (words.Count + 1) + 6;
        var box = new Box(inner.X, foot - height, inner.Width, height);
        page.Put(new Shape(Outline.Rounded(box, 1.5), null, new Pen(look.Alarm, 0.5)));
        page.Text(new Tag(Role.Heading), box.X + 5, box.Y + 3 + look.Leading * 0.75, verdict.Headline, look.Subheading with { Colour = look.Alarm });
        var told = new Tag(Role.Paragraph);
        for (var i = 0; i < words.Count; i++) page.Text(told, box.X + 5, box.Y + 3 + look.Leading * (i + 1.75), words[i], look.Body);
        return box.Y - 5;
    }

    // The stitched piece as large as may be, its threads, and below it what there is room for: the middle from close by, a photograph's place, other colours.
    private static void Pictures(Page page, PlateDocument document, Box room, double strip, ImmutableArray<Proof.ColourWay> ways)
    {
        var look = page.Look;
        var waysHeight = ways.IsEmpty ? 0 : WaysHeight(document, room.Width, ways, look);
        if (room.Height - waysHeight < 70) (ways, waysHeight) = ([], 0);
        var most = room.Height - waysHeight - 2 * Mount;
        if (most < 10) return;
        var drawing = StitchedPrint.Within(document.Work, room.Width - 2 * Mount, most);
        var frame = Framed(page, FigureWords.Picture(document), drawing, room);
        if (strip > 0) Strip(page, document, room.X, frame.Bottom + 4, room.Width);
        var below = frame.Bottom + strip + 5;
        var left = new Box(room.X, below, room.Width, room.Bottom + strip - waysHeight - below - (ways.IsEmpty ? 0 : 5));
        var filled = PublishedWords.Photograph(document.Published.Credit) is { Length: > 0 } photograph ? Photograph(page, photograph, left) : Closer(page, document, left, frame.Width / document.Work.Pleating.Pleats);
        // what nothing fills stands half above the other colours and half below
        if (!ways.IsEmpty) Ways(page, document, new Box(room.X, room.Bottom + strip - waysHeight - (filled ? 0 : left.Height / 2), room.Width, waysHeight), ways);
    }

    private const double WaysGap = 5;

    private static double WayWidth(double width, int ways) => Math.Min(width / 3 - WaysGap, (width - WaysGap * (ways - 1)) / ways);

    private static double WaysHeight(PlateDocument document, double width, ImmutableArray<Proof.ColourWay> ways, Look look)
    {
        var wide = WayWidth(width, ways.Length);
        return Math.Min(StitchedPicture.HeightOf(document.Work, wide), 44) + 3 + look.Note.Points * 0.46 * ways.Select((w, i) => WayWords(w, i == 0, look, wide).Count).Max();
    }

    // The same piece in other colours, side by side, each under its name.
    private static void Ways(Page page, PlateDocument document, Box room, ImmutableArray<Proof.ColourWay> ways)
    {
        var look = page.Look;
        var leading = look.Note.Points * 0.46;
        var wide = WayWidth(room.Width, ways.Length);
        var most = room.Height - 3 - ways.Select((w, i) => WayWords(w, i == 0, look, wide).Count).Max() * leading;
        for (var i = 0; i < ways.Length; i++)
        {
            var work = Work.Lay(ways[i].Of(document.Work.Piece));
            var drawing = StitchedPrint.Within(work, wide, most);
            var view = drawing.View;
            var placed = new Box(room.X + i * (room.Width - wide) / Math.Max(2, ways.Length - 1), room.Y, view.Width, view.Height);
            page.Figure(FigureWords.Way(ways[i].Name), new Inset(drawing.Marks, new Spot(placed.X - view.X, placed.Y - view.Y), placed));
            page.Put(new Shape(Outline.Rectangle(placed), null, new Pen(look.Quiet, 0.15)));
            using var _ = page.As(new Tag(Role.Paragraph));
            foreach (var (n, line) in WayWords(ways[i], i == 0, look, wide).Index())
                page.Text(placed.X, placed.Bottom + 1.2 + leading * (n + 0.75), line, look.Note);
        }
    }

    private const double PhotographLeast = 30;

    // A place for the photograph that the maker names.
    private static bool Photograph(Page page, string words, Box room)
    {
        if (room.Height < PhotographLeast) return false;
        var look = page.Look;
        var frame = new Box(room.X, room.Y, room.Width, Math.Min(room.Height, 70));
        page.Put(new Shape(Outline.Rectangle(frame), null, new Pen(look.Quiet, 0.2) { Dashes = (2, 1.5) }));
        page.Text(frame.Centre.X, frame.Centre.Y, Wrapping.Shorten(words, look.Note, frame.Width - 8), look.Note, Anchor.Middle);
        return true;
    }

    // Where a wide piece leaves the page half empty, the figure nearest its middle is shown again from close by, whole and by itself.
    private static bool Closer(Page page, PlateDocument document, Box room, double pitchAbove)
    {
        const double least = 28, most = 60; // millimetres high
        var work = document.Work;
        if (room.Height < least) return false;
        var centre = work.Pleating.CentreValley * 2;
        var figures = Excerpts.Of(document.Order).Where(e => e.Steps.Length > 0 && e.Title != Excerpts.BandTitle).Select(e => e.Window).ToList();
        if (figures.Count == 0) return false;
        var cloth = StitchedPicture.Cloth(work);
        var window = figures.MinBy(f => Math.Abs(f.FirstPleat + f.LastPleat - centre));
        window = window with { FirstPleat = Math.Max(1, window.FirstPleat), LastPleat = Math.Min(cloth.LastPleat, window.LastPleat), FirstRow = Math.Max(cloth.FirstRow, window.FirstRow - 1), LastRow = Math.Min(cloth.LastRow, window.LastRow + 1) };
        // as far to the sides as there is nothing that it would cut through
        var beside = work.Runs.ToArray().Where(r => r.Row.Index >= window.FirstRow && r.Row.Index <= window.LastRow && r.Cables * 3 <= work.Valleys * 2).ToList();
        var left = beside.Where(r => r.To.Number + 1 < window.FirstPleat).Select(r => r.To.Number + 2).DefaultIfEmpty(1).Max();
        var right = beside.Where(r => r.From.Number > window.LastPleat).Select(r => r.From.Number - 1).DefaultIfEmpty(cloth.LastPleat).Min();
        var gauge = work.Pleating.Gauge;
        var times = Math.Min((Math.Min(most, room.Height) - 2 * Mount) / (window.Rows * 2 * gauge.LineHeight.Millimetres), (room.Width - 2 * Mount) / (window.Pleats * gauge.Pitch.Millimetres));
        var geometry = ChartGeometry.Scaled(work, times);
        if (geometry.Pitch < pitchAbove * 1.5) return false;
        var more = ((room.Width - 2 * Mount) / geometry.Pitch - window.Pleats) / 2;
        more = Math.Min(more, Math.Min(window.FirstPleat - left, right - window.LastPleat));
        if (more > 0) window = window with { FirstPleat = window.FirstPleat - (int)more, LastPleat = window.LastPleat + (int)more };
        Framed(page, FigureWords.Closer, StitchedPrint.Of(geometry, window), room);
        return true;
    }

    private const double Mount = 2.2;

    // A picture in a mount with a fine line round it, centred in its room; returns the mount.
    private static Box Framed(Page page, string alternate, Drawing drawing, Box room)
    {
        var view = drawing.View;
        var frame = new Box(room.X + (room.Width - view.Width) / 2 - Mount, room.Y, view.Width + 2 * Mount, view.Height + 2 * Mount);
        var placed = frame.Grown(-Mount);
        page.Figure(alternate, new Inset(drawing.Marks, new Spot(placed.X - view.X, placed.Y - view.Y), placed));
        page.Put(new Shape(Outline.Rectangle(placed), null, new Pen(page.Look.Quiet, 0.15)));
        page.Put(new Shape(Outline.Rectangle(frame), null, page.Look.Fine));
        return frame;
    }

    // The threads in a row under the picture; where they are very many, the first of them and how many more there are.
    private static double StripHeight(PlateDocument document, Look look, double width)
    {
        var (places, more) = StripPlaces(document, look, width);
        return 5 + (places.IsEmpty ? 0 : places[^1].At.Y + 8) + (more.Length > 0 ? StripLeading : 0);
    }

    private static void Strip(Page page, PlateDocument document, double x, double y, double width)
    {
        var look = page.Look;
        var (places, more) = StripPlaces(document, look, width);
        foreach (var (thread, at) in places)
        {
            page.Figure(FigureWords.Thread(thread.Thread.Key), KeyPart.Swatch(thread.Thread, new Box(x + at.X, y + at.Y, SwatchWidth, SwatchHeight), look));
            page.Text(x + at.X + SwatchWidth + 2, y + Baseline(at.Y), Wrapping.Shorten(thread.Name, look.Note, width - SwatchWidth - 4), look.Note);
        }
        if (more.Length > 0) page.Text(x, y + Baseline(places[^1].At.Y + StripLeading), more, look.Note);

        double Baseline(double top) => top + SwatchHeight / 2 + Typeface.CapHeight(look.Note) / 2;
    }

    private const double SwatchWidth = 9;
    private const double SwatchHeight = 3.6;
    private const double StripLeading = SwatchHeight + 2.4;

    // Where the swatches lie, from the strip's own corner, and what is said of those there is no room for.
    private static (ImmutableArray<(ThreadEntry Thread, Spot At)> Places, string More) StripPlaces(PlateDocument document, Look look, double width)
    {
        const int mostRows = 4;
        var places = ImmutableArray.CreateBuilder<(ThreadEntry, Spot)>();
        var at = default(Spot);
        // closer together where all then stand on one line
        var all = document.Threads.Sum(t => SwatchWidth + 2 + Typeface.Width(t.Name, look.Note));
        var between = Math.Clamp((width - all) / Math.Max(1, document.Threads.Length - 1), 3.5, 7);
        foreach (var thread in document.Threads)
        {
            var wide = SwatchWidth + 2 + Math.Min(Typeface.Width(thread.Name, look.Note), width - SwatchWidth - 4);
            if (at.X > 0 && at.X + wide > width + 0.01)
            {
                at = new Spot(0, at.Y + StripLeading);
                if (at.Y > (mostRows - 0.5) * StripLeading) break;
            }
            places.Add((thread, at));
            at = at with { X = at.X + wide + between };
        }
        var left = document.Threads.Length - places.Count;
        return (places.ToImmutable(), left > 0 ? $"and {Counting.Of(left, "thread")} more, in the key" : "");
    }
}
