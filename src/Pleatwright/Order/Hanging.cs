using System.Runtime.CompilerServices;

namespace Pleatwright.Order;

/// <summary>The threads that hang at the back, in the order of the run ends they came out at: what a search and a linking have parked.</summary>
internal struct Hanging
{
    /// <summary>Threads that may hang at once.</summary>
    public const int Most = 12;

    private Slots slots;

    /// <summary>How many hang.</summary>
    public int Count { get; private set; }

    /// <summary>One of them: the run end it came out at, and the micrometres left of it.</summary>
    public readonly (int Exit, int Left) this[int index] => slots[index];

    /// <summary>One more, which came out after all that hang.</summary>
    public void Append((int Exit, int Left) thread) => slots[Count++] = thread;

    /// <summary>One more, in its place.</summary>
    public void Park(int exit, int left)
    {
        var p = Count++;
        for (; p > 0 && slots[p - 1].Exit > exit; p--) slots[p] = slots[p - 1];
        slots[p] = (exit, left);
    }

    /// <summary>The same with one tied off.</summary>
    public readonly Hanging Without(int index)
    {
        var others = this;
        for (var p = index; p + 1 < Count; p++) others.slots[p] = others.slots[p + 1];
        others.Count--;
        return others;
    }

    /// <summary>Whether every thread of another hangs here too, and no shorter.</summary>
    public readonly bool Has(in Hanging other)
    {
        if (Count < other.Count) return false;
        for (int p = 0, q = 0; q < other.Count; p++, q++)
        {
            while (p < Count && slots[p].Exit < other.slots[q].Exit) p++;
            if (p == Count || slots[p].Exit > other.slots[q].Exit || slots[p].Left < other.slots[q].Left) return false;
        }
        return true;
    }

    [InlineArray(Most)]
    private struct Slots
    {
        private (int Exit, int Left) first;
    }
}
