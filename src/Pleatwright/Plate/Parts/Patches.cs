using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using Pleatwright.Chart;

namespace Pleatwright.Plate.Parts;

/// <summary>Stretches of one colour that hang together: runs of one thread that touch from row to row.</summary>
internal sealed class Patches
{
    private static readonly ConditionalWeakTable<Work, Patches> Known = [];

    private readonly Work work;
    private readonly int[] patchOf;
    private readonly List<ImmutableArray<int>> patches = [];

    private Patches(Work work)
    {
        this.work = work;
        var root = Enumerable.Range(0, work.Runs.Length).ToArray();
        for (var i = 0; i < root.Length; i++)
        {
            var run = work.Runs[i];
            for (int j = work.FirstRunIndex(new CableRow(run.Row.Index + 1)), end = work.FirstRunIndex(new CableRow(run.Row.Index + 2)); j < end; j++)
                if (work.Runs[j].Thread == run.Thread && work.Runs[j].FirstPleat.Number <= run.LastPleat.Number && work.Runs[j].LastPleat.Number >= run.FirstPleat.Number)
                    root[Find(j)] = Find(i);
        }
        patchOf = new int[root.Length];
        foreach (var patch in Enumerable.Range(0, root.Length).GroupBy(Find))
        {
            foreach (var run in patch) patchOf[run] = patches.Count;
            // the longest of the row nearest to where its area is begun comes first: there the letter stands, where it has room
            patches.Add([.. patch.OrderBy(r => Math.Abs(work.Runs[r].Row.Index - work.Areas.All[work.Areas.AreaOf(r)].Base.Index)).ThenByDescending(r => work.Runs[r].Cables)]);
        }

        int Find(int i)
        {
            while (root[i] != i) i = root[i] = root[root[i]];
            return i;
        }
    }

    /// <summary>The patches of a work; found once.</summary>
    public static Patches Of(Work work) => Known.GetValue(work, w => new Patches(w));

    /// <summary>Of which patch a run is, by its index among the work's.</summary>
    public int PatchOf(int run) => patchOf[run];

    /// <summary>The runs of a patch, as indices among the work's, those first on which its letter is best found.</summary>
    public ImmutableArray<int> RunsOf(int patch) => patches[patch];

    /// <summary>The patches of which a part of the chart shows a cable whole.</summary>
    public IEnumerable<int> ShownIn(ChartWindow window)
    {
        var seen = new HashSet<int>();
        for (var y = Math.Max(0, window.FirstRow); y <= Math.Min(window.LastRow, work.CableRows - 1); y++)
            for (int i = work.FirstRunIndex(new CableRow(y)), end = work.FirstRunIndex(new CableRow(y + 1)); i < end; i++)
                if (work.Runs[i].To.Number >= window.FirstPleat && work.Runs[i].From.Number < window.LastPleat && seen.Add(patchOf[i])) yield return patchOf[i];
    }
}
