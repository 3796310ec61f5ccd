using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Parts;
using Pleatwright.Plate.Preparation;
using Pleatwright.Plate.Teaching;
using Pleatwright.Plate.Writers;

namespace Pleatwright.Bench.Model.Printing;

/// <summary>What may be printed.</summary>
/// <param name="Sheet">A sheet that prepares the cloth; null for the plate and the class pack.</param>
/// <param name="ForClass">Whether it is the class pack.</param>
/// <param name="Words">What it is called.</param>
public sealed record Printable(PreparationKind? Sheet, bool ForClass, string Words)
{
    /// <summary>Everything there is, in the order it is offered.</summary>
    public static ImmutableArray<Printable> All { get; } =
    [
        new(null, false, "The plate"), new(null, true, "Class pack, for a teacher"), new(PreparationKind.Card, false, "Pleating card, every number of the cloth"),
        new(PreparationKind.Dots, false, "Dot sheet, to gather by hand"), new(PreparationKind.Blocking, false, "Blocking guide, to pin the gathered cloth to"),
    ];
}

/// <summary>A format to take a print away in.</summary>
/// <param name="Ending">What its files end with: ".pdf".</param>
/// <param name="MediaType">Its media type.</param>
/// <param name="Words">What it serves for.</param>
/// <param name="Write">Writes a print in it.</param>
public sealed record PrintFormat(string Ending, string MediaType, string Words, Func<Print, byte[]> Write)
{
    /// <summary>Its name on a button: "PDF".</summary>
    public string Name => Ending[1..].ToUpperInvariant();

    /// <summary>The formats that a print may be taken away in.</summary>
    /// <param name="sheet">The sheet that prepares the cloth; null for the plate and the class pack.</param>
    /// <param name="forClass">Whether it is the class pack.</param>
    public static IEnumerable<PrintFormat> Of(PreparationKind? sheet, bool forClass) =>
        forClass ? ClassFormat.All.Select(f => new PrintFormat(f.Ending, f.MediaType, f.Words, p => f.Write(p.Pack!)))
        : sheet is null ? PlateFormat.All.Select(f => new PrintFormat(f.Ending, f.MediaType, f.Words, p => f.Write(p.Plate!)))
        : PlateFormat.All.Where(f => f.WritePages is not null).Select(f => new PrintFormat(f.Ending, f.MediaType, f.Words, p => f.WritePages!(p.Title, p.Sheets)));
}

/// <summary>What was printed: its pages, and what they were made of.</summary>
public sealed class Print
{
    private Print(string title, ImmutableArray<Sheet> sheets, PlateDocument? plate = null, ClassPack? pack = null) => (Title, Sheets, Plate, Pack) = (title, sheets, plate, pack);

    public string Title { get; }

    /// <summary>Its pages.</summary>
    public ImmutableArray<Sheet> Sheets { get; }

    internal PlateDocument? Plate { get; }

    internal ClassPack? Pack { get; }

    /// <summary>Prints what is asked for.</summary>
    /// <param name="ask">What is asked for.</param>
    /// <param name="work">Its piece, laid.</param>
    /// <returns>The print, or null and why there is none, as a sentence.</returns>
    internal static (Print? Print, string Fault) Make(PrintAsk ask, Work work)
    {
        try
        {
            if (ask.Sheet is { } kind) return (new Print(PreparationSheets.TitleOf(ask.Piece), PreparationSheets.Make(ask.Piece, kind, ask.Options)), "");
            var plate = Smocking.Plate(OrderText.Read(work, ask.Order) ?? Smocking.Plan(work), Smocking.Prove(work), ask.Options);
            if (ask.Class is not { } members) return (new Print(plate.Title, plate.Sheets, plate), "");
            var pack = ClassPack.Make(plate, members, OrderText.Read(ClassPack.OtherHand(plate), ask.OtherHand));
            return (new Print(plate.Title, pack.Sheets, plate, pack), "");
        }
        catch (PlateTooLargeException e) { return (null, e.Message); }
        catch (ArgumentException e) { return (null, Sentences.Of(e.Why())); }
    }

    /// <summary>The pictures that its pages lack, to be painted elsewhere.</summary>
    internal ImmutableArray<StitchedPixels> Lacking() => [.. StitchedPrint.Lacking([.. Sheets.Select(s => s.Marks), .. Pack is null ? [] : new[] { StudentPage.Picture(Pack).Marks }])];

    /// <summary>Whether a page shows a picture.</summary>
    internal static bool Shows(Sheet sheet, StitchedPixels picture) => StitchedPrint.Shows(sheet, picture);
}
