using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>Thread in the needle as a path is worked, and the needlefuls begun for it.</summary>
/// <param name="Left">
/// What is left of the needleful in hand, in micrometres; below 0 when it is one cut longer, to finish a run with.
/// </param>
/// <param name="Begun">Needlefuls begun on the path.</param>
internal readonly record struct Fill(int Left, int Begun)
{
    /// <summary>A path not yet begun.</summary>
    public static Fill None => new(int.MinValue / 4, 0);

    /// <summary>
    /// The same after one more run, every needleful used as far as it reaches: no other way of changing thread along a
    /// path begins fewer. <paramref name="carried"/> is false when the thread was changed before the run, so that nothing is carried.
    /// </summary>
    public Fill After(ThreadCosts costs, in Run run, int carry, bool leftward, bool maySplit, out bool carried)
    {
        var (cable, half, needleful) = (costs.CableIn(run.Row), costs.HalfIn(run.Row), costs.Needleful);
        var begin = (leftward ? run.HalfRight : run.HalfLeft) ? half : 0;
        var end = (leftward ? run.HalfLeft : run.HalfRight) ? half : 0;
        var left = Left - carry - begin;
        var rest = (long)run.Cables * cable + end;
        carried = left + costs.Longer >= rest || left >= cable;
        if (left + costs.Longer >= rest) return this with { Left = (int)(left - rest) };
        var begun = Begun;
        if (!maySplit || left < cable || run.Cables == 1)
        {
            carried = false;
            left = needleful - begin;
            begun++;
        }
        for (; left + costs.Longer < rest; begun++)
        {
            rest -= Math.Min(left / cable * (long)cable, rest - end - cable);
            left = needleful;
        }
        return new Fill((int)(left - rest), begun);
    }
}
