namespace Pleatwright.Order;

/// <summary>A short list of numbers for each of 0..n-1, all held in one array.</summary>
internal readonly struct Lists(int[] start, int[] items)
{
    /// <summary>How many lists.</summary>
    public int Count => start.Length - 1;

    /// <summary>Length of all lists together.</summary>
    public int Total => items.Length;

    /// <summary>One list.</summary>
    public ReadOnlySpan<int> this[int i] => items.AsSpan(start[i], start[i + 1] - start[i]);

    /// <summary>One list, to be kept.</summary>
    public ReadOnlyMemory<int> Kept(int i) => items.AsMemory(start[i], start[i + 1] - start[i]);
}

/// <summary>Pairs of numbers, gathered one by one and then laid out in lists.</summary>
internal sealed class Pairs
{
    private int[] first = new int[64];
    private int[] second = new int[64];

    /// <summary>How many pairs.</summary>
    public int Count { get; private set; }

    /// <summary>Adds a pair.</summary>
    public void Add(int a, int b)
    {
        if (Count == first.Length)
        {
            Array.Resize(ref first, Count * 2);
            Array.Resize(ref second, Count * 2);
        }
        (first[Count], second[Count++]) = (a, b);
    }

    /// <summary>For each first number, its seconds, in the order added.</summary>
    public Lists ByFirst(int count)
    {
        var start = new int[count + 1];
        for (var i = 0; i < Count; i++) start[first[i] + 1]++;
        for (var k = 0; k < count; k++) start[k + 1] += start[k];
        var next = start.AsSpan(0, count).ToArray();
        var items = new int[Count];
        for (var i = 0; i < Count; i++) items[next[first[i]]++] = second[i];
        return new Lists(start, items);
    }
}
