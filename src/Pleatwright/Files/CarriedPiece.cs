using System.Collections.Immutable;
using System.Text;
using Pleatwright.Chart;

namespace Pleatwright.Files;

/// <summary>The piece file that a plate carries, so that the plate opens as the very piece. How it is carried is said here, for those who write it and the one who reads it.</summary>
/// <param name="FileName">Its name, with its ending.</param>
/// <param name="Utf8">The very bytes of the file.</param>
internal sealed record CarriedPiece(string FileName, byte[] Utf8)
{
    /// <summary>Its media type. No other is registered for it, and it is JSON.</summary>
    public const string MediaType = "application/json";

    /// <summary>In markup: the element's id, and the attribute that holds the file's name.</summary>
    public const string Id = "piece-file", NameAttribute = "data-name";

    /// <summary>In markup: the element it stands in, in a page and in a drawing.</summary>
    public const string InPage = "script", InDrawing = "metadata";

    /// <summary>What the names of plates that carry one end with.</summary>
    public static ImmutableArray<string> Endings { get; } = [".pdf", ".svg", ".html"];

    /// <summary>The file of a piece.</summary>
    public static CarriedPiece Of(Piece piece, string fileName) => new(fileName, PieceWriter.WriteUtf8(piece));

    /// <summary>
    /// The file as it may stand in markup of any kind: JSON has another way to write the three signs that markup has uses for, and none of them stands
    /// outside its strings. The same piece is read from it.
    /// </summary>
    public string ForMarkup => Encoding.UTF8.GetString(Utf8).Replace("<", "\\u003c", StringComparison.Ordinal).Replace(">", "\\u003e", StringComparison.Ordinal).Replace("&", "\\u0026", StringComparison.Ordinal);
}
