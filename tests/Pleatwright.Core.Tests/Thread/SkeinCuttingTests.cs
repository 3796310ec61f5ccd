using CsCheck;
using Google.OrTools.Sat;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Thread;

public class SkeinCuttingTests
{
    private static Length Mm(int value) => Length.FromMillimetres(value);

    private sealed record Case((int Size, int Strands)[] Asked, int[] AtHand, int Skein, int InSkein)
    {
        public StrandsAsked[] Strands => [.. Asked.Select(a => new StrandsAsked(Mm(a.Size), a.Strands))];

        public SkeinCutting Cut() => SkeinCutting.Of(Strands, [.. AtHand.Select(Mm)], Mm(Skein), InSkein);
    }

    private static readonly Gen<Case> Cases = Gen.Select(
        Gen.Select(Gen.Int[2, 7], Gen.Int[0, 6]).Array[0, 3], Gen.Int[0, 14].Array[0, 2], Gen.Int[7, 16], Gen.Int[1, 3])
        .Select((asked, atHand, skein, inSkein) => new Case(asked, atHand, skein, inSkein));

    // Every way to cut every skein, the useless ones too, until the strands cut will do: each strand asked for takes one
    // as long or longer of its own.
    private static int BruteForce(Case c)
    {
        int[] sizes = [.. c.Asked.Select(a => a.Size).Distinct().OrderDescending()];
        int[] asked = [.. c.Asked.SelectMany(a => Enumerable.Repeat(a.Size, a.Strands)).OrderDescending()];
        var reached = new HashSet<string> { new('\0', sizes.Length) };
        foreach (var room in c.AtHand) reached = Extended(reached, sizes, room, asked.Length);
        for (var bought = 0; ; bought++)
        {
            if (reached.Any(lengths => WillDo(lengths, sizes, asked, c.InSkein))) return bought;
            reached = Extended(reached, sizes, c.Skein, asked.Length);
        }
    }

    private static bool WillDo(string lengths, int[] sizes, int[] asked, int inSkein)
    {
        var strands = lengths.SelectMany((n, i) => Enumerable.Repeat(sizes[i], n * inSkein)).ToArray(); // longest first, as those asked for
        return strands.Length >= asked.Length && asked.Select((size, i) => strands[i] >= size).All(fits => fits);
    }

    private static HashSet<string> Extended(HashSet<string> reached, int[] sizes, int room, int most)
    {
        var next = new HashSet<string>();
        var ways = Ways(sizes, 0, room).ToList();
        foreach (var lengths in reached)
            foreach (var way in ways)
                next.Add(new string([.. lengths.Zip(way, (a, b) => (char)Math.Min(a + b, most))]));
        return next;
    }

    private static IEnumerable<int[]> Ways(int[] sizes, int from, int room)
    {
        if (from == sizes.Length) return [new int[from]];
        return Enumerable.Range(0, room / sizes[from] + 1).SelectMany(n => Ways(sizes, from + 1, room - n * sizes[from]).Select(rest =>
        {
            rest[from] = n;
            return rest;
        }));
    }

    [Fact]
    public void No_way_of_cutting_buys_fewer_skeins() => Cases.Sample(c =>
    {
        var cutting = c.Cut();
        Assert.True(cutting.IsLeast);
        Assert.Equal(BruteForce(c), cutting.ToBuy);
    }, iter: 300);

    // The cutting-stock problem, as whole numbers for a general reference library (Google OR-Tools, CP-SAT), on skeins and needlefuls of
    // their true sizes: what each skein gives, and that the lengths as long or longer hold the strands asked of them.
    [Fact]
    public void A_constraint_solver_buys_no_fewer_skeins()
    {
        var random = new Random(7);
        for (var i = 0; i < 40; i++)
        {
            var sizes = Enumerable.Range(0, random.Next(1, 4)).Select(_ => random.Next(30, 95) * 10).Distinct().OrderDescending().ToArray();
            var c = new Case([.. sizes.Select(size => (size, random.Next(1, 40)))], [.. Enumerable.Range(0, random.Next(3)).Select(_ => random.Next(200, 4000))], 2500, 6);
            var cutting = c.Cut();
            Assert.True(cutting.IsLeast);
            var model = new CpModel();
            var skeins = c.AtHand.Length + cutting.ToBuy + 1; // one more than we buy, to be left alone if we are right
            var cut = new IntVar[skeins, sizes.Length];
            var bought = new List<BoolVar>();
            for (var s = 0; s < skeins; s++)
            {
                var room = s < c.AtHand.Length ? c.AtHand[s] : c.Skein;
                for (var l = 0; l < sizes.Length; l++) cut[s, l] = model.NewIntVar(0, room / sizes[l], "");
                var used = LinearExpr.Sum(Enumerable.Range(0, sizes.Length).Select(l => cut[s, l] * sizes[l]));
                if (s < c.AtHand.Length)
                {
                    model.Add(used <= room);
                    continue;
                }
                bought.Add(model.NewBoolVar(""));
                model.Add(used <= bought[^1] * room);
                if (bought.Count > 1) model.Add(bought[^1] <= bought[^2]);
            }
            for (var l = 0; l < sizes.Length; l++)
                model.Add(LinearExpr.Sum(Enumerable.Range(0, skeins).SelectMany(s => Enumerable.Range(0, l + 1).Select(k => cut[s, k]))) * c.InSkein >= c.Asked.Take(l + 1).Sum(a => a.Strands));
            model.Minimize(LinearExpr.Sum(bought));
            var solver = new CpSolver { StringParameters = "num_workers:1,max_time_in_seconds:20,random_seed:1" };
            Assert.Equal(CpSolverStatus.Optimal, solver.Solve(model));
            Assert.Equal((int)Math.Round(solver.ObjectiveValue), cutting.ToBuy);
        }
    }

