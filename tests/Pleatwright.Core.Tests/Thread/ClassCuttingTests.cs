using CsCheck;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Thread;

public class ClassCuttingTests
{
    private static readonly Length Needleful = Length.FromInches(18);

    private static ThreadUse Use(Floss floss, int needlefuls) => new(floss, needlefuls * 40, 0, Needleful * needlefuls, needlefuls);

    private static readonly Gen<ThreadUse[]> Uses = Gen.Select(Gen.Int[0, 2], Gen.Int[1, 12], Gen.Int[0, 30], Gen.OneOf(5, 6))
        .Select((colour, strands, needlefuls, inSkein) => Use(
            Some.Floss("abc"[colour], "#00000" + colour, strands) with { Name = "colour " + colour, StrandsInSkein = inSkein }, needlefuls))
        .Array[0, 5].Select(uses => uses.Select((u, i) => u with { Thread = u.Thread with { Key = new ThreadKey((char)('a' + i)) } }).ToArray()); // every thread has a letter of its own

    [Fact]
    public void Totals_add_up_across_students_and_spare_kits() =>
        Gen.Select(Uses, Gen.Int[1, 40], Gen.Int[0, 10], Gen.Int[0, 3]).Sample((uses, students, spares, extra) =>
        {
            var cutting = ClassCutting.Of([.. uses], Needleful, students, spares, extra);
            var one = CuttingPlan.Of([.. uses], Needleful);
            Assert.Equal(students + spares, cutting.Kits);
            Assert.Equal(one.Flosses.Length, cutting.Flosses.Length);
            foreach (var (floss, kit) in cutting.Flosses.Zip(one.Flosses))
            {
                // the lengths dealt out one kit after another, as the teacher does it
                var dealt = 0;
                for (var k = 0; k < students + spares; k++) dealt += kit.Lengths + extra;
                Assert.Equal(dealt, floss.Lengths);
                Assert.Equal(floss.Skeins * Cutting.LengthsPerSkein(kit.Threads[0], Needleful), dealt + floss.LengthsLeft);
                Assert.InRange(floss.LengthsLeft, 0, floss.LengthsPerSkein - 1);
                Assert.Equal(kit.Needlefuls.Length, floss.Threads.Sum(floss.NeedlefulsOf));
                Assert.Equal((students + spares) * kit.Needlefuls.Length, floss.Needlefuls);
            }
            Assert.Equal((students + spares) * uses.Sum(u => u.Needlefuls), cutting.Flosses.Sum(f => f.Needlefuls));
            Assert.Equal(cutting.Flosses.Sum(f => f.Skeins), cutting.Skeins);
        });

    [Fact]
    public void One_student_needs_what_one_piece_needs() => Uses.Sample(uses =>
        Assert.Equal(CuttingPlan.Of([.. uses], Needleful).Skeins, ClassCutting.Of([.. uses], Needleful, 1).Skeins));

    // Whole-number arithmetic, which has no source but counting: that nobody shares a length is common practice, no source.
    [Fact]
    public void No_cutting_found_by_trying_them_all_takes_fewer_skeins() =>
        Gen.Select(Gen.Int[1, 3], Gen.Int[1, 3], Gen.Int[1, 5].Array[1, 3], Gen.Int[2, 4]).Sample((kits, perSkein, strands, inSkein) =>
        {
            var uses = strands.Select((s, i) => Use(
                new Floss(new ThreadKey((char)('a' + i)), "red", default, s) { StrandsInSkein = inSkein, SkeinLength = Needleful * (perSkein + 0.3) }, 1));
            var floss = Assert.Single(ClassCutting.Of([.. uses], Needleful, kits).Flosses);
            Assert.Equal(FewestSkeins(kits, perSkein, strands, inSkein), floss.Skeins);
        }, iter: 300);

    // Every way to fill the kits, one strand after another: from a length the kit has begun, or a new one, which comes from
    // a skein begun or a new one.
    private static int FewestSkeins(int kits, int perSkein, int[] needlefuls, int inSkein)
    {
        var best = int.MaxValue;
        Fill(0, needlefuls.Sum(), 0, 0, 0);
        return best;

        void Fill(int kit, int strandsLeft, int inHand, int lengthsOfSkein, int skeins)
        {
            if (skeins >= best) return;
            if (strandsLeft == 0)
            {
                if (kit + 1 == kits) best = skeins;
                else Fill(kit + 1, needlefuls.Sum(), 0, lengthsOfSkein, skeins); // what is over stays in the kit
                return;
            }
            if (inHand > 0) Fill(kit, strandsLeft - 1, inHand - 1, lengthsOfSkein, skeins);
            if (lengthsOfSkein > 0) Fill(kit, strandsLeft - 1, inSkein - 1, lengthsOfSkein - 1, skeins);
            Fill(kit, strandsLeft - 1, inSkein - 1, perSkein - 1, skeins + 1);
        }
    }

    [Fact]
    public void A_length_is_never_shared_by_two_kits()
    {
        var floss = Assert.Single(ClassCutting.Of([Use(Some.Floss('a', "#b3202c"), 1)], Needleful, 3).Flosses);
        Assert.Equal((1, 3), (floss.LengthsInKit, floss.Lengths)); // twelve strands would fit into two
    }

    // By hand: 8 m is 20 lengths of 40 cm and not a centimetre more; of 16 in, 40.64 cm, it is 19, and the end of 27.8 cm holds six times 4 cm.
    [Fact]
    public void A_length_cut_a_little_longer_counts_in_every_kit()
    {
        var use = Use(Some.Floss('a', "#b3202c", 6), 1);
        var longer = use with { LongerNeedlefuls = 1, LongerBy = Length.FromCentimetres(4) };
        Assert.Equal(1, ClassCutting.Of([use], Length.FromCentimetres(40), 20).Skeins);
        Assert.Equal(2, ClassCutting.Of([longer], Length.FromCentimetres(40), 20).Skeins);
        Assert.Equal(1, ClassCutting.Of([longer], Length.FromInches(16), 6).Skeins);
        Assert.Equal(2, ClassCutting.Of([longer], Length.FromInches(16), 7).Skeins);
    }

    [Fact]
    public void Numbers_out_of_range_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => ClassCutting.Of([], Needleful, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => ClassCutting.Of([], Needleful, 1, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => ClassCutting.Of([], Needleful, 1, 0, -1));
    }
}
