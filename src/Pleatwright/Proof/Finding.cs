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
/// <param name="Row">The cable row it points to.</param>
/// <param name="From">Leftmost valley of the place.</param>
/// <param name="To">Rightmost valley of the place.</param>
/// <param name="Message">What is wrong, in the trade's words.</param>
/// <param name="Remedy">What would mend it.</param>
public sealed record Finding(string Rule, Severity Severity, CableRow Row, Valley From, Valley To, string Message, string Remedy);
