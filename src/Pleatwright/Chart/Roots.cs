namespace Pleatwright.Chart;

/// <summary>
/// Sets that are joined two by two: each member points to another of its set, and the last, the root, to itself. Paths are halved as
/// they are followed (Tarjan and van Leeuwen, 1984; from memory), so that no walk stays long.
/// </summary>
internal static class Roots
{
    /// <summary>Members that are each a set of their own.</summary>
    public static int[] Apart(int count)
    {
        var parent = new int[count];
        for (var i = 0; i < count; i++) parent[i] = i;
        return parent;
    }

    /// <summary>The root of a member's set.</summary>
    public static int Of(int[] parent, int i)
    {
        while (parent[i] != i) i = parent[i] = parent[parent[i]];
        return i;
    }

    /// <summary>Joins the sets of two members; the lower root stays one, so the root is the first of its set.</summary>
    public static void Join(int[] parent, int a, int b)
    {
        a = Of(parent, a);
        b = Of(parent, b);
        parent[Math.Max(a, b)] = Math.Min(a, b);
    }
}
