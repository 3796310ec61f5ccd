using System.Text.Json;
using System.Text.Json.Serialization;

namespace Pleatwright.Shelf;

/// <summary>Which kind of shelf serves the bench: real files by its host, or this browser's own storage.</summary>
internal sealed record ShelfKind(string Shelf)
{
    /// <summary>Files, by the host.</summary>
    public static ShelfKind Files { get; } = new("files");
}

/// <summary>A failure, as the host says it: the name of a <see cref="ShelfTrouble"/> and a word for the maker.</summary>
internal sealed record ShelfFault(string Trouble, string Message);

/// <summary>The name that a piece was given.</summary>
internal sealed record ShelfName(string Name);

/// <summary>What goes between a bench and its host.</summary>
[JsonSourceGenerationOptions(JsonSerializerDefaults.Web, UseStringEnumConverter = true)]
[JsonSerializable(typeof(ShelfKind))]
[JsonSerializable(typeof(ShelfFault))]
[JsonSerializable(typeof(ShelfName))]
[JsonSerializable(typeof(ShelfContents))]
[JsonSerializable(typeof(IReadOnlyList<PieceVersion>))]
internal sealed partial class ShelfJson : JsonSerializerContext;
