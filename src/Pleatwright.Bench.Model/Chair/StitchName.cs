using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Order;

namespace Pleatwright.Bench.Model.Chair;

/// <summary>
/// Which stitch of the piece a tick is for, told by where it lies and not by its words or its place in the order: an edit
/// elsewhere, another order or another language changes no name.
/// </summary>
/// <param name="Line">The line of stitches it belongs to, such as a cable row or a pass of a band; no space, tab or line end.</param>
/// <param name="At">Its number in that line, such as its valley.</param>
public readonly record struct StitchName(string Line, int At)
{
    /// <summary>A cable: its row, and its valley.</summary>
    public static StitchName Cable(CableRow row, Valley valley) => new(Name("c", row.Index), valley.Number);

    /// <summary>A half stitch: its row, and the valley of the cable it squares, positive for the one at the right of it.</summary>
    public static StitchName Half(CableRow row, Valley beside, bool right) => new(Name("h", row.Index), right ? beside.Number : -beside.Number);

    /// <summary>The names of all ticks of one thing to do, in the order worked.</summary>
    public static IEnumerable<StitchName> Of(WorkingOrder order, WorkItem item)
    {
        if (item.Step is { } step) return Of(order, step);
        if (item.Band is { } band) return OfBand(band);
        if (item.Told.Back is { } back) return OfBack(back);
        return item.Told.Accents.Select(a => new StitchName(
            string.Create(CultureInfo.InvariantCulture, $"a{a.Mark.GatheringRow.Number}.{a.Mark.Offset}.{a.Mark.Drop}.{a.Accent.Name.Replace(' ', '-')}"), a.Valley.Number));
    }

    /// <summary>The names of the stitches of a step of runs, in the order worked.</summary>
    public static IEnumerable<StitchName> Of(WorkingOrder order, Step step)
    {
        var rightward = order.TravelsRight(step);
        var onward = rightward ? 1 : -1;
        var valley = step.From.Number;
        var first = true;
        foreach (var stitch in HeldStitch.Of(step))
        {
            if (stitch.Half) yield return Half(step.Row, first ? step.From : step.To, first != rightward);
            else
            {
                yield return Cable(step.Row, new Valley(valley));
                valley += onward;
            }
            first = false;
        }
    }

    private static IEnumerable<StitchName> OfBand(BandStep step)
    {
        var band = step.Band.Band;
        var line = string.Create(CultureInfo.InvariantCulture,
            $"b{band.GatheringRow.Number}.{band.Offset}.{band.Drop}.{step.Pass.Row}.{step.Pass.Journey}.{band.Stitch.Replace(' ', '-')}");
        for (var i = 0; i < step.Count; i++) yield return new StitchName(line, step.First + i);
    }

    // A cable on the back by its left pleat, as seen from the right side.
    private static IEnumerable<StitchName> OfBack(BackRow back)
    {
        var rightward = back.End.Number > back.Begin.Number;
        for (var i = 0; i < back.Cables; i++)
            yield return new(Name("k", back.Row.Number), rightward ? back.Begin.Number + i : back.Begin.Number - 1 - i);
    }

    private static string Name(string kind, int number) => kind + number.ToString(CultureInfo.InvariantCulture);
}
