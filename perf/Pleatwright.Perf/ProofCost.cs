using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Proof;
using Pleatwright.Thread;

namespace Pleatwright.Perf;

/// <summary>What an edit costs: laying out, proof, order and amounts, at one size and over a hundredfold range.</summary>
internal static class ProofCost
{
    private const double MostMilliseconds = 50, MostRatio = 1.5;

    public static void Measure()
    {
        // Compiled and warm before the first, smallest size.
        var warm = Work.Lay(Pictures.Scene(160_000));
        for (var i = 0; i < 10; i++)
        {
            Proofreading.Read(Work.Lay(warm.Piece));
            Planner.Plan(warm, Effort.Drawing).ThreadUses();
        }
        Console.WriteLine("cables      lay ms   proof ms   order ms   amounts ms   sum ms   ns a cable: proof   sum");
        double leastProof = double.MaxValue, mostProof = 0, leastSum = double.MaxValue, mostSum = 0;
        foreach (var size in (int[])[5_000, 16_000, 48_000, 160_000, 500_000])
        {
            var piece = Pictures.Scene(size);
            var cables = Work.Lay(piece).Cables;
            var lay = Machine.Median(() => { Work.Lay(piece); });
            // A work keeps its areas once found, so each go proofs a new one.
            var proof = Machine.Median(() => Work.Lay(piece), w => Proofreading.Read(w));
            var work = Work.Lay(piece);
            var order = Planner.Plan(work, Effort.Drawing);
            var planning = Machine.Median(() => { Planner.Plan(work, Effort.Drawing); });
            var amounts = Machine.Median(() =>
            {
                foreach (var use in order.ThreadUses()) Cutting.Amount(use, piece.Working.WorkingLength);
            });
            var sum = proof + planning + amounts;
            double each = proof * 1e6 / cables, all = sum * 1e6 / cables;
            Console.WriteLine($"{cables,7}   {lay,8:0.00}   {proof,8:0.00}   {planning,8:0.00}   {amounts,10:0.00}   {sum,6:0.0}   {each,18:0}   {all,3:0}");
            if (size == 48_000) Console.WriteLine($"          {cables} cables: {sum:0.0} ms of {MostMilliseconds:0} allowed, ratio {sum / MostMilliseconds:0.00}");
            (leastProof, mostProof) = (Math.Min(leastProof, each), Math.Max(mostProof, each));
            (leastSum, mostSum) = (Math.Min(leastSum, all), Math.Max(mostSum, all));
        }
        Console.WriteLine($"dearest over cheapest cable: proof {mostProof / leastProof:0.00}, proof + order + amounts {mostSum / leastSum:0.00}; {MostRatio} allowed");
    }
}
