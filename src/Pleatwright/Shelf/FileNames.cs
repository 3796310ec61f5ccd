using System.Globalization;
using System.Text;

namespace Pleatwright.Shelf;

/// <summary>What names of files have in common on every disk: which are one file to some of them, and what no name may hide.</summary>
internal static class FileNames
{
    /// <summary>
    /// Tells names apart as disks do that do not tell case apart. Whether a letter with its accent is one file with letter and accent apart, only the disk
    /// itself can say: it is asked whether something of the name stands there.
    /// </summary>
    public static StringComparer OneFile => StringComparer.OrdinalIgnoreCase;

    /// <summary>What cannot be seen in a name, as "U+202E"; null where all can. It could make one name look like another, or read backwards.</summary>
    public static string? Unseen(string name)
    {
        foreach (var rune in name.EnumerateRunes())
            if (IsUnseen(rune)) return $"U+{rune.Value:X4}";
        return null;
    }

    /// <summary>Whether it leaves no mark of its own on paper: what turns or joins others, and blanks that are no space.</summary>
    // Unicode, general categories Cf, Zl and Zp; and the letters and marks that Unicode lists as default ignorable, which have no glyph.
    public static bool IsUnseen(Rune rune) => Rune.GetUnicodeCategory(rune) is UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator
        || rune.Value is 0x034F or 0x115F or 0x1160 or 0x17B4 or 0x17B5 or (>= 0x180B and <= 0x180F) or 0x2800 or 0x3164 or (>= 0xFE00 and <= 0xFE0F) or 0xFFA0 or (>= 0xE0000 and <= 0xE0FFF);
}
