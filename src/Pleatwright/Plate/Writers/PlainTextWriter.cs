using System.Globalization;
using System.Text;
using Pleatwright.Chart;
using Pleatwright.Plate.Parts;
using Pleatwright.Plate.Sections;

namespace Pleatwright.Plate.Writers;

/// <summary>A plate as plain text, no line longer than 80 characters, for a screen reader, a letter or a plain printer.</summary>
internal static class PlainTextWriter
{
    private const int Columns = 80;

    /// <summary>Writes the plate; lines end with a line feed.</summary>
    public static string Write(PlateDocument plate) => PrintedWords.Proving(plate, Compose, PrintedWords.OfText);

    private static string Compose(PlateDocument plate)
    {
        var text = new StringBuilder();
        Heading(text, plate.Title, '=');
        Paragraph(text, plate.Summary);
        if (plate.IsProved && plate.HasDirections) Paragraph(text, PrintedWords.Proved);
        text.Append('\n');
        var names = plate.Facts.Max(f => f.Name.Length);
        foreach (var fact in plate.Facts) Paragraph(text, fact.Value, fact.Name.PadRight(names) + "  ");
        if (plate.Verdict is { } verdict)
        {
            Heading(text, verdict.Headline, '-');
            Paragraph(text, verdict.Words);
        }
        foreach (var section in PlateSections.Of(plate))
        {
            Heading(text, section.Heading, '-');
            Item? last = null;
            foreach (var item in section.Items.Where(i => section.Id != PlateSections.BackId || i is TheBack)) // letters have a key of their own
            {
                Put(text, item, last, plate);
                last = item;
            }
        }
        return text.ToString();
    }

    private static void Put(StringBuilder text, Item item, Item? last, PlateDocument plate)
    {
        switch (item)
        {
            case Headed headed:
                if (last is not null && !text.ToString(text.Length - 2, 2).Equals("\n\n", StringComparison.Ordinal)) text.Append('\n');
                Paragraph(text, headed.Words.ToUpperInvariant());
                text.Append('\n');
                break;
            case Words words:
                if (last is Lines || (last is Words && plate.Options.Edition == Edition.Plate)) text.Append('\n');
                Paragraph(text, words.Text, words.Tone == Tone.Check && last is Step step ? new string(' ', step.Last.Length + 2) + "==> " : "");
                break;
            case Labelled labelled:
                var labels = labelled.Lines.Max(l => l.Label.Length);
                foreach (var line in labelled.Lines) Paragraph(text, line.Words, labels > 0 ? line.Label.PadRight(labels + 2) : "");
                break;
            case KeyThread key:
                Paragraph(text, key.Thread.Name, $"{key.Thread.Letter}   ");
                Paragraph(text, key.Words + (key.Thread.IsUsed ? $"; {key.Thread.Length(plate.Options.Units)} in {key.Thread.Needlefuls}" : ""), "    ");
                break;
            case KeySign: break; // the chart in letters says what its letters are
            case StitchShown shown: Paragraph(text, shown.Stitch.Words, shown.Stitch.Name + ". ", 4); break;
            case Lines lines:
                if (last is Words) text.Append('\n');
                foreach (var line in TextTable.Lines(lines.Block, Columns, "[ ] ")) text.Append(line).Append('\n');
                break;
            case Step s: Paragraph(text, s.Text, $"[ ] {s.Number.PadLeft(s.Last.Length)}  "); break;
            case TheChart: Chart(text, plate); break;
            case TheTrueChart: break; // letters have no true size
            case TheBack: TextBack.Write(text, plate.Order, Columns); break;
            case Framed framed: Paragraph(text, framed.Text); break;
        }
    }

