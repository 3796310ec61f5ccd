using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Letters;

/// <summary>
/// Sets a text in letters, as one figure. Every line of the letters lies on a gathering row, so that what reaches out from a letter is kept level, and every
/// letter is an area of its own, with bare pleats all round.
/// </summary>
internal static class Typesetter
{
    /// <summary>Bare rows kept between two lines of text at least. Our own choice.</summary>
    public const int BetweenLines = 2;

    private sealed record Standing(string Character, int Line, int Left, int Base, LetterShape Shape);

    /// <summary>Sets it.</summary>
    /// <param name="options">What and how.</param>
    /// <param name="cableRowsPerSpace">Cable rows to a space of the piece it is for.</param>
    /// <exception cref="ArgumentException">It cannot be set: a character that is lacking, a text too long, out of range. The message says what and where.</exception>
    public static SetText Set(LetteringOptions options, int cableRowsPerSpace)
    {
        Check(options);
        var size = options.Height is { } rows ? LetterSize.For(cableRowsPerSpace, options.Source.Zones, rows) : LetterSize.Least(cableRowsPerSpace);
        var letters = options.Arrangement switch
        {
            Arrangement.Monogram => Monogram(options, size, cableRowsPerSpace),
            Arrangement.Down => Down(options, size, cableRowsPerSpace),
            _ => Lines(options, size, cableRowsPerSpace),
        };
        return Figured(options, letters, cableRowsPerSpace);
    }

    private static void Check(LetteringOptions options)
    {
        if (options.Text.Length > Figure.MostLetters) throw new ArgumentException($"{Counting.Of(options.Text.Length, "character")} are too many; at most {Figure.MostLetters} are set at once");
        if (string.IsNullOrWhiteSpace(options.Text)) throw new ArgumentException("there is no letter to stitch; type a name");
        if (options.Text.Split('\n').Length > LetteringOptions.MostLines) throw new ArgumentException($"at most {LetteringOptions.MostLines} lines are set at once");
        if (options.Height is < 1 or > LetteringOptions.MostHeight) throw new ArgumentException($"capitals are 1 to {LetteringOptions.MostHeight} cable rows high, not {options.Height}");
        if (options.Across is < 1 or > LetteringOptions.MostAcross) throw new ArgumentException($"letters are drawn apart over 1 to {LetteringOptions.MostAcross} valleys, not {options.Across}");
    }

    private static LetterShape Shape(LetteringOptions options, string character, int index, LetterSize size) =>
        options.Source.Shape(character, size) ?? throw new ArgumentException(string.Create(CultureInfo.InvariantCulture,
            $"“{character}” (character {index + 1}, U+{char.ConvertToUtf32(character, 0):X4}) is not among the letters of {options.Source.Name}; leave it out or choose other letters"));

    // One line, its first column 0; spaces stand between letters.
    private static List<Standing> Line(LetteringOptions options, string text, int offset, int line, LetterSize size)
    {
        var standing = new List<Standing>();
        var words = 0;
        foreach (var (character, index) in Characters(text))
        {
            if (character == " ")
            {
                if (standing.Count > 0) words++;
                continue;
            }
            var shape = Shape(options, character, offset + index, size);
            var left = standing is [.., var before] ? before.Left + Spacing.Column(before.Shape, shape, options.Source.Spacing, size.Scale) + words * options.Source.Word * size.Scale : 0;
            // Letters further back may reach under this one: none comes nearer than it may.
            foreach (var earlier in standing.TakeLast(4)) left = Math.Max(left, earlier.Left + Spacing.Nearest(earlier.Shape, shape));
            standing.Add(new Standing(character, line, left, 0, shape));
            words = 0;
        }
        if (options is { Arrangement: Arrangement.Along, Across: { } across }) Apart(standing, across);
        return standing;
    }

