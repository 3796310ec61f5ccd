using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Drawer;

/// <summary>The drawer as it is searched: by name, by colour, by size.</summary>
public sealed class DrawerList(FigureKeeper drawer)
{
    /// <summary>Words looked for in names, designers, and threads and their colours; every one must be found.</summary>
    public string Find { get; set; } = "";

    /// <summary>The most valleys a figure may be wide, as it is written; what is no number asks nothing.</summary>
    public string Wide { get; set; } = "";

    /// <summary>The most cable rows a figure may be high, as it is written; what is no number asks nothing.</summary>
    public string High { get; set; } = "";

    /// <summary>Whether anything is looked for.</summary>
    public bool IsFinding => Find.Trim().Length > 0 || Most(Wide) is not null || Most(High) is not null;

    /// <summary>What is found; files that cannot be read are listed while nothing is looked for.</summary>
    public IEnumerable<DrawerFigure> Found => !IsFinding ? drawer.All : drawer.All.Where(f => f.Kept is { } kept && Fits(kept));

    /// <summary>What came of it, for the maker; empty while nothing is looked for.</summary>
    public string Words => !IsFinding ? "" : Found.Count() is > 0 and var found ? $"{Model.Words.Of(found, "figure")} found." : "Nothing in the drawer is like that.";

    /// <summary>What a figure of the drawer says of itself: "24 valleys wide, 18 rows high; sail red, rope".</summary>
    public static string About(KeptFigure kept) => $"{DrawerWords.Size(kept.Figure)}{(kept.Threads.IsEmpty ? "" : $"; {string.Join(", ", kept.Threads.Select(Named))}")}";

    private bool Fits(KeptFigure kept) =>
        (Most(Wide) is not { } wide || kept.Figure.Width <= wide)
        && (Most(High) is not { } high || kept.Figure.Height <= high)
        && Find.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).All(word => Said(kept).Any(s => s.Contains(word, StringComparison.OrdinalIgnoreCase)));

    private static IEnumerable<string> Said(KeptFigure kept) =>
        [kept.Name, kept.Credit.Designer, .. kept.Threads.Select(t => t.Name), .. kept.Threads.Select(t => ColourWords.For(t.Colour))];

    private static string Named(Floss thread) => thread.Name.Length > 0 ? thread.Name : ColourWords.For(thread.Colour);

    private static int? Most(string text) => int.TryParse(text.Trim(), System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var most) ? most : null;
}
