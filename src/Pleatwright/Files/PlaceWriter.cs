using System.Text.Json;
using Pleatwright.Chart;

namespace Pleatwright.Files;

/// <summary>Writes the keys that say where something lies, which several things share.</summary>
internal static class PlaceWriter
{
    /// <summary>The key “centre”.</summary>
    public static void WriteCentre(Utf8JsonWriter json, Centre centre)
    {
        if (centre.IsMiddle) json.WriteString("centre", "middle");
        else if (!centre.IsHung) json.WriteNumber("centre", centre.Valleys);
        else
        {
            json.WriteStartObject("centre");
            if (centre.Panel is { } panel) json.WriteString("panel", panel);
            json.WriteString("from", centre.From switch { CountedFrom.Left => "left", CountedFrom.Right => "right", _ => "centre" });
            json.WriteNumber("valleys", centre.Valleys);
            json.WriteEndObject();
        }
    }

    /// <summary>The key “repeat”; nothing for once.</summary>
    public static void WriteRepeat(Utf8JsonWriter json, Repeat repeat)
    {
        if (repeat == Repeat.Once) return;
        json.WriteStartObject("repeat");
        json.WriteNumber("count", repeat.Count);
        json.WriteNumber("every", repeat.Every);
        json.WriteEndObject();
    }
}
