using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.ReadBack;

/// <summary>Holds what was read against the piece as it is laid out, stitch by stitch.</summary>
internal static class Comparing
{
    /// <summary>Everything in which the two differ, and what could not be read; nothing when the words give the very piece.</summary>
    public static List<string> Differences(Reading reading, Work work, Expected expected)
    {
        var faults = new List<string>(reading.Faults);
        if (reading.IsEmpty)
        {
            if (work.Runs.Length > 0 || work.Bands.Any(b => b.Stitches > 0) || expected.Back.Length > 0) faults.Add("Nothing is told of what there is to work.");
            return faults;
        }
        var plan = work.Pleating;
        Same(reading.Pleats == plan.Pleats, "the pleats");
        Same(reading.Centre == plan.CentreValley, "the centre valley");
        Same(reading.PerSpace == plan.Gauge.CableRowsPerSpace, "the cable rows in a space");
        Same(reading.RightHanded == (work.Piece.Working.Hand == Hand.Right), "the way of the hand");
        Cables(reading, work, faults);
        Stitches(reading, work, faults);
        Accents(reading, work, faults);
        Same(reading.Back.Select(Ends).Order().SequenceEqual(expected.Back.Select(Ends).Order()), "the rows of the back");
        Same(reading.Length is null || reading.Length == expected.Length, "how long a length is cut");
        Same(reading.Needlefuls == expected.Needlefuls, "the needlefuls of back and accents");
        var threads = expected.Threads.ToDictionary(t => t.Step);
        Same(reading.Threads.Count == threads.Count, "the steps");
        foreach (var told in reading.Threads)
            if (!threads.TryGetValue(told.Step, out var meant) || (told.RestOf, told.Longer) != (meant.RestOf, meant.Longer) || (told.Left.Length > 0 && told.Left != meant.Left))
                faults.Add($"The thread of step {told.Step} differs.");
        foreach (var (letter, name, strands) in reading.Named)
            Same(work.Piece.Threads.Any(t => t.Key.Letter == letter && t.Strands == strands && Plain(t.Name) == Plain(name)), $"thread {letter}");
        foreach (var (band, repeat, repeats, bare) in reading.Repeats)
            Same(work.Bands.Any(b => b.Stitch.Name == band && b.Fit.Repeat == repeat && b.Fit.Repeats == repeats && (bare is null || b.Fit.Spare / 2 == bare)), $"how {band} repeats");
        foreach (var told in reading.Parts)
            Same(work.Bands.Any(b => b.Stitch.Name == told.Band && (told.Times == 0 || b.Band.Rows == told.Times) && b.Passes.Any(p => (told.Times == 0 || (p.Row, p.Journey) == (told.Time - 1, told.Journey - 1))
                && b.HeightsOf(p) is var (high, low, slope) && slope == told.Slope && Math.Abs(high - told.High) < 1e-6 && Math.Abs(low - told.Low) < 1e-6) && (told.Times == 0 || b.Passes.Max(p => p.Journey) + 1 == told.Journeys)), $"the times {told.Band} is worked");
        Same(reading.BandRests.Count == 0 || reading.BandRests.All(r => expected.BandRests.GetValueOrDefault(r.Key) == r.Value), "the threads of bands");
        Same(reading.Unkept.All(u => work.Piece.Working.Places.Any(p => (p.Row.Index, p.Valley.Number, p.Place) == u)), "the places that cannot be kept");
        return faults;

        void Same(bool same, string what)
        {
            if (!same) faults.Add($"What is told of {what} differs from the piece.");
        }
    }

    // Rows right across are told once, whichever way each is worked.
    private static (int, int, int) Ends(ReadBackRow row) => (row.Row, Math.Min(row.From, row.To), Math.Max(row.From, row.To));

