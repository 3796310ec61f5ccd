using System.Collections.Immutable;
using System.IO.Compression;
using System.Text;
using Pleatwright.Plate.Writers;

namespace Pleatwright.Plate.Teaching;

/// <summary>A format a class pack is written in. To add one, write its writer and put it in <see cref="All"/>.</summary>
/// <param name="Ending">What its files end with, with the dot, lower case.</param>
/// <param name="MediaType">Its media type.</param>
/// <param name="Words">What it is good for, in a few words.</param>
/// <param name="Write">Writes a pack in it.</param>
internal sealed record ClassFormat(string Ending, string MediaType, string Words, Func<ClassPack, byte[]> Write)
{
    /// <summary>Whether pages are in it whose letters come from the embedded typefaces alone. See <see cref="Typeface.Lacking"/>.</summary>
    public bool IsEmbeddedAlone { get; private init; }

    /// <summary>Every format there is, in the order they are offered.</summary>
    public static ImmutableArray<ClassFormat> All { get; } =
    [
        new(".pdf", "application/pdf", "all pages, for printing", pack => PdfWriter.Write(pack.Title, pack.Sheets)) { IsEmbeddedAlone = true },
        new(".html", "text/html", "the students’ page, for their phones", pack => Encoding.UTF8.GetBytes(StudentPage.Write(pack))),
        new(".zip", "application/zip", "all of it: each part by itself, the page and the plate", Zip) { IsEmbeddedAlone = true },
    ];

    /// <summary>The format that a file's name asks for by its ending, or null.</summary>
    public static ClassFormat? OfFile(string name) =>
        All.FirstOrDefault(f => name.EndsWith(f.Ending, StringComparison.OrdinalIgnoreCase));

    // Entries carry one fixed time, so that the same pack always gives the same bytes.
    private static byte[] Zip(ClassPack pack)
    {
        using var file = new MemoryStream();
        using (var zip = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            zip.Comment = "Pleatwright";
            Add("teacher.pdf", PdfWriter.Write($"{pack.Plate.Title}, teacher’s sheet", pack.TeacherSheets));
            Add("kit-labels.pdf", PdfWriter.Write($"{pack.Plate.Title}, kit labels", pack.LabelSheets));
            Add("handout.pdf", PdfWriter.Write($"{pack.Plate.Title}, handout", pack.HandoutSheets));
            Add("plate.pdf", PlateFormat.Pdf.Write(pack.Plate));
            Add("student-page.html", Encoding.UTF8.GetBytes(StudentPage.Write(pack)));

            void Add(string name, byte[] content)
            {
                var entry = zip.CreateEntry(name);
                entry.LastWriteTime = new DateTimeOffset(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);
                using var stream = entry.Open();
                stream.Write(content);
            }
        }
        return file.ToArray();
    }
}
