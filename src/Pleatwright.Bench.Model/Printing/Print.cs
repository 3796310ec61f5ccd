using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Plate;
using Pleatwright.Plate.Parts;
using Pleatwright.Plate.Preparation;
using Pleatwright.Plate.Teaching;
using Pleatwright.Plate.Writers;
using Pleatwright.Shelf;

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
}

/// <summary>What was printed as chosen: its pages, and what they were made of.</summary>
public sealed class Print
{
    private readonly PlateDocument? plate;
    private readonly ClassPack? pack;
    private readonly string suffix;

    private Print(string title, ImmutableArray<Sheet> sheets, string suffix, PlateDocument? plate = null, ClassPack? pack = null) =>
        (Title, Sheets, this.suffix, this.plate, this.pack) = (title, sheets, suffix, plate, pack);

    public string Title { get; }

    /// <summary>Its pages.</summary>
    public ImmutableArray<Sheet> Sheets { get; }

    /// <summary>Prints the piece on the table.</summary>
    /// <returns>The print, or null and why there is none, as a sentence.</returns>
    public static async Task<(Print? Print, string Fault)> MakeAsync(Desk desk, PrintChoice choice)
    {
        try
        {
            choice.Dear = null;
            var piece = choice.Chosen is { } size ? SizeTable.In(desk.Piece, size) : desk.Piece;
            if (choice.Sheet is null && !ReferenceEquals(choice.TakenOn, desk.Piece) && Outlay.Of(piece, Deed.Printed) is { } dear)
            {
                choice.Dear = desk.Piece;
                return (null, Sentences.Of(dear.Words));
            }
            var suffix = choice.Chosen is { } named ? $" {named.Name}" : "";
            if (choice.Sheet is { } kind)
                return (new Print(PreparationSheets.TitleOf(piece), PreparationSheets.Make(piece, kind, choice.Options), suffix + $" {kind.ToString().ToLowerInvariant()}"), "");
            var plate = await PlateAsync(desk, choice, piece);
            if (!choice.ForClass) return (new Print(plate.Title, plate.Sheets, suffix, plate), "");
            var pack = ClassPack.Make(plate, choice.Class, await desk.PlanAsync(ClassPack.OtherHand(plate)));
            return (new Print(plate.Title, pack.Sheets, suffix + " class", plate, pack), "");
        }
        catch (PlateTooLargeException e) { return (null, e.Message); }
        catch (ArgumentException e) { return (null, Sentences.Of(e.Why())); } // a cloth that the size cannot have
    }

    /// <summary>The formats that what is chosen may be taken away in.</summary>
    public static IEnumerable<PrintFormat> Formats(PrintChoice choice) =>
        choice.ForClass ? ClassFormat.All.Select(f => new PrintFormat(f.Ending, f.MediaType, f.Words, p => f.Write(p.pack!)))
        : choice.Sheet is null ? PlateFormat.All.Select(f => new PrintFormat(f.Ending, f.MediaType, f.Words, p => f.Write(p.plate!)))
        : PlateFormat.All.Where(f => f.WritePages is not null).Select(f => new PrintFormat(f.Ending, f.MediaType, f.Words, p => f.WritePages!(p.Title, p.Sheets)));

    /// <summary>The pictures that its pages lack, to be painted elsewhere.</summary>
    internal IEnumerable<StitchedPixels> Lacking() => [.. StitchedPrint.Lacking([.. Sheets.Select(s => s.Marks), .. pack is null ? [] : new[] { StudentPage.Picture(pack).Marks }])];

    /// <summary>Whether a page shows a picture.</summary>
    internal static bool Shows(Sheet sheet, StitchedPixels picture) => StitchedPrint.Shows(sheet, picture);

    /// <summary>The name of its file in a format: the title, the size and what it is.</summary>
    public string FileName(PrintFormat format) => PieceName.Nearest(Title + suffix) + format.Ending;

    private static async Task<PlateDocument> PlateAsync(Desk desk, PrintChoice choice, Piece piece)
    {
        await desk.SettleAsync();
        var hand = choice.Hand ?? desk.Piece.Working.Hand;
        if (hand == piece.Working.Hand && ReferenceEquals(piece, desk.Piece)) return Smocking.Plate(desk.Order, desk.Findings, choice.Options);
        var work = Smocking.Lay(piece with { Working = piece.Working with { Hand = hand } });
        return Smocking.Plate(await desk.PlanAsync(work), Smocking.Prove(work), choice.Options);
    }
}
