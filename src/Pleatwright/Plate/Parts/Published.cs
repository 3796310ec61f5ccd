using System.Collections.Immutable;
using System.Globalization;
using System.Runtime.CompilerServices;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Proof;
using Pleatwright.Shopping;

namespace Pleatwright.Plate.Parts;

/// <summary>What a published plate tells of a piece beside its chart, key and directions: facts alone, for the pages to lay out.</summary>
internal sealed record Published
{
    /// <summary>Whose design it is; what is not said is empty.</summary>
    public required Credit Credit { get; init; }

    /// <summary>What the maker calls the size it is cut for, on one line; empty when it has no name.</summary>
    public required string SizeName { get; init; }

    /// <summary>How hard it is, and why.</summary>
    public required Difficulty Difficulty { get; init; }

    /// <summary>Hours of stitching, from a practised hand to a beginner's; gathering and making up come on top.</summary>
    public required Between Hours { get; init; }

    /// <summary>The gauge its chart is cut for, and the cloth to cut.</summary>
    public required CutFor CutFor { get; init; }

    /// <summary>Kinds of cloth that suit the gauge (common practice, no source).</summary>
    public required ImmutableArray<ClothSuggestion> Cloths { get; init; }

    /// <summary>Needles that take its threads, the coarsest first (common practice, no source).</summary>
    public required ImmutableArray<NeedleSuggestion> Needles { get; init; }

    /// <summary>Up to three other colour ways that keep its contrast, the best kept first; perhaps none.</summary>
    public ImmutableArray<ColourWay> ColourWays => [.. Ways.GetValue(Order.Work, w => [.. Proof.ColourWays.Of(w)])];

    // found once, however many editions are made of a work
    private static readonly ConditionalWeakTable<Work, ColourWay[]> Ways = [];

    /// <summary>How it is finished, in order; <see cref="Parts.Finishing.Say"/> says each.</summary>
    public required ImmutableArray<FinishingStep> Finishing { get; init; }

    /// <summary>Every stitch used, drawn with the needle's way.</summary>
    /// <param name="levels">How the work is held, for the words.</param>
    /// <param name="look">How drawings are dressed.</param>
    public ImmutableArray<DrawnStitch> Stitches(LevelWords levels, Look look) => StitchDrawings.Of(Order.Work, Order, levels, look);

    /// <summary>The working order it is told of.</summary>
    public required WorkingOrder Order { get; init; }

    /// <summary>Units that words about it are said in.</summary>
    public required UnitSystem Units { get; init; }

    /// <summary>What is told of a work in its working order.</summary>
    /// <param name="work">The work.</param>
    /// <param name="order">Its working order.</param>
    /// <param name="units">Units of lengths.</param>
    /// <param name="pace">The maker's pace; any hand's when it is not given.</param>
    public static Published Of(Work work, WorkingOrder order, UnitSystem units, Pace? pace = null) => new()
    {
        Credit = work.Piece.Credit with { Designer = Tidy.Line(work.Piece.Credit.Designer), Copyright = Tidy.Line(work.Piece.Credit.Copyright), Photograph = Tidy.Line(work.Piece.Credit.Photograph) },
        SizeName = Tidy.Line(work.Piece.SizeName),
        Difficulty = Difficulty.Of(order),
        Hours = HoursOfWork.Of(order, pace ?? Pace.Unknown),
        CutFor = CutFor.Of(work.Pleating),
        Cloths = Advice.Cloths(work.Pleating.Gauge.Fullness),
        Needles = Advice.Needles(MaterialsPart.Threads(work, order)),
        Finishing = Parts.Finishing.Of(work.Pleating.Cloth),
        Order = order,
        Units = units,
    };
}

/// <summary>What a published plate tells, in words.</summary>
internal static class PublishedWords
{
    /// <summary>"Designed by the harbour class · © 2026 the harbour class · 31 May 2026"; nothing where nothing is said.</summary>
    public static string Credit(Credit credit)
    {
        List<string> parts = [];
        if (credit.Designer.Length > 0) parts.Add($"Designed by {credit.Designer}");
        if (credit.Copyright.Length > 0) parts.Add(credit.Copyright);
        if (credit.Date is { } date) parts.Add(date.ToString("d MMMM yyyy", CultureInfo.InvariantCulture));
        return string.Join(" · ", parts);
    }

    /// <summary>"photograph: boats.jpg"; nothing where there is none.</summary>
    public static string Photograph(Credit credit) => credit.Photograph.Length > 0 ? $"photograph: {credit.Photograph}" : "";

    /// <summary>"Size: 4 years"; nothing where the size has no name.</summary>
    public static string Size(Published plate) => plate.SizeName.Length > 0 ? $"Size: {plate.SizeName}" : "";

    /// <summary>"Intermediate: 2 threads waiting at once, 29 threads begun".</summary>
    public static string Difficulty(Published plate) => DifficultyWords.Of(plate.Difficulty).Capital();

    /// <summary>"5 to 12 hours of stitching".</summary>
    public static string Hours(Published plate) => $"{HoursOfWork.Say(plate.Hours)} of stitching";

    /// <summary>"Rows 3/8 in apart, 5 cable rows to a space, 12 pleats an inch, fullness 3 to 1".</summary>
    public static string Gauge(Published plate) => CutForWords.Gauge(plate.CutFor, plate.Units).Capital();

    /// <summary>"34 1/2 in wide, 4 1/8 in deep for the gathered part alone".</summary>
    public static string Cloth(Published plate) => CutForWords.Cloth(plate.CutFor, plate.Units, " for the gathered part alone");
}
