using Pleatwright.Cloth;

namespace Pleatwright.Chart;

/// <summary>What a place across the cloth, or across one of its panels, is counted from.</summary>
public enum CountedFrom
{
    /// <summary>The centre valley; to the right of it when more than 0, to the left when less.</summary>
    Centre,

    /// <summary>The left edge: 1 is the first valley.</summary>
    Left,

    /// <summary>The right edge: 1 is the last valley.</summary>
    Right,
}

/// <summary>
/// Where a placement's middle lies across the cloth: a named valley, the piece's centre valley, or so many valleys from the centre or an edge of
/// the cloth or of one of its panels, which it then follows through every size.
/// </summary>
public readonly record struct Centre
{
    private readonly int valley; // its number; 0 for the middle; or how far it hangs from what it hangs on
    private readonly bool hung;

    private Centre(int valley) => this.valley = valley;

    private Centre(string? panel, CountedFrom from, int valleys)
    {
        (Panel, From, valley) = (panel, from, valleys);
        hung = true;
    }

    /// <summary>The piece's own centre valley, whatever its pleat count.</summary>
    public static Centre Middle => default;

    /// <summary>A valley by its number, from 1.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The number is less than 1.</exception>
    public static Centre At(Valley valley) => valley.Number >= 1
        ? new Centre(valley.Number)
        : throw new ArgumentOutOfRangeException(nameof(valley), "Valleys are numbered from 1.");

    /// <summary>So many valleys from the centre or an edge of the cloth or of a panel; it may come to lie off it.</summary>
    /// <param name="panel">The panel's name; null for the cloth as a whole.</param>
    /// <param name="from">What it is counted from.</param>
    /// <param name="valleys">How far, within <see cref="PleatingPlan.MostPleats"/> either way.</param>
    /// <exception cref="ArgumentOutOfRangeException">Farther than that.</exception>
    public static Centre Hung(string? panel, CountedFrom from, int valleys) => valleys is >= -PleatingPlan.MostPleats and <= PleatingPlan.MostPleats
        ? new Centre(panel, from, valleys)
        : throw new ArgumentOutOfRangeException(nameof(valleys), "Nothing hangs farther away than a cloth is wide.");

    /// <summary>Whether this is the piece's centre valley.</summary>
    public bool IsMiddle => !hung && valley == 0;

    /// <summary>Whether it hangs on the cloth or a panel, rather than on a numbered valley or in the middle.</summary>
    public bool IsHung => hung;

    /// <summary>Name of the panel it hangs on; null when it hangs on none.</summary>
    public string? Panel { get; }

    /// <summary>What it is counted from when it hangs.</summary>
    public CountedFrom From { get; }

    /// <summary>Valleys from what it hangs on; its number when it hangs on nothing; 0 in the middle.</summary>
    public int Valleys => valley;

    /// <summary>The valley meant on a cloth; one that hangs may lie off it.</summary>
    /// <exception cref="ArgumentException">The cloth has no such panel.</exception>
    public Valley On(PleatingPlan pleating)
    {
        if (!hung) return new Valley(valley == 0 ? pleating.CentreValley : valley);
        var (first, last) = Pleats(pleating);
        return new Valley(From switch
        {
            CountedFrom.Left => first - 1 + valley,
            CountedFrom.Right => last - valley,
            _ => MiddleOf(first, last) + valley,
        });
    }

    /// <summary>This moved to another valley: what hangs goes on hanging where it hung.</summary>
    /// <exception cref="ArgumentException">The cloth has no such panel.</exception>
    public Centre To(Valley valley, PleatingPlan pleating)
    {
        if (hung) return By(valley.Number - On(pleating).Number);
        return valley.Number == pleating.CentreValley ? Middle : valley.Number >= 1 ? At(valley) : new Centre(null, CountedFrom.Centre, valley.Number - pleating.CentreValley);
    }

    /// <summary>The same valley, hung on a panel or on the cloth: nothing moves.</summary>
    /// <exception cref="ArgumentException">The cloth has no such panel.</exception>
    internal Centre HungOn(string? panel, CountedFrom from, PleatingPlan pleating)
    {
        var there = new Centre(panel, from, 0);
        return there.By(On(pleating).Number - there.On(pleating).Number);
    }

    /// <summary>
    /// A valley that is the image of this: what hangs on a panel hangs on the panel that the image lies on, counted from the other edge; on the cloth where no panel can be
    /// named there. What hangs on nothing has its number.
    /// </summary>
    /// <exception cref="ArgumentException">The cloth has no such panel.</exception>
    internal Centre Mirrored(Valley image, PleatingPlan pleating)
    {
        if (!hung) return At(image);
        var from = From switch { CountedFrom.Left => CountedFrom.Right, CountedFrom.Right => CountedFrom.Left, _ => CountedFrom.Centre };
        string? panel = null;
        if (Panel is not null)
            foreach (var share in pleating.Shares)
                if (share.First <= image.Number && image.Number < share.Last && pleating.Panel(share.Name) == share) panel = share.Name;
        return At(image).HungOn(panel, from, pleating);
    }

    /// <summary>The same valley, hung on nothing.</summary>
    internal Centre Unhung(PleatingPlan pleating) => hung ? Middle.To(On(pleating), pleating) : this;

    /// <summary>What hangs, so many valleys further to the right.</summary>
    internal Centre By(int valleys) => new(Panel, From, Math.Clamp(valley + (From == CountedFrom.Right ? -valleys : valleys), -PleatingPlan.MostPleats, PleatingPlan.MostPleats));

    /// <summary>The first and the last pleat of what it hangs on; of the cloth when it hangs on no panel.</summary>
    /// <exception cref="ArgumentException">The cloth has no such panel.</exception>
    internal (int First, int Last) Pleats(PleatingPlan pleating) => Panel is null ? (1, pleating.Pleats)
        : pleating.Panel(Panel) is { } share ? (share.First, share.Last)
        : throw new ArgumentException($"No panel is called “{Panel}”.");

    // As many pleats to its left as to its right; of an odd number one fewer.
    private static int MiddleOf(int first, int last) => first - 1 + (last - first + 1) / 2;
}
