using System.Text;
using System.Text.Json;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Moves;

namespace Pleatwright.Plate.Playing;

/// <summary>
/// A film as the player on a page reads it. A move is told from where the one before ended, so that moves which are alike are one entry of a list; of a run of a hundred cables
/// two are written, and a hundred numbers that say which.
/// </summary>
internal sealed class FilmData
{
    private readonly Dictionary<string, int> known = [];
    private readonly List<string> entries = [];

    /// <summary>The moves met so far, each once, as the elements of a JSON array.</summary>
    public string Entries => $"[{string.Join(",", entries)}]";

    /// <summary>The gestures' sizes and times, as a JSON object.</summary>
    public static string Gestures { get; } = Json(w =>
    {
        w.WriteStartObject();
        foreach (var (name, value) in ((string, double)[])
            [("come", Playing.Gestures.Come), ("entered", Playing.Gestures.Entered), ("drawn", Playing.Gestures.Drawn), ("lies", Playing.Gestures.Lies), ("still", Playing.Gestures.Still),
             ("needle", Playing.Gestures.Needle), ("beyond", Playing.Gestures.Beyond), ("before", Playing.Gestures.Before), ("swing", Playing.Gestures.Swing), ("slack", Playing.Gestures.Slack), ("point", Playing.Gestures.Point), ("close", Playing.Gestures.Close), ("gathered", Playing.Gestures.Gathered), ("gathering", Playing.Gestures.Gathering)])
            w.WriteNumber(name, value);
        w.WriteStartArray("pleat");
        foreach (var tone in Playing.Gestures.Pleat) w.WriteNumberValue(tone);
        w.WriteEndArray();
        w.WriteEndObject();
    });

    /// <summary>A whole film, as a JSON object.</summary>
    /// <param name="film">The film.</param>
    /// <param name="gauge">How the cloth is gathered.</param>
    /// <param name="painted">What lies under the needle, painted, part by part: before its moves and after them, as JPEG files.</param>
    public static string Of(Film film, Gauge gauge, IEnumerable<(Lying Part, byte[] Before, byte[] After)>? painted = null)
    {
        var data = new FilmData();
        var sequence = data.Sequence(film.Takes, [film.Takes.Select(t => t.Caption)], gauge);
        return Json(w =>
        {
            w.WriteStartObject();
            w.WriteString("title", film.Title);
            w.WriteNumber("pitch", film.Pitch);
            w.WriteNumber("line", film.Line);
            w.WriteNumber("perSpace", film.LinesPerSpace);
            w.WriteNumber("gathering", film.GatheringRows);
            w.WriteString("cloth", film.Cloth.ToString());
            w.WriteBoolean("sideways", film.Sideways);
            w.WriteStartArray("valleys");
            foreach (var valley in film.Valleys) w.WriteNumberValue(Math.Round(valley, 4));
            w.WriteEndArray();
            w.WriteStartArray("threads");
            foreach (var thread in film.Threads)
            {
                w.WriteStartArray();
                w.WriteStringValue(thread.Colour.ToString());
                w.WriteNumberValue(thread.Strands);
                w.WriteNumberValue(Math.Round(thread.Diameter, 4));
                w.WriteEndArray();
            }
            w.WriteEndArray();
            w.WriteStartArray("ground");
            foreach (var (shape, thread) in film.Ground) Shape(w, shape, default, thread);
            w.WriteEndArray();
            if (painted is not null)
            {
                w.WriteStartArray("lying");
                foreach (var (part, before, after) in painted)
                {
                    w.WriteStartObject();
                    w.WriteNumber("first", part.First);
                    w.WriteNumber("last", part.Last);
                    w.WriteStartArray("box");
                    foreach (var number in (double[])[part.Box.X, part.Box.Y, part.Box.Width, part.Box.Height]) w.WriteNumberValue(Math.Round(number, 3));
                    w.WriteEndArray();
                    w.WriteString("before", "data:image/jpeg;base64," + Convert.ToBase64String(before));
                    w.WriteString("after", "data:image/jpeg;base64," + Convert.ToBase64String(after));
                    w.WriteEndObject();
                }
                w.WriteEndArray();
            }
            w.WritePropertyName("gestures");
            w.WriteRawValue(Gestures);
            w.WritePropertyName("moves");
            w.WriteRawValue(data.Entries);
            w.WritePropertyName("play");
            w.WriteRawValue(sequence);
            w.WriteEndObject();
        });
    }

