using System.Collections.Immutable;
using System.Text;
using Pleatwright.Order;
using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Chair;

/// <summary>All there is to do at the chair, in order.</summary>
public sealed class ChairWork
{
    private readonly ImmutableArray<int> before; // ticks before each item, and in all

    private ChairWork(ImmutableArray<WorkItem> items, string mark)
    {
        Items = items;
        Mark = mark;
        var sum = 0;
        before = [.. items.Select(i => sum += i.Ticks).Prepend(0)];
    }

    /// <summary>The items.</summary>
    public ImmutableArray<WorkItem> Items { get; }

    /// <summary>Tells one order from another by what the hands do, however it is worded.</summary>
    public string Mark { get; }

    /// <summary>Ticks in all.</summary>
    public int Ticks => before[^1];

    /// <summary>Ticks done at a place.</summary>
    public int Done(ChairPlace place) => before[Math.Min(place.Items, Items.Length)] + place.Ticks;

    /// <summary>The work of an order.</summary>
    public static ChairWork Of(WorkingOrder order, LevelWords words)
    {
        var marked = string.Join('\n', Directions.Write(order, LevelWords.UpDown).Where(d => d.Kind == DirectionKind.Step).Select(d => d.Text));
        return new ChairWork(WorkItem.Of(Directions.Write(order, words)), Edition.Of(Encoding.UTF8.GetBytes(marked)).ToString());
    }
}
