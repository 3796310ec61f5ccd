namespace Pleatwright.Chart;

/// <summary>The names of the ways of working, as piece files and commands have them.</summary>
internal static class WayWords
{
    /// <summary>"row by row".</summary>
    public static string Of(WayOfWorking way) => way switch
    {
        WayOfWorking.RowByRow => "row by row",
        WayOfWorking.SpaceBySpace => "space by space",
        _ => "fewest starts",
    };
}
