using System.Globalization;
using System.Text;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Order.Telling;
using Pleatwright.Plate.Parts;

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
        if (plate.Verdict is { } verdict) Proof(text, verdict);
        Key(text, plate);
        foreach (var group in plate.Materials)
        {
            Heading(text, group.Heading, '-');
            var labels = group.Lines.Max(l => l.Label.Length);
            foreach (var line in group.Lines) Paragraph(text, line.Words, labels > 0 ? line.Label.PadRight(labels + 2) : "");
        }
        Chart(text, plate);
        if (plate.HasDirections)
        {
            Heading(text, "Directions", '-');
            if (plate.Options.Edition == Edition.Learner) Steps(text, plate);
            else Table(text, plate.Table);
        }
        Heading(text, CautionsPart.Heading, '-');
        Paragraph(text, plate.Cautions);
        return text.ToString();
    }

    private static void Proof(StringBuilder text, Verdict verdict)
    {
        Heading(text, $"{verdict.Headline}: {Layout.ProofHeading.ToLowerInvariant()}", '-');
        Paragraph(text, verdict.Counts);
        foreach (var finding in verdict.Findings)
        {
            text.Append('\n');
            Paragraph(text, finding.Message, Verdict.Name(finding.Severity) + ": ", 4);
            Paragraph(text, finding.Remedy, "    ");
        }
    }

    private static void Key(StringBuilder text, PlateDocument plate)
    {
        if (plate.Threads.Length == 0) return;
        Heading(text, "Threads", '-');
        foreach (var thread in plate.Threads)
        {
            Paragraph(text, $"{thread.Name}, {thread.Strands}", $"{thread.Letter}   ");
            Paragraph(text, thread.IsUsed
                ? $"{thread.Stitches}; {thread.Length(plate.Options.Units)} in {thread.Needlefuls}; {thread.SkeinWords}"
                : "none needed", "    ");
            if (thread.Note.Length > 0) Paragraph(text, thread.Note, "    ");
        }
    }

    private static void Steps(StringBuilder text, PlateDocument plate)
    {
        var digits = plate.Directions.Max(d => d.Step?.Number ?? 0).ToString(CultureInfo.InvariantCulture).Length;
        var indent = new string(' ', digits + 6);
        foreach (var paragraph in plate.Directions)
            switch (paragraph.Kind)
            {
                case DirectionKind.Heading:
                    text.Append('\n');
                    Paragraph(text, paragraph.Text.ToUpperInvariant());
                    text.Append('\n');
                    break;
                case DirectionKind.Step:
                    var number = paragraph.Step?.Number.ToString(CultureInfo.InvariantCulture) ?? "";
                    Paragraph(text, paragraph.Text, $"[ ] {number.PadLeft(digits)}  ");
                    break;
                case DirectionKind.LevelCheck:
                    Paragraph(text, paragraph.Text, indent[..^4] + "==> ");
                    break;
                default:
                    Paragraph(text, paragraph.Text);
                    break;
            }
    }

    private static void Table(StringBuilder text, DirectionTable table)
    {
        foreach (var paragraph in table.Lead)
        {
            Paragraph(text, paragraph);
            text.Append('\n');
        }
        foreach (var (i, block) in table.Blocks.Index())
        {
            if (block.Heading.Length > 0)
            {
                if (i > 0) text.Append('\n');
                Paragraph(text, block.Heading.ToUpperInvariant());
                text.Append('\n');
            }
            foreach (var note in block.Notes) Paragraph(text, note);
            if (block.Notes.Length > 0 && block.Lines.Length > 0) text.Append('\n');
            foreach (var line in TextTable.Lines(block, Columns, "[ ] ")) text.Append(line).Append('\n');
            foreach (var after in block.After)
            {
                text.Append('\n');
                Paragraph(text, after);
            }
        }
    }

    // One column a valley, one line a cable row, in strips that fit the page.
    private static void Chart(StringBuilder text, PlateDocument plate)
    {
        var work = plate.Work;
        Heading(text, "Chart", '-');
        var stitches = new TextStitches(work);
        if (work.Runs.Length == 0 && !stitches.Any)
        {
            Paragraph(text, "No stitches.");
            return;
        }
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
