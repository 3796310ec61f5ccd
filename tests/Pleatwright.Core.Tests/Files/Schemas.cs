using System.Text.Json;
using Json.Schema;

namespace Pleatwright.Tests.Files;

/// <summary>The published schemas.</summary>
internal static class Schemas
{
    private static readonly JsonSchema Piece = Read("piece"), Stash = Read("stash"), Place = Read("place"), Figure = Read("figure");

    public static bool FitsPiece(string json) => Fits(Piece, json);

    public static bool FitsStash(string json) => Fits(Stash, json);

    public static bool FitsPlace(string json) => Fits(Place, json);

    public static bool FitsFigure(string json) => Fits(Figure, json);

    private static JsonSchema Read(string name) => JsonSchema.FromText(File.ReadAllText(Repository.Path("src", "Pleatwright", "Files", $"{name}.schema.json")));

    private static bool Fits(JsonSchema schema, string json)
    {
        using var document = JsonDocument.Parse(json);
        return schema.Evaluate(document.RootElement).IsValid;
    }
}
