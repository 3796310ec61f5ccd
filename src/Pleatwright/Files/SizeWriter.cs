using System.Text.Json;
using Pleatwright.Cloth;

namespace Pleatwright.Files;

/// <summary>Writes one size of a piece.</summary>
internal static class SizeWriter
{
    public static void Write(Utf8JsonWriter json, Size size, Form own)
    {
        json.WriteStartObject();
        json.WriteString("name", size.Name);
        FormWriter.WriteResized(json, size.Form, own);
        if (size.GatheringRows is { } rows) json.WriteNumber("gatheringRows", rows);
        json.WriteEndObject();
    }
}
