using System.Collections.Immutable;

namespace Pleatwright.Chart.Edit;

/// <summary>Small steps that the edits share.</summary>
internal static class Parts
{
    /// <summary>The figure with other rows and half stitches; its name, its squaring, what it says and where it came from stay.</summary>
    public static Figure WithRows(this Figure figure, ImmutableArray<string> rows, ImmutableArray<HalfMark> halves) =>
        new(figure.Name, rows) { Square = figure.Square, Letters = figure.Letters, Halves = halves, From = figure.From };

    /// <summary>The piece with the figure of the same name replaced; itself when it is the very same figure.</summary>
    public static Piece WithFigure(this Piece piece, Figure figure)
    {
        for (var i = 0; i < piece.Figures.Length; i++)
            if (piece.Figures[i].Name == figure.Name)
                return ReferenceEquals(piece.Figures[i], figure) ? piece : piece with { Figures = piece.Figures.SetItem(i, figure) };
        return piece with { Figures = piece.Figures.Add(figure) };
    }

    /// <summary>The piece with one placement replaced.</summary>
    public static Piece WithPlacement(this Piece piece, int index, Placement placement) =>
        piece.Placements[index] == placement ? piece : piece with { Placements = piece.Placements.SetItem(index, placement) };

    /// <summary>The piece without a figure and without its placements.</summary>
    public static Piece Without(this Piece piece, string figure) => piece with
    {
        Figures = piece.Figures.RemoveAll(f => f.Name == figure),
        Placements = piece.Placements.RemoveAll(p => p.Figure == figure),
    };

    /// <summary>A name no figure has yet: the stem, else the stem and a number.</summary>
    public static string FreeName(this Piece piece, string stem)
    {
        if (piece.Figure(stem) is null) return stem;
        var number = 2;
        while (piece.Figure($"{stem} {number}") is not null) number++;
        return $"{stem} {number}";
    }
}
