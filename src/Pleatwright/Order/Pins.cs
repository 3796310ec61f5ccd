using System.Collections.Immutable;
using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>Runs fixed to places in the order. Of two that want one place, or one run with two places, the first named is kept.</summary>
internal sealed class Pins
{
    private readonly Dictionary<int, int> runAt = []; // by place, from 0
    private readonly HashSet<int> runs = [];

    public Pins(Work work)
    {
        var unkept = ImmutableArray.CreateBuilder<FixedPlace>();
        foreach (var pin in work.Piece.Working.Places)
        {
            var run = RunOver(work, pin);
            if (run >= 0 && pin.Place <= work.Runs.Length && !runs.Contains(run) && runAt.TryAdd(pin.Place - 1, run)) runs.Add(run);
            else unkept.Add(pin);
        }
        Unkept = unkept.ToImmutable();
    }

    /// <summary>Whether any run is pinned.</summary>
    public bool Any => runs.Count > 0;

    /// <summary>What was asked for and cannot be kept.</summary>
    public ImmutableArray<FixedPlace> Unkept { get; }

    /// <summary>Whether a run is pinned.</summary>
    public bool Has(int run) => Any && runs.Contains(run);

    /// <summary>The run pinned to a place, from 0, or -1.</summary>
    public int RunAt(int place) => Any && runAt.TryGetValue(place, out var run) ? run : -1;

    private static int RunOver(Work work, FixedPlace pin)
    {
        for (var r = work.FirstRunIndex(pin.Row); r < work.FirstRunIndex(new CableRow(pin.Row.Index + 1)); r++)
            if (work.Runs[r].Contains(pin.Valley)) return r;
        return -1;
    }
}
