using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;

namespace Pleatwright.Tests.Files;

/// <summary>Reader, schema and page name the same keys. The reader says its own when it is given one that is unknown.</summary>
public class KeyTests
{
    private static readonly JsonNode Schema = JsonNode.Parse(File.ReadAllText(Repository.Path("src", "Pleatwright", "Files", "piece.schema.json")))!;

    private static readonly string Pages = File.ReadAllText(Repository.Path("docs", "piece-format.md")) + File.ReadAllText(Repository.Path("docs", "cloth.md"));

    private const string Panel = "\"form\": \"panel\", \"finishedWidth\": \"4 in\", \"gatheringRows\": 4";
    private const string Round = "\"form\": \"round\", \"neck\": \"4 in\", \"panels\": [ { \"name\": \"all\", \"cut\": \"40 in\" } ], \"gatheringRows\": 4";

    private static string Piece(string keys, string cloth = Panel) =>
        $"{{ \"pleatwright\": 1, \"cloth\": {{ {cloth} }}, \"threads\": {{ \"r\": {{ \"colour\": \"#b3202c\" }} }}, {keys} }}";

    private static string[] Said(string text)
    {
        var message = Assert.Throws<PieceFormatException>(() => PieceReader.Read(text)).Message;
        Assert.Contains("has no key “unknown”; it takes ", message, StringComparison.Ordinal);
        return [.. Regex.Matches(message[message.IndexOf("it takes", StringComparison.Ordinal)..], "“(.+?)”").Select(m => m.Groups[1].Value).Order()];
    }

    private static string[] Keys(JsonNode node) => [.. node["properties"]!.AsObject().Select(p => p.Key).Order()];

    private static string[] Keys(string def, params string[] path) => Keys(path.Aggregate(Schema["$defs"]![def]!, (node, step) => node[step]!));

    private static void Agree(string[] schema, params string[] texts)
    {
        Assert.Equal(schema, texts.SelectMany(Said).Distinct().Order());
        Assert.All(schema, key => Assert.Matches($"[`.\"]{key}[`\"]", Pages));
    }

    [Fact]
    public void Of_a_piece() => Agree(Keys(Schema), Piece("\"unknown\": 1"));

    // The cloth of each form, with whatever keys it brings.
    private static readonly string[] Cloths = [.. FormKind.All.Select(k =>
    {
        var cloth = JsonNode.Parse(PieceWriter.Write(new Pleatwright.Chart.Piece("", new NewCloth(k, k.Measure.Begin).Plan(), [], [], [])))!["cloth"]!.ToJsonString();
        return cloth[1..^1];
    })];

    [Fact]
    public void Of_the_cloth_in_every_form() => Agree(Keys("cloth"), [.. Cloths.Select(c => Piece("\"back\": \"auto\"", c + ", \"unknown\": 1"))]);

    [Fact]
    public void Of_what_lies_within_the_cloth()
    {
        Agree(Keys("gauge"), Piece("\"back\": \"auto\"", Panel + ", \"gauge\": { \"unknown\": 1 }"));
        Agree(Keys("cloth", "properties", "pleater"), Piece("\"back\": \"auto\"", Panel + ", \"pleater\": { \"rows\": 9, \"unknown\": 1 }"));
        Agree(Keys("cloth", "properties", "panels", "items"), Piece("\"back\": \"auto\"", Round.Replace("\"40 in\"", "\"40 in\", \"unknown\": 1", StringComparison.Ordinal)));
    }

