using System.Globalization;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;

namespace Pleatwright.Chart;

/// <summary>What is done with a piece, each dearer than the one before.</summary>
internal enum Deed
{
    /// <summary>It is laid out, proofread, ordered and shown.</summary>
    Opened,

    /// <summary>It is set on pages, step by step.</summary>
    Printed,
}

/// <summary>What makes a piece dear, and where in its file that stands.</summary>
/// <param name="Key">The key of the piece file.</param>
/// <param name="Index">Which entry of the list there, from 0; null where the key holds no list.</param>
/// <param name="Words">What it comes to, as a clause that begins small and ends without a full stop.</param>
internal readonly record struct Dear(string Key, int? Index, string Words);

/// <summary>
/// What a piece comes to at the most, reckoned from what it holds before any of it is laid, and what is too much to be begun without being asked for: a few lines of a
/// file may ask for millions of stitches. A piece within these limits is laid, proofread and ordered within a second or two and a quarter of a gigabyte natively.
/// </summary>
/// <remarks>All limits are our own choice, each at least ten times what a large garment takes; past the caps of <see cref="Work"/> nothing is laid at all.</remarks>
internal static class Outlay
{
    /// <summary>The most places for a cable that the cloth has.</summary>
    public const int MostPlaces = 4_000_000;

    /// <summary>The most cables that figures lay, bare ones and those laid over counted.</summary>
    public const int MostCables = 2_000_000;

    /// <summary>The most stretches of one thread, and half stitches: each becomes a step of the order, or more than one.</summary>
    public const int MostStretches = 40_000;

    /// <summary>The most stretches of one thread, and half stitches, of a piece that is set on pages.</summary>
    public const int MostStretchesPrinted = 1_200;

    /// <summary>The most single stitches of bands off the lattice.</summary>
    public const int MostBandStitches = 200_000;

    /// <summary>The most accents, copies counted.</summary>
    public const int MostAccents = 20_000;

    /// <summary>The largest file, in bytes.</summary>
    public const int MostBytes = 8 * 1024 * 1024;

    /// <summary>What makes a file dear, whatever stands in it; null where nothing does.</summary>
    /// <param name="bytes">Its size.</param>
    public static Dear? OfFile(long bytes) => bytes > MostBytes
        ? new Dear("", null, FormattableString.Invariant($"this file is {bytes / 1024 / 1024} MB; {MostBytes / 1024 / 1024} MB is what opens at once")) : null;

    /// <summary>What makes a piece dear, the first of it in its file; null where nothing does.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="deed">What is to be done with it.</param>
    /// <exception cref="ArgumentException">Its cloth cannot be made, or it names a figure or a stitch that there is not.</exception>
    public static Dear? Of(Piece piece, Deed deed = Deed.Opened)
    {
        var stretches = deed == Deed.Printed ? MostStretchesPrinted : MostStretches;
        foreach (var (key, index, sum) in Summed(piece))
        {
            var (found, what, most) = sum switch
            {
                { Places: > MostPlaces } => (sum.Places, "places for a cable", MostPlaces),
                { Cables: > MostCables } => (sum.Cables, "stitches", MostCables),
                _ when sum.Stretches > stretches => (sum.Stretches, "stretches of thread", stretches),
                { BandStitches: > MostBandStitches } => (sum.BandStitches, "stitches of bands", MostBandStitches),
                { Accents: > MostAccents } => (sum.Accents, "accents", MostAccents),
                _ => default,
            };
            if (what is not null)
                return new Dear(key, index, string.Create(CultureInfo.InvariantCulture,
                    $"the piece comes to {found:N0} {what}, where {most:N0} are {(deed == Deed.Printed ? "printed" : "opened")} at once; that may take many minutes and much memory"));
        }
        return null;
    }

    /// <summary>What a piece comes to in all, at the most.</summary>
    /// <inheritdoc cref="Of" path="/exception"/>
    public static Sum Reckon(Piece piece) => Summed(piece).Last().Sum;

    // Counted on through the file, entry by entry.
    private static IEnumerable<(string Key, int? Index, Sum Sum)> Summed(Piece piece)
    {
        var pleating = new PleatingPlan(piece.Cloth);
        var sum = new Sum((long)pleating.Valleys * pleating.CableRows, 0, 0, 0, 0);
        yield return ("cloth", null, sum);
        var figures = piece.Figures.ToDictionary(f => f.Name);
        var counted = new Dictionary<string, long>();
        foreach (var (i, placement) in piece.Placements.Index())
        {
            if (!figures.TryGetValue(placement.Figure, out var figure)) throw new ArgumentException($"No figure is called “{placement.Figure}”.");
            if (!counted.TryGetValue(figure.Name, out var stretches)) counted[figure.Name] = stretches = StretchesOf(figure);
            var copies = placement.Repeat.Count;
            sum = sum with { Cables = sum.Cables + (long)figure.Width * figure.Height * copies, Stretches = sum.Stretches + stretches * copies };
            yield return ("place", i, sum);
        }
        foreach (var (i, band) in piece.Bands.Index())
        {
            var stitch = BandStitch.Named(band.Stitch) ?? throw new ArgumentException($"No stitch is called “{band.Stitch}”.");
            sum = stitch.OnLattice ? sum with { Stretches = sum.Stretches + band.Rows } : sum with { BandStitches = sum.BandStitches + OfBand(stitch, band, pleating) };
            yield return ("bands", i, sum);
        }
        foreach (var (i, accent) in piece.Accents.Index())
            yield return ("accents", i, sum = sum with { Accents = sum.Accents + accent.Repeat.Count });
    }

    /// <summary>What a piece comes to.</summary>
    /// <param name="Places">Places for a cable that its cloth has.</param>
    /// <param name="Cables">Cables that its figures lay, bare ones and those laid over counted.</param>
    /// <param name="Stretches">Stretches of one thread, and half stitches.</param>
    /// <param name="BandStitches">Single stitches of bands off the lattice.</param>
    /// <param name="Accents">Accents, copies counted.</param>
    internal readonly record struct Sum(long Places, long Cables, long Stretches, long BandStitches, long Accents);

    /// <summary>Stitches that a band off the lattice is laid of, at the most.</summary>
    public static long OfBand(BandStitch stitch, Band band, PleatingPlan pleating) => 2L * pleating.Pleats * stitch.JourneysOf(band).Length * band.Rows;

    // Each has two ends, and where a figure is squared a half stitch may stand at either.
    private static long StretchesOf(Figure figure)
    {
        long count = 0;
        foreach (var row in figure.Rows)
        {
            var was = Figure.Bare;
            foreach (var c in row)
            {
                if (c != was && c != Figure.Bare) count++;
                was = c;
            }
        }
        return (figure.Square ? 3 * count : count) + figure.Halves.Length;
    }
}
