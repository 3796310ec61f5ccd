using System.Globalization;
using System.Text;
using System.Text.Json;
using Pleatwright.Ticks;

namespace Pleatwright.Files;

/// <summary>Writes place files, format number 1: which stitches of a piece are worked. The same log always gives the same text.</summary>
internal static class TickLogWriter
{
    /// <summary>How a minute is written.</summary>
    public const string Minute = "yyyy-MM-dd'T'HH:mm'Z'";

    /// <summary>What follows the minute where a tick was taken back.</summary>
    public const string TakenBack = "taken back";

    /// <summary>The log as UTF-8, ending with a line break.</summary>
    public static byte[] WriteUtf8(TickLog log) => JsonOut.Utf8(json => Write(json, log));

    /// <summary>The log as text, ending with a line break.</summary>
    public static string Write(TickLog log) => Encoding.UTF8.GetString(WriteUtf8(log));

    private static void Write(Utf8JsonWriter json, TickLog log)
    {
        json.WriteStartObject();
        json.WriteNumber("place", TickLogReader.FormatNumber);
        json.WriteStartObject("worked");
        foreach (var (line, stretches) in log.Lines)
        {
            json.WriteStartArray(line);
            foreach (var s in stretches) json.WriteStringValue(Write(s));
            json.WriteEndArray();
        }
        json.WriteEndObject();
        json.WriteEndObject();
    }

    // "40..52 2026-03-02T10:15Z", "53 2026-03-02T10:16Z taken back"
    private static string Write(TickStretch s) => string.Create(CultureInfo.InvariantCulture,
        $"{s.From}{(s.To == s.From ? "" : $"..{s.To}")} {DateTimeOffset.FromUnixTimeSeconds(s.Minute * 60).ToString(Minute, CultureInfo.InvariantCulture)}{(s.Ticked ? "" : " " + TakenBack)}");
}