    [Fact]
    public void Of_threads_figures_and_placements()
    {
        Agree(Keys("thread"), Piece("\"back\": \"auto\"").Replace("#b3202c\"", "#b3202c\", \"unknown\": 1", StringComparison.Ordinal));
        Agree(Keys("figure"), Piece("\"figures\": { \"f\": { \"rows\": [ \"r\" ], \"unknown\": 1 } }"));
        Agree(Keys("figure", "properties", "half", "items"), Piece("\"figures\": { \"f\": { \"rows\": [ \"r\" ], \"half\": [ { \"row\": 0, \"end\": \"left\", \"unknown\": 1 } ] } }"));
        string Placed(string keys) => Piece("\"figures\": { \"f\": { \"rows\": [ \"r\" ] } }, \"place\": [ { \"figure\": \"f\", \"gatheringRow\": 1, " + keys + " } ]");
        Agree(Keys("placement"), Placed("\"unknown\": 1"));
        Agree(Keys("hung"), Placed("\"centre\": { \"unknown\": 1 }"));
        Agree(Keys("repeat"), Placed("\"repeat\": { \"count\": 2, \"every\": 3, \"unknown\": 1 }"));
    }

    [Fact]
    public void Of_every_stitch_and_accent()
    {
        string Band(string name) => Piece($"\"bands\": [ {{ \"stitch\": \"{name}\", \"gatheringRow\": 1, \"thread\": \"r\", \"unknown\": 1 }} ]");
        string Mark(string name) => Piece($"\"accents\": [ {{ \"accent\": \"{name}\", \"gatheringRow\": 1, \"thread\": \"r\", \"unknown\": 1 }} ]");
        Assert.All(BandStitch.All, s => Assert.Equal(Taken("band", "stitch", s.Name), Said(Band(s.Name))));
        Assert.All(Accent.All, a => Assert.Equal(Taken("accent", "accent", a.Name), Said(Mark(a.Name))));
        Agree(Keys("band"), [.. BandStitch.All.Select(s => Band(s.Name))]);
        Agree(Keys("accent"), [.. Accent.All.Select(a => Mark(a.Name))]);
    }

    // The keys of a definition less those that its rules take away from one kind.
    private static string[] Taken(string def, string by, string name)
    {
        var away = Schema["$defs"]![def]!["allOf"]!.AsArray()
            .Where(rule => rule!["if"]!["properties"]![by]! is var said && (said["const"]?.GetValue<string>() == name || said["enum"]?.AsArray().Any(n => n!.GetValue<string>() == name) == true))
            .SelectMany(rule => rule!["then"]!["properties"]!.AsObject()).Where(p => p.Value is JsonValue v && v.TryGetValue<bool>(out var takes) && !takes).Select(p => p.Key);
        return [.. Keys(def).Except(away)];
    }

    [Fact]
    public void Of_working_sizes_and_swatches()
    {
        Agree(Keys("working"), Piece("\"working\": { \"unknown\": 1 }"));
        Agree(Keys("working", "properties", "places", "items"), Piece("\"working\": { \"places\": [ { \"row\": 1, \"valley\": 1, \"place\": 1, \"unknown\": 1 } ] }"));
        Agree(Keys("working", "properties", "figures", "items"), Piece("\"working\": { \"figures\": [ { \"row\": 1, \"valley\": 1, \"unknown\": 1 } ] }"));
        Agree(Keys("size"), [.. FormKind.All.Select((k, i) => Piece($"\"sizes\": [ {{ \"name\": \"a\", \"{k.Measure.Name}\": \"4 in\", \"unknown\": 1 }} ]", Cloths[i]))]);
        Agree(Keys("swatch"), Piece("\"swatch\": [ { \"pleats\": 9, \"width\": \"1 in\", \"unknown\": 1 } ]"));
    }

    [Fact]
    public void What_a_maker_settles_of_the_working_fits_the_schema()
    {
        var piece = PieceReader.Read(Piece("\"back\": \"none\"")) with
        {
            Working = new Working { Hand = Hand.Left, First = FirstWay.Down, MayTurn = false, SplitRuns = false, ParkedThreads = 0, ThreadFactor = 1.25, BaseRow = new CableRow(3), Places = [new(new CableRow(2), new Valley(3), 1)], Way = WayOfWorking.SpaceBySpace, Longer = Length.Zero, LeastRest = Length.FromCentimetres(9), Figures = [new(new CableRow(2), new Valley(3))] },
        };
        Assert.True(Schemas.FitsPiece(PieceWriter.Write(piece)));
    }
}
