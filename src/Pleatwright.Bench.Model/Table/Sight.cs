using Pleatwright.Chart;
using Pleatwright.Cloth;

namespace Pleatwright.Bench.Model.Table;

/// <summary>How the cloth lies in the view: nearness, and where the middle of its upper edge is.</summary>
/// <param name="Scale">Pixels a millimetre, above 0.</param>
/// <param name="X">Pixels from the view's left to the middle of the cloth.</param>
/// <param name="Y">Pixels from the view's top to the upper line of cable row 0.</param>
/// <param name="FromBack">Whether the wrong side is seen, left and right exchanged.</param>
public readonly record struct Sight(double Scale, double X, double Y, bool FromBack)
{
    private int Side => FromBack ? -1 : 1;

    /// <summary>The place on the lattice that is seen at a place in pixels; it may lie off the cloth. Null above or below the cable rows, or where a row has no width.</summary>
    public Spotted? At(PleatingPlan plan, double x, double y)
    {
        var line = (y - Y) / (plan.Gauge.LineHeight.Millimetres * Scale);
        if (!(line >= 0 && line < plan.CableRows * 2)) return null;
        var pitch = plan.PitchAt((int)line / 2).Millimetres;
        return pitch > 0 ? new Spotted(line, Side * (x - X) / (pitch * Scale) + plan.Pleats / 2.0) : null;
    }

    /// <summary>The pixels at which a place on the lattice is seen.</summary>
    public (double X, double Y) PlaceOf(PleatingPlan plan, Spotted at) => (
        X + Side * (at.Across - plan.Pleats / 2.0) * plan.PitchAt(at.Row.Index).Millimetres * Scale,
        Y + at.Line * plan.Gauge.LineHeight.Millimetres * Scale);

    /// <summary>The pixels at which another sight shows what this one shows at a place in pixels.</summary>
    public (double X, double Y) MovedTo(Sight other, double x, double y) => this == other ? (x, y) : (
        other.X + (x - X) / Scale * other.Scale * Side * other.Side,
        other.Y + (y - Y) / Scale * other.Scale);

    /// <summary>The pixels at which the middle of the brick of a cell is seen.</summary>
    public (double X, double Y) MiddleOf(Work work, Valley valley, CableRow row)
    {
        var line = Lattice.LineOf(row, Lattice.LevelAt(valley, row, work.PhaseAt(valley, row)));
        return PlaceOf(work.Pleating, new Spotted(line.Index + 0.5, valley.Number));
    }

    /// <summary>Pixels of the smaller side of a brick's half, about: what a pointer must not skip.</summary>
    public double Grain(PleatingPlan plan) => Scale * plan.Gauge.LineHeight.Millimetres;
}

/// <summary>A place on the lattice, between cells.</summary>
/// <param name="Line">Lines down from the upper edge of cable row 0, two a row.</param>
/// <param name="Across">Pleats across from the cloth's left edge; valley v lies at v.</param>
public readonly record struct Spotted(double Line, double Across)
{
    /// <summary>The cable row it lies in.</summary>
    public CableRow Row => new((int)Math.Floor(Line / 2));

    /// <summary>Whether it lies on pleats.</summary>
    public bool OnCloth(PleatingPlan plan) => Across >= 0 && Across < plan.Pleats;

    /// <summary>The valley whose brick is seen here: of the two that lie over this pleat in the row, the one on this line.</summary>
    public Valley Brick(Work work) => Brick(work, Row, (int)Math.Floor(Line) & 1);

    /// <summary>The valley whose brick lies here on a line of a row, 0 the upper, 1 the lower.</summary>
    internal Valley Brick(Work work, CableRow row, int line)
    {
        var pleat = (int)Math.Floor(Across);
        for (var v = Math.Max(1, pleat); v <= Math.Min(work.Valleys, pleat + 1); v++)
            if ((int)Lattice.LevelAt(new Valley(v), row, work.PhaseAt(new Valley(v), row)) == line) return new Valley(v);
        return new Valley(Math.Clamp(pleat, 1, work.Valleys));
    }
}
