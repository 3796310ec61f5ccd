using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Order;
using Pleatwright.Proof;
using Pleatwright.Thread;

namespace Pleatwright.Perf;

/// <summary>What a band of every stitch adds to an edit of a picture: laying out, proof, order and amounts, with and without.</summary>
internal static class BandCost
{
    public static void Measure()
    {
        Console.WriteLine("cables   bands   stitches   lay ms   proof ms   order ms   amounts ms   sum ms   with over without");
        foreach (var size in (int[])[6_000, 48_000])
        {
            var bare = Pictures.Scene(size);
            var rows = bare.Cloth.GatheringRows;
            var stitches = BandStitch.All.Where(s => !s.OnLattice).ToArray();
            var banded = bare with
            {
                Bands = [.. stitches.Select((s, i) => new Band(s.Name, new GatheringRow(1 + i * (rows - 2) / stitches.Length), bare.Threads[0].Key))],
            };
            var without = Sum(bare);
            var with = Sum(banded);
            Console.WriteLine($"{"",70}{with / without,6:0.00}");
        }
    }

    private static double Sum(Piece piece)
    {
        for (var i = 0; i < 10; i++) Planner.Plan(Work.Lay(piece)).ThreadUses();
        var lay = Machine.Median(() => { Work.Lay(piece); });
        var proof = Machine.Median(() => Work.Lay(piece), w => Proofreading.Read(w));
        var work = Work.Lay(piece);
        var planning = Machine.Median(() => { Planner.Plan(work); });
        var amounts = Machine.Median(() => Planner.Plan(work), order =>
        {
            foreach (var use in order.ThreadUses()) Cutting.Amount(use, piece.Working.WorkingLength);
        });
        var sum = lay + proof + planning + amounts;
        Console.WriteLine($"{work.Cables,6}   {work.Bands.Length,5}   {work.Bands.Sum(b => b.Stitches),8}   {lay,6:0.00}   {proof,8:0.00}   {planning,8:0.00}   {amounts,10:0.00}   {sum,6:0.0}");
        return sum;
    }
}
