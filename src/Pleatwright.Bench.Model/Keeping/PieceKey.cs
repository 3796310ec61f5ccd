using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>
/// Which journal of this browser: of a piece by its name on a shelf, of a new piece that is on none yet, or one put aside. A second tab
/// on the same piece keeps one of its own.
/// </summary>
/// <param name="Place">The shelf.</param>
/// <param name="Piece">A piece's name; for a new piece a mark that cannot be a name.</param>
/// <param name="Tab">1 for the first tab on the piece, 2 for the second, and so on.</param>
public readonly record struct PieceKey(string Place, string Piece, int Tab = 1)
{
    private const char NewMark = '?', AsideMark = '*'; // neither can stand in a name

    /// <summary>The name on the shelf; null while the piece is on none.</summary>
    public PieceName? Name => PieceName.TryParse(Piece, out var name, out _) ? name : null;

    /// <summary>Whether it is of a piece that is on no shelf yet. Older benches had one such journal, with no mark.</summary>
    public bool IsNew => Piece.Length == 0 || Piece[0] == NewMark;

    /// <summary>The key of a piece on a shelf.</summary>
    public static PieceKey Of(string place, PieceName name, int tab = 1) => new(place, name.ToString(), tab);

    /// <summary>A key for a new piece.</summary>
    public static PieceKey OfNew(string place, string mark) => new(place, NewMark + mark);

    /// <summary>A key under which the journal of a piece that is no more makes way for another of its name.</summary>
    public PieceKey Aside(string mark) => new(Place, $"{AsideMark}{Piece} {mark}");

    /// <summary>Whether it was put aside.</summary>
    public bool IsAside => Piece.Length > 0 && Piece[0] == AsideMark;

    /// <summary>The key a text stands for; null when it is none.</summary>
    public static PieceKey? Parse(string text) => text.Split('\n') switch
    {
        [var place, var piece] => new PieceKey(place, piece),
        [var place, var piece, var tab] when int.TryParse(tab, out var number) => new PieceKey(place, piece, number),
        _ => null,
    };

    /// <summary>As the browser keeps it.</summary>
    public override string ToString() => Tab <= 1 ? $"{Place}\n{Piece}" : FormattableString.Invariant($"{Place}\n{Piece}\n{Tab}");
}
