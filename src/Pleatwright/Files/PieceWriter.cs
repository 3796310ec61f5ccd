using System.Text;
using System.Text.Json;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Files;

/// <summary>Writes piece files, format number 1. The same piece always gives the same text.</summary>
public static class PieceWriter
{
    /// <summary>The piece as UTF-8, ending with a line break.</summary>
    public static byte[] WriteUtf8(Piece piece) => JsonOut.Utf8(json => Write(json, piece));

    /// <summary>The piece as text, ending with a line break.</summary>
    public static string Write(Piece piece) => Encoding.UTF8.GetString(WriteUtf8(piece));

    private static void Write(Utf8JsonWriter json, Piece piece)
    {
        json.WriteStartObject();
        json.WriteNumber("pleatwright", PieceReader.FormatNumber);
        json.WriteString("title", piece.Title);
        CreditWriter.Write(json, piece.Credit);
        WriteCloth(json, piece.Cloth);
        WriteThreads(json, piece.Threads);
        json.WriteStartObject("figures");
        foreach (var figure in piece.Figures) WriteFigure(json, figure);
        json.WriteEndObject();
        json.WriteStartArray("place");
        foreach (var placement in piece.Placements) WritePlacement(json, placement);
        json.WriteEndArray();
        json.WriteStartArray("bands");
        foreach (var band in piece.Bands) BandWriter.Write(json, band);
        json.WriteEndArray();
        if (!piece.Accents.IsEmpty)
        {
            json.WriteStartArray("accents");
            foreach (var mark in piece.Accents) BandWriter.Write(json, mark);
            json.WriteEndArray();
        }
        json.WriteString("back", piece.Back switch
        {
            Backsmocking.Gaps => "gaps",
            Backsmocking.None => "none",
            Backsmocking.All => "all",
            _ => "auto",
        });
        if (piece.Phase == Phase.Odd) json.WriteString("phase", "odd");
        if (piece.Working != new Working()) WriteWorking(json, piece.Working);
        if (piece.SizeName.Length > 0) json.WriteString("size", piece.SizeName);
        if (!piece.Sizes.IsEmpty)
        {
            json.WriteStartArray("sizes");
            foreach (var size in piece.Sizes) SizeWriter.Write(json, size, piece.Cloth.Form);
            json.WriteEndArray();
        }
        if (!piece.Swatches.IsEmpty)
        {
            json.WriteStartArray("swatch");
            foreach (var swatch in piece.Swatches) SwatchWriter.Write(json, swatch);
            json.WriteEndArray();
        }
        json.WriteEndObject();
    }

    private static void WriteCloth(Utf8JsonWriter json, ClothPlan cloth)
    {
        json.WriteStartObject("cloth");
        FormWriter.Write(json, cloth.Form);
        json.WriteNumber("seamPleats", cloth.SeamPleats);
        WriteGauge(json, cloth.Gauge);
        json.WriteNumber("gatheringRows", cloth.GatheringRows);
        json.WriteStartArray("holdingRows");
        json.WriteNumberValue(cloth.HoldingRowsAbove);
        json.WriteNumberValue(cloth.HoldingRowsBelow);
        json.WriteEndArray();
        json.WriteString("colour", cloth.Colour.ToString());
        if (cloth.Selvedges != Length.Zero) json.WriteString("selvedges", cloth.Selvedges.ToString());
        if (cloth.Ravelling != Length.Zero) json.WriteString("ravelling", cloth.Ravelling.ToString());
        if (cloth.Seam != Length.Zero) json.WriteString("seam", cloth.Seam.ToString());
        if (cloth.Pleater is { } pleater)
        {
            json.WriteStartObject("pleater");
            json.WriteNumber("rows", pleater.Rows);
            json.WriteNumber("overlap", pleater.Overlap);
            json.WriteEndObject();
        }
        if (cloth.SeamAbove != Length.Zero) json.WriteString("seamAbove", cloth.SeamAbove.ToString());
        if (cloth.LengthBelow != Length.Zero) json.WriteString("lengthBelow", cloth.LengthBelow.ToString());
        if (cloth.SeamBelow != Length.Zero) json.WriteString("seamBelow", cloth.SeamBelow.ToString());
        if (cloth.SoldBy is { } step) json.WriteString("soldBy", step.ToString());
        WriteUnusual(json, "fabricWidth", cloth.FabricWidth, new ClothPlan(cloth.Form, cloth.Gauge, cloth.GatheringRows).FabricWidth);
        json.WriteEndObject();
    }

    /// <summary>Writes a gauge under its key.</summary>
    internal static void WriteGauge(Utf8JsonWriter json, Gauge gauge)
    {
        json.WriteStartObject("gauge");
        WritePitch(json, gauge);
        json.WriteString("takeUp", gauge.TakeUp.ToString());
        json.WriteString("rowSpacing", gauge.RowSpacing.ToString());
        json.WriteNumber("cableRowsPerSpace", gauge.CableRowsPerSpace);
        if (gauge.PleatThickness != Gauge.UsualPleatThickness)
            json.WriteString("pleatThickness", gauge.PleatThickness.ToString());
        json.WriteEndObject();
    }

    // The count of pleats in an inch where it gives the very same pitch back; else a hair might make another pleat.
    private static void WritePitch(Utf8JsonWriter json, Gauge gauge)
    {
        var counted = gauge.PleatsPerInch;
        if (gauge.Pitch.Unit == LengthUnit.Inch && counted > 0 && Length.FromInches(1 / counted) == gauge.Pitch) json.WriteNumber("pleatsPerInch", counted);
        else json.WriteString("pitch", gauge.Pitch.ToString());
    }

