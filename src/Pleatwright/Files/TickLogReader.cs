using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Pleatwright.Ticks;

namespace Pleatwright.Files;

/// <summary>Reads place files, format number 1.</summary>
internal static class TickLogReader
{
    /// <summary>The format number this program writes, and the newest it reads.</summary>
    public const int FormatNumber = 1;

    /// <summary>The largest file read, in bytes.</summary>
    public const int MostBytes = 16 * 1024 * 1024;

    private const int LongestLine = 200, MostAt = 1_000_000;

    /// <summary>Reads a log from text.</summary>
    /// <exception cref="PieceFormatException">The text is no place; says where and what would serve.</exception>
    public static TickLog Read(string text) => Read(Encoding.UTF8.GetBytes(text));

    /// <summary>Reads a log from UTF-8.</summary>
    /// <exception cref="PieceFormatException">The text is no place; says where and what would serve.</exception>
    public static TickLog Read(ReadOnlySpan<byte> utf8)
    {
        if (utf8.Length > MostBytes)
            throw new PieceFormatException(1, 1, $"the file is larger than {MostBytes / 1024 / 1024} MB, which no place needs.");
        var (text, root) = JsonText.Read(utf8);
        var keys = new KeyReader(text, root, "a place");
        keys.Format("place", FormatNumber, "place");
        var worked = new KeyReader(text, keys.Required("worked"), "“worked”");
        keys.NothingElse();
        return TickLog.Of([.. worked.Members.Select(m => KeyValuePair.Create(Line(text, m), Stretches(text, worked, m)))]);
    }

    private static string Line(JsonText text, LocatedMember member) => member.Name.Length is > 0 and <= LongestLine && !member.Name.Any(c => char.IsWhiteSpace(c) || char.IsControl(c))
        ? member.Name
        : throw text.Error(member.Offset, $"A line of stitches is named in 1 to {LongestLine} characters without a space.");

    private static ImmutableArray<TickStretch> Stretches(JsonText text, KeyReader worked, LocatedMember member)
    {
        var found = ImmutableArray.CreateBuilder<TickStretch>();
        foreach (var item in worked.List(member.Name))
        {
            if (item is not LocatedString { Value: var words } || Stretch(words) is not { } stretch)
                throw text.Error(item.Offset, $"“{member.Name}” holds stretches such as \"40..52 2026-03-02T10:15Z\" or \"53 2026-03-02T10:16Z {TickLogWriter.TakenBack}\", but {item.Kind} was found.");
            if (found.Count > 0 && stretch.From <= found[^1].To)
                throw text.Error(item.Offset, $"The stretches of “{member.Name}” come in order, none over another.");
            found.Add(stretch);
        }
        return found.DrainToImmutable();
    }

    private static TickStretch? Stretch(string words)
    {
        var parts = words.Split(' ', 3);
        if (parts.Length < 2 || parts.Length == 3 && parts[2] != TickLogWriter.TakenBack) return null;
        var ends = parts[0].Split("..");
        if (ends.Length > 2 || !Number(ends[0], out var from) || !Number(ends[^1], out var to) || to < from) return null;
        return DateTimeOffset.TryParseExact(parts[1], TickLogWriter.Minute, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out var at)
            && at.ToUnixTimeSeconds() >= 0
            ? new TickStretch(from, to, parts.Length == 2, at.ToUnixTimeSeconds() / 60)
            : null;
    }

    private static bool Number(string text, out int number) =>
        int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out number) && Math.Abs((long)number) <= MostAt;
}
