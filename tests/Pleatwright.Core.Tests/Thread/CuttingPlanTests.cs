using CsCheck;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Thread;

public class CuttingPlanTests
{
    private static readonly Length Needleful = Length.FromInches(18);

    private static ThreadUse Use(Floss floss, int needlefuls) => new(floss, needlefuls * 40, 0, Needleful * needlefuls, needlefuls);

    private static readonly Gen<ThreadUse[]> Uses = Gen.Select(Gen.Int[0, 2], Gen.Int[1, 12], Gen.Int[0, 60], Gen.OneOf(5, 6))
        .Select((colour, strands, needlefuls, inSkein) => Use(
            Some.Floss("abc"[colour], "#00000" + colour, strands) with { Key = new ThreadKey((char)('a' + strands)), Name = "colour " + colour, StrandsInSkein = inSkein }, needlefuls))
        .Array[0, 6];

    [Fact]
    public void Every_needleful_gets_its_strands_and_no_length_gives_more_than_it_has() => Uses.Sample(uses =>
    {
        foreach (var floss in CuttingPlan.Of([.. uses], Needleful).Flosses)
        {
            var inSkein = floss.Threads[0].StrandsInSkein;
            Assert.All(floss.Needlefuls, n => Assert.Equal(n.Thread.Strands, n.From.Sum(f => f.Strands)));
            var taken = floss.Needlefuls.SelectMany(n => n.From).GroupBy(f => f.Length).ToDictionary(g => g.Key, g => g.Sum(f => f.Strands));
            Assert.All(taken, t => Assert.InRange(t.Value, 1, inSkein));
            Assert.Equal(Enumerable.Range(1, floss.Lengths), taken.Keys.Order());
            Assert.Equal(floss.Lengths * inSkein, taken.Values.Sum() + floss.SpareStrands);
            // whole numbers, and none cut in vain: fewer lengths would not hold the strands
            Assert.InRange(floss.SpareStrands, 0, inSkein - 1);
            var perSkein = Cutting.LengthsPerSkein(floss.Threads[0], Needleful);
            Assert.InRange(floss.Lengths, (floss.Skeins - 1) * perSkein + 1, floss.Skeins * perSkein);
        }
    });

    [Fact]
    public void Every_needleful_asked_for_is_cut() => Uses.Sample(uses =>
        Assert.Equal(uses.Sum(u => u.Needlefuls), CuttingPlan.Of([.. uses], Needleful).Flosses.Sum(f => f.Needlefuls.Length)));

    [Fact]
    public void Threes_and_twos_use_up_what_fours_leave()
    {
        // 4 + 2 from one length and 3 + 3 from another: 2 lengths, nothing spare
        Floss four = Some.Floss('a', "#b3202c", 4) with { Name = "red" }, two = Some.Floss('b', "#b3202c", 2) with { Name = "red" },
            three = Some.Floss('c', "#b3202c", 3) with { Name = "red" };
        var floss = Assert.Single(CuttingPlan.Of([Use(two, 1), Use(four, 1), Use(three, 2)], Needleful).Flosses);
        Assert.Equal((2, 1, 0), (floss.Lengths, floss.Skeins, floss.SpareStrands));
        Assert.Equal([1, 2, 2, 1], floss.Needlefuls.Select(n => Assert.Single(n.From).Length));
    }

    [Fact]
    public void A_skein_shorter_than_a_needleful_is_refused() =>
        Assert.Throws<ArgumentException>(() => CuttingPlan.Of([Use(Some.Floss('a', "#b3202c") with { SkeinLength = Length.FromInches(10) }, 1)], Needleful));

    [Fact]
    public void In_words_each_floss_is_one_line()
    {
        // Sixteen needlefuls of four: eleven lengths give one each and two strands over, and ten of those strands make five more.
        Floss four = Some.Floss('a', "#b3202c", 4) with { Name = "red" }, two = Some.Floss('b', "#b3202c", 2) with { Name = "red" };
        var line = Assert.Single(CuttingWords.Of(CuttingPlan.Of([Use(four, 16)], Needleful), UnitSystem.Metric));
        Assert.Equal(("a (red)", "11 lengths: 16 needlefuls of 4 strands, 5 of them from 2 lengths, 2 and 2; 2 strands left over"), (line.Threads, line.Words));
        line = Assert.Single(CuttingWords.Of(CuttingPlan.Of([Use(four, 1), Use(two, 1)], Needleful), UnitSystem.Metric));
        Assert.Equal(("a, b (red)", "1 length: 1 needleful of 4 strands; 1 needleful of 2 strands"), (line.Threads, line.Words));
    }

    [Fact]
    public void A_length_cut_longer_is_told_in_the_maker_s_own_units()
    {
        var plan = CuttingPlan.Of([Use(Some.Floss('a', "#b3202c"), 3) with { LongerNeedlefuls = 1, LongerBy = Length.FromCentimetres(4) }], Needleful);
        Assert.Contains("1 of them up to 4 cm longer", Assert.Single(CuttingWords.Of(plan, UnitSystem.Metric)).Words, StringComparison.Ordinal);
        Assert.Contains("1 of them up to 1 5/8 in longer", Assert.Single(CuttingWords.Of(plan, UnitSystem.Inches)).Words, StringComparison.Ordinal);
    }

    [Fact]
    public void Counts_in_words_add_up() => Uses.Sample(uses =>
    {
        var plan = CuttingPlan.Of([.. uses], Needleful);
        var all = CuttingWords.Of(plan, UnitSystem.Metric);
        foreach (var floss in plan.Flosses)
        {
            var line = Assert.Single(CuttingWords.Of(plan with { Flosses = [floss] }, UnitSystem.Metric));
            // those cut alike share a line
            var alike = plan.Flosses.Count(f => CuttingWords.Of(plan with { Flosses = [f] }, UnitSystem.Metric)[0].Words == line.Words);
            Assert.Single(all, l => $", {l.Threads}, ".Contains($", {line.Threads}, ", StringComparison.Ordinal) && l.Words == (alike > 1 ? "each " : "") + line.Words);
            var numbers = System.Text.RegularExpressions.Regex.Matches(line.Words, @"(\d+) needlefuls? of (\d+) strand").Select(m => (N: int.Parse(m.Groups[1].Value), S: int.Parse(m.Groups[2].Value))).ToList();
            var spare = System.Text.RegularExpressions.Regex.Match(line.Words, @"(\d+) strands? left over");
            Assert.Equal(floss.Lengths * floss.Threads[0].StrandsInSkein, numbers.Sum(n => n.N * n.S) + (spare.Success ? int.Parse(spare.Groups[1].Value) : 0));
        }
    });
}
