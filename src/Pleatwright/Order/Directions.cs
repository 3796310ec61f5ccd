using System.Collections.Immutable;
using Pleatwright.Chart;

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

/// <summary>One paragraph of the directions.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Text">Its words, plain text.</param>
/// <param name="Step">The step it belongs to, or null.</param>
public sealed record Direction(DirectionKind Kind, string Text, Step? Step);

/// <summary>The working order in plain words, row by row.</summary>
public static class Directions
{
    /// <summary>Writes the directions of an order.</summary>
    public static ImmutableArray<Direction> Write(WorkingOrder order, LevelWords words)
    {
        var paragraphs = ImmutableArray.CreateBuilder<Direction>();
        foreach (var step in order.Steps)
            paragraphs.Add(new Direction(DirectionKind.Step,
                $"Row {step.Row.Index}: {step.Cables} cables in {step.Thread}, from valley {step.From.Number}, beginning {Word(step.HeldBegin, words)}.", step));
        return paragraphs.ToImmutable();
    }

    private static string Word(Level level, LevelWords words) => (level, words) switch
    {
        (Level.Up, LevelWords.UpDown) => "up",
        (Level.Down, LevelWords.UpDown) => "down",
        (Level.Up, _) => "left",
        _ => "right",
    };
}
