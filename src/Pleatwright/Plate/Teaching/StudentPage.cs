using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Order;
using Pleatwright.Order.Telling;
using Pleatwright.Plate.Parts;
using Pleatwright.Plate.Playing;
using Pleatwright.Plate.Writers;

namespace Pleatwright.Plate.Teaching;

/// <summary>
/// The page a student stitches from: one file that counts and keeps the place on any phone, without a network. All
/// that came from the piece is data to its script, never markup, and no other script may run in it.
/// </summary>
internal static class StudentPage
{
    private static readonly string Script = "\"use strict\";\n" + Player.Script + Player.Read("StudentPage.js"), Style = Player.Read("StudentPage.css");

    /// <summary>Writes the page.</summary>
    /// <exception cref="PlateTooLargeException">The piece has more than <see cref="PlateMaker.MostCables"/> cables.</exception>
    public static string Write(ClassPack pack)
    {
        var page = Compose(pack, pack.Plate.Verdict is { Errors: > 0 } ? "The proof has something against this piece. Ask your teacher before you stitch." : PrintedWords.Proved);
        var doubts = PrintedWords.OfStudentPage(page).SelectMany(p => PrintedWords.Doubts(p.Words, pack.OrderOf(p.Hand))).ToList();
        return doubts.Count == 0 ? page : Compose(pack, $"{doubts[0].Message} {doubts[0].Remedy}");
    }

    private const double PictureWidth = 120; // millimetres
    private const int MostDrawn = 6000; // cables

    /// <summary>Its picture of the piece.</summary>
    internal static Drawing Picture(ClassPack pack) => StitchedPrint.Of(pack.Plate.Work, PictureWidth, StitchedPrint.OnScreen);

