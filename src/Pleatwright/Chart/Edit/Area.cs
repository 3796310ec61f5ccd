namespace Pleatwright.Chart.Edit;

/// <summary>A block of the lattice: whole valleys by whole cable rows.</summary>
public readonly record struct Area
{
    private Area(Valley from, Valley to, CableRow top, CableRow bottom) => (From, To, Top, Bottom) = (from, to, top, bottom);

    /// <summary>Its leftmost valley.</summary>
    public Valley From { get; }

    /// <summary>Its rightmost valley.</summary>
    public Valley To { get; }

    /// <summary>Its top cable row.</summary>
    public CableRow Top { get; }

    /// <summary>Its bottom cable row.</summary>
    public CableRow Bottom { get; }

    /// <summary>Width in valleys, at least 1.</summary>
    public int Width => To.Number - From.Number + 1;

    /// <summary>Height in cable rows, at least 1.</summary>
    public int Height => Bottom.Index - Top.Index + 1;

    /// <summary>The block between two opposite corners, whichever they are.</summary>
    public static Area Between(Valley a, CableRow ay, Valley b, CableRow by) => new(
        new Valley(Math.Min(a.Number, b.Number)), new Valley(Math.Max(a.Number, b.Number)),
        new CableRow(Math.Min(ay.Index, by.Index)), new CableRow(Math.Max(ay.Index, by.Index)));

    /// <summary>Whether a cell lies in it.</summary>
    public bool Contains(Valley valley, CableRow row) =>
        valley.Number >= From.Number && valley.Number <= To.Number && row.Index >= Top.Index && row.Index <= Bottom.Index;

    /// <summary>Every cell of it, row by row.</summary>
    public IEnumerable<(Valley Valley, CableRow Row)> Cells()
    {
        for (var y = Top.Index; y <= Bottom.Index; y++)
            for (var v = From.Number; v <= To.Number; v++) yield return (new Valley(v), new CableRow(y));
    }
}
