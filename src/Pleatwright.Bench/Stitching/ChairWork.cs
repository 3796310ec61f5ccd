using System.Collections.Immutable;
using System.Text;
using Pleatwright.Order;
using Pleatwright.Shelf;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Stitching;

/// <summary>One thing to do at the chair: a step of the directions with what is said before and after it.</summary>
/// <param name="Heading">The heading it stands under; empty when there is none.</param>
/// <param name="Words">What is said: what opens its part, the step, then its remarks and level checks.</param>
/// <param name="Told">The step itself: of cables, of a band, of accents, or of backsmocking, which is ticked row by row.</param>
public sealed record ChairItem(string Heading, ImmutableArray<Direction> Words, Direction Told)
{
    /// <summary>The step of cables, or null.</summary>
    public Step? Step => Told.Step;

    /// <summary>The step of a band, or null.</summary>
    public BandStep? Band => Told.Band;

    /// <summary>Its cables and half stitches as held; none where it is not of cables.</summary>
    public ImmutableArray<HeldStitch> Stitches { get; } = Told.Step is { } step ? HeldStitch.Of(step) : [];

    /// <summary>Its thread, or null for backsmocking.</summary>
    public ThreadKey? Thread => Step?.Thread ?? Band?.Band.Band.Thread ?? (Told.Accents is [var first, ..] ? first.Mark.Thread : null);

    /// <summary>Ticks it takes, at least 1: a stitch, an accent, or a row of backsmocking each.</summary>
    public int Ticks => Math.Max(1, Band?.Count ?? (Told.Accents.IsEmpty ? Stitches.Length : Told.Accents.Length));

    /// <summary>Whether it is counted tick by tick.</summary>
    public bool IsCounted => Thread is not null;

    /// <summary>What one tick of it is.</summary>
    public string Noun => Told.Accents.IsEmpty ? "stitch" : Told.Accents[0].Accent.Name;

    /// <summary>Whether the work is turned for it.</summary>
    public bool IsTurned => Step?.Turned ?? Band?.Pass.Turned ?? false;
}

/// <summary>All there is to do at the chair, in order.</summary>
public sealed class ChairWork
{
    private readonly ImmutableArray<int> before; // ticks before each item, and in all

    private ChairWork(ImmutableArray<ChairItem> items, string mark)
    {
        Items = items;
        Mark = mark;
        var sum = 0;
        before = [.. items.Select(i => sum += i.Ticks).Prepend(0)];
    }

    /// <summary>The items.</summary>
    public ImmutableArray<ChairItem> Items { get; }

    /// <summary>Tells one order from another by what the hands do, however it is worded.</summary>
    public string Mark { get; }

    /// <summary>Ticks in all.</summary>
    public int Ticks => before[^1];

    /// <summary>Ticks done at a place.</summary>
    public int Done(Place place) => before[Math.Min(place.Items, Items.Length)] + place.Ticks;

    /// <summary>The work of an order.</summary>
    public static ChairWork Of(WorkingOrder order, LevelWords words)
    {
        var items = ImmutableArray.CreateBuilder<ChairItem>();
        var heading = "";
        var said = new List<Direction>(); // in the order of the directions: what opens a part stands before its first step
        Direction? step = null;
        void Close()
        {
            if (step is null) return;
            items.Add(new ChairItem(heading, [.. said], step));
            said.Clear();
            step = null;
        }
        foreach (var direction in Directions.Write(order, words))
        {
            switch (direction.Kind)
            {
                case DirectionKind.Step:
                    Close();
                    step = direction;
                    said.Add(direction);
                    break;
                case DirectionKind.Heading:
                    Close();
                    heading = direction.Text;
                    break;
                default:
                    said.Add(direction);
                    break;
            }
        }
        Close();
        var marked = string.Join('\n', Directions.Write(order, LevelWords.UpDown).Where(d => d.Kind == DirectionKind.Step).Select(d => d.Text));
        return new ChairWork(items.ToImmutable(), Edition.Of(Encoding.UTF8.GetBytes(marked)).ToString());
    }
}
