using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Order;
using Pleatwright.Order.Telling;
using Pleatwright.Plate.Parts;
using Pleatwright.Shelf;

namespace Pleatwright.Plate;

/// <summary>
/// A plate ready to be written in any format: everything it says, and its pages. Formats that have pages take the
/// sheets; the others take the words.
/// </summary>
public sealed class PlateDocument
{
    private readonly Lazy<ImmutableArray<Sheet>> sheets;

    internal PlateDocument() => sheets = new(() => PrintedWords.Proving(this, Layout.Compose, made => PrintedWords.OfSheets(made)));

    /// <summary>The work it is made of.</summary>
    public required Work Work { get; init; }

    /// <summary>Its working order.</summary>
    public required WorkingOrder Order { get; init; }

    /// <summary>How it is made.</summary>
    public required PlateOptions Options { get; init; }

    /// <summary>Its title, on one line.</summary>
    public required string Title { get; init; }

    /// <summary>What the piece is, in one line.</summary>
    public required string Summary { get; init; }

    /// <summary>The figures that matter most.</summary>
    public required ImmutableArray<Fact> Facts { get; init; }

    /// <summary>What a published plate tells beside chart, key and directions.</summary>
    internal Published Published
    {
        get => field ??= Published.Of(Work, Order, Options.Units);
        init;
    }

    /// <summary>The threads.</summary>
    public required ImmutableArray<ThreadEntry> Threads { get; init; }

    /// <summary>The signs used on the chart.</summary>
    public required ImmutableArray<SignEntry> Signs { get; init; }

    /// <summary>What is needed beside the threads, and how the cloth is made ready and finished.</summary>
    public required ImmutableArray<MaterialGroup> Materials { get; init; }

    /// <summary>The working order in long words: what the learner's edition prints.</summary>
    public ImmutableArray<Direction> Directions
    {
        get => field.IsDefault ? field = [.. Pleatwright.Order.Directions.Write(Order, Options.Levels, Options.Units).Select(d => d with { Text = Tidy.Line(d.Text) })] : field;
        init;
    }

    /// <summary>The working order in a table, a line a run: what the plate's own edition prints.</summary>
    internal DirectionTable Table
    {
        get => field ??= Pleatwright.Order.Directions.Table(Order, Options.Levels, Options.Units, named: false) is var table ? table with { Lead = [.. table.Lead.Select(l => Tidy.Line(l))] } : table;
        init;
    }

    /// <summary>Whether there is anything to work.</summary>
    internal bool HasDirections => Options.Edition == Edition.Learner ? Directions.Length > 0 : !Table.IsEmpty;

    /// <summary>What the proof has against it, or null when it has nothing.</summary>
    public required Verdict? Verdict { get; init; }

    /// <summary>Whether it says of itself that its directions were read back: withdrawn where what is printed does not bear it out.</summary>
    internal bool IsProved { get; init; }

    /// <summary>The plate as it must be printed where its directions, as printed, do not give the very piece or squeeze a row.</summary>
    internal PlateDocument Doubted(Verdict? verdict) => new()
    {
        Work = Work, Order = Order, Options = Options, Title = Title, Summary = Summary, Facts = Facts, Threads = Threads, Signs = Signs, Materials = Materials,
        Directions = Directions, Table = Table, Verdict = verdict, Cautions = Cautions, Published = Published,
    };

    /// <summary>The cautions.</summary>
    public required string Cautions { get; init; }

    /// <summary>The file of the very piece that it shows, in the size and for the hand that it is made for; null where it is not to carry it.</summary>
    internal CarriedPiece? Carried => !Options.CarriesPiece ? null : field ??= CarriedPiece.Of(Work.Piece, (Options.Name ?? PieceName.Nearest(Title)).FileName);

    /// <summary>Its pages.</summary>
    /// <exception cref="PlateTooLargeException">It would come to more than <see cref="Layout.MostPages"/> pages.</exception>
    public ImmutableArray<Sheet> Sheets => sheets.Value;
}

/// <summary>A plate too large to be printed.</summary>
/// <param name="message">What is too large, and what would serve.</param>
public sealed class PlateTooLargeException(string message) : Exception(message);
