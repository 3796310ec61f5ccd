using System.Collections.Immutable;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Plate.Parts;

/// <summary>What is done when the last stitch is made, in the order it is done (common practice, no source).</summary>
internal enum FinishingStep
{
    /// <summary>Every colour is tested before steam comes near it.</summary>
    TestColours,

    /// <summary>The work is pinned to the measure asked.</summary>
    Block,

    /// <summary>It is steamed, not pressed, and dries as it is pinned.</summary>
    Steam,

    /// <summary>The gathering threads come out; not those of the holding rows.</summary>
    TakeOutGathering,

    /// <summary>The holding rows stay until the piece is sewn in.</summary>
    KeepHoldingRows,
}

/// <summary>How a piece is finished.</summary>
internal static class Finishing
{
    /// <summary>The steps for a cloth, in order: one without holding rows keeps none.</summary>
    public static ImmutableArray<FinishingStep> Of(ClothPlan cloth) =>
        [.. Enum.GetValues<FinishingStep>().Where(s => s != FinishingStep.KeepHoldingRows || cloth.HoldingRowsAbove + cloth.HoldingRowsBelow > 0)];

    /// <summary>A step in a line.</summary>
    public static string Say(FinishingStep step, PleatingPlan plan, UnitSystem units) => step switch
    {
        FinishingStep.TestColours => "Press a damp white cloth on an end of each thread: a colour that stains it is never steamed.",
        FinishingStep.Block => plan.Cloth.Form.BlockWords(plan, units),
        FinishingStep.Steam => plan.Cloth.Form.DryWords,
        FinishingStep.TakeOutGathering => "Once it is dry take the gathering threads out.",
        FinishingStep.KeepHoldingRows => plan.Cloth.Form.KeepWords,
        _ => throw new ArgumentOutOfRangeException(nameof(step)),
    };
}
