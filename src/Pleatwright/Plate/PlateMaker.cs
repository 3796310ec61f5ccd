using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Plate.Parts;
using Pleatwright.Proof;

namespace Pleatwright.Plate;

/// <summary>Makes plates. Pure: the same work and options always make the same plate.</summary>
internal static class PlateMaker
{
    /// <summary>The most cables a plate may show.</summary>
    public const int MostCables = 1_000_000;

    /// <summary>Makes the plate of a work.</summary>
    /// <param name="work">The work.</param>
    /// <param name="order">Its working order.</param>
    /// <param name="findings">What the proof found on it; with an error in it the plate is stamped.</param>
    /// <param name="options">How the plate is made.</param>
    /// <exception cref="PlateTooLargeException">It has more than <see cref="MostCables"/> cables.</exception>
    public static PlateDocument Make(Work work, WorkingOrder order, ImmutableArray<Finding> findings, PlateOptions options)
    {
        if (work.Cables > MostCables)
            throw new PlateTooLargeException(
                FormattableString.Invariant($"the piece has {work.Cables} cables; a plate shows {MostCables} at most. Print it in parts, figure by figure."));
        var title = Tidy.Line(work.Piece.Title);
        var published = Published.Of(work, order, options.Units);
        var facts = FactsPart.Of(published);
        return new PlateDocument
        {
            Work = work,
            Order = order,
            Options = options,
            Title = title.Length == 0 ? "Untitled" : title,
            Summary = FactsPart.Summary(work),
            Facts = facts,
            Published = published,
            Threads = KeyPart.Threads(work, order),
            Signs = KeyPart.Signs(order, options),
            Materials = MaterialsPart.Of(work, order, options.Units, facts, published.ColourWays),
            Verdict = Verdict.Of(findings),
            Cautions = CautionsPart.Words,
            IsProved = !findings.Any(f => f.Severity == Severity.Error),
        };
    }
}
