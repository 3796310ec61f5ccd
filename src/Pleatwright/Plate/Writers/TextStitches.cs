using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Writers;

/// <summary>
/// Bands and accents as signs of the plain-text chart, one column a valley and one line a cable row. A sign shows how the
/// thread lies; which thread it is, the list beside the chart tells.
/// </summary>
internal sealed class TextStitches
{
    private const char Level = '-', Rising = '/', Falling = '\\', Caught = '=', OnSurface = '!', InFold = ':', Accent = '*';

    private readonly Dictionary<(int Valley, int Row), char> signs = [];
    private readonly HashSet<int> valleys = [];

    public TextStitches(Work work)
    {
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        foreach (var stitch in work.Bands.SelectMany(b => b.Passes).SelectMany(p => p.Stitches)) Put(stitch, perSpace);
        foreach (var accent in work.Accents.Where(a => a.IsOnCloth(work))) Set(accent.Valley.Number, Nearest(accent.Depth * perSpace), Accent);
    }

    /// <summary>Whether there are any.</summary>
    public bool Any => signs.Count > 0;

    /// <summary>What the signs mean that are used.</summary>
    public IEnumerable<string> Meanings
    {
        get
        {
            var used = signs.Values.ToHashSet();
            if (used.Contains(Level)) yield return $"{Level} is a level stitch of a band";
            if (used.Contains(Rising) || used.Contains(Falling)) yield return $"{Rising} and {Falling} are slanting ones, several in a column one long one";
            if (used.Contains(Caught)) yield return $"{Caught} is two pleats caught together";
            if (used.Contains(OnSurface)) yield return $"{OnSurface} is thread along a pleat on the surface";
            if (used.Contains(InFold)) yield return $"{InFold} is thread inside the fold of a pleat";
            if (used.Contains(Accent)) yield return $"{Accent} is an accent, over whatever lies there";
        }
    }

    /// <summary>The sign at a cell; null when there is none. An accent's lies over a cable, all others under it.</summary>
    public char? At(int valley, int row) => signs.TryGetValue((valley, row), out var sign) ? sign : null;

    /// <summary>Whether a sign lies over a cable.</summary>
    public static bool LiesOver(char sign) => sign == Accent;

    /// <summary>Whether any sign lies from one valley to another.</summary>
    public bool AnyIn(int from, int to) => valleys.Any(v => v >= from && v <= to);

    /// <summary>Each band and each accent in words.</summary>
    public static IEnumerable<string> Words(Work work)
    {
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        foreach (var band in work.Bands)
        {
            if (band.Passes.IsEmpty) continue;
            var flat = band.Lowest - band.Highest < Stitch.Hair;
            yield return $"{band.Stitch.Name} in {InThread(work, band.Band.Thread)}, {(flat ? "" : "from ")}{DepthWords.Of(band.Highest, perSpace)}"
                + (flat ? "" : $" to {DepthWords.Of(band.Lowest, perSpace)}")
                + $", pleats {band.Fit.FirstWorked(band.Band.Ends).Number} to {band.Fit.LastWorked(band.Band.Ends).Number}";
        }
        foreach (var marks in work.Accents.Where(a => a.IsOnCloth(work)).GroupBy(a => a.Index))
        {
            var laid = marks.First();
            var on = marks.Select(m => m.Valley.Number.ToString(CultureInfo.InvariantCulture)).ToArray();
            yield return $"{laid.Accent.Name} in {InThread(work, laid.Mark.Thread)}, {DepthWords.Of(laid.Depth, perSpace)}, "
                + (on.Length == 1 ? $"valley {on[0]}" : $"valleys {string.Join(", ", on[..^1])} and {on[^1]}");
        }
    }

    private static string InThread(Work work, ThreadKey key)
    {
        var name = Tidy.Line(work.Piece.Thread(key)!.Name);
        return name.Length > 0 ? $"{key} ({name})" : key.ToString();
    }

    private void Put(Stitch stitch, int perSpace)
    {
        double from = stitch.From.Depth * perSpace, to = stitch.To.Depth * perSpace;
        var leftFirst = stitch.From.Pleat.Number <= stitch.To.Pleat.Number;
        var sign = stitch.Kind switch
        {
            StitchKind.Catch => Caught,
            StitchKind.Bar => OnSurface,
            StitchKind.Slip => InFold,
            _ when stitch.IsLevel => Level,
            _ => to < from == leftFirst ? Rising : Falling,
        };
        var (top, bottom) = from < to ? (from, to) : (to, from);
        int first = (int)Math.Ceiling(top + 0.5 - Stitch.Hair), last = (int)Math.Floor(bottom - 0.5 + Stitch.Hair);
        if (first > last || stitch.Kind == StitchKind.Loop) first = last = Nearest((top + bottom) / 2);
        for (var row = first; row <= last; row++) Set(Math.Max(1, stitch.Valley.Number), row, sign);
    }

    private void Set(int valley, int row, char sign)
    {
        signs[(valley, row)] = sign;
        valleys.Add(valley);
    }

    private static int Nearest(double row) => (int)Math.Floor(row + 0.5 + Stitch.Hair);
}