    private static void Cables(Reading reading, Work work, List<string> faults)
    {
        var told = new Dictionary<(int Row, int Pleat, bool Half, bool Up), char>();
        foreach (var c in reading.Cables)
            if (!told.TryAdd((c.Row, c.Pleat, c.Half, c.Up), c.Thread)) faults.Add($"Row {c.Row} has a stitch twice over pleat {c.Pleat}.");
        foreach (var run in work.Runs)
        {
            for (var v = run.From.Number; v <= run.To.Number; v++) Take(run, v, false, run.LevelAt(new Valley(v)));
            if (run.HalfLeft) Take(run, run.FirstPleat.Number, true, run.LevelAt(run.From).Opposite());
            if (run.HalfRight) Take(run, run.LastPleat.Number, true, run.LevelAt(run.To).Opposite());
        }
        if (told.Count > 0) faults.Add($"{told.Count} stitches are told that the chart has not, the first in row {told.Keys.First().Row} over pleat {told.Keys.First().Pleat}.");

        void Take(Run run, int pleat, bool half, Level level)
        {
            if (!told.Remove((run.Row.Index, pleat, half, level == Level.Up), out var thread) || thread != run.Thread.Letter)
                if (faults.Count < Most) faults.Add($"Row {run.Row.Index} of the chart differs over pleat {pleat}.");
        }
    }

    private const int Most = 25;

    private static void Stitches(Reading reading, Work work, List<string> faults)
    {
        var told = new Dictionary<(string, char, string, int, long, int, long, bool?), int>();
        foreach (var s in reading.Stitches)
        {
            var key = Key(s);
            told[key] = told.GetValueOrDefault(key) + 1;
        }
        var missing = 0;
        foreach (var band in work.Bands)
            foreach (var pass in band.Passes)
                foreach (var s in pass.Stitches)
                {
                    var kind = s.Kind switch { StitchKind.Over => "over", StitchKind.Catch => "catch", StitchKind.Bar => "bar", StitchKind.Slip => "slip", _ => "loop" };
                    var key = Key(new ReadStitch(band.Stitch.Name, band.Band.Thread.Letter, kind, s.From.Pleat.Number, s.From.Depth, s.To.Pleat.Number, s.To.Depth, s.IsLevel ? s.Level == Level.Up : null, pass.Turned));
                    if (told.GetValueOrDefault(key) is var times and > 0) told[key] = times - 1;
                    else missing++;
                }
        var more = told.Values.Sum();
        if (missing + more > 0) faults.Add($"The bands differ from the piece in {Math.Max(missing, more)} stitches.");
    }

    // A stitch is the same whichever end it is worked from, but for a loop. What keeps the thread on one side all along does so as held, and shows the other level on the
    // chart when it is worked back; slopes have their level from their way.
    private static (string, char, string, int, long, int, long, bool?) Key(ReadStitch s)
    {
        var above = s.Band is "outline" or "wheat" && s.Above is { } side ? side != s.Turned : s.Above;
        var (a, b) = ((s.FromPleat, Depth(s.FromDepth)), (s.ToPleat, Depth(s.ToDepth)));
        if (s.Kind != "loop" && a.CompareTo(b) > 0) (a, b) = (b, a);
        return (s.Band, s.Thread, s.Kind, a.Item1, a.Item2, b.Item1, b.Item2, above);
    }

    private static long Depth(double spaces) => (long)Math.Round(spaces * 10_000 + 0.1371); // off any fraction that a height can be

    private static void Accents(Reading reading, Work work, List<string> faults)
    {
        var told = reading.Accents.Select(a => (a.Name, a.Thread, a.Valley, Depth(a.Depth), a.Size, a.Upright)).Order().ToList();
        var meant = work.Accents.Where(a => a.IsOnCloth(work)).Select(a => (a.Accent.Name, a.Mark.Thread.Letter, a.Valley.Number, Depth(a.Depth), a.Size, a.Size > 0 && a.Mark.Upright)).Order().ToList();
        if (!told.SequenceEqual(meant)) faults.Add($"The accents differ from the piece: {string.Join(" ", told.Except(meant).Take(2))} is told, {string.Join(" ", meant.Except(told).Take(2))} is there.");
    }

    private static string Plain(string name) => string.Concat(name.Where(char.IsLetterOrDigit));
}
