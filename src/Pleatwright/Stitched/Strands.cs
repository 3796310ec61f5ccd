using System.Numerics;
using Pleatwright.Thread;

namespace Pleatwright.Stitched;

/// <summary>
/// Lays the strands of stitches on the cloth: side by side as a ribbon as wide as <see cref="Coverage.RibbonWidth"/> says, thinner where the pleats lie
/// wider than they were gathered (<see cref="Coverage.AtPitch"/>), crowded where the lines lie closer than the ribbon is wide.
/// </summary>
internal sealed class Strands
{
    // Two plies make a turn of about so many diameters (from memory), and a strand pressed by its neighbours lies a little wider than it is round.
    internal const float TurnInDiameters = 4.4f;
    private const float Pressed = 1.1f;

    private readonly PleatField field;
    private readonly (float Diameter, int Count, float Ribbon)[] threads;
    private readonly float line;

    /// <summary>For a cloth.</summary>
    public Strands(PleatField field)
    {
        this.field = field;
        line = (float)field.LineHeight;
        threads = [.. field.Work.Piece.Threads.Select(t => ((float)t.Fineness.Diameter.Millimetres, t.Strands, (float)Coverage.RibbonWidth(t).Millimetres))];
    }

    /// <summary>How deep the valleys are, in millimetres, where pleats lie at the gathered pitch.</summary>
    public static float ValleyDepth(double pitch) => (float)Math.Clamp(pitch * 0.8, 0.2, 2.2);

    /// <summary>The corners of a box in the picture in which a stitch lies.</summary>
    public (Vector2 Least, Vector2 Most) Bounds(in LaidStitch stitch)
    {
        Vector2 a = field.Place(stitch.Across, stitch.Down), b = field.Place(stitch.ToAcross, stitch.ToDown);
        var thread = threads[stitch.Thread];
        var reach = new Vector2(Math.Max(thread.Ribbon, thread.Diameter * 2) * 0.75f + Math.Abs(stitch.Bow) * line * 1.3f + 0.3f * line);
        return (Vector2.Min(a, b) - reach, Vector2.Max(a, b) + reach);
    }

