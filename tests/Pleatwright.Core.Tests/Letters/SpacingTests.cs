using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Letters;

namespace Pleatwright.Tests.Letters;

/// <summary>Letters stand evenly, and none touches another.</summary>
public class SpacingTests
{
    private static readonly Gen<(Alphabet Alphabet, string Text, int PerSpace)> Words =
        from a in Gen.Int[0, Alphabet.All.Length - 1]
        let alphabet = Alphabet.All[a]
        let characters = alphabet.Characters.ToArray()
        from text in Gen.Int[0, characters.Length - 1].Select(i => characters[i]).Array[2, 12].Select(c => string.Concat(c))
        from perSpace in Gen.Int[1, 12]
        select (alphabet, text, perSpace);

    [Fact]
    public void The_white_between_two_letters_is_what_the_alphabet_asks_for_or_they_stand_as_near_as_they_may() => Words.Sample(w =>
    {
        var set = Typesetter.Set(new LetteringOptions { Text = w.Text, Source = w.Alphabet }, w.PerSpace);
        foreach (var (one, other) in set.Letters.Zip(set.Letters.Skip(1)))
        {
            var column = other.Left - one.Left;
            var nearest = Spacing.Nearest(one.Shape, other.Shape);
            Assert.True(column >= nearest);
            var white = Spacing.Mean(one.Shape, other.Shape, column, 1);
            // A letter further back may reach under or over its neighbour and hold the next off: marks and tails do.
            if (column == nearest || white is null || set.Letters.Any(l => l.Left < one.Left && other.Left == l.Left + Spacing.Nearest(l.Shape, other.Shape))) continue;
            Assert.InRange(white.Value, w.Alphabet.Spacing, w.Alphabet.Spacing + 1);
        }
    });

    [Fact]
    public void A_whole_pleat_is_bare_between_any_two_letters() => Words.Sample(w =>
    {
        var set = Typesetter.Set(new LetteringOptions { Text = w.Text, Source = w.Alphabet }, w.PerSpace);
        var owner = new Dictionary<(int Row, int Column), int>();
        for (var i = 0; i < set.Letters.Length; i++)
            foreach (var cell in Cells(set.Letters[i])) owner.Add(cell, i); // no two letters share a valley
        foreach (var ((row, column), letter) in owner)
            for (var y = row - 1; y <= row + 1; y++)
                for (var x = column - Spacing.Least; x <= column + Spacing.Least; x++)
                    if (owner.TryGetValue((y, x), out var near) && near != letter) Assert.Fail($"{w.Text}: letters {near} and {letter} are {Math.Abs(x - column)} valleys apart");
        Assert.Equal(set.Figure.Rows.Sum(r => r.Count(c => c != Figure.Bare)), owner.Count);
    });

    /// <summary>The area of a letter, or of a part of it where it has several, is never shared with another letter.</summary>
    [Fact]
    public void Every_letter_is_worked_by_itself_row_by_row() => Words.Sample(w =>
    {
        var set = Typesetter.Set(new LetteringOptions { Text = w.Text, Source = w.Alphabet }, w.PerSpace);
        var areas = Parts(set.Letters.SelectMany(Cells).ToHashSet());
        var drawn = set.Letters.Sum(l => Parts([.. Cells(l)]));
        Assert.Equal(drawn, areas);
        foreach (var letter in set.Letters.Where(l => l.Character.Length == 1 && char.IsAsciiLetter(l.Character[0])))
            Assert.Equal(letter.Character is "i" or "j" ? 2 : 1, Parts([.. Cells(letter)]));
    });

    [Fact]
    public void A_letter_hangs_together_at_every_height_as_it_was_drawn()
    {
        foreach (var alphabet in Alphabet.All)
            foreach (var character in alphabet.Characters)
            {
                int PartsAt(LetterSize size) => Parts([.. Cells(new SetLetter(character, 0, 0, 0, alphabet.Shape(character, size)!))]);
                var drawn = PartsAt(new LetterSize(DrawnLetter.Zone, 1));
                foreach (var size in new[] { new LetterSize(4, 1), new(7, 1), new(12, 1), new(8, 2), new(11, 2), new(20, 4) })
                    if (PartsAt(size) is var parts && parts != drawn) Assert.Fail($"{character} of {alphabet.Name} at {size}: {parts} parts, not {drawn}");
            }
    }

    [Fact]
    public void Along_a_band_letters_fill_the_valleys_and_what_one_gap_gains_the_others_gain() => Words.Select(Gen.Int[30, 500]).Sample((w, across) =>
    {
        var row = Typesetter.Set(new LetteringOptions { Text = w.Text, Source = w.Alphabet }, w.PerSpace);
        var along = Typesetter.Set(new LetteringOptions { Text = w.Text, Source = w.Alphabet, Arrangement = Arrangement.Along, Across = across }, w.PerSpace);
        Assert.Equal(Math.Max(across, row.Figure.Width), along.Figure.Width);
        var gains = along.Letters.Zip(along.Letters.Skip(1), (a, b) => b.Left - a.Left).Zip(row.Letters.Zip(row.Letters.Skip(1), (a, b) => b.Left - a.Left), (a, b) => a - b).ToList();
        Assert.InRange(gains.Max() - gains.Min(), 0, 1);
    });

    [Theory]
    [InlineData("plain", "nn", 4)] // two upright strokes
    [InlineData("plain", "LT", 2)] // as near as they may
    public void Letters_that_lean_away_stand_nearer(string alphabet, string text, int nearest)
    {
        var set = Typesetter.Set(new LetteringOptions { Text = text, Source = Alphabet.Named(alphabet)! }, 5);
        var (one, other) = (set.Letters[0], set.Letters[1]);
        var gaps = Enumerable.Range(one.Shape.Top, one.Shape.Rows.Length).Where(y => one.Shape.Last(y) >= 0 && other.Shape.First(y) >= 0)
            .Select(y => other.Left - one.Left + other.Shape.First(y) - one.Shape.Last(y) - 1);
        Assert.Equal(nearest, gaps.Min());
    }

    [Fact]
    public void Letters_that_lean_alike_reach_under_one_another()
    {
        var set = Typesetter.Set(new LetteringOptions { Text = "AV", Source = Alphabet.Named("roman")! }, 5);
        Assert.True(set.Letters[1].Left < set.Letters[0].Shape.Width);
    }

    private static IEnumerable<(int Row, int Column)> Cells(SetLetter letter) =>
        from y in Enumerable.Range(letter.Shape.Top, letter.Shape.Rows.Length)
        from x in Enumerable.Range(0, letter.Shape.Width)
        where letter.Shape.Row(y)[x] == LetterShape.Cable
        select (letter.Base + y, letter.Left + x);

    // Parts that hang together by a valley worked in rows one under the other, or side by side: what the order works from one base row.
    private static int Parts(HashSet<(int Row, int Column)> cells)
    {
        var parts = 0;
        var seen = new HashSet<(int, int)>();
        foreach (var cell in cells)
        {
            if (!seen.Add(cell)) continue;
            parts++;
            var queue = new Queue<(int Row, int Column)>([cell]);
            while (queue.TryDequeue(out var at))
                foreach (var next in new[] { (at.Row - 1, at.Column), (at.Row + 1, at.Column), (at.Row, at.Column - 1), (at.Row, at.Column + 1) })
                    if (cells.Contains(next) && seen.Add(next)) queue.Enqueue(next);
        }
        return parts;
    }
}
