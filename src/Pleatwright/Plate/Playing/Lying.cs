using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using Pleatwright.Chart.Stitches;
using Pleatwright.Moves;
using Pleatwright.Picture;
using Pleatwright.Stitched;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Playing;

/// <summary>
/// What lies under the needle in some moves that follow each other and are seen from one side, painted as the stitched picture is: once as it lies before them and once as it lies after.
/// What a move has made is then shown by taking its place from the second picture (<see cref="Film.Covers"/>), so two pictures do for all of them.
/// </summary>
internal sealed record Lying
{
    /// <summary>The first of its moves.</summary>
    public required int First { get; init; }

    /// <summary>The last.</summary>
    public required int Last { get; init; }

    /// <summary>What is painted, in millimetres as seen.</summary>
    public required Box Box { get; init; }

    /// <summary>Where each valley lies, in millimetres from the left of the first.</summary>
    public required ImmutableArray<double> Valleys { get; init; }

    /// <summary>Where the first valley lies, in millimetres as seen.</summary>
    public required double Left { get; init; }

    /// <summary>What lies there first, in pleats from the first valley and lines from the top of the box.</summary>
    public required ImmutableArray<(StitchShape Shape, int Thread)> Before { get; init; }

    /// <summary>What its moves lay.</summary>
    public required ImmutableArray<(StitchShape Shape, int Thread)> After { get; init; }

    private double Pitch { get; init; }

    private double Line { get; init; }

    private Colour Cloth { get; init; }

    private bool Sideways { get; init; }

    private ImmutableArray<FilmThread> Threads { get; init; }

    // Beside what is seen, so that nothing ends in sight.
    private const double Beside = 0.6; // pitches

    /// <summary>All of a film, part by part.</summary>
    /// <param name="film">The film.</param>
    /// <param name="aspect">How high the picture of it is over how wide, at the most.</param>
    /// <param name="widest">Pitches that a part is wide at the most, where its moves allow.</param>
    public static ImmutableArray<Lying> Of(Film film, double aspect, double widest)
    {
        if (film.Threads.Length >= CloseUp.MostThreads) return [];
        var parts = ImmutableArray.CreateBuilder<Lying>();
        for (var first = 0; first < film.Takes.Length;)
        {
            var (box, last) = (Sight(film, first, aspect), first);
            while (last + 1 < film.Takes.Length && film.Takes[last + 1].Seen == film.Takes[first].Seen && film.Takes[last + 1].Turned == film.Takes[first].Turned && With(box, Sight(film, last + 1, aspect)) is var wider && wider.Width <= widest * film.Pitch && wider.Height <= widest * film.Pitch)
                (box, last) = (wider, last + 1);
            parts.Add(Part(film, first, last, box));
            first = last + 1;
        }
        return parts.ToImmutable();
    }

    // What is in sight in the course of a move.
    private static Box Sight(Film film, int take, double aspect)
    {
        var (width, height) = (film.Wide * (film.Sideways ? aspect : 1) + 2 * Beside * film.Pitch, film.Wide * (film.Sideways ? 1 : aspect) + 2 * Beside * film.Pitch);
        Spot from = Still.Camera(film, take, 0), to = Still.Camera(film, take, 1);
        return With(new(from.X - width / 2, from.Y - height / 2, width, height), new(to.X - width / 2, to.Y - height / 2, width, height));
    }

    private static Box With(Box a, Box b) => new(Math.Min(a.X, b.X), Math.Min(a.Y, b.Y), Math.Max(a.Right, b.Right) - Math.Min(a.X, b.X), Math.Max(a.Bottom, b.Bottom) - Math.Min(a.Y, b.Y));

    private static Lying Part(Film film, int first, int last, Box box)
    {
        var take = film.Takes[first];
        // Valleys from left to right as seen, those in the box and one beyond either edge of it.
        var valleys = Enumerable.Range(0, film.Valleys.Length).Select(v => (Valley: v, film.Place(v, 1, take.Turned, take.Seen).X)).OrderBy(v => v.X).ToList();
        var from = Math.Clamp(valleys.FindLastIndex(v => v.X <= box.X), 0, valleys.Count - 3);
        var to = valleys.FindIndex(v => v.X >= box.Right);
        to = Math.Max(from + 2, to < 0 ? valleys.Count - 1 : to);
        box = With(new(Math.Max(box.X, valleys[from].X), box.Y, 0, 0), new(Math.Min(box.Right, valleys[to].X), box.Bottom, 0, 0));
        var (origin, onward) = (valleys[from].Valley, valleys[1].Valley - valleys[0].Valley);
        var gathering = film.Threads.Length;
        List<(StitchShape, int)> before = [];
        for (var row = 0; row < film.GatheringRows; row++)
            for (var p = from; p < to; p++)
                before.Add((new(ShapeKind.Bar, Local(new(valleys[p].Valley + 0.28 * onward, row * film.LinesPerSpace + 1 - Still.Gathering)), Local(new(valleys[p].Valley + 0.72 * onward, row * film.LinesPerSpace + 1 - Still.Gathering)), 0.3), gathering));
        before.AddRange(film.Laid(first, 0, take.Seen).Select(Here));
        var after = Enumerable.Range(first, last - first + 1).SelectMany(i => film.Lain(i, take.Seen)).Select(Here).Where(Near).ToImmutableArray();
        return new()
        {
            First = first, Last = last, Box = box, Left = valleys[from].X,
            Valleys = [.. valleys.Skip(from).Take(to - from + 1).Select(v => v.X - valleys[from].X)],
            Before = [.. before.Where(Near)],
            After = after,
            Pitch = film.Pitch, Line = film.Line, Sideways = film.Sideways,
            Cloth = take.Seen == ClothSide.Wrong ? Look.Darker(film.Cloth, Still.BackDarker) : film.Cloth,
            Threads = [.. film.Threads, new FilmThread(Still.GatheringColour, 1, 0.12 * film.Pitch)],
        };

        ChartPlace Local(ChartPlace place) => new((place.Across - origin) * onward, (film.Place(0, place.Down, take.Turned, take.Seen).Y - box.Y) / film.Line);
        (StitchShape, int) Here((StitchShape Shape, int Thread) s) => (s.Shape with { From = Local(s.Shape.From), To = Local(s.Shape.To) }, s.Thread);
        bool Near((StitchShape Shape, int Thread) s) => Math.Max(s.Shape.From.Across, s.Shape.To.Across) > -3 && Math.Min(s.Shape.From.Across, s.Shape.To.Across) < to - from + 3
            && Math.Max(s.Shape.From.Down, s.Shape.To.Down) > -4 && Math.Min(s.Shape.From.Down, s.Shape.To.Down) < box.Height / film.Line + 4;
    }

