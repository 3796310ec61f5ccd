using System.Text;
using Pleatwright.Files;

namespace Pleatwright.Shelf;

/// <summary>
/// The name of a piece on a shelf, which is its file's name without the ending. It is a plain name that every common
/// file system can hold: no folder, no reserved word, at most <see cref="MostBytes"/> bytes.
/// </summary>
public readonly record struct PieceName
{
    /// <summary>What the name of every piece file ends with.</summary>
    public const string Ending = PieceReader.Ending;

    /// <summary>The longest name in bytes of UTF-8; leaves room for the ending within the usual 255.</summary>
    public const int MostBytes = 180;

    private const string Forbidden = "/\\:*?\"<>|";

    private readonly string? text;

    private PieceName(string text) => this.text = text;

    /// <summary>The file it is kept in.</summary>
    public string FileName => text + Ending;

    /// <summary>The name, or why it is none.</summary>
    /// <returns>False with a plain word in <paramref name="problem"/> when it cannot be a name.</returns>
    public static bool TryParse(string? text, out PieceName name, out string problem)
    {
        name = default;
        problem = Problem(text);
        if (problem.Length > 0) return false;
        name = new PieceName(text!);
        return true;
    }

    /// <summary>The name.</summary>
    /// <exception cref="ShelfException">It cannot be a name; says why.</exception>
    public static PieceName Parse(string? text) =>
        TryParse(text, out var name, out var problem) ? name : throw new ShelfException(ShelfTrouble.BadName, problem);

    /// <summary>The name in a piece file's name; false when the file is none or the name cannot be used.</summary>
    public static bool TryParseFile(string fileName, out PieceName name, out string problem)
    {
        name = default;
        problem = "";
        return fileName.EndsWith(Ending, StringComparison.Ordinal)
            && TryParse(fileName[..^Ending.Length], out name, out problem);
    }

    /// <summary>A file's name without the ending of a piece file, whole or in part, or of a plate: what a piece brought in may be called after.</summary>
    public static string StemOf(string fileName)
    {
        foreach (var ending in (string[])[Ending, ".json", .. CarriedPiece.Endings])
            if (fileName.EndsWith(ending, StringComparison.OrdinalIgnoreCase)) return fileName[..^ending.Length];
        return fileName;
    }

    /// <summary>The nearest name to a title or to the name of a file brought in; "Untitled" when nothing of it can be kept.</summary>
    public static PieceName Nearest(string title)
    {
        var kept = new StringBuilder();
        foreach (var rune in title.EnumerateRunes()) // half a surrogate pair comes out as U+FFFD, which is dropped too
        {
            if (FileNames.IsUnseen(rune)) continue;
            var bad = Rune.IsControl(rune) || rune.Value == 0xFFFD || (rune.IsAscii && Forbidden.Contains((char)rune.Value));
            kept.Append(bad ? " " : rune.ToString());
        }
        var words = string.Join(' ', kept.ToString().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        words = Shorten(words.Trim('.', ' '), MostBytes).TrimEnd('.', ' ');
        return TryParse(words, out var name, out _) ? name
            : TryParse(words + " piece", out name, out _) ? name
            : new PieceName("Untitled");
    }

    /// <summary>The name with a number after it, shortened where it must be: "Boat 2".</summary>
    public PieceName Numbered(int number)
    {
        var tail = FormattableString.Invariant($" {number}");
        return new PieceName(Shorten(ToString(), MostBytes - tail.Length).TrimEnd('.', ' ') + tail);
    }

    /// <summary>Whether two names would be one file where case is not told apart.</summary>
    public bool SameFile(PieceName other) => FileNames.OneFile.Equals(ToString(), other.ToString());

    /// <inheritdoc/>
    public override string ToString() => text ?? "";

    private static string Problem(string? text)
    {
        if (string.IsNullOrEmpty(text)) return "A name is needed.";
        if (Encoding.UTF8.GetByteCount(text) > MostBytes) return "The name is too long.";
        foreach (var c in text)
            if (char.IsControl(c) || Forbidden.Contains(c))
                return $"A name cannot hold {(char.IsControl(c) ? "control characters" : $"“{c}”")}.";
        foreach (var rune in text.EnumerateRunes())
            if (rune.Value == 0xFFFD) return "The name is not valid text.";
        if (FileNames.Unseen(text) is { } unseen) return $"A name cannot hold what cannot be seen ({unseen}).";
        if (text[0] is '.' or ' ' || text[^1] is '.' or ' ') return "A name cannot begin or end with a dot or a space.";
        var stem = text.Split('.')[0].TrimEnd(' ');
        return IsReserved(stem) ? $"“{stem}” is reserved by some file systems; choose another name." : "";
    }

    // Names that one widespread system keeps for its devices, with or without an ending; ¹²³ count as digits there.
    private static bool IsReserved(string stem) => stem.ToUpperInvariant() is "CON" or "PRN" or "AUX" or "NUL" or "CONIN$" or "CONOUT$"
        || (stem.Length == 4 && (stem.StartsWith("COM", StringComparison.OrdinalIgnoreCase) || stem.StartsWith("LPT", StringComparison.OrdinalIgnoreCase))
            && "0123456789¹²³".Contains(stem[3]));

    private static string Shorten(string text, int bytes)
    {
        while (Encoding.UTF8.GetByteCount(text) > bytes)
            text = text[..^(char.IsLowSurrogate(text[^1]) && text.Length > 1 ? 2 : 1)];
        return text;
    }
}
