using System.Collections.Immutable;
using Pleatwright.Chart;

namespace Pleatwright.Proof;

/// <summary>
/// One rule of the proof. Each is one file in this folder; to add one, derive from this and put it in
/// <see cref="Proofreading.Rules"/>.
/// </summary>
public abstract class Rule
{
    /// <summary>Its name in reports: lower case, words joined by hyphens.</summary>
    public abstract string Name { get; }

    /// <summary>Everything on this work that breaks it, top row first, left to right.</summary>
    public abstract IEnumerable<Finding> Check(Work work);
}

/// <summary>The proof: every rule read over a work.</summary>
public static class Proofreading
{
    /// <summary>Every rule, in the order their findings are shown.</summary>
    public static ImmutableArray<Rule> Rules { get; } = [new CrowdedPleats()];

    /// <summary>All findings, errors first, then by rule and place.</summary>
    public static ImmutableArray<Finding> Read(Work work) =>
        [.. Rules.SelectMany(r => r.Check(work)).OrderBy(f => f.Severity)];
}
