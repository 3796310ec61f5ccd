using Pleatwright.Chart;

namespace Pleatwright.Files;

/// <summary>Reads whose design a piece is.</summary>
internal static class CreditReader
{
    /// <summary>The keys of a credit, which lie in the piece itself.</summary>
    public static Credit Read(JsonText text, KeyReader keys) => new()
    {
        Designer = Words(text, keys, "designer", Credit.FaultOfDesigner),
        Copyright = Words(text, keys, "copyright", Credit.FaultOfCopyright),
        Date = Date(keys),
        Photograph = Words(text, keys, "photograph", Credit.FaultOfPhotograph),
    };

    private static string Words(JsonText text, KeyReader keys, string key, Func<string, string?> fault)
    {
        if (keys.Optional(key) is not { } value) return "";
        var words = keys.AsLines(value, key); // whoever signs says so on one line, and is told
        return fault(words) is { } wanted ? throw text.Error(value.Offset, $"“{key}” must be {wanted}.") : words;
    }

    private static DateOnly? Date(KeyReader keys) => keys.Optional("date") switch
    {
        null => null,
        LocatedString s when Credit.TryDate(s.Value, out var date) => date,
        var other => throw keys.Wrong(other, "date", "a day as year, month and day, such as \"2026-05-31\""),
    };
}
