namespace Pleatwright.Chart.Edit;

/// <summary>Names, copies and removes the figures of a piece.</summary>
internal static class Figures
{
    /// <summary>Renames a figure and every placement of it.</summary>
    /// <exception cref="ArgumentException">No such figure, an empty or overlong name, or one that another figure has.</exception>
    public static Piece Rename(Piece piece, string figure, string name)
    {
        var found = piece.Figure(figure) ?? throw new ArgumentException($"No figure is called “{figure}”.", nameof(figure));
        name = name.Trim();
        if (name.Length is 0 or > Figure.LongestName) throw new ArgumentException($"A figure's name has 1 to {Figure.LongestName} characters.", nameof(name));
        if (name == figure) return piece;
        if (piece.Figure(name) is not null) throw new ArgumentException($"There is another figure called “{name}”.", nameof(name));
        return piece with
        {
            Figures = piece.Figures.Replace(found, found with { Name = name }),
            Placements = [.. piece.Placements.Select(p => p.Figure == figure ? p with { Figure = name } : p)],
        };
    }

    /// <summary>Removes a figure and every placement of it.</summary>
    public static Piece Remove(Piece piece, string figure) => piece.Without(figure);

    /// <summary>Makes an area of the cloth a figure of its own, where it lies.</summary>
    /// <returns>The piece; the same when the area is bare.</returns>
    public static Piece FromArea(Work work, Area area)
    {
        var patch = Patch.Lift(work, area);
        if (patch.IsBare) return work.Piece;
        var piece = Clear.Cables(work.Piece, area.Cells());
        var name = piece.FreeName("figure");
        piece = piece with { Figures = piece.Figures.Add(new Figure(name, patch.Rows)) };
        var middle = piece.Figure(name)!.Middle;
        return Placing.Add(piece, name, new Valley(area.From.Number + middle), new CableRow(area.Top.Index + area.Height / 2));
    }
}
