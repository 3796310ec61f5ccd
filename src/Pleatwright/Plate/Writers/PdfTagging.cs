using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using PdfSharp.Pdf;
using PdfSharp.Pdf.Advanced;

namespace Pleatwright.Plate.Writers;

/// <summary>
/// Tags what is drawn in a PDF, and writes the tree of tags that it is read aloud by (ISO 32000-1, 14.7 and 14.8; ISO 14289-1, 7). Everything is either of a
/// tag or an artifact. The library's own way wants the tags in the order they are painted, each in one go, which a page put together from its foot is not.
/// </summary>
internal sealed class PdfTagging
{
    /// <summary>Ends what was opened.</summary>
    public const string Closing = "EMC";

    private readonly PdfDocument document;
    private readonly Dictionary<Tag, int> levels = [];
    private readonly Dictionary<Tag, int> toCome = [];
    private readonly List<List<(Tag Tag, ArraySegment<Mark> Marks)>> groups = [];
    private readonly Dictionary<Tag, Element> elements = [];
    private readonly List<Tag> tops = [];
    private readonly List<(PdfPage Page, List<Tag> Marked)> pages = [];
    private double height;

    // What is marked of a tag: where, and by which number.
    private sealed class Element
    {
        public List<(PdfPage Page, int Number)> Marked { get; } = [];

        public Box? Extent { get; set; }

        public PdfDictionary? Written { get; set; }
    }

    /// <summary>Begins to tag sheets; <see cref="Begin"/> is called for each of them in turn.</summary>
    public PdfTagging(PdfDocument document, IEnumerable<Sheet> sheets)
    {
        this.document = document;
        Sheet[] all = [.. sheets];
        // what stands again is read once: where it stood first, or else where it is met first; what was told without being printed is told already
        var read = all.SelectMany(s => s.Tags).Where(t => t.Again is null).Distinct().ToDictionary(t => t);
        groups.AddRange(all.Select(s => GroupsOf(s, t => t.Again is { Alternate.Length: > 0 } ? Tag.Ornament : t.Again is not { } first || read.TryAdd(first, t) || read[first] == t ? t : Tag.Ornament).ToList()));
        foreach (var tag in groups.SelectMany(g => g).Select(g => g.Tag).Where(t => t.Role != Role.Ornament))
        {
            toCome[tag] = toCome.GetValueOrDefault(tag) + 1;
            Met(tag);
        }
        var headings = tops.SelectMany(All).Where(t => t.Role is Role.Title or Role.Heading or Role.Subheading).Where(elements.ContainsKey).ToList();
        if (headings.Count == 0) return;
        // the first level is 1, and none is left out on the way down
        var (above, level) = (headings.Min(h => h.Role) - Role.Title, 0);
        foreach (var heading in headings) levels[heading] = level = Math.Min(heading.Role - Role.Title + 1 - above, level + 1);
    }

    private static IEnumerable<Tag> All(Tag tag) => [tag, .. tag.Parts.SelectMany(All)];

    /// <summary>Goes on to a page.</summary>
    public void Begin(PdfPage page, Sheet sheet)
    {
        pages.Add((page, []));
        height = sheet.Height;
        page.Elements.SetInteger("/StructParents", pages.Count - 1);
        page.Elements.SetName("/Tabs", "/S");
    }

    /// <summary>What is drawn on the page: marks that follow each other and are of one tag together.</summary>
    public IReadOnlyList<(Tag Tag, ArraySegment<Mark> Marks)> Groups => groups[pages.Count - 1];

    private static IEnumerable<(Tag Tag, ArraySegment<Mark> Marks)> GroupsOf(Sheet sheet, Func<Tag, Tag> read)
    {
        Mark[] marks = [.. sheet.Marks];
        for (int from = 0, to; from < marks.Length; from = to)
        {
            var tag = Of(from);
            for (to = from + 1; to < marks.Length && Of(to) == tag;) to++;
            yield return (tag, new ArraySegment<Mark>(marks, from, to - from));
        }

        // What nobody spoke of is read where it is words.
        Tag Of(int i) => i < sheet.Tags.Length ? read(sheet.Tags[i]) : marks[i] is Lettering ? new Tag(Role.Paragraph) : Tag.Ornament;
    }

    /// <summary>The operator that opens marks of a tag.</summary>
    public string Opening(Tag tag, IEnumerable<Mark> marks)
    {
        if (tag.Role == Role.Ornament) return "/Artifact BMC";
        toCome[tag]--;
        var element = elements[tag];
        var (page, marked) = pages[^1];
        element.Marked.Add((page, marked.Count));
        if (tag.Role == Role.Figure && Extent.Of(marks) is { } extent)
            element.Extent = Extent.Joined(element.Extent, new Box(extent.X, height - extent.Bottom, extent.Width, extent.Height));
        marked.Add(tag);
        return string.Create(CultureInfo.InvariantCulture, $"{Name(tag)}<</MCID {marked.Count - 1}>>BDC");
    }

    /// <summary>Whether more marks of a tag are still to come, on this page or another.</summary>
    public bool GoesOn(Tag tag) => toCome[tag] > 0;