    private static IEnumerable<(string Character, int Index)> Characters(string text)
    {
        foreach (var (character, index) in Composed.Characters(text))
        {
            if (char.IsControl(character[0]) || (char.IsSurrogate(character[0]) && character.Length == 1))
                throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"character {index + 1} (U+{(int)character[0]:X4}) is none that can be written"));
            yield return (character, index);
        }
    }

    private static string OneLine(string text) => text.Replace('\n', ' ').Replace('\r', ' ');

    // Evenly: what one gap gains the others gain too, but for one valley. Where the last letter is not the one that reaches furthest, more is needed than is wanting.
    private static void Apart(List<Standing> line, int across)
    {
        if (line.Count < 2) return;
        var near = line.ConvertAll(s => s.Left);
        for (var (spare, lacks) = (0, across - Width(line)); lacks > 0; lacks = across - Width(line))
        {
            spare += lacks;
            for (var i = 1; i < line.Count; i++) line[i] = line[i] with { Left = near[i] + spare * i / (line.Count - 1) };
        }
    }

    private static int Width(List<Standing> line) => line.Max(s => s.Left + s.Shape.Width) - Math.Min(0, line.Min(s => s.Left));

    private static List<Standing> Lines(LetteringOptions options, LetterSize size, int perSpace)
    {
        var lines = new List<List<Standing>>();
        var offset = 0;
        foreach (var text in options.Text.Split('\n'))
        {
            var line = Line(options, text.TrimEnd('\r'), offset, lines.Count, size);
            if (line.Count > 0) lines.Add(line);
            offset += text.Length + 1;
        }
        return Stacked(lines, perSpace);
    }

    private static List<Standing> Down(LetteringOptions options, LetterSize size, int perSpace)
    {
        var lines = new List<List<Standing>>();
        foreach (var (character, index) in Characters(OneLine(options.Text)))
            if (character != " ") lines.Add([new Standing(character, lines.Count, 0, 0, Shape(options, character, index, size))]);
        return Stacked(lines, perSpace);
    }

    // Lines one below the other, their middles over one another, every base line on a gathering row.
    private static List<Standing> Stacked(List<List<Standing>> lines, int perSpace)
    {
        var all = new List<Standing>();
        var at = 0;
        var widest = lines.Max(Width);
        foreach (var line in lines)
        {
            if (all.Count > 0)
            {
                var above = all.Where(s => s.Line == line[0].Line - 1 || s.Base == at).Max(s => s.Base + s.Shape.Bottom);
                var needed = above + 1 + BetweenLines - line.Min(s => s.Shape.Top);
                at += (needed - at + perSpace - 1) / perSpace * perSpace;
            }
            var left = (widest - Width(line)) / 2;
            all.AddRange(line.Select(s => s with { Left = s.Left + left, Base = at }));
        }
        return all;
    }

    // The large one in the middle; the others so that their middle lies as near to its middle as a gathering row allows.
    private static List<Standing> Monogram(LetteringOptions options, LetterSize size, int perSpace)
    {
        var characters = Characters(OneLine(options.Text)).Where(c => c.Character != " ").ToList();
        if (characters.Count is < 2 or > 3) throw new ArgumentException($"a monogram is of two or three letters, not {characters.Count}");
        var least = LetterSize.Least(perSpace).Zone;
        var large = LetterSize.Times(perSpace, size.Zone / least * 2);
        var zones = options.Source.Zones;
        var raise = (int)Math.Round((large.Zone - size.Zone) * zones / 2.0 / perSpace, MidpointRounding.ToZero) * perSpace;
        var all = new List<Standing>();
        for (var i = 0; i < characters.Count; i++)
        {
            var small = characters.Count == 3 && i != 1;
            var shape = Shape(options, characters[i].Character, characters[i].Index, small ? size : large);
            var lower = small ? -raise : 0;
            // Raised letters keep their distance as they stand: told of shapes that know their rows.
            var risen = shape with { Top = shape.Top + lower };
            var left = all is [.., var before] ? before.Left + Spacing.Column(before.Shape, risen, options.Source.Spacing, size.Scale) : 0;
            if (all.Count == 2) left = Math.Max(left, all[0].Left + Spacing.Nearest(all[0].Shape, risen));
            all.Add(new Standing(characters[i].Character, 0, left, 0, risen));
        }
        return all;
    }

    private static SetText Figured(LetteringOptions options, List<Standing> letters, int perSpace)
    {
        var cells = new Canvas();
        foreach (var letter in letters) cells.Lay(letter.Shape, letter.Left, letter.Base, options.Thread);
        if (options.Border) Border.Round(cells, perSpace, options.BorderThread);
        var (left, top, right, bottom) = cells.Extent;
        if (right - left + 1 > Figure.MostValleys || bottom - top + 1 > Figure.MostRows || (long)(right - left + 1) * (bottom - top + 1) > Picture.TracingOptions.MostCells)
            throw new ArgumentException($"it would be {right - left + 1} valleys wide and {bottom - top + 1} cable rows high, which is too large; set fewer or smaller letters");
        var anchor = (int)Math.Ceiling(top / (double)perSpace) * perSpace;
        if (anchor < 0 && bottom >= 0) anchor = 0;
        var text = string.Join(' ', options.Text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        var figure = new Figure(NameOf(text), cells.Rows()) { Square = true, Letters = text };
        return new SetText(figure, anchor - top, [.. letters.Select(s => new SetLetter(s.Character, s.Line, s.Left - left, s.Base - top, s.Shape))]);
    }

    private static string NameOf(string text)
    {
        if (text.Length <= Figure.LongestName) return text;
        return text[..(char.IsHighSurrogate(text[Figure.LongestName - 1]) ? Figure.LongestName - 1 : Figure.LongestName)];
    }
}
