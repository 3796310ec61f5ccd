using Pleatwright.Cloth;
using Pleatwright.Thread;

namespace Pleatwright.Chart;

/// <summary>What a band does with pleats that do not make up a whole repeat.</summary>
public enum BandEnds
{
    /// <summary>The pattern runs on to both sides and is cut off there, alike at both: every pleat is used.</summary>
    Cut,

    /// <summary>Whole repeats only, beginning and ending alike; pleats left over stay bare, as many at each side.</summary>
    Whole,
}

/// <summary>Where the working of a band begins.</summary>
public enum WorkFrom
{
    /// <summary>At the side where the hand begins: left for a right-handed maker.</summary>
    Side,

    /// <summary>
    /// At the centre valley: the far half first, then the work is turned and the other half is worked with the tail left
    /// at the back, so that both ends come out alike.
    /// </summary>
    Centre,
}

/// <summary>A geometric stitch worked from side to side of the cloth. It hangs down from its gathering row.</summary>
/// <param name="Stitch">The stitch's name; see <see cref="Stitches.BandStitch.All"/>.</param>
/// <param name="GatheringRow">The gathering row that its top lies on.</param>
/// <param name="Thread">Its thread.</param>
public sealed record Band(string Stitch, GatheringRow GatheringRow, ThreadKey Thread)
{
    /// <summary>The most times one band may be worked one under the other.</summary>
    public const int MostRows = 20;

    /// <summary>The most quarter spaces, or cable rows, by which something may lie lower or higher than its gathering row.</summary>
    public const int MostOffset = 40;

    /// <summary>Quarter spaces by which it lies lower than its gathering row; negative for higher.</summary>
    public int Offset { get; init; }

    /// <summary>Cable rows by which it lies lower still: how bands of several colours lie close under each other.</summary>
    public int Drop { get; init; }

    /// <summary>Steps from one turn to the next; nothing for what is usual for the stitch.</summary>
    public int? Steps { get; init; }

    /// <summary>Quarter spaces from its top to its bottom; nothing for what is usual for the stitch.</summary>
    public int? Height { get; init; }

    /// <summary>How many times it is worked, one under the other as the stitch nests, 1 to <see cref="MostRows"/>.</summary>
    public int Rows { get; init; } = 1;

    /// <summary>Whether it is turned upside down: peaks become troughs, and up becomes down.</summary>
    public bool UpsideDown { get; init; }

    /// <summary>The panel it goes across from side to side, and follows through every size; null for the cloth as a whole.</summary>
    public string? Panel { get; init; }

    /// <summary>Its first pleat, counted from the left of its panel; nothing for the first there is.</summary>
    public Pleat? From { get; init; }

    /// <summary>Its last pleat, counted from the left of its panel; nothing for the last there is.</summary>
    public Pleat? To { get; init; }

    /// <summary>The same band by the pleats of the cloth.</summary>
    /// <exception cref="ArgumentException">The cloth has no such panel.</exception>
    internal Band On(PleatingPlan pleating)
    {
        if (Panel is null) return this;
        var share = pleating.Panel(Panel) ?? throw new ArgumentException($"No panel is called “{Panel}”.");
        return this with
        {
            Panel = null, From = new Pleat(share.First - 1 + (From?.Number ?? 1)), To = new Pleat(share.First - 1 + (To?.Number ?? share.Pleats)),
        };
    }

    /// <summary>What it does with pleats that make no whole repeat.</summary>
    public BandEnds Ends { get; init; }

    /// <summary>Where its working begins; nothing for what is usual for the stitch.</summary>
    public WorkFrom? WorkFrom { get; init; }
}
