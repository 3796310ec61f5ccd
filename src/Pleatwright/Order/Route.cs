using System.Collections.Immutable;

namespace Pleatwright.Order;

/// <summary>One run worked from end to end.</summary>
/// <param name="Run">The run.</param>
/// <param name="Leftward">Whether it is travelled from right to left on the chart.</param>
/// <param name="Path">Which path it belongs to: runs joined one to the next by carries.</param>
internal readonly record struct Visit(int Run, bool Leftward, int Path)
{
    /// <summary>The end where it begins.</summary>
    public int Entry => 2 * Run + (Leftward ? 1 : 0);

    /// <summary>The end where it stops.</summary>
    public int Exit => 2 * Run + (Leftward ? 0 : 1);
}

/// <summary>Every run in the order worked. Paths may be interleaved: one waits while another is worked.</summary>
/// <param name="Visits">The runs in order.</param>
/// <param name="Paths">How many paths.</param>
internal sealed record Route(ImmutableArray<Visit> Visits, int Paths);
