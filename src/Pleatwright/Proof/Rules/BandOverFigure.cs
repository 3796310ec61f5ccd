using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Proof.Rules;

/// <summary>Bands that run over cables: the needle would go through work already there.</summary>
internal sealed class BandOverFigure : Rule
{
    // Valleys between two hits that still belong to one place.
    private const int Near = 4;

    /// <inheritdoc/>
    public override string Name => "band-over-figure";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        if (work.Cables == 0) return;
        foreach (var laid in work.Bands)
            foreach (var place in Hits(work, laid))
                if (findings.Tells(Severity.Error, place))
                    findings.Add(Severity.Error, place,
                        $"The {Say.Band(work, laid)} runs over the cables in {Say.Where(work, place)}.",
                        "Move the band up or down, end it at each side of the figure and begin it anew beyond, or move the figure.");
    }

    /// <summary>Where a band, laid on this work or to be laid, runs over its cables.</summary>
    internal static List<Place> Hits(Work work, LaidBand laid)
    {
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        if (laid.Passes.IsEmpty || !AnyWorked(work, (int)Math.Floor(laid.Highest * perSpace) - 1, (int)Math.Ceiling(laid.Lowest * perSpace) + 1)) return [];
        var hits = new Place?[work.Pleating.Pleats + 1];
        foreach (var pass in laid.Passes)
            foreach (var shape in StitchDrawing.Shapes(pass, perSpace))
            {
                if (shape.Kind == ShapeKind.Hidden) continue;
                foreach (var (pleat, line) in Ground(shape))
                {
                    if (!IsCovered(work, pleat, line)) continue;
                    var place = Place.In(new CableRow(line / 2), new Valley(pleat), new Valley(pleat));
                    hits[pleat] = hits[pleat] is { } other ? other.And(place) : place;
                }
            }
        var places = new List<Place>();
        for (var pleat = 1; pleat < hits.Length; pleat++)
            if (hits[pleat] is not { } place) continue;
            else if (places.Count > 0 && pleat - places[^1].To.Number <= Near) places[^1] = places[^1].And(place);
            else places.Add(place);
        return places;
    }

    private static bool AnyWorked(Work work, int top, int bottom)
    {
        for (var y = top; y <= bottom; y++)
            if (!work.RunsIn(new CableRow(y)).IsEmpty) return true;
        return false;
    }

    /// <summary>The pleats and lines a shape lies on, pleat by pleat.</summary>
    private static IEnumerable<(int Pleat, int Line)> Ground(StitchShape shape)
    {
        var (left, right) = shape.From.Across <= shape.To.Across ? (shape.From, shape.To) : (shape.To, shape.From);
        int first = (int)Math.Floor(left.Across + 1e-6) + 1, last = Math.Max(first, (int)Math.Ceiling(right.Across - 1e-6));
        for (var p = first; p <= last; p++)
        {
            double from = At(Math.Max(left.Across, p - 1)), to = At(Math.Min(right.Across, p));
            if (right.Across - left.Across < 1e-6) (from, to) = (left.Down, right.Down);
            // what only grazes a line does not lie on it
            int top = (int)Math.Floor(Math.Min(from, to) + 0.25), bottom = (int)Math.Floor(Math.Max(from, to) - 0.25);
            for (var line = top; line <= Math.Max(top, bottom); line++) yield return (p, line);
        }

        double At(double across) => right.Across - left.Across < 1e-6 ? left.Down
            : left.Down + (right.Down - left.Down) * (across - left.Across) / (right.Across - left.Across);
    }

    private static bool IsCovered(Work work, int pleat, int line)
    {
        if (line < 0) return false;
        var row = new CableRow(line / 2);
        var level = (line & 1) == 0 ? Level.Up : Level.Down;
        return Lies(new Valley(pleat)) || Lies(new Valley(pleat - 1));

        bool Lies(Valley valley) => work.IsWorked(valley, row) && Lattice.LevelAt(valley, row, work.PhaseAt(valley, row)) == level;
    }
}
