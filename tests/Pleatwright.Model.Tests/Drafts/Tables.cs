using System.Collections.Immutable;
using Microsoft.Extensions.Time.Testing;
using Pleatwright.Bench.Model;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Edit;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Tests.Chart;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Drafts;

/// <summary>Tables to answer forms at: a full piece, an empty one, a ball and a bishop; and what a hand may write in a field.</summary>
internal static class Tables
{
    private static readonly Gauge Gauge = Gauge.FromPleatsPerInch(12, Length.FromInches(0.25), Length.FromInches(0.375), 5);

    public static Piece Empty { get; } = new("Nothing yet", new ClothPlan(new Panel(Length.FromInches(3)), Gauge, 4), [], [], []);

    public static Piece Full { get; } = new("Everything", new ClothPlan(new Panel(Length.FromInches(3)), Gauge, 5) { Pleater = new Pleater(6, 1) }, PieceGen.Threads,
        [new Figure("boat", ["..a..", ".aba.", "aaaaa"]) { Square = true }, new Figure("left over", ["bb"])],
        [
            new Placement("boat", Centre.Middle, new GatheringRow(3), 1) { Repeat = new Repeat(2, 9) },
            new Placement("boat", Centre.At(new Valley(6)), new GatheringRow(2), 0) { Mirror = true },
        ])
    {
        Credit = new Credit { Designer = " spaced as it is ", Copyright = "ours", Date = new DateOnly(2026, 5, 31), Photograph = "boats.jpg" },
        SizeName = "4 years ",
        Bands = [new Band("trellis", new GatheringRow(1), new ThreadKey('b')) { Rows = 2 }, new Band("cable", new GatheringRow(5), new ThreadKey('c')) { From = new Pleat(4), To = new Pleat(20) }],
        Accents = [new AccentMark("knot", Centre.Middle, new GatheringRow(2), new ThreadKey('a')), new AccentMark("bullion", Centre.At(new Valley(9)), new GatheringRow(4), new ThreadKey('c')) { Repeat = new Repeat(2, 7) }],
        Sizes = [new Size("larger", new Panel(Length.FromInches(4))), new Size("smaller", new Panel(Length.FromCentimetres(6))) { GatheringRows = 4 }],
        Swatches = [new Swatch(24, Length.FromInches(2)) { Cloth = Length.FromInches(6), Cables = 40, Thread = Length.FromCentimetres(60) }],
        Working = new Pleatwright.Chart.Working { BaseRow = new CableRow(9), Places = [new FixedPlace(new CableRow(9), new Valley(18), 1)] },
    };

    public static Piece Ball { get; } = new("Ball", new ClothPlan(new Ball(Length.FromInches(3)), Gauge, 5), PieceGen.Threads, [new Figure("star", ["a"])],
        [new Placement("star", Centre.Middle, new GatheringRow(3), 0)]) { Sizes = [new Size("larger", new Ball(Length.FromInches(4)))] };

    public static Piece Bishop { get; } = new("Bishop", new NewCloth(RoundKind.One, Length.FromInches(9)).Plan(), PieceGen.Threads, [new Figure("shell", [".aaa.", "aaaaa"])],
        [new Placement("shell", Centre.Hung("front", CountedFrom.Centre, 3), new GatheringRow(3), 1)])
    {
        Bands = [new Band("wave", new GatheringRow(2), new ThreadKey('a')), new Band("baby wave", new GatheringRow(4), new ThreadKey('b')) { Panel = "front" }],
        Accents = [new AccentMark("knot", Centre.Hung("left sleeve", CountedFrom.Left, 4), new GatheringRow(2), new ThreadKey('a'))],
        Sizes = [new Size("larger", new Round(Length.FromInches(10), Angle.FullTurn, [new RoundPanel("front", Length.FromInches(40))]))],
    };

    public static ImmutableArray<Piece> All { get; } = [Full, Empty, Ball, Bishop];

