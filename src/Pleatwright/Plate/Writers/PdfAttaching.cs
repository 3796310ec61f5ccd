using System.Text;
using PdfSharp.Pdf;
using PdfSharp.Pdf.Filters;
using Pleatwright.Files;

namespace Pleatwright.Plate.Writers;

/// <summary>
/// Attaches a piece file to a PDF as the source it was made of: a file associated with the whole document (ISO 32000-2, 14.13; ISO 19005-3, 6.8), and in
/// the list of attached files that every reader shows. The library's own way stamps the time of day, and gives neither type nor relation.
/// </summary>
internal static class PdfAttaching
{
    /// <summary>Attaches it.</summary>
    public static void Attach(PdfDocument document, CarriedPiece carried)
    {
        var stream = Indirect(document, "/EmbeddedFile");
        stream.Elements.SetName("/Subtype", "/" + CarriedPiece.MediaType);
        stream.Elements.SetName("/Filter", "/FlateDecode");
        stream.CreateStream(Filtering.FlateDecode.Encode(carried.Utf8, document.Options.FlateEncodeMode));
        var told = new PdfDictionary(document);
        told.Elements.SetInteger("/Size", carried.Utf8.Length);
        stream.Elements["/Params"] = told;

        var name = new PdfString(carried.FileName, Ascii.IsValid(carried.FileName) ? PdfStringEncoding.PDFDocEncoding : PdfStringEncoding.Unicode);
        var specification = Indirect(document, "/Filespec");
        specification.Elements["/F"] = name;
        specification.Elements["/UF"] = name;
        specification.Elements.SetString("/Desc", "The piece that this plate was made of");
        specification.Elements.SetName("/AFRelationship", "/Source");
        var files = new PdfDictionary(document);
        files.Elements["/F"] = stream.Reference;
        files.Elements["/UF"] = stream.Reference;
        specification.Elements["/EF"] = files;

        var tree = new PdfDictionary(document);
        tree.Elements["/Names"] = new PdfArray(document, name, specification.Reference!);
        var names = new PdfDictionary(document);
        names.Elements["/EmbeddedFiles"] = tree;
        document.Internals.Catalog.Elements["/Names"] = names;
        document.Internals.Catalog.Elements["/AF"] = new PdfArray(document, specification.Reference!);
    }

    private static PdfDictionary Indirect(PdfDocument document, string type)
    {
        var made = new PdfDictionary(document);
        document.Internals.AddObject(made);
        made.Elements.SetName("/Type", type);
        return made;
    }
}
