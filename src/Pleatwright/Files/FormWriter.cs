using System.Collections.Immutable;
using System.Text.Json;
using Pleatwright.Cloth;

namespace Pleatwright.Files;

/// <summary>Writes the form of the cloth: its name and the keys it brings.</summary>
internal static class FormWriter
{
    public static void Write(Utf8JsonWriter json, Form form)
    {
        json.WriteString("form", form.Name);
        WriteResized(json, form, null);
    }

    /// <summary>Writes the form of another size: what it is measured by, and only what else differs from the piece's own.</summary>
    public static void WriteResized(Utf8JsonWriter json, Form form, Form? own)
    {
        switch (form)
        {
            case Panel panel:
                json.WriteString("finishedWidth", panel.Width.ToString());
                break;
            case Round round:
                var usual = own as Round;
                json.WriteString("neck", round.Neck.ToString());
                if (usual?.Sweep != round.Sweep) json.WriteNumber("sweep", round.Sweep.Degrees);
                if (usual?.Panels.SequenceEqual(round.Panels) != true) WritePanels(json, round.Panels);
                break;
            case Ball ball:
                json.WriteString("diameter", ball.Diameter.ToString());
                break;
            default:
                throw new ArgumentException($"No way is known to write a form called “{form.Name}”.");
        }
    }

    private static void WritePanels(Utf8JsonWriter json, ImmutableArray<RoundPanel> panels)
    {
        json.WriteStartArray("panels");
        foreach (var panel in panels)
        {
            json.WriteStartObject();
            json.WriteString("name", panel.Name);
            json.WriteString("cut", panel.Cut.ToString());
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }
}
