using System.Text;

namespace Pleatwright.App.Commands;

/// <summary>What stands where a command is to write.</summary>
internal static class Standing
{
    private const int Beginning = 4096;

    // Every plate, class pack and picture says so of itself: a PDF and a picture among what they tell of their making, a page and a drawing at their head, a
    // text by its title, underlined from end to end.
    private static readonly byte[] Maker = "Pleatwright"u8.ToArray();

    /// <summary>Whether a file is one that a command made and can make again: a plate, a class pack, a sheet or a picture of a piece.</summary>
    /// <exception cref="IOException">It cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read.</exception>
    public static bool IsMade(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        var head = new byte[Beginning];
        var read = file.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
        var beginning = head.AsSpan(0, read);
        if (path.EndsWith(".txt", StringComparison.OrdinalIgnoreCase)) return IsUnderlined(Encoding.UTF8.GetString(beginning));
        if (beginning.TrimStart(" \t\r\n\uFEFF"u8) is [(byte)'{' or (byte)'[', ..]) return false; // a piece, a figure, a stash or a place names its maker, too
        if (beginning.IndexOf(Maker) >= 0) return true;
        if (file.Length <= Beginning) return false;
        file.Position = Math.Max(0, file.Length - 16 * Beginning); // a PDF tells of itself at its end
        var tail = new byte[16 * Beginning];
        return tail.AsSpan(0, file.ReadAtLeast(tail, tail.Length, throwOnEndOfStream: false)).IndexOf(Maker) >= 0;
    }

    private static bool IsUnderlined(string text) =>
        text.ReplaceLineEndings("\n").Split('\n') is [{ Length: > 0 }, { Length: > 0 } line, ..] && line.All(c => c == '=');
}
