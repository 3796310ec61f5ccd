using System.Text;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Core;
using UglyToad.PdfPig.Graphics.Operations;
using UglyToad.PdfPig.Graphics.Operations.InlineImages;
using UglyToad.PdfPig.Graphics.Operations.MarkedContent;
using UglyToad.PdfPig.Graphics.Operations.TextObjects;
using UglyToad.PdfPig.Tokens;

namespace Pleatwright.Tests.Plate;

/// <summary>
/// A tagged PDF as an independent reader has it (PdfPig), with the rules of PDF/UA-1 (ISO 14289-1) and of logical structure and tagged PDF (ISO 32000-1, 14.7
/// and 14.8) that a machine can judge.
/// </summary>
internal sealed class TaggedPdf : IDisposable
{
    private readonly PdfDocument read;
    private readonly Dictionary<IndirectReference, int> pages = [];
    private readonly List<Dictionary<int, string>> texts = [];

    /// <summary>A tag, its parts in order, and the words in it; a reader tells parts apart, and nothing else.</summary>
    public sealed record Element(string Type, DictionaryToken Dictionary, List<Element> Parts, List<string> Own)
    {
        public string Words => string.Join(" ", [string.Concat(Own), .. Parts.Select(p => p.Words)]);

        public IEnumerable<Element> All => [this, .. Parts.SelectMany(p => p.All)];

        public string? String(string key) => Dictionary.TryGet(NameToken.Create(key), out var token)
            ? token switch { StringToken s => s.Data, HexToken h => Encoding.BigEndianUnicode.GetString([.. h.Bytes]).TrimStart('\uFEFF'), _ => null } : null;
    }

    /// <summary>The whole document.</summary>
    public Element Document { get; }

    /// <summary>Reads it, and fails where a rule is broken.</summary>
    public TaggedPdf(byte[] bytes)
    {
        read = PdfDocument.Open(bytes);
        var catalog = read.Structure.Catalog.CatalogDictionary;
        // ISO 14289-1: 6.2 and 7.1, told to be tagged; 7.1, the title is shown; 7.2, its language
        Assert.True(Get<BooleanToken>(Get<DictionaryToken>(catalog, "MarkInfo"), "Marked").Data);
        Assert.True(Get<BooleanToken>(Get<DictionaryToken>(catalog, "ViewerPreferences"), "DisplayDocTitle").Data);
        Assert.Equal("en-GB", Get<StringToken>(catalog, "Lang").Data);
        // 5: it says what it is
        Assert.True(read.TryGetXmpMetadata(out var metadata));
        var said = System.Xml.Linq.XDocument.Parse(Encoding.UTF8.GetString(metadata!.GetXmlBytes()));
        Assert.Equal("1", said.Descendants("{http://www.aiim.org/pdfua/ns/id/}part").Single().Value);
        Assert.NotEmpty(said.Descendants("{http://purl.org/dc/elements/1.1/}title").Single().Value);
        Files(catalog);

        var numbers = new List<int>();
        for (var i = 1; i <= read.NumberOfPages; i++)
        {
            var dictionary = read.GetPage(i).Dictionary;
            numbers.Add(Get<NumericToken>(dictionary, "StructParents").Int);
            Assert.Equal("S", Get<NameToken>(dictionary, "Tabs").Data);
            texts.Add(Marked(i));
        }
        Assert.Equal(Enumerable.Range(0, numbers.Count), numbers);
        PageReferences(catalog);

        var root = Get<DictionaryToken>(catalog, "StructTreeRoot");
        var parents = Get<ArrayToken>(Get<DictionaryToken>(root, "ParentTree"), "Nums").Data;
        var parentOf = new Dictionary<(int Page, int Number), IndirectReference>();
        for (var i = 0; i < parents.Count; i += 2)
        {
            var list = Resolved<ArrayToken>(parents[i + 1]).Data;
            for (var n = 0; n < list.Count; n++) parentOf[(((NumericToken)parents[i]).Int, n)] = ((IndirectReferenceToken)list[n]).Data;
        }
        var met = new HashSet<(int, int)>();
        Document = Walk((IndirectReferenceToken)root.Data["K"], Reference(catalog, "StructTreeRoot"), parentOf, met);
        Assert.Equal("Document", Document.Type);
        // every marked content is in the tree, and in exactly one place (ISO 32000-1, 14.7.4.4)
        var marked = texts.SelectMany((t, page) => t.Keys.Select(n => (page, n))).ToHashSet();
        Assert.Equal(marked.OrderBy(m => m), met.OrderBy(m => m));
        Assert.Equal(marked.OrderBy(m => m), parentOf.Keys.OrderBy(m => m));
        Tags();
    }

    // 7.11: an attached file has its names and a description.
    private void Files(DictionaryToken catalog)
    {
        if (!catalog.TryGet(NameToken.Create("AF"), out var files)) return;
        foreach (var file in Resolved<ArrayToken>(files).Data.Select(Resolved<DictionaryToken>))
            foreach (var key in (string[])["F", "UF", "Desc"]) Assert.True(file.TryGet(NameToken.Create(key), out _), key);
    }

    private void PageReferences(DictionaryToken catalog)
    {
        Each(Get<DictionaryToken>(catalog, "Pages"));

        void Each(DictionaryToken node)
        {
            foreach (var kid in Get<ArrayToken>(node, "Kids").Data)
                if (Get<NameToken>(Resolved<DictionaryToken>(kid), "Type").Data == "Pages") Each(Resolved<DictionaryToken>(kid));
                else pages.Add(((IndirectReferenceToken)kid).Data, pages.Count);
        }
    }

