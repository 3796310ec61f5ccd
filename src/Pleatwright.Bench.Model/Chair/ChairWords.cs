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
        if (item.Band is { } band) return Words.Of(band.Count, "stitch", "stitches") + (band.Band.Stitch.SidesOf(band.Band.Band) is { IsEmpty: false } sides ? $"; the thread {Phrases.Sides(sides, levels)}" : "");
        return Words.Of(item.Told.Accents.Length, "accent");
    }

    /// <summary>What is done next, in a word or two: "up", "step down", "knot".</summary>
    public static string Next(Chart.Work work, WorkItem item, int tick, LevelWords levels) =>
        item.Step is not null ? item.Stitches[tick].Word(levels)
        : item.Band is { } band ? HeldBand.Of(work, band).Word(tick, levels)
        : item.Told.Back is not null ? new HeldStitch(0, tick % 2 == 0 ? Chart.Level.Up : Chart.Level.Down, false).Word(levels)
        : item.Told.Accents[tick].Accent.Name;

    /// <summary>What the picture shows, for those who do not see it.</summary>
    public static string Picture(Chart.Work work, Ticking ticking) => ticking.Now is not { } item ? "" :
        $"{Words.Of(ticking.Work.TicksOf(ticking.Item), "stitch", "stitches")} as you hold the work, {Words.Of(ticking.InItem)} done; next {Next(work, item, ticking.InItem, ticking.Levels)}. Press to tick.";

    /// <summary>How much is worked in all.</summary>
    public static string Worked(Ticking ticking) => $"Worked in all: {Words.Of(ticking.Done)} of {Words.Of(ticking.Work.Ticks, "stitch", "stitches")}";

    /// <summary>What the key says that ticks.</summary>
    public static string Tick(Ticking ticking) =>
        ticking.Now is null || ticking.Work.TicksOf(ticking.Item) - ticking.InItem > 1 ? "Tick one" : ticking.Work.TicksOf(ticking.Item) == 1 ? "Tick it" : "Tick the last";

    /// <summary>Why the maker should see that the place is right.</summary>
    public static string Doubt(Ticking ticking) => ticking.CutSince
        ? $"The piece was cut for another gauge after {Words.Of(ticking.Worked.Count, "stitch was", "stitches were")} ticked: stitches lie elsewhere now. Begin anew, or undo the other gauge at the table."
        : ticking.Gone > 0
        ? $"{Words.Of(ticking.Gone, "stitch", "stitches")} you had ticked {(ticking.Gone == 1 ? "is" : "are")} no longer in the piece. See that the place is right."
        : "An older bench kept this place. See that it is right.";

    /// <summary>Which key or pedal ticks, or that one is waited for.</summary>
    /// <param name="ticking">The sitting.</param>
    /// <param name="key">Its key as people write it; empty for none.</param>
    public static string Pedal(Ticking ticking, string key) =>
        ticking.SettingPedal ? "Press the key or pedal now…" : key.Length > 0 ? $"Key or pedal that ticks: {key}" : "Set a key or pedal that ticks";
}
