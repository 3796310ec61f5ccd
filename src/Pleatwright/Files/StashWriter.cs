using System.Globalization;
using System.Text;
using System.Text.Json;
using Pleatwright.Cloth;
using Pleatwright.Shopping;
using Pleatwright.Thread;

namespace Pleatwright.Files;

/// <summary>Writes stash files, format number 1. The same stash always gives the same text.</summary>
public static class StashWriter
{
    /// <summary>The stash as UTF-8, ending with a line break.</summary>
    public static byte[] WriteUtf8(Stash stash) => JsonOut.Utf8(json => Write(json, stash));

    /// <summary>The stash as text, ending with a line break.</summary>
    public static string Write(Stash stash) => Encoding.UTF8.GetString(WriteUtf8(stash));

    private static void Write(Utf8JsonWriter json, Stash stash)
    {
        json.WriteStartObject();
        json.WriteNumber("stash", StashReader.FormatNumber);
        json.WriteStartArray("threads");
        foreach (var thread in stash.Threads) WriteThread(json, thread);
        json.WriteEndArray();
        json.WriteStartArray("cloths");
        foreach (var cloth in stash.Cloths) WriteCloth(json, cloth);
        json.WriteEndArray();
        if (stash.Rates != new Rates()) WriteRates(json, stash.Rates);
        if (stash.Pace != Pace.Unknown) WritePace(json, stash.Pace);
        json.WriteEndObject();
    }

    private static void WriteThread(Utf8JsonWriter json, StashThread thread)
    {
        var usual = new StashThread("", default, 0);
        json.WriteStartObject();
        json.WriteString("name", thread.Name);
        json.WriteString("colour", thread.Colour.ToString());
        json.WriteNumber("skeins", thread.Skeins);
        PieceWriter.WriteUnusual(json, "skein", thread.SkeinLength, usual.SkeinLength);
        if (thread.StrandsInSkein != usual.StrandsInSkein) json.WriteNumber("strandsInSkein", thread.StrandsInSkein);
        if (thread.TexPerStrand != usual.TexPerStrand) json.WriteNumber("tex", thread.TexPerStrand);
        if (thread.Note.Length > 0) json.WriteString("note", thread.Note);
        json.WriteEndObject();
    }

    private static void WriteCloth(Utf8JsonWriter json, StashCloth cloth)
    {
        json.WriteStartObject();
        json.WriteString("name", cloth.Name);
        json.WriteString("colour", cloth.Colour.ToString());
        json.WriteString("width", cloth.Width.ToString());
        json.WriteString("left", cloth.Left.ToString());
        if (cloth.Note.Length > 0) json.WriteString("note", cloth.Note);
        json.WriteEndObject();
    }

    private static void WriteRates(Utf8JsonWriter json, Rates rates)
    {
        json.WriteStartObject("rates");
        if (rates.Money.Length > 0) json.WriteString("money", rates.Money);
        if (rates.Skein is { } skein) WriteMoney(json, "skein", skein);
        if (rates.Cloth is { } cloth) WriteMoney(json, "cloth", cloth);
        PieceWriter.WriteUnusual(json, "clothPer", rates.ClothPer, new Rates().ClothPer);
        if (rates.Hour is { } hour) WriteMoney(json, "hour", hour);
        json.WriteEndObject();
    }

    private static void WritePace(Utf8JsonWriter json, Pace pace)
    {
        json.WriteStartObject("pace");
        if (!pace.Sittings.IsEmpty)
        {
            json.WriteStartArray("sittings");
            foreach (var sitting in pace.Sittings)
            {
                json.WriteStartObject();
                json.WriteNumber("cables", sitting.Cables);
                json.WriteNumber("minutes", sitting.Minutes);
                json.WriteEndObject();
            }
            json.WriteEndArray();
        }
        if (pace.Said is { } said) WritePair(json, "cablesAnHour", said.Slow, said.Quick);
        if (pace.Besides != default) WritePair(json, "hoursBesides", (double)pace.Besides.Low, (double)pace.Besides.High);
        json.WriteEndObject();
    }

    private static void WritePair(Utf8JsonWriter json, string key, double low, double high)
    {
        json.WriteStartArray(key);
        json.WriteNumberValue(low);
        json.WriteNumberValue(high);
        json.WriteEndArray();
    }

    // Without the noughts a decimal carries along: 1.5, not 1.500.
    private static void WriteMoney(Utf8JsonWriter json, string key, decimal amount)
    {
        json.WritePropertyName(key);
        json.WriteRawValue(amount.ToString("0.############################", CultureInfo.InvariantCulture));
    }
}