    private static string Compose(ClassPack pack, string word)
    {
        var title = Escaping.Xml(pack.Plate.Title);
        var hash = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(Script)));
        var picture = Picture(pack);
        // A phone need not carry a drawing of every stitch of a very large piece.
        var shown = pack.Plate.Work.Cables > MostDrawn && !picture.Marks.OfType<PixelPicture>().Any(p => !p.Jpeg.IsEmpty) ? "" : $"<figure>{SvgWriter.Element("pic", $"{pack.Plate.Title}, stitched", $"How the finished piece will look. {pack.Plate.Summary}.", picture.View, picture.Marks)}</figure>";
        return HtmlHead.Write(pack.Plate.Title, pack.Plate.Options.LargePrint, [Face.Display, Face.Text, Face.TextBold], Style, hash) + $"""
            <body>
            <header>
            <h1 dir="auto">{title}</h1>
            <p class="count"><b id="name"></b> <span id="which"></span></p>
            <progress id="progress" aria-label="Worked in all"></progress>
            </header>
            <main>
            <noscript><p class="remind">This page counts with a script, and scripts are off here. Open it in a browser, or stitch from the printed directions.</p></noscript>
            <div id="changed" class="remind" role="alert" hidden><p></p><button type="button">It is right</button></div>
            <section id="run" aria-label="The run under way">
            <p id="thread"></p>
            <p id="turned" hidden></p>
            <div id="held"></div>
            <p id="tally" role="status"></p>
            <p id="row" hidden></p>
            <button type="button" id="watch" aria-expanded="false" aria-controls="motion">Show it in motion</button>
            <div id="motion" role="group" aria-label="The run in motion" hidden>
            <canvas id="film" role="img" aria-label="Needle and thread on the pleats; each move is told below"></canvas>
            <p><b id="film-number"></b> <span id="film-said" role="status" aria-live="polite"></span></p>
            <div class="film-keys">
            <button type="button" id="film-back">Back one move</button>
            <button type="button" id="film-play">Play</button>
            <button type="button" id="film-pace">Slower</button>
            <button type="button" id="film-loop" aria-pressed="false">Loop this move</button>
            </div>
            </div>
            <button type="button" id="front" hidden>The back is done: on to the front</button>
            <div id="said"></div>
            </section>
            <div class="keys">
            <button type="button" id="undo">Undo a tick</button>
            <button type="button" id="tick">Tick one</button>
            <button type="button" id="done">Run done</button>
            </div>
            <p id="kept" role="status"></p>
            <section class="choices" aria-labelledby="choices-h">
            <h2 id="choices-h">As you like it</h2>
            <fieldset><legend>How you hold the work</legend>
            <label><input type="radio" name="hold" value="upright"/> Upright</label>
            <label><input type="radio" name="hold" value="sideways"/> Sideways</label>
            </fieldset>
            <label><input type="checkbox" id="left"/> Left-handed</label>
            <label><input type="checkbox" id="large"/> Large type</label>
            <label id="awake-l" hidden><input type="checkbox" id="awake"/> Keep the screen awake</label>
            <label>Light or dark <select id="theme"><option value="">as the phone is</option><option value="light">light</option><option value="dark">dark</option></select></label>
            <label>Go to step <input type="number" id="goto" inputmode="numeric" min="1"/></label>
            <button type="button" id="again">Begin again</button>
            </section>
            <section aria-labelledby="whole-h">
            <h2 id="whole-h">The whole piece</h2>
            <canvas id="map" role="img"></canvas>
            <ul id="threads"></ul>
            <p class="remind">{Escaping.Xml(word)}</p>
            {shown}
            </section>
            <section class="care" aria-labelledby="care-h"><h2 id="care-h">{CautionsPart.Heading}</h2><p>{Escaping.Xml(CautionsPart.Words)}</p></section>
            </main>
            <script type="application/json" id="plate">{Data(pack)}</script>
            <script>{Script}</script>
            </body>
            </html>

            """;
    }

    private static string Data(ClassPack pack)
    {
        var plate = pack.Plate;
        using var bytes = new MemoryStream();
        // The writer's own encoder leaves no character that could end the script it stands in.
        using (var json = new Utf8JsonWriter(bytes))
        {
            json.WriteStartObject();
            json.WriteString("title", plate.Title);
            json.WriteString("hand", pack.Hand == Hand.Left ? "left" : "right");
            json.WriteString("hold", plate.Options.Levels == LevelWords.LeftRight ? "sideways" : "upright");
            json.WriteString("cloth", plate.Work.Piece.Cloth.Colour.ToString());
            json.WriteNumber("pleats", plate.Work.Pleating.Pleats);
            json.WriteNumber("rows", plate.Work.CableRows);
            json.WriteNumber("rowsPerSpace", plate.Work.Pleating.Gauge.CableRowsPerSpace);
            json.WriteNumber("shape", plate.Work.Pleating.Gauge.CableRowHeight / plate.Work.Pleating.Gauge.Pitch);
            json.WriteStartObject("edges");
            foreach (var (name, levels) in ((string, LevelWords)[])[("upright", LevelWords.UpDown), ("sideways", LevelWords.LeftRight)])
            {
                var words = new Vocabulary(levels);
                json.WriteStartArray(name);
                json.WriteStringValue(words.Edge(false));
                json.WriteStringValue(words.Edge(true));
                json.WriteEndArray();
            }
            json.WriteEndObject();
            json.WriteStartObject("threads");
            foreach (var thread in plate.Threads)
            {
                json.WriteStartObject(thread.Letter);
                json.WriteString("name", thread.Name);
                json.WriteString("strands", thread.Strands);
                json.WriteString("colour", thread.Thread.Colour.ToString());
                json.WriteString("letter", thread.Thread.Colour.LetterOn.ToString());
                json.WritePropertyName("played");
                Played(json, thread.Thread);
                json.WriteEndObject();
            }
            json.WriteEndObject();
            json.WritePropertyName("backThread");
            Played(json, plate.Order.Backsmock.Thread);
            var gauge = plate.Work.Pleating.Gauge;
            json.WriteNumber("pitch", Math.Round(gauge.Pitch.Millimetres, 4));
            json.WriteNumber("line", Math.Round(gauge.LineHeight.Millimetres, 4));
            json.WriteNumber("gathering", plate.Work.Piece.Cloth.GatheringRows);
            json.WritePropertyName("gestures");
            json.WriteRawValue(FilmData.Gestures);
            var films = new FilmData();
            json.WriteStartObject("hands");
            foreach (var hand in (Hand[])[Hand.Right, Hand.Left]) Items(json, hand == Hand.Left ? "left" : "right", pack.OrderOf(hand), films);
            json.WriteEndObject();
            json.WritePropertyName("moves");
            json.WriteRawValue(films.Entries);
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(bytes.GetBuffer(), 0, (int)bytes.Length);
    }

    // A thread as the player reads it: colour, strands, and how thick a strand is.
    private static void Played(Utf8JsonWriter json, Thread.Floss thread)
    {
        json.WriteStartArray();
        json.WriteStringValue(thread.Colour.ToString());
        json.WriteNumberValue(thread.Strands);
        json.WriteNumberValue(Math.Round(thread.Fineness.Diameter.Millimetres, 4));
        json.WriteEndArray();
    }

    // The moves of an item, with captions for either way of holding the work.
    private static string Play(WorkingOrder order, FilmData films, Direction told)
    {
        var gauge = order.Work.Pleating.Gauge;
        var passage = StepMoves.Of(order, told)!;
        var captions = Enum.GetValues<LevelWords>().Select(levels => new MoveWords(new Vocabulary(levels)).Of(passage, gauge, told.Accents)).ToList();
        return films.Sequence([.. Film.TakesOf(passage, captions[0], 0)], [.. captions], gauge);
    }

    private static void Items(Utf8JsonWriter json, string hand, WorkingOrder order, FilmData films)
    {
        var upright = ClassItem.Of(order, Directions.Write(order, LevelWords.UpDown));
        var sideways = ClassItem.Of(order, Directions.Write(order, LevelWords.LeftRight));
        json.WriteStartObject(hand);
        json.WriteString("mark", Mark(upright));
        var rows = RowOf(order);
        var waiting = new List<Step>();
        json.WriteStartArray("items");
        var heading = "";
        for (var i = 0; i < upright.Length; i++)
        {
            var item = upright[i];
            json.WriteStartObject();
            json.WriteString("name", item.Name);
            json.WritePropertyName("play");
            json.WriteRawValue(Play(order, films, item.Work.Told));
            if (item.Work.Heading != heading) json.WriteString("heading", Tidy.Line(heading = item.Work.Heading));
            Words(json, "said", item.Work.Words);
            if (!item.Work.Words.Select(w => w.Text).SequenceEqual(sideways[i].Work.Words.Select(w => w.Text))) Words(json, "saidSideways", sideways[i].Work.Words);
            if (item.Work.Thread is { } thread)
            {
                json.WriteString("thread", thread.ToString());
                json.WriteNumber("ticks", item.Work.Ticks);
                json.WriteString("noun", item.Work.Noun);
                if (item.Work.IsTurned) json.WriteBoolean("turned", true);
            }
            if (item.IsBefore) json.WriteBoolean("back", true);
            if (item.Work.Step is { } step)
            {
                waiting.RemoveAll(w => w.Needleful == step.Needleful);
                if (waiting.Count > 0) Waiting(json, waiting);
                if (step.Parks) waiting.Add(step);
                if (rows[step.Number - 1] is { Of: > 1 } row)
                {
                    json.WriteStartArray("run");
                    json.WriteNumberValue(row.Run);
                    json.WriteNumberValue(row.Of);
                    json.WriteEndArray();
                }
                json.WriteNumber("step", step.Number);
                json.WriteString("stitches", Stitches(item.Work.Stitches));
                json.WriteBoolean("forward", order.TravelsRight(step) != step.Turned);
                json.WriteNumber("row", step.Row.Index);
                json.WriteNumber("from", step.From.Number);
                json.WriteNumber("to", step.To.Number);
            }
            else if (item.Work.Band is { } band) Band(json, HeldBand.Of(order.Work, band), band.Count);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    // The threads left hanging at the back meanwhile: letter, and the step after which.
    private static void Waiting(Utf8JsonWriter json, List<Step> waiting)
    {
        json.WriteStartArray("waits");
        foreach (var step in waiting)
        {
            json.WriteStartArray();
            json.WriteStringValue(step.Thread.ToString());
            json.WriteNumberValue(step.Number);
            json.WriteEndArray();
        }
        json.WriteEndArray();
    }

    // Of each step which it is, of how many, of those that finish its row of its figure one after the other.
    private static (int Run, int Of)[] RowOf(WorkingOrder order)
    {
        var places = new (int Run, int Of)[order.Steps.Length];
        for (int from = 0, to; from < places.Length; from = to)
        {
            for (to = from + 1; to < places.Length && order.Steps[to].Row == order.Steps[from].Row && order.Parts.Of(order.Steps[to].RunIndex) == order.Parts.Of(order.Steps[from].RunIndex);) to++;
            for (var i = from; i < to; i++) places[i] = (i - from + 1, to - from);
        }
        return places;
    }

    // Each stitch as held: U and D are cables, u and d half stitches.
    private static string Stitches(ImmutableArray<HeldStitch> stitches) =>
        string.Concat(stitches.Select(s => (s.Held, s.Half) switch { (Level.Up, false) => 'U', (Level.Down, false) => 'D', (Level.Up, true) => 'u', _ => 'd' }));

    // The shapes in sight of a band's step: stitch, then place to place in pleats and lines as held, then width; hidden ones end in 1.
    private static void Band(Utf8JsonWriter json, HeldBand band, int count)
    {
        const int around = 24;
        json.WriteStartArray("shapes");
        foreach (var (stitch, shape) in band.Shapes)
        {
            if (stitch < -around || stitch >= count + around) continue;
            json.WriteStartArray();
            json.WriteNumberValue(stitch);
            foreach (var number in (double[])[shape.From.Across, shape.From.Down, shape.To.Across, shape.To.Down, shape.Width]) json.WriteNumberValue(Math.Round(number, 2));
            if (shape.Kind == ShapeKind.Hidden) json.WriteNumberValue(1);
            json.WriteEndArray();
        }
        json.WriteEndArray();
        json.WriteStartArray("gathering");
        foreach (var row in band.GatheringRows) json.WriteNumberValue(Math.Round(row, 2));
        json.WriteEndArray();
        json.WriteString("low", string.Concat(Enumerable.Range(0, count).Select(i => band.IsLow(i) ? '1' : '0')));
        foreach (var (name, words) in ((string, LevelWords)[])[("words", LevelWords.UpDown), ("wordsSideways", LevelWords.LeftRight)])
        {
            json.WriteStartArray(name);
            for (var i = 0; i < count; i++) json.WriteStringValue(band.Word(i, words));
            json.WriteEndArray();
        }
    }

    private static void Words(Utf8JsonWriter json, string name, ImmutableArray<Direction> words)
    {
        json.WriteStartArray(name);
        foreach (var word in words)
        {
            json.WriteStartArray();
            json.WriteStringValue(word.Kind switch { DirectionKind.Step => "step", DirectionKind.LevelCheck => "check", _ => "remark" });
            json.WriteStringValue(Tidy.Line(word.Text));
            json.WriteEndArray();
        }
        json.WriteEndArray();
    }

    // Tells one order from another by what the hands do.
    private static string Mark(ImmutableArray<ClassItem> items)
    {
        var said = string.Join('\n', items.SelectMany(i => i.Work.Words).Where(w => w.Kind == DirectionKind.Step).Select(w => w.Text));
        return Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(said)), 0, 8).ToLower(CultureInfo.InvariantCulture);
    }
}
