using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Proof;
using Pleatwright.Tests.Chart;
using Pleatwright.Tests.Chart.Edit;

namespace Pleatwright.Tests.Proof;

/// <summary>Findings put together where they are one fault in several copies of a figure.</summary>
public class GroupingTests
{
    [Fact]
    public void No_finding_is_lost_and_the_counts_add_up()
    {
        var together = 0;
        Gen.OneOf(AnyPiece.Pieces, PieceGen.Pieces).Sample(piece =>
        {
            var work = Work.Lay(piece);
            var findings = Proofreading.Read(work);
            var faults = Grouping.Faults(work, findings);
            Assert.Equal(findings.Length, faults.Sum(f => f.Places.Length));
            Assert.Equal(
                findings.GroupBy(f => (f.Rule, f.Severity, f.Place)).Select(g => (g.Key, g.Count())).OrderBy(g => g.ToString()),
                faults.SelectMany(f => f.Places.Select(p => (f.First.Rule, f.First.Severity, p))).GroupBy(p => p).Select(g => (g.Key, g.Count())).OrderBy(g => g.ToString()));
            Assert.All(faults, f => Assert.Equal(f.First.Place, f.Places[0]));
            // The order of the proof: gravest first, and first told first.
            var told = faults.Select(f => findings.Index().First(i => ReferenceEquals(i.Item, f.First)).Index).ToList(); // two may say the same
            Assert.Equal(told.Order(), told);
            foreach (var fault in faults.Where(f => f.Places.Length > 1))
            {
                Interlocked.Increment(ref together);
                // As large in every copy, and no more copies than the figure has.
                Assert.Single(fault.Places.Select(p => (p.Bottom.Index - p.Top.Index, p.To.Number - p.From.Number)).Distinct());
                Assert.InRange(fault.Places.Length, 2, piece.Placements.Where(p => p.Figure == fault.Figure).Sum(p => p.Repeat.Count));
            }
        }, iter: 300);
        Assert.True(together > 20, $"{together} faults with more places than one are too few to tell");
    }

    [Fact]
    public void A_fault_of_a_figure_that_lies_mirrored_is_the_same_fault()
    {
        var piece = new Piece("Kites", new ClothPlan(new Panel(Length.FromInches(5)), Gauge.Common, 5), PieceGen.Threads,
            [new Figure("kite", ["..a....", ".......", "aaaaaaa", "aaaaaaa"])],
            [
                new Placement("kite", Centre.At(new Valley(12)), new GatheringRow(3), 2),
                new Placement("kite", Centre.At(new Valley(40)), new GatheringRow(3), 2) { Mirror = true },
            ]);
        var work = Work.Lay(piece);
        var fault = Assert.Single(Grouping.Faults(work, Proofreading.Read(work)), f => f.First.Rule == "lone-cable");
        Assert.Equal([11, 41], fault.Places.Select(p => p.From.Number));
        Assert.EndsWith("The same in 1 more copy of kite.", fault.Message);
    }
}
