using System.Collections.Immutable;

namespace Pleatwright.Chart.Edit;

/// <summary>Says which threads came along with stitches from elsewhere.</summary>
internal static class BroughtWords
{
    /// <summary>"Came along: gull grey as g; deep blue as c, for b is another thread here. Worked in threads already here: sail red as r." Empty when no thread came.</summary>
    /// <param name="brought">The threads.</param>
    /// <param name="before">Whether it is told before they come.</param>
    public static string Of(ImmutableArray<BroughtThread> brought, bool before = false)
    {
        string[] sentences =
        [
            List(before ? "Come along" : "Came along", brought.Where(b => b.Added).Select(b => b.To.Key == b.From.Key ? Plain(b) : $"{Plain(b)}, for {b.From.Key} is another thread here")),
            List("Worked in threads already here", brought.Where(b => !b.Added).Select(Plain)),
        ];
        return string.Join(' ', sentences.Where(s => s.Length > 0));
    }

    private static string List(string what, IEnumerable<string> threads) => string.Join("; ", threads) is { Length: > 0 } words ? $"{what}: {words}." : "";

    private static string Plain(BroughtThread b) => $"{(b.To.Name.Length > 0 ? b.To.Name : "a thread with no name")} as {b.To.Key}";
}
