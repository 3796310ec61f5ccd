using System.Collections.Immutable;

namespace Pleatwright.Letters;

/// <summary>What may be done with a drawn row where a letter is made higher or lower.</summary>
internal enum Give
{
    /// <summary>It is worked once.</summary>
    None,

    /// <summary>It may be worked again.</summary>
    More,

    /// <summary>It may be worked again, or left out.</summary>
    MoreOrLess,
}

/// <summary>
/// A letter as an alphabet's file draws it: in zones of <see cref="Zone"/> rows, the lines between them (capital line, x line, base line) each on a
/// gathering row. <see cref="At"/> works it at another height of the zone, whatever the cable rows to a space.
/// </summary>
/// <param name="From">The row its first drawn row lies on, counted from the capital line.</param>
/// <param name="Rows">Its rows.</param>
/// <param name="Gives">What may be done with each.</param>
internal sealed record DrawnLetter(int From, ImmutableArray<string> Rows, ImmutableArray<Give> Gives)
{
    /// <summary>Rows from one line of the drawing to the next.</summary>
    public const int Zone = 5;

    /// <summary>The fewest rows from one line to the next that a letter can be worked in.</summary>
    public const int LeastZone = 4;

    /// <summary>Its last drawn row.</summary>
    public int To => From + Rows.Length - 1;

    /// <summary>The letter with so many rows from one line to the next.</summary>
    /// <param name="zone">Rows of a zone, <see cref="LeastZone"/> or more.</param>
    /// <param name="lines">Zones from the capital line to the base line.</param>
    /// <param name="scale">How many times as large as drawn: 1, 2, 4, … ; <paramref name="zone"/> is then at least so many times <see cref="LeastZone"/>.</param>
    public LetterShape At(int zone, int lines, int scale)
    {
        var (top, rows) = Stretched(zone / scale);
        for (var s = scale; s > 1; s /= 2) rows = Doubled(rows);
        var reached = zone / scale * scale; // one more row in a zone for every one that does not share out
        if (reached < zone) rows = Spaced(rows, reached, zone);
        return LetterShape.Of((top - lines) * zone, rows)!;
    }

    // Whole zones from the line above the letter to the line below it; the first of those lines counted from the capital line.
    private (int Line, List<string> Rows) Stretched(int zone)
    {
        int first = (int)Math.Floor(From / (double)Zone), last = (int)Math.Ceiling(To / (double)Zone);
        var bare = new string(LetterShape.Bare, Rows[0].Length);
        var rows = new List<string> { RowAt(first * Zone) };
        for (var line = first; line < last; line++)
        {
            var between = Enumerable.Range(line * Zone + 1, Zone - 1).ToList();
            var more = between.FindAll(y => GiveAt(y) != Give.None);
            if (more.Count == 0) more = between.FindAll(IsBare);
            if (zone < Zone)
            {
                var less = between.FindAll(y => GiveAt(y) == Give.MoreOrLess);
                if (less.Count == 0) less = between.FindAll(IsBare);
                if (less.Count > 0) between.Remove(less[less.Count / 2]);
            }
            foreach (var y in between)
            {
                rows.Add(RowAt(y));
                var share = more.IndexOf(y);
                if (share < 0 || zone <= Zone) continue;
                for (var again = (zone - Zone) * share / more.Count; again < (zone - Zone) * (share + 1) / more.Count; again++) rows.Add(RowAt(y));
            }
            rows.Add(RowAt((line + 1) * Zone));
        }
        return (first, rows);

        string RowAt(int y) => y >= From && y <= To ? Rows[y - From] : bare;
        Give GiveAt(int y) => y >= From && y <= To ? Gives[y - From] : Give.None;
        bool IsBare(int y) => !RowAt(y).Contains(LetterShape.Cable);
    }

    // Twice as large: between two rows lies one whose edges are half way, so that a slope stays one valley a row. A hairline stays one row.
    private static List<string> Doubled(List<string> rows)
    {
        var doubled = new List<string>();
        for (var i = 0; i < rows.Count; i++)
        {
            doubled.Add(string.Concat(rows[i].Select(c => new string(c, 2))));
            if (i + 1 < rows.Count) doubled.Add(Between(rows[i], rows[i + 1]));
        }
        return doubled;
    }

    private static string Between(string above, string below)
    {
        List<(int From, int To)> one = [.. LetterShape.Runs(above)], two = [.. LetterShape.Runs(below)];
        var (many, few) = one.Count >= two.Count ? (one, two) : (two, one);
        var row = new char[above.Length * 2];
        Array.Fill(row, LetterShape.Bare);
        foreach (var run in many)
        {
            var over = few.FindAll(f => f.From <= run.To && f.To >= run.From);
            if (over.Count == 0) continue;
            var beside = many.FindAll(m => over.Exists(f => f.From <= m.To && f.To >= m.From));
            var from = run == beside[0] ? Edge(run.From, over[0].From, Math.Max) : 2 * run.From;
            var to = run == beside[^1] ? Edge(run.To, over[^1].To, Math.Min) + 1 : 2 * run.To + 1;
            to = Math.Max(to, from + LetterShape.LeastRun - 1); // where only a corner is shared, it holds together all the same
            Array.Fill(row, LetterShape.Cable, from, to - from + 1);
        }
        return new string(row);

        // Half way on a slope; where an arm begins, the narrower.
        static int Edge(int a, int b, Func<int, int, int> narrower) => Math.Abs(a - b) <= 1 ? a + b : 2 * narrower(a, b);
    }

    // Each zone of so many rows made longer: a row in its middle is worked again.
    private static List<string> Spaced(List<string> rows, int zone, int wanted)
    {
        var spaced = new List<string>();
        for (var i = 0; i < rows.Count; i++)
        {
            spaced.Add(rows[i]);
            if (i % zone == zone / 2)
                for (var again = zone; again < wanted; again++) spaced.Add(rows[i]);
        }
        return spaced;
    }
}
