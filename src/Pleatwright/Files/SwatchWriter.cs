using System.Text.Json;
using Pleatwright.Cloth;

namespace Pleatwright.Files;

/// <summary>Writes what was measured on one swatch.</summary>
internal static class SwatchWriter
{
    public static void Write(Utf8JsonWriter json, Swatch swatch)
    {
        json.WriteStartObject();
        json.WriteNumber("pleats", swatch.Pleats);
        json.WriteString("width", swatch.Width.ToString());
        if (swatch.Cloth is { } cloth) json.WriteString("cloth", cloth.ToString());
        if (swatch.Cables > 0) json.WriteNumber("cables", swatch.Cables);
        if (swatch.Thread is { } thread) json.WriteString("thread", thread.ToString());
        if (swatch.Starts != 1) json.WriteNumber("starts", swatch.Starts);
        json.WriteEndObject();
    }
}
