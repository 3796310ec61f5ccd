using System.Text.Json;
using Pleatwright.Chart;

namespace Pleatwright.Files;

/// <summary>Writes whose design a piece is; what is not said is left out.</summary>
internal static class CreditWriter
{
    public static void Write(Utf8JsonWriter json, Credit credit)
    {
        if (credit.Designer.Length > 0) json.WriteString("designer", credit.Designer);
        if (credit.Copyright.Length > 0) json.WriteString("copyright", credit.Copyright);
        if (credit.Date is { } date) json.WriteString("date", Credit.Written(date));
        if (credit.Photograph.Length > 0) json.WriteString("photograph", credit.Photograph);
    }
}