    private CloseUp Close => new(Valleys, Pitch, Line, (int)Math.Ceiling(Box.Height / Line), Cloth, Threads.Select(t => (t.Colour, t.Strands, t.Diameter)), Before, After);

    /// <summary>Paints it as it lies before its moves, or after them.</summary>
    /// <param name="after">Whether after them.</param>
    /// <param name="perMillimetre">Pixels to a millimetre; fewer where it would be too large.</param>
    /// <param name="cancel">Stops it.</param>
    public Raster Paint(bool after, double perMillimetre, CancellationToken cancel = default) =>
        Close.Paint(Box.X - Left, 0, Box.Width, Box.Height, WideAt(perMillimetre, MostPixels), after, Sideways, cancel: cancel);

    /// <summary>The same, band by band and soon; see <see cref="Painter.PaintBand"/>.</summary>
    public Painter Soon(bool after, int mostPixels, float samples) => Close.PainterOf(Box.X - Left, 0, Box.Width, Box.Height, WideAt(double.MaxValue, mostPixels), after, Sideways, samples);

    private const int MostPixels = 6_000_000;

    private int WideAt(double perMillimetre, int most) =>
        Math.Max(1, (int)Math.Min(Box.Width * Math.Min(perMillimetre, (Painter.MostPixels - 1) / Math.Max(Box.Width, Box.Height)), Math.Sqrt(most * Box.Width / Box.Height)));

    /// <summary>It as text, to be painted elsewhere.</summary>
    public string Write()
    {
        using var bytes = new MemoryStream();
        using (var w = new Utf8JsonWriter(bytes))
        {
            w.WriteStartObject();
            Numbers("box", [Box.X, Box.Y, Box.Width, Box.Height]);
            Numbers("valleys", Valleys);
            Numbers("size", [Left, Pitch, Line, Sideways ? 1 : 0]);
            w.WriteString("cloth", Cloth.ToString());
            w.WriteStartArray("threads");
            foreach (var thread in Threads)
            {
                w.WriteStringValue(thread.Colour.ToString());
                w.WriteNumberValue(thread.Strands);
                w.WriteNumberValue(thread.Diameter);
            }
            w.WriteEndArray();
            Numbers("before", Before.SelectMany(Told));
            Numbers("after", After.SelectMany(Told));
            w.WriteEndObject();

            void Numbers(string name, IEnumerable<double> numbers)
            {
                w.WriteStartArray(name);
                foreach (var number in numbers) w.WriteNumberValue(number);
                w.WriteEndArray();
            }
        }
        return Encoding.UTF8.GetString(bytes.GetBuffer(), 0, (int)bytes.Length);

        static double[] Told((StitchShape Shape, int Thread) s) => [(int)s.Shape.Kind, s.Shape.From.Across, s.Shape.From.Down, s.Shape.To.Across, s.Shape.To.Down, s.Shape.Width, s.Thread];
    }

    /// <summary>Reads what <see cref="Write"/> wrote; of its moves nothing is told.</summary>
    public static Lying Read(string text)
    {
        using var document = JsonDocument.Parse(text);
        var root = document.RootElement;
        double[] box = Numbers("box"), size = Numbers("size");
        var threads = root.GetProperty("threads").EnumerateArray().ToArray();
        return new()
        {
            First = 0, Last = 0, Box = new(box[0], box[1], box[2], box[3]), Valleys = [.. Numbers("valleys")], Left = size[0], Pitch = size[1], Line = size[2], Sideways = size[3] > 0,
            Cloth = Colour.Parse(root.GetProperty("cloth").GetString()!),
            Threads = [.. Enumerable.Range(0, threads.Length / 3).Select(i => new FilmThread(Colour.Parse(threads[3 * i].GetString()!), threads[3 * i + 1].GetInt32(), threads[3 * i + 2].GetDouble()))],
            Before = Shapes("before"), After = Shapes("after"),
        };

        double[] Numbers(string name) => [.. root.GetProperty(name).EnumerateArray().Select(n => n.GetDouble())];
        ImmutableArray<(StitchShape, int)> Shapes(string name) => [.. Numbers(name).Chunk(7).Select(n => (new StitchShape((ShapeKind)(int)n[0], new(n[1], n[2]), new(n[3], n[4]), n[5]), (int)n[6]))];
    }
}