    /// <summary>Lays the strands of one stitch.</summary>
    /// <param name="stitch">The stitch.</param>
    /// <param name="into">Takes the strands.</param>
    /// <param name="whole">Whether it is seen from so far away that the strands are one.</param>
    public void Lay(in LaidStitch stitch, List<Strand> into, bool whole = false)
    {
        Vector2 a = field.Place(stitch.Across, stitch.Down), b = field.Place(stitch.ToAcross, stitch.ToDown);
        var along = (b - a) / 2;
        var mid = (a + b) / 2;
        // Across the stitch in the cloth, and how that is seen.
        float midAcross = (stitch.Across + stitch.ToAcross) / 2, midDown = (stitch.Down + stitch.ToDown) / 2;
        var pitch = (float)field.Pitch;
        var flat = new Vector2((stitch.ToAcross - stitch.Across) * pitch, (stitch.ToDown - stitch.Down) * line);
        var length = Math.Max(flat.Length(), 1e-4f);
        var normal = new Vector2(-flat.Y, flat.X) / length;
        const float step = 0.25f;
        var across = (field.Place(midAcross + normal.X * step / pitch, midDown + normal.Y * step / line) - field.Place(midAcross - normal.X * step / pitch, midDown - normal.Y * step / line)) / (2 * step);
        if (Math.Abs(along.X * across.Y - along.Y * across.X) < 1e-9f) return; // seen from its edge

        var (diameter, count, ribbon) = threads[stitch.Thread];
        int seedX = (int)(midAcross * 4), seedY = (int)(midDown * 8) + stitch.Thread;
        var thin = Math.Min(1, (float)(1 / Math.Max(1e-6, field.SpreadAt(midDown))));
        if (stitch.Round)
        {
            // A bundle as thick as its strands together.
            (diameter, count) = (diameter * MathF.Sqrt(count) * 1.05f, 1);
            ribbon = diameter;
        }
        diameter *= thin;
        ribbon *= thin;
        var room = stitch.Room * line;
        var squeeze = Math.Min(1, room / ribbon);
        var depth = ValleyDepth(field.Pitch);
        // A short stitch sinks less deep, and one along a pleat lies on its crown.
        var sunk = Math.Min(depth * 0.85f, length * 0.35f) * (0.35f + 0.65f * Math.Abs(flat.X) / length);
        var strand = new Strand
        {
            MidX = mid.X,
            MidY = mid.Y + Grain.At(seedX, seedY, 1) * 0.04f * line,
            AlongX = along.X * (1 + 0.012f * Grain.At(seedX, seedY, 2)),
            AlongY = along.Y + Grain.At(seedX, seedY, 3) * 0.055f * line,
            AcrossX = across.X,
            AcrossY = across.Y,
            Bow = stitch.Bow * line * (1 + 0.6f * Grain.At(seedX, seedY, 4)),
            HalfLength = length / 2,
            Turn = diameter * TurnInDiameters,
            Thread = stitch.Thread,
            Dip = stitch.Round ? diameter * 0.6f : sunk + diameter * 0.4f,
        };
        if (stitch.Round) strand.Offset = strand.Bow * (2f / 3); // a loop swells from where its ends are
        var shade = 1 + 0.05f * Grain.At(seedX, seedY, 5);
        var loose = 0.14f * diameter * Grain.At(seedX, seedY, 13); // no stitch is drawn up quite as the last
        if (whole)
        {
            into.Add(strand with { HalfWidth = ribbon * squeeze / 2, Apex = diameter * (1.2f + stitch.Layer) + loose, Shade = shade * 0.93f, Stands = count, Casts = 1 });
            return;
        }
        // What lies beneath the strands closes the chinks between them.
        if (count > 1) into.Add(strand with { AlongX = strand.AlongX * 0.985f, AlongY = strand.AlongY * 0.985f, HalfWidth = ribbon * squeeze / 2, Apex = diameter * (0.7f + stitch.Layer), Shade = 0.7f, Stands = count, Casts = 1 });
        for (var i = 0; i < count; i++)
        {
            var place = count == 1 ? 0 : (i - (count - 1) / 2f) * diameter * squeeze * (count - Pressed) / (count - 1); // pressed wider, but no further out
            var edge = count == 1 ? 0 : place / (ribbon * squeeze / 2);
            // Crowded strands lie in two layers, and a bundle is fuller in its middle: it is bedded on what it butts.
            var lifted = (1 - squeeze) * ((i & 1) == 0 ? -0.6f : 0.9f);
            var ends = 1 - 0.09f * edge * edge * edge * edge + 0.02f * Grain.At(seedX, seedY + 100 * i, 12);
            into.Add(strand with
            {
                AlongX = strand.AlongX * ends,
                AlongY = strand.AlongY * ends,
                Offset = strand.Offset + place + 0.12f * diameter * Grain.At(seedX, seedY + 100 * i, 6),
                Lean = 0.24f * diameter * Grain.At(seedX, seedY + 100 * i, 7),
                HalfWidth = diameter / 2 * Pressed * (1 + 0.06f * Grain.At(seedX, seedY + 100 * i, 8)),
                Apex = diameter * (1.25f + stitch.Layer + lifted - 0.5f * edge * edge + 0.17f * Grain.At(seedX, seedY + 100 * i, 9)) + loose,
                Phase = 0.5f + 0.5f * Grain.At(seedX, seedY + 100 * i, 10),
                Shade = shade * (1 + 0.06f * Grain.At(seedX, seedY + 100 * i, 11)),
                Stands = 1,
                Casts = count == 1 ? 1 : 0,
            });
        }
    }

    private const int MostHairs = 4;

    /// <summary>Lays the fibres that stand off a stitch, to be seen from close by; they lie over everything.</summary>
    /// <param name="stitch">The stitch.</param>
    /// <param name="into">Takes them, each a strand as fine as a fibre.</param>
    public void LayHairs(in LaidStitch stitch, List<Strand> into)
    {
        var from = into.Count;
        Lay(stitch, into, whole: true);
        if (into.Count == from) return;
        var whole = into[from];
        into.RemoveAt(from);
        int seedX = (int)((stitch.Across + stitch.ToAcross) * 2), seedY = (int)((stitch.Down + stitch.ToDown) * 4) + stitch.Thread;
        for (var i = 0; i < MostHairs; i++)
        {
            float Chance(int purpose) => Grain.At(seedX, seedY + 100 * i, purpose);
            float share = 0.30f + 0.16f * Chance(61), aside = 0.62f * Chance(62), at = whole.Offset + whole.HalfWidth * 1.05f * Chance(63);
            into.Add(whole with
            {
                MidX = whole.MidX + whole.AlongX * aside,
                MidY = whole.MidY + whole.AlongY * aside,
                AlongX = whole.AlongX * share,
                AlongY = whole.AlongY * share,
                HalfLength = whole.HalfLength * share,
                Offset = at,
                Lean = whole.HalfWidth * 0.55f * Chance(64),
                Bow = whole.HalfWidth * 0.6f * Chance(65),
                HalfWidth = Fibre / 2,
                Apex = whole.Apex + 0.05f + 0.05f * Chance(66) - whole.Dip * Strand.Sink(aside),
                Dip = 0.08f,
                Shade = 1.15f + 0.25f * Chance(67),
                Stands = 1,
                Casts = 0,
            });
        }
    }

    private const float Fibre = 0.018f; // millimetres: a fine cotton fibre, from memory
}
