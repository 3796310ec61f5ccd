using System.Text;
using Pleatwright.Chart;

namespace Pleatwright.Files;

/// <summary>Writes figure files, format number 1. The same figure always gives the same text.</summary>
public static class FigureWriter
{
    /// <summary>The figure as UTF-8, ending with a line break.</summary>
    public static byte[] WriteUtf8(KeptFigure kept) => JsonOut.Utf8(json =>
    {
        json.WriteStartObject();
        json.WriteNumber("figure", FigureReader.FormatNumber);
        json.WriteString("name", kept.Name);
        json.WriteString("id", kept.Id);
        CreditWriter.Write(json, kept.Credit);
        PieceWriter.WriteThreads(json, kept.Threads);
        PieceWriter.WriteStitches(json, kept.Figure);
        json.WriteNumber("baseRow", kept.BaseRow);
        PieceWriter.WriteGauge(json, kept.Gauge);
        json.WriteEndObject();
    });

    /// <summary>The figure as text, ending with a line break.</summary>
    public static string Write(KeptFigure kept) => Encoding.UTF8.GetString(WriteUtf8(kept));
}