    // 7.1: all that is painted is of a tag or an artifact, never of both; and what is opened is closed, in a text object or outside of it (ISO 32000-1, 14.6.1).
    private Dictionary<int, string> Marked(int number)
    {
        var page = read.GetPage(number);
        var open = new Stack<bool>();
        var tagged = new List<int>();
        var texted = 0;
        foreach (var operation in page.Operations)
        {
            switch (operation)
            {
                case BeginText: texted = open.Count; break;
                case EndText: Assert.Equal(texted, open.Count); break;
                case BeginMarkedContent begun:
                    Assert.Equal("Artifact", begun.Name.Data);
                    Assert.Empty(open);
                    open.Push(false);
                    break;
                case BeginMarkedContentWithProperties begun:
                    Assert.Empty(open);
                    tagged.Add(((NumericToken)begun.Properties!.Data["MCID"]).Int);
                    open.Push(true);
                    break;
                case EndMarkedContent: open.Pop(); break;
            }
            if (Paints(operation)) Assert.True(open.Count == 1, $"page {number}: {operation} outside of marked content");
        }
        Assert.Empty(open);
        Assert.Equal(Enumerable.Range(0, tagged.Count), tagged);
        var words = tagged.ToDictionary(t => t, _ => "");
        foreach (var content in page.GetMarkedContents())
            if (!content.IsArtifact && content.MarkedContentIdentifier is >= 0 and var id) words[id] += string.Concat(content.Letters.Select(l => l.Value));
        return words;
    }

    private static bool Paints(IGraphicsStateOperation operation) =>
        operation is EndInlineImage || operation.Operator is "S" or "s" or "f" or "F" or "f*" or "B" or "B*" or "b" or "b*" or "Tj" or "TJ" or "'" or "\"" or "Do" or "sh";

    private Element Walk(IndirectReferenceToken at, IndirectReference within, Dictionary<(int, int), IndirectReference> parentOf, HashSet<(int, int)> met)
    {
        var dictionary = Resolved<DictionaryToken>(at);
        Assert.Equal(within, Reference(dictionary, "P"));
        var element = new Element(Get<NameToken>(dictionary, "S").Data, dictionary, [], []);
        if (!dictionary.TryGet(NameToken.Create("K"), out var kids)) return element;
        foreach (var kid in kids is ArrayToken { Data: var many } ? many : [kids])
            switch (kid)
            {
                case NumericToken number: Own(Reference(dictionary, "Pg"), number.Int); break;
                case DictionaryToken marked: Own(Reference(marked, "Pg"), Get<NumericToken>(marked, "MCID").Int); break;
                case IndirectReferenceToken part: element.Parts.Add(Walk(part, at.Data, parentOf, met)); break;
                default: Assert.Fail(kid.ToString()); break;
            }
        return element;

        void Own(IndirectReference page, int number)
        {
            var place = (pages[page], number);
            Assert.True(met.Add(place), $"{place} is in two places");
            Assert.Equal(at.Data, parentOf[place]);
            element.Own.Add(texts[place.Item1][number]);
        }
    }

    private void Tags()
    {
        var level = 0;
        foreach (var element in Document.All)
        {
            // 7.4.2: headings begin with the first level, and none is left out on the way down
            if (element.Type is ['H', var digit])
            {
                Assert.InRange(digit - '0', 1, level + 1);
                level = digit - '0';
                Assert.NotEmpty(element.Words.Trim());
            }
            // 7.3: a drawing has words in its place; ISO 32000-1, 14.8.5.4.3: and a box that holds it
            if (element.Type == "Figure")
            {
                Assert.True(element.String("Alt") is { Length: > 5 }, "a figure without words");
                var box = Get<ArrayToken>(Get<DictionaryToken>(element.Dictionary, "A"), "BBox").Data.Select(n => ((NumericToken)n).Double).ToArray();
                Assert.True(box[2] > box[0] && box[3] > box[1], string.Join(' ', box));
                Assert.Empty(element.Parts);
            }
            // 7.5 and ISO 32000-1, 14.8.4.3.4: tables of rows of cells, as many in each; the first names them, and says so
            if (element.Type == "Table")
            {
                Assert.NotEmpty(element.Parts);
                Assert.Empty(element.Own);
                foreach (var (i, row) in element.Parts.Index())
                {
                    Assert.Equal("TR", row.Type);
                    Assert.Equal(element.Parts[0].Parts.Count, row.Parts.Count);
                    Assert.All(row.Parts, cell => Assert.Equal(i == 0 ? "TH" : "TD", cell.Type));
                    Assert.Empty(row.Own);
                    if (i == 0)
                        Assert.All(row.Parts, cell => Assert.Equal("Column", Get<NameToken>(Get<DictionaryToken>(cell.Dictionary, "A"), "Scope").Data));
                }
            }
            else Assert.DoesNotContain(element.Parts, p => p.Type == "TR");
            if (element.Type != "TR") Assert.DoesNotContain(element.Parts, p => p.Type is "TD" or "TH");
            Assert.Contains(element.Type, (string[])["Document", "Sect", "H1", "H2", "H3", "P", "Figure", "Table", "TR", "TH", "TD"]);
        }
    }

    private T Get<T>(DictionaryToken dictionary, string key) where T : IToken =>
        dictionary.TryGet(NameToken.Create(key), out var token) ? Resolved<T>(token) : throw new Xunit.Sdk.XunitException($"no /{key} in {dictionary}");

    private static IndirectReference Reference(DictionaryToken dictionary, string key) => ((IndirectReferenceToken)dictionary.Data[key]).Data;

    private T Resolved<T>(IToken token) where T : IToken => (T)(token is IndirectReferenceToken reference ? read.Structure.GetObject(reference.Data).Data : token);

    public void Dispose() => read.Dispose();
}
