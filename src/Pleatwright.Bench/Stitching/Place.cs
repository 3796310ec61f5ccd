using System.Globalization;
using System.Text;
using Pleatwright.Bench.Keeping;
using Pleatwright.Order;

namespace Pleatwright.Bench.Stitching;

/// <summary>Where the maker is in the working order: steps done, and stitches done in the step under way.</summary>
/// <param name="Steps">Steps done, from 0.</param>
/// <param name="Stitches">Stitches done of the next step, from 0.</param>
public readonly record struct Place(int Steps, int Stitches)
{
    /// <summary>One stitch on; a step is done with its last stitch.</summary>
    public Place On(WorkingOrder order)
    {
        if (Steps >= order.Steps.Length) return this;
        return Stitches + 1 < StitchesIn(order.Steps[Steps]) ? this with { Stitches = Stitches + 1 } : new Place(Steps + 1, 0);
    }

    /// <summary>The whole step done.</summary>
    public Place StepDone(WorkingOrder order) => Steps < order.Steps.Length ? new Place(Steps + 1, 0) : this;

    /// <summary>One stitch back, into the step before where need be.</summary>
    public Place Back(WorkingOrder order) => (Steps, Stitches) switch
    {
        (_, > 0) => this with { Stitches = Stitches - 1 },
        ( > 0, _) => new Place(Steps - 1, StitchesIn(order.Steps[Steps - 1]) - 1),
        _ => this,
    };

    private static int StitchesIn(Step step) => step.Cables + step.HalfStitches;
}

/// <summary>Remembers the place of each piece through reloads and kills, and whether the piece changed since.</summary>
internal static class PlaceKeeper
{
    /// <summary>The place in an order; false beside it when the order is not the one it was ticked in.</summary>
    public static async Task<(Place Place, bool SameOrder)> LoadAsync(string piece, WorkingOrder order)
    {
        var words = (await Store.RememberedAsync(Key(piece)))?.Split(' ');
        if (words is not [var steps, var stitches, var then]
            || !int.TryParse(steps, NumberStyles.None, CultureInfo.InvariantCulture, out var s)
            || !int.TryParse(stitches, NumberStyles.None, CultureInfo.InvariantCulture, out var n)) return (default, true);
        if (then == Mark(order)) return (new Place(Math.Min(s, order.Steps.Length), n), true);
        return (new Place(Math.Min(s, order.Steps.Length), 0), false);
    }

    public static Task KeepAsync(string piece, Place place, WorkingOrder order) =>
        Store.RememberAsync(Key(piece), string.Create(CultureInfo.InvariantCulture, $"{place.Steps} {place.Stitches} {Mark(order)}"));

    private static string Key(string piece) => $"place\n{piece}";

    // Tells one order from another by what the hands do.
    private static string Mark(WorkingOrder order)
    {
        var text = new StringBuilder();
        foreach (var s in order.Steps)
            text.Append(CultureInfo.InvariantCulture, $"{s.Row.Index},{s.From.Number},{s.To.Number},{s.Thread},{(s.Turned ? 1 : 0)};");
        return Pleatwright.Shelf.Edition.Of(Encoding.ASCII.GetBytes(text.ToString())).ToString();
    }
}
