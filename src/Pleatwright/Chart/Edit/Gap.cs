namespace Pleatwright.Chart.Edit;

/// <summary>What lies between the copies of a repeated figure, and what room the cloth has left.</summary>
/// <param name="Placement">Which placement, from 0.</param>
/// <param name="Pleats">Bare pleats from one copy to the next; -1 where they join to one run, less where they overlap.</param>
/// <param name="Room">Copies that could be added with the same gap, all wholly on the cloth; negative when so many run off it already.</param>
/// <param name="Across">Pleats across from the cloth's left edge to the middle of the gap between the first two copies.</param>
/// <param name="Line">Lines down from the upper edge of cable row 0 to the middle of the figure.</param>
public readonly record struct Gap(int Placement, int Pleats, int Room, double Across, double Line)
{
    /// <summary>The gap of a placement; null when it is not repeated, or nothing of its figure is worked.</summary>
    internal static Gap? Of(Work work, int placement)
    {
        var ground = work.Footprints[placement];
        var repeat = ground.Placement.Repeat;
        if (repeat.Count < 2 || ground.Width == 0) return null;
        var first = ground.From.Number;
        return new Gap(placement, repeat.Every - ground.Width - 1, Most(work, ground) - repeat.Count,
            first + (ground.Width + repeat.Every - 1) / 2.0, ground.Top.Index + ground.Bottom.Index + 1);
    }

    /// <summary>
    /// The piece with its first copy moved so many valleys, the others after it. The spacing stays odd or even as it was, so that
    /// every copy begins on the level it did, and no copy is drawn into another that was apart.
    /// </summary>
    /// <param name="work">The work.</param>
    /// <param name="placement">Which placement; one that is repeated.</param>
    /// <param name="valleys">How far the first copy goes to the right.</param>
    internal static Piece Pulled(Work work, int placement, double valleys)
    {
        var repeat = work.Piece.Placements[placement].Repeat;
        return To(work, placement, repeat.Every - 2 * valleys / (repeat.Count - 1));
    }

    /// <summary>The piece with the gap wider by one step, or narrower by one.</summary>
    internal static Piece Stepped(Work work, int placement, bool wider) => To(work, placement, work.Piece.Placements[placement].Repeat.Every + (wider ? 2 : -2));

    private static Piece To(Work work, int placement, double spacing)
    {
        var repeat = work.Piece.Placements[placement].Repeat;
        var least = Math.Min(repeat.Every, work.Footprints[placement].Width + 1);
        var every = SizeFit.NearestAlike(Math.Clamp(spacing, least, work.Valleys), repeat.Every);
        if (every < least) every += 2;
        return every == repeat.Every ? work.Piece : Placing.Repeat(work.Piece, placement, repeat.Count, every);
    }

    // How many copies lie wholly on the cloth with this spacing.
    private static int Most(Work work, Footprint ground)
    {
        var repeat = ground.Placement.Repeat;
        var middle = ground.From.Number - repeat.OffsetOf(0);
        var count = 0;
        for (var n = 1; n <= Repeat.MostCount; n++)
        {
            var first = middle + (repeat with { Count = n }).OffsetOf(0);
            if (first < 1 || first + ground.Width - 1 + (n - 1) * repeat.Every > work.Valleys) break;
            count = n;
        }
        return count;
    }
}
