using Pleatwright.Thread;

namespace Pleatwright.Tests;

/// <summary>Short makers of ordinary values for tests.</summary>
internal static class Some
{
    public static Floss Floss(char letter, string colour, int strands = 4) => new(new ThreadKey(letter), $"thread {letter}", Colour.Parse(colour), strands);
}
