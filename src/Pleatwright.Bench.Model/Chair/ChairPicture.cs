using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Order;

namespace Pleatwright.Bench.Model.Chair;

/// <summary>What the picture of the whole piece shows at the chair: what is worked, and where the maker is.</summary>
public static class ChairPicture
{
    /// <summary>A byte a cell, row by row: 1 where its cable is worked.</summary>
    public static byte[] Cells(Work work, Ticking ticking)
    {
        var worked = new byte[work.Valleys * work.CableRows];
        foreach (var run in work.Runs)
            for (var valley = run.From.Number; valley <= run.To.Number; valley++)
                if (ticking.Worked.Has(StitchName.Cable(run.Row, new Valley(valley)))) worked[run.Row.Index * work.Valleys + valley - 1] = 1;
        return worked;
    }

    /// <summary>Where an item lies, as a ring: top row, bottom row, from, to, and its kind; none for what has no one place.</summary>
    public static int[] Ring(Work work, WorkItem? item)
    {
        if (item?.Step is { } step)
            return [step.Row.Index, step.Row.Index, Math.Min(step.From.Number, step.To.Number), Math.Max(step.From.Number, step.To.Number), RingKind];
        if (item?.Band is not { } band) return [];
        var (rows, valleys) = band.Reach(work);
        return [rows.Top.Index, rows.Bottom.Index, valleys.From.Number, valleys.To.Number, RingKind];
    }

    /// <summary>Stitches worked of each step of a band, and the accents worked.</summary>
    public static (Dictionary<BandStep, int> Bands, HashSet<LaidAccent> Accents) Done(Ticking ticking)
    {
        var bands = new Dictionary<BandStep, int>();
        var accents = new HashSet<LaidAccent>();
        for (var i = 0; i < ticking.Work.Items.Length; i++)
        {
            var (item, first) = (ticking.Work.Items[i], ticking.Work.Before(i));
            if (item.Band is { } band)
            {
                var done = ticking.Work.Next(ticking.Worked, first) - first;
                bands[band] = Math.Min(done, ticking.Work.TicksOf(i));
            }
            for (var a = 0; a < item.Told.Accents.Length; a++)
                if (ticking.Worked.Has(ticking.Work[first + a])) accents.Add(item.Told.Accents[a]);
        }
        return (bands, accents);
    }

    private const int RingKind = (int)Proof.Severity.Note;
}