    /// <summary>Makes operators of the comments that stand for them. The library writes strings in hexadecimal, so that no other line begins so.</summary>
    public static void Seal(PdfPage page)
    {
        foreach (var item in page.Contents.Elements)
        {
            if ((item as PdfReference)?.Value is not PdfDictionary { Stream.Value: { } bytes }) continue;
            if (bytes.AsSpan().StartsWith("% "u8)) bytes[0] = (byte)' ';
            for (var at = 0; bytes.AsSpan(at).IndexOf("\n% "u8) is >= 0 and var next; at += next + 1) bytes[at + next + 1] = (byte)' ';
        }
    }

    /// <summary>Writes the tree.</summary>
    public void Finish()
    {
        var root = Indirect();
        root.Elements.SetName("/Type", "/StructTreeRoot");
        var whole = Indirect();
        whole.Elements.SetName("/S", "/Document");
        whole.Elements["/P"] = root.Reference;
        root.Elements["/K"] = whole.Reference;
        whole.Elements["/K"] = new PdfArray(document, [.. tops.Select(t => Write(t, whole))]);
        var parents = new PdfArray(document);
        foreach (var (i, (_, marked)) in pages.Index())
        {
            parents.Elements.Add(new PdfInteger(i));
            var tags = new PdfArray(document, [.. marked.Select(t => elements[t].Written!.Reference!)]);
            document.Internals.AddObject(tags);
            parents.Elements.Add(tags.Reference!);
        }
        var tree = Indirect();
        tree.Elements["/Nums"] = parents;
        root.Elements["/ParentTree"] = tree.Reference;
        root.Elements.SetInteger("/ParentTreeNextKey", pages.Count);
        var catalog = document.Internals.Catalog;
        catalog.Elements["/StructTreeRoot"] = root.Reference;
        var info = new PdfDictionary(document);
        info.Elements.SetBoolean("/Marked", true);
        catalog.Elements["/MarkInfo"] = info;
    }

    private Element Met(Tag tag)
    {
        if (elements.TryGetValue(tag, out var element)) return element;
        if (tag.Within is { } within) Met(within);
        else tops.Add(tag);
        return elements[tag] = new Element();
    }

    private PdfReference Write(Tag tag, PdfDictionary within)
    {
        var written = Indirect();
        written.Elements.SetName("/S", Name(tag));
        written.Elements["/P"] = within.Reference;
        var kids = new List<PdfItem>();
        if (elements.TryGetValue(tag, out var element))
        {
            element.Written = written;
            if (element.Marked.Count > 0) written.Elements["/Pg"] = element.Marked[0].Page.Reference;
            foreach (var (page, number) in element.Marked)
                if (page == element.Marked[0].Page) kids.Add(new PdfInteger(number));
                else kids.Add(Elsewhere(page, number));
        }
        // rows that are on none of these pages are left out, but for names that stand above a table before it; cells are not, so that columns stay in line
        foreach (var part in tag.Parts)
            if (tag.Role == Role.Row || elements.ContainsKey(part) || (part.Role == Role.Row && part.Parts.Count > 0 && part.Parts.All(p => p.Alternate.Length > 0))) kids.Add(Write(part, written));
        if (kids.Count > 0) written.Elements["/K"] = kids.Count == 1 ? kids[0] : new PdfArray(document, [.. kids]);
        if (tag.Alternate.Length > 0) written.Elements[tag.Role == Role.Figure ? "/Alt" : "/ActualText"] = Text(tag.Alternate);
        if (tag.Role == Role.ColumnName) written.Elements["/A"] = Attributes("/Table", ("/Scope", new PdfName("/Column")));
        if (element?.Extent is { } extent && element.Marked.All(m => m.Page == element.Marked[0].Page))
            written.Elements["/A"] = Attributes("/Layout", ("/Placement", new PdfName("/Block")), ("/BBox", new PdfArray(document,
                [.. ((double[])[extent.X, extent.Y, extent.Right, extent.Bottom]).Select(mm => new PdfReal(Math.Round(mm / Typeface.MillimetresPerPoint, 2)))])));
        return written.Reference!;
    }

    private PdfDictionary Elsewhere(PdfPage page, int number)
    {
        var marked = new PdfDictionary(document);
        marked.Elements.SetName("/Type", "/MCR");
        marked.Elements["/Pg"] = page.Reference;
        marked.Elements.SetInteger("/MCID", number);
        return marked;
    }

    private PdfDictionary Attributes(string owner, params ReadOnlySpan<(string Key, PdfItem Value)> attributes)
    {
        var made = new PdfDictionary(document);
        made.Elements.SetName("/O", owner);
        foreach (var (key, value) in attributes) made.Elements[key] = value;
        return made;
    }

    private string Name(Tag tag) => tag.Role switch
    {
        Role.Section => "/Sect",
        Role.Title or Role.Heading or Role.Subheading => string.Create(CultureInfo.InvariantCulture, $"/H{levels[tag]}"),
        Role.Figure => "/Figure",
        Role.Table => "/Table",
        Role.Row => "/TR",
        Role.ColumnName => "/TH",
        Role.Cell => "/TD",
        _ => "/P",
    };

    private PdfDictionary Indirect()
    {
        var made = new PdfDictionary(document);
        document.Internals.AddObject(made);
        return made;
    }

    /// <summary>A string of text in the encoding it needs.</summary>
    public static PdfString Text(string text) => new(text, Ascii.IsValid(text) ? PdfStringEncoding.PDFDocEncoding : PdfStringEncoding.Unicode);
}
