using System.Collections.Immutable;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Chart.Edit;

/// <summary>Small pieces of every shape, and what the laws ask of them.</summary>
internal static class AnyPiece
{
    private static readonly ImmutableArray<Floss> AllThreads =
        [new(new ThreadKey('a'), "one", new Colour(1, 2, 3), 4), new(new ThreadKey('b'), "two", new Colour(4, 5, 6), 4), new(new ThreadKey('c'), "three", new Colour(7, 8, 9), 3)];

    public static readonly Gen<ThreadKey> Thread = Gen.Int[0, 2].Select(i => new ThreadKey("abc"[i]));

    private static Gen<Figure> FigureOf(string name) =>
        from width in Gen.Int[1, 9]
        from height in Gen.Int[1, 7]
        from rows in Gen.Int[0, 4].Select(i => "abc.."[i]).Array[width].Select(r => new string(r)).Array[height]
        from square in Gen.Bool
        from halves in Gen.Select(Gen.Int[0, height - 1], Gen.Enum<RunEnd>(), (r, e) => new HalfMark(r, e)).Array[0, 2]
        select new Figure(name, [.. rows]) { Square = square, Halves = [.. halves.Distinct()] };

    private static Gen<Placement> PlacementOf(Figure figure, int pleats, int gatheringRows, bool once) =>
        from middle in Gen.Bool
        from centre in Gen.Int[1, pleats - 1]
        from gatheringRow in Gen.Int[1, gatheringRows]
        from figureRow in Gen.Int[0, figure.Height - 1]
        from mirror in Gen.Bool
        from count in Gen.Int[1, once ? 1 : 3]
        from every in Gen.Int[3, 12]
        select new Placement(figure.Name, middle ? Centre.Middle : Centre.At(new Valley(centre)), new GatheringRow(gatheringRow), figureRow)
        {
            Mirror = mirror,
            Repeat = count == 1 ? Repeat.Once : new Repeat(count, every),
        };

    private static Gen<Piece> Of(bool once, bool onePlacementAFigure) =>
        from pleats in Gen.Int[6, 20].Select(h => h * 2)
        from perSpace in Gen.Int[1, 6]
        from gatheringRows in Gen.Int[2, 5]
        from phase in Gen.Enum<Phase>()
        from figures in Gen.Select(FigureOf("x"), FigureOf("y"), FigureOf("z"), (x, y, z) => new[] { x, y, z })
        from used in Gen.Int[0, 3]
        from placements in Gen.Select(
            PlacementOf(figures[0], pleats, gatheringRows, once).Array[used > 0 ? 1 : 0, used > 0 ? onePlacementAFigure ? 1 : 2 : 0],
            PlacementOf(figures[1], pleats, gatheringRows, once).Array[used > 1 ? 1 : 0, used > 1 ? onePlacementAFigure ? 1 : 2 : 0],
            PlacementOf(figures[2], pleats, gatheringRows, once).Array[used > 2 ? 1 : 0, used > 2 ? 1 : 0],
            (x, y, z) => x.Concat(y).Concat(z).ToArray())
        from band in Gen.Bool
        select new Piece("any", new ClothPlan(new Panel(Length.FromMillimetres(2 * pleats)),
                new Gauge(Length.FromMillimetres(2), Length.FromMillimetres(6), Length.FromMillimetres(10), perSpace), gatheringRows),
            AllThreads, [.. figures.Take(used)], [.. placements])
        {
            Phase = phase,
            Bands = band ? [new Band("cable", new GatheringRow(1), new ThreadKey('a'))] : [],
        };

    /// <summary>Any piece, figures repeated and placed more than once.</summary>
    public static readonly Gen<Piece> Pieces = Of(once: false, onePlacementAFigure: false);

    /// <summary>A piece in which every figure lies on the cloth once.</summary>
    public static readonly Gen<Piece> Singles = Of(once: true, onePlacementAFigure: true);

    public static Gen<(Valley Valley, CableRow Row)> CellOf(Piece piece)
    {
        var plan = new PleatingPlan(piece.Cloth);
        return Gen.Select(Gen.Int[1, plan.Valleys], Gen.Int[0, plan.CableRows - 1], (v, y) => (new Valley(v), new CableRow(y)));
    }

    public static Gen<Area> AreaOf(Piece piece) =>
        Gen.Select(CellOf(piece), CellOf(piece), (a, b) => Area.Between(a.Valley, a.Row, b.Valley, b.Row));

    /// <summary>Every cell's thread, a line a row.</summary>
    public static string Shown(Piece piece)
    {
        var work = Work.Lay(piece);
        var area = Area.Between(new Valley(1), new CableRow(0), new Valley(work.Valleys), new CableRow(work.CableRows - 1));
        return string.Join('\n', Patch.Lift(work, area).Rows);
    }

    public static char At(string cloth, int valleys, Valley valley, CableRow row) => cloth[row.Index * (valleys + 1) + valley.Number - 1];

    /// <summary>What an edit leaves is a piece that can be written, read and laid out.</summary>
    public static Piece Sound(Piece piece)
    {
        var written = PieceWriter.Write(piece);
        Assert.Equal(written, PieceWriter.Write(PieceReader.Read(written)));
        Work.Lay(piece);
        return piece;
    }
}
