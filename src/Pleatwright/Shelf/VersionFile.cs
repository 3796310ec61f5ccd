using System.Globalization;

namespace Pleatwright.Shelf;

/// <summary>
/// How a version is named in its folder: number, moment, reason, so that a folder looked at by hand speaks for itself
/// and sorts by age whatever the clock said.
/// </summary>
internal static class VersionFile
{
    private const string Moment = "yyyy-MM-dd HHmmss";

    public static string NameOf(PieceVersion version, string ending = PieceName.Ending) => string.Create(CultureInfo.InvariantCulture,
        $"{version.Number:000000} {version.Kept.UtcDateTime.ToString(Moment, CultureInfo.InvariantCulture)} {version.Because.ToString().ToLowerInvariant()}{ending}");

    public static PieceVersion? TryRead(StoredFile file, string ending = PieceName.Ending)
    {
        if (!file.Name.EndsWith(ending, StringComparison.Ordinal)) return null;
        if (file.Name[..^ending.Length].Split(' ') is not [var number, var day, var time, var because]) return null;
        return int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var n)
            && DateTime.TryParseExact($"{day} {time}", Moment, CultureInfo.InvariantCulture,
                DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out var kept)
            && Enum.TryParse<KeptBecause>(because, ignoreCase: true, out var why) && Enum.IsDefined(why)
            ? new PieceVersion(n, kept, why, file.Bytes)
            : null;
    }
}
