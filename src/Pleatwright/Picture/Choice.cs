using Pleatwright.Thread;

namespace Pleatwright.Picture;

/// <summary>
/// Picks a few candidates so that everything lies near one of them: greedily first, then by exchanges. Two candidates that
/// look alike are never both picked.
/// </summary>
internal sealed class Choice
{
    private readonly Lab[] candidates;
    private readonly double[][] costs; // [candidate][shade]
    private readonly int shades;
    private readonly List<int> chosen = [];

    public Choice(Lab[] candidates, int shades, Func<int, int, double> cost)
    {
        this.candidates = candidates;
        this.shades = shades;
        costs = new double[candidates.Length][];
        for (var c = 0; c < costs.Length; c++)
        {
            costs[c] = new double[shades];
            for (var s = 0; s < shades; s++) costs[c][s] = cost(c, s);
        }
    }

    /// <summary>The candidates picked so far, in the order they were.</summary>
    public IReadOnlyList<int> Chosen => chosen;

    /// <summary>Picks, time after time, the candidate that lowers the whole cost most, until there are k or none does.</summary>
    public void Fill(int k)
    {
        var now = new double[shades];
        Array.Fill(now, double.MaxValue / Math.Max(1, shades));
        var sumNow = double.MaxValue;
        while (chosen.Count < k)
        {
            var best = -1;
            var least = sumNow;
            for (var c = 0; c < costs.Length; c++)
            {
                if (IsAlike(c, -1)) continue;
                var sum = Sum(now, costs[c], least);
                if (sum < least) (best, least) = (c, sum);
            }
            if (best < 0) return;
            chosen.Add(best);
            sumNow = least - 1e-9;
            for (var s = 0; s < shades; s++) now[s] = Math.Min(now[s], costs[best][s]);
        }
    }

    /// <summary>Makes the one exchange that lowers the whole cost most.</summary>
    /// <returns>False when none does.</returns>
    public bool Exchange()
    {
        var rest = new double[shades];
        int outgoing = -1, incoming = -1;
        Without(-1, rest);
        var least = rest.Sum() - 1e-9;
        for (var o = 0; o < chosen.Count; o++)
        {
            Without(o, rest);
            for (var c = 0; c < costs.Length; c++)
            {
                if (IsAlike(c, o)) continue;
                var sum = Sum(rest, costs[c], least);
                if (sum < least) (outgoing, incoming, least) = (o, c, sum);
            }
        }
        if (outgoing < 0) return false;
        chosen[outgoing] = incoming;
        return true;
    }

    private void Without(int outgoing, double[] rest)
    {
        Array.Fill(rest, double.MaxValue / Math.Max(1, shades));
        for (var j = 0; j < chosen.Count; j++)
            if (j != outgoing)
                for (var s = 0; s < shades; s++) rest[s] = Math.Min(rest[s], costs[chosen[j]][s]);
    }

    // The cost with one more candidate; given up once it passes the least so far.
    private static double Sum(double[] now, double[] with, double least)
    {
        var sum = 0.0;
        for (var s = 0; s < now.Length && sum < least; s++) sum += Math.Min(now[s], with[s]);
        return sum;
    }

    private bool IsAlike(int candidate, int leaving)
    {
        for (var j = 0; j < chosen.Count; j++)
            if (j != leaving && (chosen[j] == candidate || ColourDifference.Between(candidates[candidate], candidates[chosen[j]]) < Palette.LeastDifference))
                return true;
        return false;
    }
}
