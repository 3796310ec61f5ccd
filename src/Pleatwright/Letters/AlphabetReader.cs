using System.Collections.Immutable;
using System.Globalization;

namespace Pleatwright.Letters;

/// <summary>
/// Reads an alphabet's file. First what holds for all of it (<c>name</c>, <c>about</c>, <c>zones</c>, <c>spacing</c>, <c>word</c>), a line each; then the letters:
/// <c>= A</c> or <c>= a from 5</c>, and under it its rows, '#' for a cable, '.' for a bare valley, at a row's end '*' where it may be worked again and '~' where it may
/// also be left out. <c>= mark acute</c> begins a mark, whose row 0 is the line it lies about. Lines before the first letter that begin with # are remarks.
/// </summary>
internal static class AlphabetReader
{
    /// <summary>Reads it.</summary>
    /// <param name="file">What the file is called, for what is said of it.</param>
    /// <param name="text">The file.</param>
    /// <exception cref="FormatException">It cannot be read; the message names file and line, and says what was found.</exception>
    public static Alphabet Read(string file, string text)
    {
        string? name = null, about = "";
        int? zones = null;
        var (spacing, word) = (3.5, 6);
        Dictionary<string, DrawnLetter> letters = [], marks = [];
        var lines = text.ReplaceLineEndings("\n").Split('\n');
        for (var i = 0; i < lines.Length; i++)
        {
            var line = lines[i].TrimEnd();
            if (line.Length == 0 || line[0] == '#') continue;
            if (line.StartsWith("= "))
            {
                var (of, key, from) = Heading(line);
                if (!of.TryAdd(key, Letter(ref i, from))) throw Wrong(i, $"{key} is drawn twice");
                continue;
            }
            var (what, value) = line.Split(' ', 2) is [var w, var v] ? (w, v) : throw Wrong(i, $"“{line}” is neither a letter nor a setting");
            switch (what)
            {
                case "name": name = value; break;
                case "about": about = value; break;
                case "zones": zones = Whole(i, value, 1, 8); break;
                case "word": word = Whole(i, value, 1, 50); break;
                case "spacing": spacing = double.TryParse(value, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var s) && s is >= Spacing.Least and <= Spacing.Most ? s : throw Wrong(i, $"spacing runs from {Spacing.Least} to {Spacing.Most}, not {value}"); break;
                default: throw Wrong(i, $"“{what}” is no setting; there are name, about, zones, spacing and word");
            }
        }
        if (name is null || zones is null) throw new FormatException($"{file}: an alphabet has a name and zones.");
        return new Alphabet(name, about, zones.Value, spacing, word, letters, marks);

        (Dictionary<string, DrawnLetter> Of, string Key, int From) Heading(string line)
        {
            var words = line[2..].Split(' ');
            var from = 0;
            if (words is [.., "from", var number])
            {
                if (!int.TryParse(number, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out from) || from is < -50 or > 50) throw Wrong(Array.IndexOf(lines, line), $"“{number}” is no row");
                words = words[..^2];
            }
            return words switch
            {
                ["mark", var mark] => (marks, mark, from),
                [var letter] => (letters, letter, from),
                _ => throw Wrong(Array.IndexOf(lines, line), $"“{line}” names neither a letter nor a mark"),
            };
        }

        DrawnLetter Letter(ref int i, int from)
        {
            var rows = ImmutableArray.CreateBuilder<string>();
            var gives = ImmutableArray.CreateBuilder<Give>();
            while (i + 1 < lines.Length && lines[i + 1].TrimEnd() is { Length: > 0 } row)
            {
                i++;
                gives.Add(row[^1] switch { '*' => Give.More, '~' => Give.MoreOrLess, _ => Give.None });
                if (gives[^1] != Give.None) row = row[..^1];
                if (row.AsSpan().IndexOfAnyExcept(LetterShape.Cable, LetterShape.Bare) is >= 0 and var at) throw Wrong(i, $"“{row[at]}” is neither # nor .");
                if (rows.Count > 0 && row.Length != rows[0].Length) throw Wrong(i, $"this row is {row.Length} valleys wide, the letter's first is {rows[0].Length}");
                if (LetterShape.Runs(row).Any(r => r.To - r.From + 1 < LetterShape.LeastRun)) throw Wrong(i, $"a run has at least {LetterShape.LeastRun} cables");
                rows.Add(row);
            }
            if (!rows.Any(r => r.Contains(LetterShape.Cable))) throw Wrong(i, "nothing is drawn under it");
            return new DrawnLetter(from, rows.ToImmutable(), gives.ToImmutable());
        }

        int Whole(int line, string value, int least, int most) =>
            int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var n) && n >= least && n <= most ? n : throw Wrong(line, $"“{value}” is no whole number from {least} to {most}");

        FormatException Wrong(int line, string what) => new($"{file}:{line + 1}: {what}.");
    }
}
