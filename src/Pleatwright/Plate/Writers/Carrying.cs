using Pleatwright.Files;

namespace Pleatwright.Plate.Writers;

/// <summary>The piece file as an element of a page or a drawing: data that nothing runs and nobody sees.</summary>
internal static class Carrying
{
    /// <summary>The element, on lines of its own.</summary>
    public static string Element(string name, CarriedPiece carried) =>
        $"<{name} id=\"{CarriedPiece.Id}\"{(name == CarriedPiece.InPage ? $" type=\"{CarriedPiece.MediaType}\"" : "")} {CarriedPiece.NameAttribute}=\"{Escaping.Xml(carried.FileName)}\">{carried.ForMarkup}</{name}>\n";
}
