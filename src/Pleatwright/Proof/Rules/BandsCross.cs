using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Proof.Rules;

/// <summary>Two bands whose threads lie over each other. The journeys of one band are not compared: some are meant to cross.</summary>
public sealed class BandsCross : Rule
{
    // However many bands are heaped on one row, the proof stays quick: the first places tell enough.
    private const int MostPairs = 2000;

    /// <inheritdoc/>
    public override string Name => "bands-cross";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        if (work.Bands.Length < 2) return;
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        var line = 0.5 / perSpace;
        var bands = work.Bands.Where(b => !b.Passes.IsEmpty).OrderBy(b => b.Highest).ToArray();
        var grounds = new Dictionary<int, BandGround>();
        var pairs = 0;
        for (var i = 0; i < bands.Length; i++)
            for (var j = i + 1; j < bands.Length && bands[j].Highest < bands[i].Lowest + line - Stitch.Hair && pairs < MostPairs; j++, pairs++)
                if (Of(bands[i]).Meets(Of(bands[j])) is { } valleys)
                {
                    var place = new Place(
                        BandOffCloth.RowAt(work, Math.Max(bands[i].Highest, bands[j].Highest)), BandOffCloth.RowAt(work, Math.Min(bands[i].Lowest, bands[j].Lowest)),
                        valleys.From, valleys.To).On(work);
                    if (place.Bottom.Index < place.Top.Index) place = place with { Bottom = place.Top };
                    if (findings.Tells(Severity.Warning, place))
                        findings.Add(Severity.Warning, place,
                            $"The {Say.Band(work, bands[i])} and the {Say.Band(work, bands[j])} lie over each other from valley {valleys.From.Number} to valley {valleys.To.Number}.",
                            "Move one of them by its offset, or by a cable row with “drop”, unless they are meant to cross.");
                }

        BandGround Of(LaidBand band)
        {
            if (!grounds.TryGetValue(band.Index, out var ground)) grounds[band.Index] = ground = new BandGround(band, perSpace);
            return ground;
        }
    }

    /// <summary>The shapes of a band, valley by valley.</summary>
    private sealed class BandGround
    {
        // Threads nearer than this many lines lie over each other.
        private const double Touch = 0.6;

        private readonly Dictionary<int, List<StitchShape>> shapes = [];

        public BandGround(LaidBand band, int perSpace)
        {
            foreach (var pass in band.Passes)
                foreach (var shape in StitchDrawing.Shapes(pass, perSpace))
                {
                    if (shape.Kind == ShapeKind.Hidden) continue;
                    var at = (int)Math.Floor((shape.From.Across + shape.To.Across) / 2);
                    if (!shapes.TryGetValue(at, out var list)) shapes[at] = list = [];
                    list.Add(shape);
                }
        }

        public (Valley From, Valley To)? Meets(BandGround other)
        {
            int from = int.MaxValue, to = 0;
            foreach (var (at, list) in shapes)
                for (var near = at - 1; near <= at + 1; near++)
                {
                    if (!other.shapes.TryGetValue(near, out var others)) continue;
                    foreach (var a in list)
                        foreach (var b in others)
                            if (LieOver(a, b)) (from, to) = (Math.Min(from, at), Math.Max(to, at));
                }
            return to == 0 ? null : (new Valley(Math.Max(1, from)), new Valley(to));
        }

        private static bool LieOver(StitchShape a, StitchShape b)
        {
            double left = Math.Max(Left(a), Left(b)), right = Math.Min(Right(a), Right(b));
            if (right - left < 0.05) return false;
            var (aLeft, aRight) = Across(a, left, right);
            var (bLeft, bRight) = Across(b, left, right);
            return (aLeft - bLeft) * (aRight - bRight) <= 0 || Math.Min(Math.Abs(aLeft - bLeft), Math.Abs(aRight - bRight)) < Touch;
        }

        private static double Left(StitchShape s) => Math.Min(s.From.Across, s.To.Across) - (IsUpright(s) ? 0.2 : 0);

        private static double Right(StitchShape s) => Math.Max(s.From.Across, s.To.Across) + (IsUpright(s) ? 0.2 : 0);

        private static bool IsUpright(StitchShape s) => Math.Abs(s.From.Across - s.To.Across) < 1e-6;

        // How far down a shape lies at two places across; of an upright one, its two ends.
        private static (double, double) Across(StitchShape s, double left, double right)
        {
            if (IsUpright(s)) return (s.From.Down, s.To.Down);
            var slope = (s.To.Down - s.From.Down) / (s.To.Across - s.From.Across);
            return (s.From.Down + (left - s.From.Across) * slope, s.From.Down + (right - s.From.Across) * slope);
        }
    }
}
