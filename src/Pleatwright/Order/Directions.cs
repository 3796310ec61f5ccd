using System.Collections.Immutable;
using Pleatwright.Chart.Accents;
using Pleatwright.Measure;
using Pleatwright.Order.Telling;

namespace Pleatwright.Order;

/// <summary>Which words name the levels.</summary>
public enum LevelWords
{
    /// <summary>Up and down: the work held upright.</summary>
    UpDown,

    /// <summary>Left and right: the work held sideways (left cable = up, right cable = down).</summary>
    LeftRight,
}

/// <summary>What a paragraph of the directions is.</summary>
public enum DirectionKind
{
    /// <summary>A heading, such as a base row or a change of way.</summary>
    Heading,

    /// <summary>One step of the order.</summary>
    Step,

    /// <summary>A check that the row meets its gathering row.</summary>
    LevelCheck,

    /// <summary>Anything else the maker must know here.</summary>
    Remark,
}

/// <summary>One paragraph of the directions in long words.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Text">Its words, plain text. A step's number is not in them; see <see cref="Order.Step.Number"/>.</param>
/// <param name="Step">The step it belongs to, or null.</param>
public sealed record Direction(DirectionKind Kind, string Text, Step? Step)
{
    /// <summary>The step of a band it tells, or null.</summary>
    public BandStep? Band { get; init; }

    /// <summary>The row of backsmocking it tells, or null.</summary>
    public BackRow? Back { get; init; }

    /// <summary>The accents it tells, in the order worked.</summary>
    public ImmutableArray<LaidAccent> Accents { get; init; } = [];
}

/// <summary>The working order in words, as the hands hold the work: in a line a run, or in sentences for learners and screen readers.</summary>
internal static class Directions
{
    /// <summary>Writes the directions in long words: backsmocking first, then the bands, the runs, and last the accents; none when nothing is worked.</summary>
    /// <param name="order">The order.</param>
    /// <param name="words">Words for the levels.</param>
    /// <param name="units">Units of lengths.</param>
    public static ImmutableArray<Direction> Write(WorkingOrder order, LevelWords words, UnitSystem units = UnitSystem.Both) =>
        new LongWords(order, new Vocabulary(words), units).Write(Teller.Of(order, once: false));

    /// <summary>Writes the directions in a table, a line a run; what is worked again and again on copies of a figure stands there once.</summary>
    /// <param name="order">The order.</param>
    /// <param name="words">Words for the levels.</param>
    /// <param name="units">Units of lengths.</param>
    /// <param name="named">Whether the threads are named; a plate has them in its key.</param>
    public static DirectionTable Table(WorkingOrder order, LevelWords words, UnitSystem units = UnitSystem.Both, bool named = true) => TableWords.Of(order, words, units, named);
}
