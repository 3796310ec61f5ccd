using Pleatwright.Chart;

namespace Pleatwright.Proof;

/// <summary>
/// One rule of the proof. Each is one file in the Rules folder; to add one, derive from this and put it in
/// <see cref="Proofreading.Rules"/>.
/// </summary>
public abstract class Rule
{
    /// <summary>Its name in reports: lower case, words joined by hyphens.</summary>
    public abstract string Name { get; }

    /// <summary>Tells of everything on this work that breaks it; faults that hang together are one place.</summary>
    public abstract void Check(Work work, Findings findings);
}
