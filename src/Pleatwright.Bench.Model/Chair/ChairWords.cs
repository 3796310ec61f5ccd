using Pleatwright.Order;

namespace Pleatwright.Bench.Model.Chair;

/// <summary>What the chair says in its one large line, and of its picture.</summary>
public static class ChairWords
{
    /// <summary>"Step 12 of 59", by the number that the order and the plate give it; for what has no number, what it is.</summary>
    public static string Number(WorkingOrder order, WorkItem item) =>
        item.Step is { } step ? $"Step {Words.Of(step.Number)} of {Words.Of(order.Steps.Length)}"
        : item.Band is { } band ? $"Band: {band.Band.Stitch.Name}"
        : item.Told.Back is { } back ? $"On the back, {back.Row}" : "Accents";

    /// <summary>Where to begin, how many, the first as held: "from pleat 52, 11 cables, the first up".</summary>
    public static string Begin(WorkingOrder order, WorkItem item, LevelWords levels)
    {
        if (item.Step is { } step)
        {
            var pleat = order.TravelsRight(step) ? step.From.LeftPleat : step.From.RightPleat;
            return $"from pleat {pleat.Number}, {Words.Of(step.Cables, "cable")}, the first {item.Stitches.First(s => !s.Half).Word(levels)}";
        }
        if (item.Told.Back is { } back) return $"from pleat {back.Begin.Number} to pleat {back.End.Number}, {Words.Of(back.Cables, "cable")}";
        if (item.Band is { } band) return Words.Of(band.Count, "stitch", "stitches");
        return Words.Of(item.Told.Accents.Length, "accent");
    }

    /// <summary>What is done next, in a word or two: "up", "step down", "knot".</summary>
    public static string Next(Chart.Work work, WorkItem item, int tick, LevelWords levels) =>
        item.Step is not null ? item.Stitches[tick].Word(levels)
        : item.Band is { } band ? HeldBand.Of(work, band).Word(tick, levels)
        : item.Told.Back is not null ? new HeldStitch(0, tick % 2 == 0 ? Chart.Level.Up : Chart.Level.Down, false).Word(levels)
        : item.Told.Accents[tick].Accent.Name;
}
