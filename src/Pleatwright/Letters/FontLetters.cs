using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Picture;
using Pleatwright.Thread;

namespace Pleatwright.Letters;

/// <summary>A letter of a font, drawn by whoever can read fonts.</summary>
/// <param name="Raster">Its picture: what is opaque is ink.</param>
/// <param name="BaseLine">Pixels from the picture's top down to its base line; may be past the picture.</param>
internal sealed record LetterPicture(Raster Raster, int BaseLine);

/// <summary>The letters of a font as pictures. Fonts are read outside the core: by the program with a library, in the browser by the browser.</summary>
internal interface ILetterPictures : IDisposable
{
    /// <summary>The font's name.</summary>
    string Name { get; }

    /// <summary>Pixels of a capital's height in the pictures, more than 0.</summary>
    double CapitalHeight { get; }

    /// <summary>The picture of a character; null where the font has none, or it shows nothing.</summary>
    LetterPicture? Of(string character);
}

/// <summary>
/// The letters of a font in cables, by the tracer: strokes narrower than can be stitched are first made as wide as three cables cover and as high as one row, and
/// the letter as much wider as its counters need to stay open; then its bricks are sampled and the tracer's energy lowered, with no run shorter than three cables.
/// </summary>
/// <param name="pictures">The font.</param>
/// <param name="gauge">The gauge it is for: letters keep their proportions on it.</param>
internal sealed class FontLetters(ILetterPictures pictures, Gauge gauge) : ILetterSource
{
    // Three cables lie over four pleats; a counter keeps two bare pleats and more. Our own choice.
    private const double LeastStroke = LetterShape.LeastRun + 1, LeastCounter = 3;
    private const double Hairline = 1.35; // rows: as thin as the row it lies across most is sure to show
    private const double Widest = 2; // how much wider than drawn a letter may become

    // A change costs little beside the letter's form, short runs too much to be had, hanging over about as much as half a cable out of place.
    private static readonly Weights Weights = new() { Change = 600, Ragged = 200, Short = Weights.Never, Lone = Weights.Never, Overhang = 1500 };

    private static readonly ImmutableArray<Floss> Black = [new Floss(new ThreadKey('a'), "ink", default, Floss.DefaultStrands)];

    private readonly Dictionary<(string, LetterSize), LetterShape?> known = [];

    /// <inheritdoc/>
    public string Name => pictures.Name;

    /// <summary>As many as the roman alphabet has: fewer rows do not hold a font's form.</summary>
    public int Zones => 3;

    /// <inheritdoc/>
    public double Spacing => 3.5;

    /// <inheritdoc/>
    public int Word => 6;

    /// <inheritdoc/>
    public LetterShape? Shape(string character, LetterSize size)
    {
        if (known.TryGetValue((character, size), out var shape)) return shape;
        return known[(character, size)] = pictures.Of(character) is { } picture ? Traced(character, picture, size) : null;
    }

    private LetterShape Traced(string character, LetterPicture picture, LetterSize size)
    {
        var row = pictures.CapitalHeight / size.Capitals(Zones); // pixels
        var pleat = row * (gauge.Pitch / gauge.CableRowHeight);
        var ink = Sturdy.Of(picture.Raster, pleat * LeastStroke, pleat * LeastCounter, row * Hairline, Widest);
        int above = Math.Max(1, (int)Math.Ceiling(picture.BaseLine / row)), below = Math.Max(0, (int)Math.Ceiling((ink.Height - picture.BaseLine) / row));
        var pleats = Math.Max(TracingOptions.LeastWidth, (int)Math.Ceiling(ink.Width / pleat)) + 3;
        if ((long)pleats * (above + below) > TracingOptions.MostCells) throw new ArgumentException($"“{character}” of {Name} would be {pleats} pleats wide and {above + below} cable rows high, which is too large");
        var raster = OnLattice(ink, pleats, above + below, pleat, row, (pleats * pleat - ink.Width) / 2, above * row - picture.BaseLine);
        var samples = BrickSampler.Sample(raster, pleats - 1, above + below, Phase.Even);
        var costs = new BrickCosts(samples, Black, Weights.Shape, mirror: false);
        var labels = costs.Cheapest();
        var sweeps = new Sweeps(new Energy(samples.Width, samples.Height, 2, costs.Values, Weights, Rows.Widest(labels, samples.Width)), false, labels);
        for (var i = 0; i < 100 && sweeps.Sweep(); i++) { }
        var rows = Enumerable.Range(0, samples.Height).Select(y => string.Concat(Enumerable.Range(0, samples.Width).Select(x => labels[y * samples.Width + x] > 0 ? LetterShape.Cable : LetterShape.Bare)));
        // One bare valley between two cables of a letter leaves no pleat bare: it is worked, too.
        return LetterShape.Of(1 - above, [.. rows.Select(r => r.Replace("#.#", "###").Replace("#.#", "###"))])
            ?? throw new ArgumentException($"“{character}” of {Name} is too small to be stitched {size.Capitals(Zones)} rows high; take higher letters");
    }

    // The picture with so many pixels to a pleat and a line, so that bricks and pixels share their edges.
    private static Raster OnLattice(Ink ink, int pleats, int rows, double pleat, double row, double left, double top)
    {
        const int Across = 8, Down = 12;
        int width = pleats * Across, height = rows * Down;
        var rgba = new byte[4 * width * height];
        for (var y = 0; y < height; y++)
            for (var x = 0; x < width; x++)
                if (ink.Has((int)Math.Floor((x + 0.5) * pleat / Across - left), (int)Math.Floor((y + 0.5) * row / Down - top))) rgba[4 * (y * width + x) + 3] = 255;
        return new Raster(width, height, rgba);
    }
}
