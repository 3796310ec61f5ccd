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

/// <summary>What an order costs; the less the better, one thing after the other in this order.</summary>
/// <param name="Starts">Threads begun.</param>
/// <param name="Fitted">Runs fitted between two finished ones of their row that they touch.</param>
/// <param name="TakeUps">Times a thread left hanging is taken up again.</param>
/// <param name="Slant">Pleats passed sideways by carries that go along the pleat too.</param>
/// <param name="Turns">Times the work is turned over.</param>
/// <param name="Carried">Thread carried, in micrometres.</param>
internal readonly record struct Cost(int Starts, int Fitted, int TakeUps, int Slant, int Turns, long Carried) : IComparable<Cost>
{
    /// <summary>More than any order costs.</summary>
    public static Cost Most => new(int.MaxValue, 0, 0, 0, 0, 0);

    /// <summary>Both together.</summary>
    public static Cost operator +(Cost a, Cost b) =>
        new(a.Starts + b.Starts, a.Fitted + b.Fitted, a.TakeUps + b.TakeUps, a.Slant + b.Slant, a.Turns + b.Turns, a.Carried + b.Carried);

    /// <inheritdoc/>
    public int CompareTo(Cost other) =>
        Starts != other.Starts ? Starts.CompareTo(other.Starts)
        : Fitted != other.Fitted ? Fitted.CompareTo(other.Fitted)
        : TakeUps != other.TakeUps ? TakeUps.CompareTo(other.TakeUps)
        : Slant != other.Slant ? Slant.CompareTo(other.Slant)
        : Turns != other.Turns ? Turns.CompareTo(other.Turns)
        : Carried.CompareTo(other.Carried);
}

/// <summary>The runs of a cluster in the order worked. Paths may be interleaved: one waits while another is worked.</summary>
/// <param name="Visits">The runs in order; paths are numbered from 0 by their first run.</param>
/// <param name="Paths">How many paths.</param>
/// <param name="Cost">What it costs, from the way the work lay before it.</param>
/// <param name="TurnedBefore">How the work lay before it.</param>
internal sealed record Route(Visit[] Visits, int Paths, Cost Cost, bool TurnedBefore)
{
    /// <summary>The same order with its runs named by their places in the cluster.</summary>
    public Route Of(ReadOnlySpan<int> cluster)
    {
        var place = new Dictionary<int, int>(cluster.Length);
        for (var i = 0; i < cluster.Length; i++) place[cluster[i]] = i;
        return this with { Visits = Array.ConvertAll(Visits, v => v with { Run = place[v.Run] }) };
    }

    /// <summary>An order by places, for the runs of a cluster.</summary>
    public Route In(ReadOnlySpan<int> cluster)
    {
        var visits = new Visit[Visits.Length];
        for (var i = 0; i < visits.Length; i++) visits[i] = Visits[i] with { Run = cluster[Visits[i].Run] };
        return this with { Visits = visits };
    }
}
