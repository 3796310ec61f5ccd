using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Proof.Rules;

/// <summary>Two bands whose threads lie over each other. The journeys of one band are not compared: some are meant to cross.</summary>
internal sealed class BandsCross : Rule
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
                        Place.RowAt(work, Math.Max(bands[i].Highest, bands[j].Highest)), Place.RowAt(work, Math.Min(bands[i].Lowest, bands[j].Lowest)),
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

    /// <summary>Where the thread of a band lies: over each valley from depth to depth, and along each pleat.</summary>
    private sealed class BandGround
    {
        private readonly double touch; // threads nearer than half a cable row lie over each other
        private readonly Dictionary<int, List<(double Left, double Right)>> over = [];
        private readonly Dictionary<int, List<(double Top, double Bottom)>> along = [];

        public BandGround(LaidBand band, int perSpace)
        {
            touch = 0.5 / perSpace - Stitch.Hair;
            foreach (var stitch in band.Passes.SelectMany(p => p.Stitches))
            {
                if (stitch.Kind == StitchKind.Slip) continue;
                var (a, b) = (stitch.From, stitch.To);
                if (a.Pleat == b.Pleat) Put(along, a.Pleat.Number, (Math.Min(a.Depth, b.Depth), Math.Max(a.Depth, b.Depth)));
                else Put(over, stitch.Valley.Number, a.Pleat.Number < b.Pleat.Number ? (a.Depth, b.Depth) : (b.Depth, a.Depth));
            }

            static void Put(Dictionary<int, List<(double, double)>> ground, int at, (double, double) depths)
            {
                if (!ground.TryGetValue(at, out var list)) ground[at] = list = [];
                list.Add(depths);
            }
        }

        /// <summary>The valleys from the first where the two lie over each other to the last, or null.</summary>
        public (Valley From, Valley To)? Meets(BandGround other)
        {
            int from = int.MaxValue, to = 0;
            foreach (var (valley, list) in over)
            {
                if (other.over.TryGetValue(valley, out var others) && list.Exists(a => others.Exists(b => Crosses(a, b)))) Found(valley);
                if (other.Bars(valley, list)) Found(valley);
            }
            foreach (var (valley, list) in other.over)
                if (Bars(valley, list)) Found(valley);
            foreach (var (pleat, list) in along)
                if (other.along.TryGetValue(pleat, out var others) && list.Exists(a => others.Exists(b => a.Top < b.Bottom + touch && b.Top < a.Bottom + touch))) Found(Math.Max(1, pleat - 1));
            return to == 0 ? null : (new Valley(from), new Valley(to));

            void Found(int valley) => (from, to) = (Math.Min(from, valley), Math.Max(to, valley));
        }

        private bool Crosses((double Left, double Right) a, (double Left, double Right) b)
        {
            double left = a.Left - b.Left, right = a.Right - b.Right;
            return left * right < 0 || Math.Min(Math.Abs(left), Math.Abs(right)) < touch;
        }

        // Whether thread along either pleat of a valley passes the bites there.
        private bool Bars(int valley, List<(double Left, double Right)> stitches) =>
            (along.TryGetValue(valley, out var left) && stitches.Exists(s => left.Exists(b => Passes(b, s.Left))))
            || (along.TryGetValue(valley + 1, out var right) && stitches.Exists(s => right.Exists(b => Passes(b, s.Right))));

        private bool Passes((double Top, double Bottom) bar, double depth) => depth > bar.Top - touch && depth < bar.Bottom + touch;
    }
}