    /// <summary>Moves one after the other, as a JSON array: where the first begins, then an entry's number for each; a pair says where one begins that does not go on.</summary>
    /// <param name="takes">The moves.</param>
    /// <param name="captions">Their captions, in each way of holding the work.</param>
    /// <param name="gauge">How the cloth is gathered.</param>
    public string Sequence(IReadOnlyList<Take> takes, IReadOnlyList<IEnumerable<string>> captions, Gauge gauge)
    {
        var told = captions.Select(c => c.ToList()).ToList();
        return Json(w =>
        {
            w.WriteStartArray();
            Prick? at = null;
            var made = 0; // stitches
            for (var i = 0; i < takes.Count; i++)
            {
                var take = takes[i];
                if (at != take.Move.From)
                {
                    w.WriteStartArray();
                    Place(w, take.Move.From.On(gauge), default);
                    w.WriteEndArray();
                }
                var entry = Json(e => Entry(e, take, take.Stitch > 0 ? take.Stitch - made : null, told.ConvertAll(t => t[i]), gauge));
                if (!known.TryGetValue(entry, out var number))
                {
                    known[entry] = number = entries.Count;
                    entries.Add(entry);
                }
                w.WriteNumberValue(number);
                at = take.Move.Out;
                if (take.Stitch > 0) made = take.Stitch;
            }
            w.WriteEndArray();
        });
    }

    // Everything of a move but where it begins and which stitch it is.
    private static void Entry(Utf8JsonWriter w, Take take, int? stitches, List<string> captions, Gauge gauge)
    {
        var move = take.Move;
        var from = move.From.On(gauge);
        w.WriteStartObject();
        w.WriteString("kind", move.Kind.ToString());
        w.WriteStartArray("in");
        Place(w, move.In.On(gauge), from);
        w.WriteEndArray();
        w.WriteStartArray("out");
        Place(w, move.Out.On(gauge), from);
        w.WriteEndArray();
        w.WriteNumber("seconds", take.Seconds);
        w.WriteNumber("way", take.Way);
        if (take.Side != 0) w.WriteNumber("side", take.Side);
        if (take.Thread != 0) w.WriteNumber("thread", take.Thread);
        if (take.Turned) w.WriteBoolean("turned", true);
        if (take.Seen == ClothSide.Wrong) w.WriteBoolean("back", true);
        if (move.Lies == take.Seen) w.WriteBoolean("from", true);
        if (move.Emerges == take.Seen) w.WriteBoolean("to", true);
        if (move.Pierces) w.WriteBoolean("pierces", true);
        if (stitches is { } more) w.WriteNumber("stitch", more);
        if (!move.Via.IsEmpty)
        {
            w.WriteStartArray("via");
            foreach (var corner in move.Via) Place(w, corner.On(gauge), from);
            w.WriteEndArray();
        }
        if (!move.Shows.IsEmpty)
        {
            w.WriteStartArray("shows");
            foreach (var shape in move.Shows) Shape(w, shape, from, 0);
            w.WriteEndArray();
        }
        w.WriteStartArray("say");
        foreach (var caption in captions) w.WriteStringValue(caption);
        w.WriteEndArray();
        w.WriteEndObject();
    }

    // A kind, then place to place, the width in lines, and the thread.
    private static void Shape(Utf8JsonWriter w, StitchShape shape, ChartPlace from, int thread)
    {
        w.WriteStartArray();
        w.WriteNumberValue((int)shape.Kind);
        Place(w, shape.From, from);
        Place(w, shape.To, from);
        w.WriteNumberValue(Round(shape.Width));
        w.WriteNumberValue(thread);
        w.WriteEndArray();
    }

    private static void Place(Utf8JsonWriter w, ChartPlace place, ChartPlace from)
    {
        w.WriteNumberValue(Round(place.Across - from.Across));
        w.WriteNumberValue(Round(place.Down - from.Down));
    }

    private static double Round(double number) => Math.Round(number, 3) + 0.0; // no minus nought

    private static string Json(Action<Utf8JsonWriter> write)
    {
        using var bytes = new MemoryStream();
        using (var json = new Utf8JsonWriter(bytes)) write(json);
        return Encoding.UTF8.GetString(bytes.GetBuffer(), 0, (int)bytes.Length);
    }
}
