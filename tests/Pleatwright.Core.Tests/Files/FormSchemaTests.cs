using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Pleatwright.Cloth;

namespace Pleatwright.Tests.Files;

/// <summary>
/// What the schema says of forms follows from the keys they bring. PLEATWRIGHT_SNAPSHOTS=accept writes it anew, so that a new form needs no hand in it.
/// </summary>
public class FormSchemaTests
{
    private static readonly string At = Repository.Path("src", "Pleatwright", "Files", "piece.schema.json");

    [Fact]
    public void The_schema_knows_the_forms_there_are_and_the_keys_they_bring()
    {
        var schema = JsonNode.Parse(File.ReadAllText(At))!;
        var cloth = schema["$defs"]!["cloth"]!.AsObject();
        cloth["properties"]!["form"]!["enum"] = new JsonArray([.. FormKind.All.Select(k => JsonValue.Create(k.Name))]);
        Bring(cloth["properties"]!.AsObject(), "gauge");
        cloth["oneOf"] = new JsonArray([.. FormKind.All.Select(k => Shape(k, named: true))]);
        var size = schema["$defs"]!["size"]!.AsObject();
        Bring(size["properties"]!.AsObject(), "gatheringRows");
        size["anyOf"] = new JsonArray([.. FormKind.All.Select(k => Shape(k, named: false))]);
        var made = schema.ToJsonString(new JsonSerializerOptions { WriteIndented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
        if (Environment.GetEnvironmentVariable("PLEATWRIGHT_SNAPSHOTS") == "accept") File.WriteAllText(At, made);
        Assert.Equal(File.ReadAllText(At), made);
    }

    private static IEnumerable<FormKey> Keys => FormKind.All.SelectMany(k => k.Keys).DistinctBy(k => k.Name);

    // Every key of every form among the properties, before one that is there anyhow; one that no form brings any more would be seen as a difference.
    private static void Bring(JsonObject properties, string before)
    {
        var after = properties.SkipWhile(p => p.Key != before).Select(p => (p.Key, p.Value)).ToArray();
        foreach (var (key, _) in after) properties.Remove(key);
        foreach (var key in Keys)
        {
            properties.Remove(key.Name);
            properties[key.Name] = Value(key);
        }
        foreach (var (key, value) in after) properties[key] = value;
    }

    private static JsonNode Value(FormKey key) => JsonNode.Parse(key switch
    {
        LengthKey => """{ "$ref": "#/$defs/length" }""",
        AngleKey => """{ "type": "number", "exclusiveMinimum": 0, "maximum": 360 }""",
        PiecesKey pieces => $$"""
            { "type": "array", "minItems": 1, "maxItems": {{pieces.Most}}, "items": { "type": "object", "additionalProperties": false, "required": ["name", "cut"],
              "properties": { "name": { "type": "string" }, "cut": { "$ref": "#/$defs/length" } } } }
            """,
        _ => throw new ArgumentException(key.Name),
    })!;

    private static JsonObject Shape(FormKind kind, bool named)
    {
        var properties = new JsonObject();
        if (named) properties["form"] = new JsonObject { ["const"] = kind.Name };
        foreach (var key in Keys.Where(k => kind.Keys.All(own => own.Name != k.Name))) properties[key.Name] = false;
        return new JsonObject
        {
            ["required"] = new JsonArray([.. kind.Keys.Where(k => named ? !k.IsOptional : k == kind.Measure).Select(k => JsonValue.Create(k.Name))]),
            ["properties"] = properties,
        };
    }
}
