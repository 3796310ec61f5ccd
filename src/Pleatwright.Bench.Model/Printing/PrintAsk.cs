using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Preparation;
using Pleatwright.Plate.Teaching;
using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Printing;

/// <summary>All that a print is made of, so that it can be made elsewhere: the piece in its size and hand, its orders planned, and what is chosen.</summary>
/// <param name="Piece">The piece.</param>
/// <param name="Sheet">The sheet that prepares its cloth; null for the plate and the class pack.</param>
/// <param name="Class">Who the class pack is for; null when it is none.</param>
/// <param name="Options">How it is made.</param>
/// <param name="Order">The working order as text; empty for a sheet.</param>
/// <param name="OtherHand">The same for the other hand; empty where no class pack is made.</param>
/// <param name="Suffix">What its file's name has after the title.</param>
internal sealed record PrintAsk(Piece Piece, PreparationKind? Sheet, ClassOptions? Class, PlateOptions Options, string Order, string OtherHand, string Suffix)
{
    private const char Between = '\f'; // neither a piece file nor an order holds one

    /// <summary>Asks for what is chosen of the piece on the table, once its orders are planned.</summary>
    /// <returns>What to print, or null and why there is nothing, as a sentence.</returns>
    public static async Task<(PrintAsk? Ask, string Fault)> OfAsync(Desk desk, PrintChoice choice, CancellationToken cancel = default)
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
            if (choice.Sheet is { } kind) return (new(piece, kind, null, choice.Options, "", "", suffix + $" {kind.ToString().ToLowerInvariant()}"), "");
            await desk.SettleAsync().WaitAsync(cancel);
            var order = desk.Order;
            var hand = choice.Hand ?? desk.Piece.Working.Hand;
            if (hand != piece.Working.Hand || !ReferenceEquals(piece, desk.Piece))
            {
                piece = piece with { Working = piece.Working with { Hand = hand } };
                order = await desk.PlanAsync(Smocking.Lay(piece), cancel: cancel);
            }
            var other = choice.ForClass ? OrderText.Write(await desk.PlanAsync(Smocking.Lay(ClassPack.ForOtherHand(piece)), cancel: cancel)) : "";
            return (new(piece, null, choice.ForClass ? choice.Class : null, choice.Options, OrderText.Write(order), other, suffix + (choice.ForClass ? " class" : "")), "");
        }
        catch (ArgumentException e) { return (null, Sentences.Of(e.Why())); } // a cloth that the size cannot have
    }

    /// <summary>The formats that it may be taken away in.</summary>
    public IEnumerable<PrintFormat> Formats => PrintFormat.Of(Sheet, Class is not null);

    /// <summary>The name of its file in a format: the title, the size and what it is.</summary>
    public string FileName(PrintFormat format) => PieceName.Nearest(PreparationSheets.TitleOf(Piece) + Suffix) + format.Ending;

    /// <summary>As text, to be read where it is made.</summary>
    public string Write()
    {
        var (o, c) = (Options, Class);
        return string.Join(Between, Name(Sheet), c is null ? "" : string.Create(CultureInfo.InvariantCulture, $"{c.Students} {c.SpareKits} {c.ExtraLengths} {c.Sessions}"),
            $"{o.Paper.Name} {o.Units} {o.Levels} {o.Edition} {o.LargePrint} {o.TrueScaleChart} {o.CarriesPiece}", Suffix, Order, OtherHand, PieceWriter.Write(Piece));
    }

    /// <summary>Reads what <see cref="Write"/> wrote.</summary>
    public static PrintAsk Read(string text)
    {
        var part = text.Split(Between);
        var o = part[2].Split(' ');
        var options = new PlateOptions
        {
            Paper = Paper.Named(o[0])!, Units = Enum.Parse<UnitSystem>(o[1]), Levels = Enum.Parse<LevelWords>(o[2]), Edition = Enum.Parse<Plate.Edition>(o[3]),
            LargePrint = bool.Parse(o[4]), TrueScaleChart = bool.Parse(o[5]), CarriesPiece = bool.Parse(o[6]),
        };
        return new(Smocking.Read(part[6]), part[0].Length == 0 ? null : Enum.Parse<PreparationKind>(part[0]), Class(part[1]), options, part[4], part[5], part[3]);

        static ClassOptions? Class(string text)
        {
            if (text.Length == 0) return null;
            var n = text.Split(' ');
            return new ClassOptions(Number(n[0])) { SpareKits = Number(n[1]), ExtraLengths = Number(n[2]), Sessions = n[3].Length == 0 ? null : Number(n[3]) };
        }

        static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);
    }

    private static string Name(PreparationKind? sheet) => sheet?.ToString() ?? "";
}
