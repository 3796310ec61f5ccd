using Pleatwright.Chart;
using Pleatwright.Picture;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Picture;

/// <summary>
/// Sweeping against the exact least energy. With two threads, no bare pleats and nothing charged for lengths or
/// overhang, the energy is one that a minimum cut solves exactly (Greig, Porteous and Seheult, 1989).
/// </summary>
public class SweepsTests
{
    // Measured: see the numbers beside each case.
    private const double StatedGap = 0.02;

    [Theory]
    [InlineData("noise", 400, 100)]
    [InlineData("pebbles", 600, 200)]
    [InlineData("pebbles", 1200, 600)]
    [InlineData("letters", 600, 200)]
    [InlineData("dusk", 800, 400)]
    [InlineData("slant stripes", 800, 800)]
    public void Sweeping_comes_within_the_stated_gap_of_the_minimum_cut(string picture, int change, int ragged)
    {
        const int width = 60, height = 36;
        var (costs, weights) = TwoThreads(picture, width, height, change, ragged);
        var energy = new Energy(width, height, 3, costs, weights, baseRow: 0);
        var labels = new byte[width * height];
        for (var i = 0; i < labels.Length; i++) labels[i] = (byte)(costs[i * 3 + 1] <= costs[i * 3 + 2] ? 1 : 2);
        var sweeps = new Sweeps(energy, mirror: false, labels);
        while (sweeps.Sweep()) { }
        var exact = energy.Of(MinimumCut(width, height, costs, weights));
        Assert.Equal(energy.Of(labels), sweeps.Value);
        TestContext.Current.TestOutputHelper?.WriteLine($"{picture}: swept {sweeps.Value}, exact {exact}, gap {(double)sweeps.Value / exact - 1:P3}");
        Assert.True(exact <= sweeps.Value);
        Assert.True(sweeps.Value <= exact * (1 + StatedGap), $"{(double)sweeps.Value / exact - 1:P3} above the minimum cut");
    }

    private static (int[] Costs, Weights Weights) TwoThreads(string picture, int width, int height, int change, int ragged)
    {
        var samples = BrickSampler.Sample(TestPictures.All[picture](), width, height, Phase.Even);
        var colours = Palette.Best(Shade.Gather(samples), 2);
        var costs = new BrickCosts(samples, [.. colours.Select(c => new Floss(new ThreadKey('a'), "", c, 4))], 0, mirror: false).Values;
        for (var i = 0; i < costs.Length; i += 3) costs[i] = Weights.Never; // bare is out of the question
        return (costs, new Weights { Change = change, Ragged = ragged, Short = 0, Lone = 0, Overhang = 0 });
    }

    // Augmenting paths by breadth first search (Edmonds and Karp, 1972); the cut's near side takes label 1.
    private static byte[] MinimumCut(int width, int height, int[] costs, Weights weights)
    {
        int cells = width * height, source = cells, sink = cells + 1;
        var net = new Net(cells + 2);
        for (var i = 0; i < cells; i++)
        {
            net.Join(source, i, costs[i * 3 + 2], 0); // cut when the cell takes label 2
            net.Join(i, sink, costs[i * 3 + 1], 0);
            if (i % width + 1 < width) net.Join(i, i + 1, weights.Change, weights.Change);
            if (i + width < cells) net.Join(i, i + width, weights.Ragged, weights.Ragged);
        }
        while (net.Augment(source, sink)) { }
        var near = net.Reached(source);
        return [.. Enumerable.Range(0, cells).Select(i => (byte)(near[i] ? 1 : 2))];
    }

    private sealed class Net(int nodes)
    {
        private readonly List<int>[] from = [.. Enumerable.Range(0, nodes).Select(_ => new List<int>())];
        private readonly List<int> to = [], room = [];

        public void Join(int a, int b, int forth, int back)
        {
            from[a].Add(to.Count); to.Add(b); room.Add(forth);
            from[b].Add(to.Count); to.Add(a); room.Add(back);
        }

        public bool Augment(int source, int sink)
        {
            var by = Search(source);
            if (by[sink] < 0) return false;
            var least = int.MaxValue;
            for (var n = sink; n != source; n = to[by[n] ^ 1]) least = Math.Min(least, room[by[n]]);
            for (var n = sink; n != source; n = to[by[n] ^ 1]) { room[by[n]] -= least; room[by[n] ^ 1] += least; }
            return true;
        }

        public bool[] Reached(int source) => [.. Search(source).Select((edge, n) => edge >= 0 || n == source)];

        private int[] Search(int source)
        {
            var by = new int[nodes];
            Array.Fill(by, -1);
            var queue = new Queue<int>([source]);
            while (queue.TryDequeue(out var n))
                foreach (var edge in from[n])
                    if (room[edge] > 0 && by[to[edge]] < 0 && to[edge] != source)
                    {
                        by[to[edge]] = edge;
                        queue.Enqueue(to[edge]);
                    }
            return by;
        }
    }
}
