using System.Numerics;

namespace Pleatwright.Stitched;

/// <summary>
/// A stitched piece as it is worked on: every cable row lies straight across at its own pitch, whatever form the cloth has in the end,
/// and no pleat stands far beside where the hand points at it. Places are in
/// millimetres to the right of the middle of the cloth, and below the upper edge of cable row 0.
/// </summary>
internal sealed class OnTable
{
    private const float Step = 0.25f; // pleats or lines, over which a map is taken to be even

    private readonly PleatField field;
    private readonly Strands strands;
    private readonly List<Strand> taken = [];
    private readonly float middle;
    private readonly bool turns;
    private readonly float[] pitches;

    /// <summary>For a piece.</summary>
    public OnTable(StitchedPiece piece)
    {
        field = piece.Field;
        strands = piece.Strands;
        middle = field.Pleats / 2f;
        turns = field.Surface.Backdrop is not null;
        var rows = Math.Max(1, piece.Work.CableRows);
        pitches = new float[rows];
        for (var row = 0; row < rows; row++) pitches[row] = (float)piece.Work.Pleating.PitchAt(row).Millimetres;
    }

    /// <summary>How wide a pleat lies there, in millimetres.</summary>
    public float PitchAt(float down) => pitches[Math.Clamp((int)MathF.Floor(down / 2), 0, pitches.Length - 1)];

    // By how many pleats a pleat may stand beside its place where it is worked on: more, and the hand would point at one and take its neighbour.
    private const float MostAside = 0.3f;

    private static float Kept(float shift) => MostAside * MathF.Tanh(shift / MostAside);

    /// <summary>Where a place on the cloth lies.</summary>
    public Vector2 Place(float across, float down) => new((across + Kept(field.ShiftAt(across, down)) - middle) * PitchAt(down), (float)(down * field.LineHeight));

    /// <summary>Where a node of the cloth lies; see <see cref="PleatField.Columns"/> and <see cref="PleatField.Rows"/>.</summary>
    public Vector2 Node(int column, int row)
    {
        var down = LineOf(row);
        return new((column + Kept(field.Shift[row * field.Columns + column]) - middle) * PitchAt(down), (float)(down * field.LineHeight));
    }

    /// <summary>The line on which a row of nodes lies.</summary>
    public float LineOf(int row) => field.Top + row * 2 * field.RowsApart;

    /// <summary>Lays the strands of one stitch; see <see cref="Strands.Lay"/>.</summary>
    public void Lay(in LaidStitch stitch, List<Strand> into, bool whole)
    {
        float across = (stitch.Across + stitch.ToAcross) / 2, down = (stitch.Down + stitch.ToDown) / 2;
        // Of a ball only the front is seen, and on the table all of it: what lies anywhere is laid as in the middle, and set down in its place.
        var by = turns ? MathF.Round(middle - across) : 0;
        var laid = stitch with { Across = stitch.Across + by, ToAcross = stitch.ToAcross + by };
        taken.Clear();
        strands.Lay(laid, taken, whole);
        var from = Map.Of(field.Place, across + by, down);
        var to = Map.Of(Place, across, down);
        foreach (ref readonly var s in System.Runtime.InteropServices.CollectionsMarshal.AsSpan(taken))
        {
            var mid = to.Middle + to.Of(from.Back(new Vector2(s.MidX, s.MidY) - from.Middle));
            Vector2 along = to.Of(from.Back(new Vector2(s.AlongX, s.AlongY))), over = to.Of(from.Back(new Vector2(s.AcrossX, s.AcrossY)));
            into.Add(s with { MidX = mid.X, MidY = mid.Y, AlongX = along.X, AlongY = along.Y, AcrossX = over.X, AcrossY = over.Y });
        }
    }

    // How places on the cloth about one of them lie: evenly, so near by.
    private readonly record struct Map(Vector2 Middle, Vector2 Right, Vector2 Down)
    {
        public static Map Of(Func<float, float, Vector2> place, float across, float down) =>
            new(place(across, down), (place(across + Step, down) - place(across - Step, down)) / (2 * Step), (place(across, down + Step) - place(across, down - Step)) / (2 * Step));

        public Vector2 Of(Vector2 cloth) => Right * cloth.X + Down * cloth.Y;

        public Vector2 Back(Vector2 lies)
        {
            var turn = Right.X * Down.Y - Right.Y * Down.X;
            return Math.Abs(turn) < 1e-12f ? default : new Vector2(lies.X * Down.Y - lies.Y * Down.X, Right.X * lies.Y - Right.Y * lies.X) / turn;
        }
    }
}
