namespace Pleatwright.Order;

/// <summary>A number of starts that no order can go below.</summary>
internal static class LowerBound
{
    /// <summary>Thread by thread: all its stitches, shared among whole needlefuls.</summary>
    public static int Starts(Layout layout)
    {
        var used = new long[128];
        for (var r = 0; r < layout.Runs; r++) used[layout.Work.Runs[r].Thread.Letter] += layout.Costs.Run(r);
        long needleful = layout.Costs.Needleful, starts = 0;
        foreach (var length in used) starts += (length + needleful - 1) / needleful;
        return (int)starts;
    }
}
