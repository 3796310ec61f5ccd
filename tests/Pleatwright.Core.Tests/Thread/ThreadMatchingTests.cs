using CsCheck;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Thread;

/// <summary>Threads that come are found by their colour, never by their letter.</summary>
public class ThreadMatchingTests
{
    private static readonly Pleatwright.Chart.Piece Bare = new("bare", new ClothPlan(new Panel(Length.FromInches(2)), Gauge.Common, 3), [], [], []);

    private static readonly Gen<Colour> AnyColour = Gen.Select(Gen.Byte, Gen.Byte, Gen.Byte, (r, g, b) => new Colour(r, g, b));

    /// <summary>A colour, or one a little off it: so that same, near and far all come.</summary>
    private static Gen<Colour> By(Colour colour) => Gen.Select(Gen.Int[-9, 9], Gen.Int[-9, 9], Gen.Int[-9, 9], Gen.Int[0, 2]).Select((r, g, b, how) =>
        how == 0 ? colour : new Colour(Off(colour.Red, how == 1 ? r / 5 : r), Off(colour.Green, how == 1 ? g / 5 : g), Off(colour.Blue, how == 1 ? b / 5 : b)));

    private static byte Off(byte of, int by) => (byte)Math.Clamp(of + by, 0, 255);

    private static Gen<Floss[]> Palettes(Gen<Colour> colours) => Gen.Select(colours, Gen.Int[3, 4]).Array[0, 8].Select(made =>
        made.Select((m, i) => new Floss(new ThreadKey((char)('a' + i)), $"thread {i}", m.Item1, m.Item2)).ToArray());

    private static readonly Gen<(Floss[] Own, Floss[] Coming)> Both =
        from base1 in AnyColour
        from base2 in AnyColour
        from own in Palettes(Gen.OneOf(By(base1), By(base2), AnyColour))
        from coming in Palettes(Gen.OneOf(By(base1), By(base2), AnyColour))
        select (own, coming);

    [Fact]
    public void The_same_is_taken_silently_the_near_is_asked_about_and_the_rest_comes_along()
    {
        var fits = new int[3];
        Both.Sample((own, coming) =>
        {
            var matches = ThreadMatching.Of(own, coming);
            Assert.Equal(coming, matches.Select(m => m.From));
            foreach (var match in matches)
            {
                fits[(int)match.Fit]++;
                double Far(Floss t) => ColourDifference.Between(t.Colour, match.From.Colour);
                // Every thread within the limit is a choice, and no other.
                Assert.Equal(own.Where(t => Far(t) <= 5).Select(t => t.Key).Order(Comparer<ThreadKey>.Create((a, b) => a.Letter - b.Letter)), match.Choices.Select(c => c.Thread.Key).Order(Comparer<ThreadKey>.Create((a, b) => a.Letter - b.Letter)));
                Assert.Equal(match.Choices.IsEmpty, match.Fit == ThreadFit.New);
                if (match.Fit != ThreadFit.Same) continue;
                var taken = match.Choices[0].Thread;
                Assert.True(Far(taken) <= 1 && taken.Strands == match.From.Strands && taken.TexPerStrand == match.From.TexPerStrand);
                Assert.True(own.Where(t => t.Strands == match.From.Strands).All(t => Far(taken) <= Far(t)));
            }
            // Two shades never run into one unasked.
            var silent = matches.Where(m => m.Fit == ThreadFit.Same).ToList();
            foreach (var one in silent)
                foreach (var other in silent)
                    Assert.True(one.From.Colour == other.From.Colour || one.Choices[0].Thread.Key != other.Choices[0].Thread.Key);
        }, threads: 1);
        Assert.All(fits, f => Assert.True(f > 20, string.Join(' ', fits)));
    }

    [Fact]
    public void Letters_decide_nothing() => Gen.Select(Both, Gen.Shuffle("qrstuvwx".ToCharArray())).Sample((both, letters) =>
    {
        var relettered = both.Coming.Select((t, i) => t with { Key = new ThreadKey(letters[i]) });
        Assert.Equal(ThreadMatching.Of(both.Own, both.Coming).Select(m => (m.Fit, m.From.Colour, m.Choices.FirstOrDefault().Difference)),
            ThreadMatching.Of(both.Own, relettered).Select(m => (m.Fit, m.From.Colour, m.Choices.FirstOrDefault().Difference)));
    }, threads: 1);

    [Fact]
    public void What_is_brought_keeps_its_colour_unless_the_maker_said_otherwise() => Gen.Select(Both, Gen.Int[0, 7], Gen.Int[0, 8]).Sample((both, which, answer) =>
    {
        var piece = Bare with { Threads = [.. both.Own] };
        ThreadKey? said = answer < both.Own.Length ? both.Own[answer].Key : null;
        var answers = which < both.Coming.Length ? new Dictionary<ThreadKey, ThreadKey?> { [both.Coming[which].Key] = said } : [];
        var (with, brought) = Pleatwright.Chart.Edit.Threads.Bring(piece, both.Coming, answers);
        Assert.Equal(both.Own, with.Threads.Take(both.Own.Length)); // its own stay as they are
        Assert.Equal(with.Threads.Length, with.Threads.Select(t => t.Key).Distinct().Count());
        foreach (var thread in brought)
        {
            Assert.Equal(thread.To, with.Thread(thread.To.Key));
            if (answers.TryGetValue(thread.From.Key, out var wanted))
            {
                if (wanted is { } key) Assert.Equal(key, thread.To.Key);
                else Assert.True(thread.Added);
            }
            else Assert.True(ColourDifference.Between(thread.From.Colour, thread.To.Colour) <= 1 && ThreadMatching.MadeAlike(thread.From, thread.To));
        }
    }, threads: 1);

    [Fact]
    public void Of_two_alike_the_nearer_is_taken_then_the_one_of_its_name()
    {
        Floss red = Some.Floss('r', "#b3202c"), nearer = Some.Floss('x', "#b3202c") with { Name = "thread r" }, near = Some.Floss('y', "#b4212d"), three = Some.Floss('z', "#b3202c", 3);
        Assert.Equal(nearer, Assert.Single(ThreadMatching.Of([near, nearer, three], [red])).Choices[0].Thread);
        var other = Assert.Single(ThreadMatching.Of([three], [red]));
        Assert.Equal((ThreadFit.InDoubt, false), (other.Fit, other.Choices[0].MadeAlike)); // the colour is there, but in three strands cloth would show
        Assert.Equal(ThreadFit.New, Assert.Single(ThreadMatching.Of([Some.Floss('r', "#1f4e79")], [red])).Fit); // its letter is no reason
    }
}