    /// <summary>What may stand in a field, right or wrong.</summary>
    public static ImmutableArray<string?> Texts { get; } =
    [
        null, "", " ", "1", "2", "3", "4", "5", "6", "9", "12", "20", "36", "39", "40", "41", "-1", "-40", "-41", "0", "61", "200", "999", "1000", "2500", "4999", "5000", "5001", "100000", "1000001",
        "2147483647", "-2147483648", "99999999999", "1.5", "0.25", "1e3", "1e300", "-1e300", "NaN", "Infinity", "½", "1 000", "one", "#b3202c", "#fff", "a", "b", "c", "d", "Z", "é", "😀",
        "trellis", "cable", "wave", "diamond", "feather", "knot", "bullion", "sail red", "boat", "larger", "  spaced  ", "line break", "\"quoted\"", "EUR", new('x', 59), new('x', 61), new('y', 101), new('z', 501),
    ];

    /// <summary>Lengths that a field may give, and some that none should.</summary>
    public static ImmutableArray<Length> Lengths { get; } =
    [
        default, Length.FromInches(0.25), Length.FromInches(0.375), Length.FromInches(3), Length.FromInches(18), Length.FromCentimetres(8), Length.FromCentimetres(45), Length.FromMetres(8),
        Length.FromMillimetres(0.001), Length.FromMillimetres(1e-11), Length.FromMillimetres(-3), Length.FromMetres(1), Length.FromMetres(999_999_999),
    ];

    public static double Number(string? text) => double.TryParse(text, System.Globalization.CultureInfo.InvariantCulture, out var n) ? n : 0;

    public static int Whole(string? text) => (int)Math.Clamp(Number(text), int.MinValue, int.MaxValue) is var n && double.IsNaN(Number(text)) ? 0 : n;

    /// <summary>A table with a piece on it.</summary>
    public static (Desk Desk, Needle Needle) Set(Piece piece)
    {
        One.Value ??= Bare();
        var table = One.Value.Value;
        table.Desk.Open(piece);
        return table;
    }

    // One a thread, cleared each time: to build one costs more than to answer a form at it.
    private static readonly ThreadLocal<(Desk Desk, Needle Needle)?> One = new();

    private static (Desk Desk, Needle Needle) Bare()
    {
        var desk = new Desk(new FakeTimeProvider());
        return (desk, new Needle(desk));
    }

    /// <summary>What somebody else does to the piece while a form stands open: undoing, redoing, taking away.</summary>
    public static void Meanwhile(Desk desk, int what)
    {
        switch (what)
        {
            case 0: desk.Undo(); break;
            case 1: desk.Redo(); break;
            case 2: desk.Edit("bands gone", p => p with { Bands = [] }); break;
            case 3: desk.Edit("accents gone", p => p with { Accents = [] }); break;
            case 4: desk.Edit("placements gone", p => p with { Placements = [] }); break;
            case 5 when !desk.Piece.Figures.IsEmpty: desk.Edit("figure gone", p => Figures.Remove(p, p.Figures[0].Name)); break;
            case 6 when desk.Piece.Threads.Length > 1: desk.Edit("thread gone", p => Threads.Remove(p, p.Threads[0].Key, null)); break;
            case 7: desk.Edit("other cloth", p => OtherCloth.To(p, p.Cloth with { GatheringRows = 2 })); break;
            case 8: desk.Open(Bishop); break;
            case 9: desk.Edit("a title", p => p with { Title = p.Title + "!" }); break;
        }
    }

    /// <summary>The number of things <see cref="Meanwhile"/> can do.</summary>
    public const int Others = 10;

    /// <summary>What was kept can be laid, and read back as it was written.</summary>
    public static void Holds(Piece piece)
    {
        _ = Work.Lay(piece);
        var text = PieceWriter.Write(piece);
        Assert.Equal(text, PieceWriter.Write(PieceReader.Read(System.Text.Encoding.UTF8.GetBytes(text))));
    }
}
