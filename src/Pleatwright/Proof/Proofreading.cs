using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Proof.Rules;

namespace Pleatwright.Proof;

/// <summary>The proof: every rule read over a work.</summary>
public static class Proofreading
{
    /// <summary>Every rule, in the order their findings are shown.</summary>
    public static ImmutableArray<Rule> Rules { get; } =
    [
        new OffCloth(),
        new UnlikePhases(),
        new HalfStitch(),
        new CrowdedPleats(),
        new LineCoverage(),
        new SpreadPleats(),
        new StiffBelow(),
        new ThinFullness(),
        new TightFullness(),
        new BaseRow(),
        new NothingBeside(),
        new Overhang(),
        new Hole(),
        new LoneCable(),
        new ShortRun(),
        new ThreadsAlike(),
        new ThreadLikeCloth(),
        new UnheldRow(),
        new AcrossJoin(),
        new BandOffCloth(),
        new AccentOffCloth(),
        new BandOverFigure(),
        new BandsCross(),
        new BandRepeats(),
        new OffCentre(),
    ];

    /// <summary>All findings: errors first, then warnings, then notes; within each by rule, and by place from the top down.</summary>
    internal static ImmutableArray<Finding> Read(Work work) => Read(work, Rules);

    /// <summary>What these rules find, told as <see cref="Read(Work)"/> tells it.</summary>
    internal static ImmutableArray<Finding> Read(Work work, ImmutableArray<Rule> rules)
    {
        var all = new List<Finding>();
        foreach (var rule in rules)
        {
            var findings = new Findings(rule, work);
            rule.Check(work, findings);
            all.AddRange(findings.Take());
        }
        return [.. all.OrderBy(f => f.Severity)]; // a stable sort
    }
}
