using System.Runtime.CompilerServices;
using Pleatwright.Chart;

namespace Pleatwright.Plate.Parts;

/// <summary>Stretches of one colour that hang together: runs of one thread that touch from row to row.</summary>
internal sealed class Patches
{
    private static readonly ConditionalWeakTable<Work, Patches> Known = [];

    private readonly Dictionary<int, List<int>> lettered = [];

    private Patches(Work work)
    {
        var root = Enumerable.Range(0, work.Runs.Length).ToArray();
        for (var i = 0; i < root.Length; i++)
        {
            var run = work.Runs[i];
            for (int j = work.FirstRunIndex(new CableRow(run.Row.Index + 1)), end = work.FirstRunIndex(new CableRow(run.Row.Index + 2)); j < end; j++)
                if (work.Runs[j].Thread == run.Thread && work.Runs[j].FirstPleat.Number <= run.LastPleat.Number && work.Runs[j].LastPleat.Number >= run.FirstPleat.Number)
                    root[Find(j)] = Find(i);
        }
        foreach (var patch in Enumerable.Range(0, root.Length).GroupBy(Find))
        {
            // the longest of the row nearest to where its area is begun: there the letter stands
            var first = patch.OrderBy(r => Math.Abs(work.Runs[r].Row.Index - work.Areas.All[work.Areas.AreaOf(r)].Base.Index)).ThenByDescending(r => work.Runs[r].Cables).First();
            var row = work.Runs[first].Row.Index;
            if (!lettered.TryGetValue(row, out var there)) lettered[row] = there = [];
            there.Add(first);
        }

        int Find(int i)
        {
            while (root[i] != i) i = root[i] = root[root[i]];
            return i;
        }
    }

    /// <summary>The patches of a work; found once.</summary>
    public static Patches Of(Work work) => Known.GetValue(work, w => new Patches(w));

    /// <summary>The runs of a row that carry their thread's letter, as indices among the work's.</summary>
    public IReadOnlyList<int> LetteredIn(CableRow row) => lettered.GetValueOrDefault(row.Index) ?? (IReadOnlyList<int>)[];
}
