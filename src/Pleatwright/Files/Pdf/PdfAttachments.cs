using System.Text;

namespace Pleatwright.Files.Pdf;

/// <summary>The files attached to a whole PDF (ISO 32000-2, 7.11.4 and 14.13).</summary>
internal sealed class PdfAttachments
{
    private const int MostNodes = 1000;

    private readonly PdfFile file;
    private readonly Dictionary<PdfValue, string> names = []; // by where it stands, for a file is often told of twice

    private PdfAttachments(PdfFile file) => this.file = file;

    /// <summary>The files attached: the name of each, and where it stands.</summary>
    /// <exception cref="PdfFault">What tells of them is damaged.</exception>
    public static IReadOnlyCollection<KeyValuePair<PdfValue, string>> Of(PdfFile file)
    {
        if (file.Get(file.Trailer, "Root") is not PdfTable root) throw new PdfFault(0, "the PDF is damaged");
        var attachments = new PdfAttachments(file);
        if (file.Get(root, "Names") is PdfTable named && named.Entries.TryGetValue("EmbeddedFiles", out var tree)) attachments.Walk(tree);
        var associated = file.Get(root, "AF");
        foreach (var one in associated is PdfList list ? list.Items : associated is null ? [] : [associated]) attachments.Add(one, null);
        return attachments.names;
    }

    /// <summary>A file attached, as it was before.</summary>
    /// <exception cref="PdfFault">It is damaged, or larger.</exception>
    public static byte[] Read(PdfFile file, PdfValue standing, int most)
    {
        if (file.Get(standing) is not PdfStream stream) throw new PdfFault(0, "the PDF is damaged");
        var content = file.Unpack(stream, most);
        return file.Get(stream.Table, "Params") is PdfTable told && file.Get(told, "Size") is PdfNumber size && size.Value != content.Length
            ? throw new PdfFault(stream.From, "the PDF is damaged") : content;
    }

    private void Walk(PdfValue root)
    {
        var nodes = new Stack<PdfValue>([root]);
        for (var seen = 0; nodes.TryPop(out var next); seen++)
        {
            if (seen > MostNodes) throw new PdfFault(0, "more is attached to the PDF than to any plate");
            if (file.Get(next) is not PdfTable node) continue;
            if (file.Get(node, "Kids") is PdfList kids) foreach (var kid in kids.Items.Take(MostNodes)) nodes.Push(kid);
            if (file.Get(node, "Names") is not PdfList pairs) continue;
            foreach (var pair in pairs.Items.Chunk(2)) if (pair.Length == 2) Add(pair[1], pair[0]);
        }
    }

    private void Add(PdfValue specification, PdfValue? key)
    {
        if (names.Count > MostNodes) throw new PdfFault(0, "more is attached to the PDF than to any plate");
        if (file.Get(specification) is not PdfTable told || file.Get(told, "EF") is not PdfTable files) return;
        if (!files.Entries.TryGetValue("UF", out var standing) && !files.Entries.TryGetValue("F", out standing)) return;
        names.TryAdd(standing, TextOf((file.Get(told, "UF") ?? file.Get(told, "F") ?? (key is null ? null : file.Get(key))) as PdfString));
    }

    // PDFDocEncoding is Latin 1 but for signs that no name needs.
    private static string TextOf(PdfString? text) => text?.Bytes switch
    {
        null => "",
        [0xFE, 0xFF, .. var rest] => Encoding.BigEndianUnicode.GetString(rest),
        [0xEF, 0xBB, 0xBF, .. var rest] => Encoding.UTF8.GetString(rest),
        var plain => Encoding.Latin1.GetString(plain),
    };
}
