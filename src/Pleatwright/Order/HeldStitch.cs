using System.Collections.Immutable;
using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>One stitch of a step as the hands meet it.</summary>
/// <param name="Pleat">The first pleat it covers, counted from 0 in the direction of work; a cable covers the next one too.</param>
/// <param name="Held">Its level as held.</param>
/// <param name="Half">Whether it is a half stitch, over one pleat alone.</param>
public readonly record struct HeldStitch(int Pleat, Level Held, bool Half)
{
    /// <summary>Its level as held, in one word: "up", "left".</summary>
    public string Word(LevelWords words) => Phrases.Level(Held, words);

    /// <summary>The stitches of a step in the order they are worked: levels alternate, and a half stitch lies opposite the cable beside it.</summary>
    public static ImmutableArray<HeldStitch> Of(Step step)
    {
        var stitches = ImmutableArray.CreateBuilder<HeldStitch>(step.Cables + step.HalfStitches);
        if (step.HalfAtBegin) stitches.Add(new HeldStitch(0, step.HeldBegin.Opposite(), true));
        for (var i = 0; i < step.Cables; i++)
            stitches.Add(new HeldStitch(i, i % 2 == 0 ? step.HeldBegin : step.HeldBegin.Opposite(), false));
        if (step.HalfAtEnd) stitches.Add(new HeldStitch(step.Cables, step.HeldEnd.Opposite(), true));
        return stitches.MoveToImmutable();
    }
}
