using System.Globalization;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>How long ago something was, in words: they are true in every time zone.</summary>
public static class Ago
{
    public static string Words(DateTimeOffset then, DateTimeOffset now)
    {
        var ago = now - then;
        return ago switch
        {
            { TotalMinutes: < 1 } => "just now",
            { TotalHours: < 1 } => Count((int)ago.TotalMinutes, "minute"),
            { TotalDays: < 1 } => Count((int)ago.TotalHours, "hour"),
            { TotalDays: < 14 } => Count((int)ago.TotalDays, "day"),
            _ => "on " + then.ToString("d MMMM yyyy", CultureInfo.InvariantCulture),
        };
    }

    private static string Count(int number, string noun) => $"{Model.Words.Of(number, noun)} ago";
}
