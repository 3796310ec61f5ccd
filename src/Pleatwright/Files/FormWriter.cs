using System.Collections.Immutable;
using System.Text.Json;
using Pleatwright.Cloth;
using Pleatwright.Measure;

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
        var values = form.Values;
        foreach (var key in form.Kind.Keys)
        {
            if (own is not null && key != form.Kind.Measure && key.Same(values, own.Values)) continue;
            switch (key)
            {
                case LengthKey { Usual: { } usual } length when own is null && usual == Length.Zero && values.Length(length) == Length.Zero:
                    break; // nothing is nothing, in whatever unit
                case LengthKey { Usual: { } usual } length when own is null:
                    PieceWriter.WriteUnusual(json, key.Name, values.Length(length), usual);
                    break;
                case LengthKey length:
                    json.WriteString(key.Name, values.Length(length).ToString());
                    break;
                case AngleKey angle:
                    json.WriteNumber(key.Name, values.Angle(angle).Degrees);
                    break;
                case PiecesKey pieces:
                    WritePieces(json, key.Name, values.Pieces(pieces));
                    break;
                default:
                    throw new ArgumentException($"No way is known to write the key “{key.Name}”.");
            }
        }
    }

    private static void WritePieces(Utf8JsonWriter json, string key, ImmutableArray<RoundPanel> panels)
    {
        json.WriteStartArray(key);
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
