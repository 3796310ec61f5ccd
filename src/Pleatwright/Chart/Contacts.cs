namespace Pleatwright.Chart;

/// <summary>Two runs that touch: side by side in one row, or one over the other in neighbouring rows.</summary>
/// <param name="First">Index in the work's runs of the left or upper run.</param>
/// <param name="Second">Index of the right or lower run.</param>
/// <param name="From">Leftmost valley where they touch; side by side, the left run's last.</param>
/// <param name="To">Rightmost valley where they touch; side by side, the right run's first.</param>
internal readonly record struct Contact(int First, int Second, Valley From, Valley To);

/// <summary>Where the runs of a work touch.</summary>
internal static class Contacts
{
    /// <summary>
    /// Every contact of a work once, by its lower row from the top down. Runs one over the other touch where they share
    /// a valley.
    /// </summary>
    public static IEnumerable<Contact> Of(Work work)
    {
        int above = 0, aboveEnd = 0;
        for (var y = 0; y < work.CableRows; y++)
        {
            int first = work.FirstRunIndex(new CableRow(y)), end = work.FirstRunIndex(new CableRow(y + 1));
            for (var i = first; i + 1 < end; i++)
                if (work.Runs[i].To.Number + 1 == work.Runs[i + 1].From.Number)
                    yield return new Contact(i, i + 1, work.Runs[i].To, work.Runs[i + 1].From);
            for (int i = first, j = above; i < end && j < aboveEnd;)
            {
                var (lower, upper) = (work.Runs[i], work.Runs[j]);
                var from = Math.Max(lower.From.Number, upper.From.Number);
                var to = Math.Min(lower.To.Number, upper.To.Number);
                if (from <= to) yield return new Contact(j, i, new Valley(from), new Valley(to));
                if (upper.To.Number <= lower.To.Number) j++;
                else i++;
            }
            (above, aboveEnd) = (first, end);
        }
    }
}
