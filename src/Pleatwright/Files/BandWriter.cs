using System.Text.Json;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;

namespace Pleatwright.Files;

/// <summary>Writes bands and accents; what is usual is left out.</summary>
internal static class BandWriter
{
    /// <summary>One band.</summary>
    public static void Write(Utf8JsonWriter json, Band band)
    {
        json.WriteStartObject();
        json.WriteString("stitch", band.Stitch);
        json.WriteNumber("gatheringRow", band.GatheringRow.Number);
        json.WriteString("thread", band.Thread.ToString());
        Write(json, "offset", band.Offset, 0);
        Write(json, "drop", band.Drop, 0);
        Write(json, "rows", band.Rows, 1);
        if (band.UpsideDown) json.WriteBoolean("upsideDown", true);
        if (band.Panel is { } panel) json.WriteString("panel", panel);
        if (band.From is { } from) json.WriteNumber("from", from.Number);
        if (band.To is { } to) json.WriteNumber("to", to.Number);
        if (band.Steps is { } steps) json.WriteNumber("steps", steps);
        if (band.Height is { } height) json.WriteNumber("height", height);
        if (band.Ends == BandEnds.Whole) json.WriteString("ends", "whole");
        if (band.WorkFrom is { } start) json.WriteString("workFrom", start == WorkFrom.Centre ? "centre" : "side");
        json.WriteEndObject();
    }

    /// <summary>One accent.</summary>
    public static void Write(Utf8JsonWriter json, AccentMark mark)
    {
        json.WriteStartObject();
        json.WriteString("accent", mark.Accent);
        PlaceWriter.WriteCentre(json, mark.Centre);
        json.WriteNumber("gatheringRow", mark.GatheringRow.Number);
        json.WriteString("thread", mark.Thread.ToString());
        Write(json, "offset", mark.Offset, 0);
        Write(json, "drop", mark.Drop, 0);
        if (mark.Size is { } size) json.WriteNumber("size", size);
        if (mark.Upright) json.WriteBoolean("upright", true);
        PlaceWriter.WriteRepeat(json, mark.Repeat);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, string key, int value, int usual)
    {
        if (value != usual) json.WriteNumber(key, value);
    }
}
