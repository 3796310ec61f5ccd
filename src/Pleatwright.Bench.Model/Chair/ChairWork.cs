using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Order;

namespace Pleatwright.Bench.Model.Chair;

/// <summary>All there is to do at the chair, in order, tick by tick.</summary>
public sealed class ChairWork
{
    private readonly ImmutableArray<int> before; // ticks before each item, and in all
    private readonly ImmutableArray<StitchName> ticks;

    private ChairWork(ImmutableArray<WorkItem> items, IReadOnlyList<StitchName[]> names)
    {
        Items = items;
        ticks = [.. Apart(names.SelectMany(n => n))];
        var sum = 0;
        before = [.. names.Select(n => sum += n.Length).Prepend(0)];
    }

    /// <summary>Nothing to do.</summary>
    public static ChairWork Nothing { get; } = new([], []);

    /// <summary>The items.</summary>
    public ImmutableArray<WorkItem> Items { get; }

    /// <summary>Ticks in all.</summary>
    public int Ticks => ticks.Length;

    /// <summary>Which stitch a tick is for.</summary>
    /// <param name="tick">From 0.</param>
    public StitchName this[int tick] => ticks[tick];

    /// <summary>Ticks of an item: a stitch each, of bands and backsmocking too, or an accent.</summary>
    public int TicksOf(int item) => before[item + 1] - before[item];

    /// <summary>Ticks before an item; for the number of items, ticks in all.</summary>
    public int Before(int item) => before[item];

    /// <summary>The item a tick belongs to; past the last tick, the number of items.</summary>
    public int ItemOf(int tick)
    {
        if (tick >= Ticks) return Items.Length;
        var found = before.BinarySearch(tick);
        return found >= 0 ? found : ~found - 1;
    }

    /// <summary>The first tick from one on that is not worked; past the last when all are.</summary>
    public int Next(Worked worked, int from = 0)
    {
        while (from < Ticks && worked.Has(ticks[from])) from++;
        return from;
    }

    /// <summary>How many ticks of this work are worked.</summary>
    public int Done(Worked worked) => ticks.Count(worked.Has);

    /// <summary>The work of an order.</summary>
    public static ChairWork Of(WorkingOrder order, LevelWords words)
    {
        var items = WorkItem.Of(Directions.Write(order, words));
        return new(items, [.. items.Select(i => StitchName.Of(order, i).ToArray())]);
    }

    // Two bands or accents that lie alike are still stitched one after the other.
    private static IEnumerable<StitchName> Apart(IEnumerable<StitchName> names)
    {
        var met = new Dictionary<StitchName, int>();
        foreach (var name in names)
        {
            var times = met[name] = met.GetValueOrDefault(name) + 1;
            yield return times == 1 ? name : name with { Line = string.Create(CultureInfo.InvariantCulture, $"{name.Line}#{times}") };
        }
    }
}
