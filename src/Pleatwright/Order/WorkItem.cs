using System.Collections.Immutable;
using Pleatwright.Thread;

namespace Pleatwright.Order;

/// <summary>One thing to do beside the work: a step of the directions with what is said before and after it.</summary>
/// <param name="Heading">The heading it stands under; empty when there is none.</param>
/// <param name="Words">What is said: what opens its part, the step, then its remarks and level checks.</param>
/// <param name="Told">The step itself: of cables, of a band, of accents, or of backsmocking, which is ticked row by row.</param>
public sealed record WorkItem(string Heading, ImmutableArray<Direction> Words, Direction Told)
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
    public bool IsTurned => Step?.Turned ?? Band?.Pass.Turned ?? Told.Back?.Turned ?? false;

    /// <summary>Directions as a list of things to do.</summary>
    public static ImmutableArray<WorkItem> Of(IEnumerable<Direction> directions)
    {
        var items = ImmutableArray.CreateBuilder<WorkItem>();
        var heading = "";
        var said = new List<Direction>(); // in the order of the directions: what opens a part stands before its first step
        Direction? step = null;
        void Close()
        {
            if (step is null) return;
            items.Add(new WorkItem(heading, [.. said], step));
            said.Clear();
            step = null;
        }
        foreach (var direction in directions)
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
        return items.ToImmutable();
    }
}
