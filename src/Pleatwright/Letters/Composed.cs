using System.Collections.Immutable;
using System.Globalization;
using System.Reflection;
using System.Text;

namespace Pleatwright.Letters;

/// <summary>What an accented letter is made of.</summary>
/// <param name="Letter">The letter without marks.</param>
/// <param name="Marks">Its marks by their names.</param>
internal sealed record Composition(string Letter, ImmutableArray<string> Marks);

/// <summary>
/// The accented letters of Latin-1 and Latin Extended-A and some more, from the file composed.txt. Its own table, because the browser's runtime cannot
/// decompose characters by itself; a test compares it with one that can.
/// </summary>
internal static class Composed
{
    private static readonly Lazy<(IReadOnlyDictionary<string, Composition> Made, IReadOnlyDictionary<string, string> Whole)> Table = new(Read);


    /// <summary>Every character in the table.</summary>
    public static IEnumerable<string> All => Table.Value.Made.Keys;

    /// <summary>What a character is made of; null where it is not in the table.</summary>
    public static Composition? Of(string character) => Table.Value.Made.GetValueOrDefault(character);

    /// <summary>
    /// Text as characters to be written one by one: a letter and the combining marks after it are the one character they make, and ligatures and
    /// typewriter marks that alphabets have no drawing of are the characters they stand for.
    /// </summary>
    public static IEnumerable<(string Character, int Index)> Characters(string text)
    {
        for (var i = 0; i < text.Length; i++)
        {
            var index = i;
            var character = char.IsHighSurrogate(text[i]) && i + 1 < text.Length ? text.Substring(i++, 2) : text[i].ToString();
            while (i + 1 < text.Length && Table.Value.Whole.GetValueOrDefault(character + text[i + 1]) is { } made)
            {
                character = made;
                i++;
            }
            switch (character)
            {
                case "Ĳ": yield return ("I", index); yield return ("J", index); break;
                case "ĳ": yield return ("i", index); yield return ("j", index); break;
                case "ŉ": yield return ("’", index); yield return ("n", index); break;
                case "Ŀ": yield return ("L", index); yield return ("·", index); break;
                case "ŀ": yield return ("l", index); yield return ("·", index); break;
                case "…": for (var dot = 0; dot < 3; dot++) yield return (".", index); break;
                case "\u2010" or "\u2011": yield return ("-", index); break;
                case "—": yield return ("–", index); break;
                case "\u00a0" or "\t": yield return (" ", index); break;
                default: yield return (character, index); break;
            }
        }
    }

    private static (IReadOnlyDictionary<string, Composition>, IReadOnlyDictionary<string, string>) Read()
    {
        using var stream = Assembly.GetExecutingAssembly().GetManifestResourceStream("composed.txt")!;
        using var reader = new StreamReader(stream, Encoding.UTF8);
        Dictionary<string, Composition> made = [];
        Dictionary<string, string> whole = [];
        while (reader.ReadLine() is { } line)
        {
            if (line.Length == 0 || line[0] == '#') continue;
            var words = line.Split(' ');
            made.Add(words[0], new Composition(words[3], [.. words[4..]]));
            if (words[2] != "-") whole.Add(words[1] + (char)int.Parse(words[2], NumberStyles.HexNumber, CultureInfo.InvariantCulture), words[0]);
        }
        return (made, whole);
    }
}