    // One column a valley, one line a cable row, in strips that fit the page.
    private static void Chart(StringBuilder text, PlateDocument plate)
    {
        var work = plate.Work;
        var stitches = new TextStitches(work);
        Paragraph(text, "One column is one valley and one line is one cable row; a letter is a cable in that thread over the two pleats beside its " +
            "valley, a point is bare. Rows count from 0; G1, G2 and so on stand before the rows that lie on gathering rows." +
            (plate.Signs.Any(s => s.Sign == Sign.HalfStitch) ? " A bracket is a half stitch at that end of its run, | one at both sides." : "") +
            string.Concat(stitches.Meanings.Select(m => $" {m}.")));
        if (stitches.Any) text.Append('\n');
        foreach (var words in TextStitches.Words(work)) Paragraph(text, words, "  ", 4);
        const int label = 11;
        const int strip = 60;
        var window = ChartPages.WorkedWindow(work);
        int first = Math.Max(1, window.FirstPleat), last = Math.Min(work.Valleys, window.LastPleat);
        int top = Math.Max(0, window.FirstRow), bottom = Math.Min(work.CableRows - 1, window.LastRow);
        for (var from = first; from <= last; from += strip)
        {
            var to = Math.Min(from + strip - 1, last);
            if (!Worked(work, from, to) && !stitches.AnyIn(from, to)) continue;
            text.Append('\n');
            Ruler(text, work, from, to, label);
            for (var y = top; y <= bottom; y++)
            {
                var row = new CableRow(y);
                var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
                var gathering = y % perSpace == 0 ? FormattableString.Invariant($"G{y / perSpace + 1}") : "";
                text.Append(FormattableString.Invariant($"{gathering,-5}{y,4} "));
                text.Append(CellsOf(work, stitches, row, from, to).AsSpan().TrimEnd()).Append('\n');
            }
        }
    }

    private static bool Worked(Work work, int from, int to)
    {
        foreach (var run in work.Runs) if (run.From.Number <= to && run.To.Number >= from) return true;
        return false;
    }

    private static void Ruler(StringBuilder text, Work work, int from, int to, int label)
    {
        var numbers = new char[label + to - from + 6];
        var ticks = new char[label + to - from + 1];
        Array.Fill(numbers, ' ');
        Array.Fill(ticks, ' ');
        "valley".CopyTo(numbers);
        for (var v = from; v <= to; v++)
        {
            ticks[label + v - from] = v == work.Pleating.CentreValley ? 'C' : v % 10 == 0 ? '+' : v % 5 == 0 ? '\'' : ' ';
            if (v % 10 != 0) continue;
            var number = v.ToString(CultureInfo.InvariantCulture);
            var at = label + v - from - number.Length + 1;
            if (at > 6) number.CopyTo(0, numbers, at, number.Length);
        }
        text.Append(new string(numbers).TrimEnd()).Append('\n').Append(new string(ticks).TrimEnd()).Append('\n');
    }

    // The row from one valley to another, with a column more at each side for brackets alone.
    private static string CellsOf(Work work, TextStitches stitches, CableRow row, int from, int to)
    {
        var cells = new char[to - from + 3];
        cells[0] = cells[^1] = ' ';
        for (var v = from; v <= to; v++)
        {
            var cable = work.ThreadAt(new Valley(v), row)?.Letter;
            cells[v - from + 1] = stitches.At(v, row.Index) is { } sign && (cable is null || TextStitches.LiesOver(sign)) ? sign : cable ?? Figure.Bare;
        }
        foreach (var run in work.RunsIn(row))
        {
            if (run.HalfLeft) Bracket(run.From.Number - 1, '(');
            if (run.HalfRight) Bracket(run.To.Number + 1, ')');
        }
        return new string(cells);

        void Bracket(int valley, char bracket)
        {
            if (valley < from - 1 || valley > to + 1) return;
            ref var cell = ref cells[valley - from + 1];
            cell = cell is '(' or ')' ? '|' : bracket;
        }
    }

    private static void Heading(StringBuilder text, string words, char under)
    {
        if (text.Length > 0) text.Append("\n\n");
        var start = text.Length;
        Paragraph(text, words);
        text.Append(under, Math.Min(Columns, text.Length - start - 1)).Append("\n\n");
    }

    // Words broken at spaces, later lines indented as far as the first one's beginning or by so much.
    private static void Paragraph(StringBuilder text, string words, string begin = "", int? indent = null)
    {
        var line = new StringBuilder(begin);
        var blank = new string(' ', indent ?? begin.Length);
        var empty = true;
        foreach (var whole in words.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            var word = whole;
            if (!empty && line.Length + 1 + word.Length > Columns) Break();
            while (line.Length + word.Length > Columns)
            {
                var cut = Columns - line.Length;
                if (char.IsHighSurrogate(word[cut - 1])) cut--;
                line.Append(word.AsSpan(0, cut));
                word = word[cut..];
                Break();
            }
            if (!empty) line.Append(' ');
            line.Append(word);
            empty = false;
        }
        text.Append(line.ToString().TrimEnd()).Append('\n');

        void Break()
        {
            text.Append(line).Append('\n');
            line.Clear().Append(blank);
            empty = true;
        }
    }
}
