using Pleatwright.Chart;

namespace Pleatwright.Proof;

/// <summary>How much a finding matters.</summary>
public enum Severity
{
    /// <summary>It cannot be stitched as drawn.</summary>
    Error,

    /// <summary>It can be stitched, but will look wrong or not hold.</summary>
    Warning,

    /// <summary>Worth knowing.</summary>
    Note,
}

/// <summary>Something the proof found.</summary>
/// <param name="Rule">Name of the rule that found it.</param>
/// <param name="Severity">How much it matters.</param>
/// <param name="Place">Where it is.</param>
/// <param name="Message">What is wrong, in the trade's words.</param>
/// <param name="Remedy">What would mend it.</param>
/// <param name="Mend">The remedy as something to press, where one is safe; else null.</param>
public sealed record Finding(string Rule, Severity Severity, Place Place, string Message, string Remedy, Mend? Mend = null)
{
    /// <summary>The highest cable row it points to.</summary>
    public CableRow Row => Place.Top;

    /// <summary>The lowest cable row it points to.</summary>
    public CableRow LastRow => Place.Bottom;

    /// <summary>The leftmost valley it points to.</summary>
    public Valley From => Place.From;

    /// <summary>The rightmost valley it points to.</summary>
    public Valley To => Place.To;
}

/// <summary>How many findings there are of each severity.</summary>
internal readonly record struct Counts(int Errors, int Warnings, int Notes)
{
    /// <summary>Counts findings.</summary>
    public static Counts Of(IEnumerable<Finding> findings)
    {
        int errors = 0, warnings = 0, notes = 0;
        foreach (var finding in findings)
            _ = finding.Severity switch { Severity.Error => errors++, Severity.Warning => warnings++, _ => notes++ };
        return new Counts(errors, warnings, notes);
    }
}