    [Fact]
    public void What_is_cut_adds_up_and_no_skein_gives_more_than_it_has() => Cases.Sample(c =>
    {
        var cutting = c.Cut();
        Assert.All(cutting.Skeins, s => Assert.True(s.Used <= Mm(s.From is { } at ? c.AtHand[at] : c.Skein)));
        Assert.Equal(cutting.Skeins.Count(s => s.From is not null), cutting.Skeins.Where(s => s.From is not null).Select(s => s.From).Distinct().Count());
        var cut = cutting.Skeins.SelectMany(s => s.Cuts).GroupBy(l => l.WorkingLength.Millimetres).ToDictionary(g => g.Key, g => g.Sum(l => l.Count));
        Assert.Equal(cutting.Lengths.ToDictionary(l => l.WorkingLength.Millimetres, l => l.Count), cut);
        // none cut in vain: one length fewer in all would not hold the strands
        var strands = c.Asked.Sum(a => a.Strands);
        Assert.InRange(cutting.Lengths.Sum(l => l.Count) * c.InSkein, strands, strands + c.InSkein - 1);
    });

    [Fact]
    public void More_at_hand_never_means_more_to_buy() => Gen.Select(Cases, Gen.Int[0, 14]).Sample((c, more) =>
        Assert.True((c with { AtHand = [.. c.AtHand, more] }).Cut().ToBuy <= c.Cut().ToBuy));

    // One working length and nothing at hand is what the plan of a single piece comes to.
    [Fact]
    public void One_length_agrees_with_the_cutting_plan_of_a_piece() => Gen.Select(Gen.Int[0, 200], Gen.Int[1, 12], Gen.Int[100, 900]).Sample((needlefuls, strands, length) =>
    {
        var floss = Some.Floss('a', "#b3202c", strands);
        var use = new ThreadUse(floss, 1, 0, Length.Zero, needlefuls);
        var cutting = SkeinCutting.Of([new StrandsAsked(Mm(length), (long)needlefuls * strands)], [], floss.SkeinLength, floss.StrandsInSkein);
        Assert.Equal(Cutting.Amount(use, Mm(length)).Skeins, cutting.ToBuy);
        Assert.Equal(CuttingPlan.Of([use], Mm(length)).Skeins, cutting.ToBuy);
    });

    [Fact]
    public void A_great_many_unlike_lengths_are_cut_longest_first_and_it_is_said_that_no_proof_was_sought()
    {
        StrandsAsked[] asked = [.. Enumerable.Range(0, 8).Select(i => new StrandsAsked(Mm(401 + 37 * i), 60))];
        var cutting = SkeinCutting.Of(asked, [], Mm(1000), 1);
        Assert.False(cutting.IsLeast);
        var need = asked.Sum(a => a.WorkingLength.Millimetres * a.Strands);
        Assert.InRange(cutting.ToBuy, need / 1000, 2 * need / 1000 + 1); // longest first never takes twice what there is to fill
    }

    [Fact]
    public void A_skein_shorter_than_a_needleful_is_refused_unless_what_is_at_hand_will_do()
    {
        Assert.Throws<ArgumentException>(() => SkeinCutting.Of([new StrandsAsked(Mm(450), 6)], [], Mm(300), 6));
        Assert.Equal(0, SkeinCutting.Of([new StrandsAsked(Mm(450), 6)], [Mm(450)], Mm(300), 6).ToBuy);
    }
}
