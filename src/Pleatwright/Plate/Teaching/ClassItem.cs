using System.Collections.Immutable;
using Pleatwright.Order;

namespace Pleatwright.Plate.Teaching;

/// <summary>One thing to do, as the class calls it: steps by the numbers the plate prints.</summary>
/// <param name="Name">"Step 12", "On the back, 1 of 2".</param>
/// <param name="Work">What is done and said.</param>
/// <param name="Stitches">Stitches in it, at least 1.</param>
internal sealed record ClassItem(string Name, WorkItem Work, int Stitches)
{
    /// <summary>Whether the thread is fastened after it, so that the work can be laid aside.</summary>
    public bool Rests => Work.Step is not { } step || (step.TieOff && !step.GoesOn);

    /// <summary>Whether it is done before the class: backsmocking.</summary>
    public bool IsBefore => Work.Told.Back is not null;

    /// <summary>Whether a level check closes it.</summary>
    public bool IsChecked => Work.Words.Any(w => w.Kind == DirectionKind.LevelCheck);

    /// <summary>All that is done, in order: backsmocking, bands, runs, accents.</summary>
    public static ImmutableArray<ClassItem> Of(WorkingOrder order, IEnumerable<Direction> directions)
    {
        var work = WorkItem.Of(directions);
        int back = order.Backsmock.Rows.Length, bands = work.Count(i => i.Band is not null), accents = work.Count(i => !i.Told.Accents.IsEmpty);
        int backs = 0, band = 0, accent = 0;
        return [.. work.Select(item =>
            item.Step is { } step ? new ClassItem($"Step {step.Number}", item, item.Ticks)
            : item.Band is not null ? new($"Bands, {++band} of {bands}", item, item.Ticks)
            : !item.Told.Accents.IsEmpty ? new($"Accents, {++accent} of {accents}", item, item.Ticks)
            : new($"On the back, {++backs} of {back}", item, order.Backsmock.Rows[backs - 1].Cables))];
    }
}
