using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Proof;

/// <summary>
/// What one rule finds on a work. Beyond <see cref="MostShown"/> places the rest are only counted, so that a piece full
/// of one fault neither buries the others nor takes long.
/// </summary>
public sealed class Findings(Rule rule, Work work)
{
    /// <summary>The most places one rule tells of one by one.</summary>
    public const int MostShown = 100;

    private readonly List<Finding> told = [];
    private Place rest;
    private Severity worst;
    private int untold;

    /// <summary>
    /// Whether the place will be told; ask before putting the words together. A place that will not is counted here.
    /// </summary>
    public bool Tells(Severity severity, Place place)
    {
        if (told.Count < MostShown) return true;
        place = place.On(work);
        (rest, worst) = untold++ == 0 ? (place, severity) : (rest.And(place), severity < worst ? severity : worst);
        return false;
    }

    /// <summary>Tells of a place; one beyond the cloth is told at its nearest edge.</summary>
    public void Add(Severity severity, Place place, string message, string remedy, Mend? mend = null) =>
        told.Add(new Finding(rule.Name, severity, place.On(work), message, remedy, mend));

    /// <summary>Everything told, top row first, left to right; last a word of what was only counted.</summary>
    internal IEnumerable<Finding> Take()
    {
        var ordered = told.OrderBy(f => f.Row).ThenBy(f => f.From).ThenBy(f => f.LastRow).ThenBy(f => f.To).ToList();
        if (untold > 0)
            ordered.Add(new Finding(rule.Name, worst, rest, $"The same again in {Counting.Of(untold, "more place")}.",
                "Mend the ones told first; the rest are told as room is made."));
        return ordered;
    }
}
