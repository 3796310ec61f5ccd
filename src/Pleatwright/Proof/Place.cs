using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Proof;

/// <summary>A block of the lattice that a finding points to; always on the cloth.</summary>
/// <param name="Top">Its highest cable row.</param>
/// <param name="Bottom">Its lowest cable row.</param>
/// <param name="From">Its leftmost valley.</param>
/// <param name="To">Its rightmost valley.</param>
public readonly record struct Place(CableRow Top, CableRow Bottom, Valley From, Valley To)
{
    /// <summary>A place in one row.</summary>
    public static Place In(CableRow row, Valley from, Valley to) => new(row, row, from, to);

    /// <summary>A run's place.</summary>
    public static Place Of(Run run) => In(run.Row, run.From, run.To);

    /// <summary>An area's place.</summary>
    public static Place Of(in WorkedArea area) => new(area.Top, area.Bottom, area.From, area.To);

    /// <summary>An accent's place; the nearest on the cloth where it lies beyond.</summary>
    public static Place Of(Work work, in LaidAccent laid)
    {
        var reach = laid.Accent.Across(laid) / 2 - 1; // two pleats across, it lies over its own valley alone
        return In(RowAt(work, laid.Depth), new Valley(laid.Valley.Number - reach), new Valley(laid.Valley.Number + reach)).On(work);
    }

    /// <summary>A band's place from its highest bite to its lowest; the nearest on the cloth where it reaches beyond.</summary>
    public static Place Of(Work work, LaidBand laid) => Of(work, laid, laid.Highest, laid.Lowest);

    /// <summary>The place a band takes up between two depths, in spaces below gathering row 1.</summary>
    public static Place Of(Work work, LaidBand laid, double top, double bottom) => new Place(
        RowAt(work, top), RowAt(work, bottom), new Valley(laid.Fit.First.Number), new Valley(Math.Max(laid.Fit.First.Number, laid.Fit.Last.Number - 1))).On(work);

    /// <summary>The cable row nearest a depth, in spaces below gathering row 1; may be off the cloth.</summary>
    internal static CableRow RowAt(Work work, double depth) => new((int)Math.Round(depth * work.Pleating.Gauge.CableRowsPerSpace));

    /// <summary>The smallest place that holds both.</summary>
    public Place And(Place other) => new(
        new CableRow(Math.Min(Top.Index, other.Top.Index)), new CableRow(Math.Max(Bottom.Index, other.Bottom.Index)),
        new Valley(Math.Min(From.Number, other.From.Number)), new Valley(Math.Max(To.Number, other.To.Number)));

    /// <summary>The nearest place on the cloth.</summary>
    public Place On(Work work)
    {
        CableRow Row(CableRow row) => new(Math.Clamp(row.Index, 0, work.CableRows - 1));
        Valley Valley(Valley valley) => new(Math.Clamp(valley.Number, 1, work.Valleys));
        return new Place(Row(Top), Row(Bottom), Valley(From), Valley(To));
    }
}