    /// <summary>Writes a length unless it is the usual one, given in the usual unit.</summary>
    internal static void WriteUnusual(Utf8JsonWriter json, string key, Length length, Length usual)
    {
        if (length != usual || length.Unit != usual.Unit) json.WriteString(key, length.ToString());
    }

    /// <summary>Writes threads under their key.</summary>
    internal static void WriteThreads(Utf8JsonWriter json, IEnumerable<Floss> threads)
    {
        json.WriteStartObject("threads");
        foreach (var thread in threads) WriteThread(json, thread);
        json.WriteEndObject();
    }

    private static void WriteThread(Utf8JsonWriter json, Floss thread)
    {
        var usual = new Floss(thread.Key, "", default, Floss.DefaultStrands);
        json.WriteStartObject(thread.Key.ToString());
        json.WriteString("name", thread.Name);
        json.WriteString("colour", thread.Colour.ToString());
        json.WriteNumber("strands", thread.Strands);
        if (thread.TexPerStrand != usual.TexPerStrand) json.WriteNumber("tex", thread.TexPerStrand);
        if (thread.StrandsInSkein != usual.StrandsInSkein) json.WriteNumber("strandsInSkein", thread.StrandsInSkein);
        WriteUnusual(json, "skein", thread.SkeinLength, usual.SkeinLength);
        if (thread.Note.Length > 0) json.WriteString("note", thread.Note);
        json.WriteEndObject();
    }

    private static void WriteFigure(Utf8JsonWriter json, Figure figure)
    {
        json.WriteStartObject(figure.Name);
        WriteStitches(json, figure);
        if (figure.From is { } from)
        {
            json.WriteStartObject("from");
            json.WriteString("figure", from.Figure);
            json.WriteString("state", from.State);
            json.WriteString("as", from.As);
            json.WriteNumber("baseRow", from.BaseRow);
            json.WriteEndObject();
        }
        json.WriteEndObject();
    }

    /// <summary>Writes the stitches of a figure.</summary>
    internal static void WriteStitches(Utf8JsonWriter json, Figure figure)
    {
        json.WriteStartArray("rows");
        foreach (var row in figure.Rows) json.WriteStringValue(row);
        json.WriteEndArray();
        if (figure.Square) json.WriteBoolean("square", true);
        if (figure.Letters.Length > 0) json.WriteString("letters", figure.Letters);
        if (!figure.Halves.IsEmpty)
        {
            json.WriteStartArray("half");
            foreach (var half in figure.Halves)
            {
                json.WriteStartObject();
                json.WriteNumber("row", half.Row);
                json.WriteString("end", half.End == RunEnd.Left ? "left" : "right");
                json.WriteEndObject();
            }
            json.WriteEndArray();
        }
    }

    private static void WritePlacement(Utf8JsonWriter json, Placement placement)
    {
        json.WriteStartObject();
        json.WriteString("figure", placement.Figure);
        PlaceWriter.WriteCentre(json, placement.Centre);
        json.WriteNumber("gatheringRow", placement.GatheringRow.Number);
        json.WriteNumber("figureRow", placement.FigureRow);
        if (placement.Mirror) json.WriteBoolean("mirror", true);
        if (placement.FlipPhase) json.WriteBoolean("flip", true);
        PlaceWriter.WriteRepeat(json, placement.Repeat);
        json.WriteEndObject();
    }

    private static void WritePlaces(Utf8JsonWriter json, Working working)
    {
        json.WriteStartArray("places");
        foreach (var fixedPlace in working.Places)
        {
            json.WriteStartObject();
            json.WriteNumber("row", fixedPlace.Row.Index);
            json.WriteNumber("valley", fixedPlace.Valley.Number);
            json.WriteNumber("place", fixedPlace.Place);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void WriteFigures(Utf8JsonWriter json, Working working)
    {
        json.WriteStartArray("figures");
        foreach (var figure in working.Figures)
        {
            json.WriteStartObject();
            json.WriteNumber("row", figure.Row.Index);
            json.WriteNumber("valley", figure.Valley.Number);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void WriteWorking(Utf8JsonWriter json, Working working)
    {
        json.WriteStartObject("working");
        json.WriteString("way", WayWords.Of(working.Way));
        json.WriteString("workingLength", working.WorkingLength.ToString());
        json.WriteString("tails", working.Tails.ToString());
        WriteUnusual(json, "longer", working.Longer, new Working().Longer);
        WriteUnusual(json, "leastRest", working.LeastRest, new Working().LeastRest);
        if (working.ThreadFactor != 1) json.WriteNumber("threadFactor", working.ThreadFactor);
        json.WriteNumber("carryPleats", working.CarryPleats);
        json.WriteString("hand", working.Hand == Hand.Right ? "right" : "left");
        json.WriteString("first", working.First switch { FirstWay.Up => "up", FirstWay.Down => "down", _ => "either" });
        json.WriteBoolean("mayTurn", working.MayTurn);
        json.WriteNumber("parkedThreads", working.ParkedThreads);
        json.WriteBoolean("splitRuns", working.SplitRuns);
        if (!working.Places.IsEmpty) WritePlaces(json, working);
        if (!working.Figures.IsEmpty) WriteFigures(json, working);
        if (working.BaseRow is { } row) json.WriteNumber("baseRow", row.Index);
        json.WriteEndObject();
    }
}
