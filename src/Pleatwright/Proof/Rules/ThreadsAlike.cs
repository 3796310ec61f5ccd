using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Proof.Rules;

/// <summary>Two threads that touch and look too much alike to be told apart once stitched.</summary>
internal sealed class ThreadsAlike : Rule
{
    /// <summary>
    /// Touching threads differ by at least so much, CIEDE2000 (common practice, no source: about five times the least
    /// difference an eye sees, since thread shades itself and is seen from arm's length).
    /// </summary>
    public const double LeastDifference = 5;

    /// <inheritdoc/>
    public override string Name => "threads-alike";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        var (alike, any) = Alike(work);
        if (!any) return;
        var told = new HashSet<(int, int)>();
        foreach (var contact in Contacts.Of(work))
        {
            Run one = work.Runs[contact.First], other = work.Runs[contact.Second];
            int a = work.ThreadIndexAt(one.From, one.Row), b = work.ThreadIndexAt(other.From, other.Row);
            if (!alike[a, b] || !told.Add((Math.Min(a, b), Math.Max(a, b)))) continue;
            var place = new Place(one.Row, other.Row, contact.From, contact.To);
            if (!findings.Tells(Severity.Warning, place)) continue;
            var difference = ColourDifference.Between(work.Piece.Threads[a].Colour, work.Piece.Threads[b].Colour);
            findings.Add(Severity.Warning, place,
                string.Create(CultureInfo.InvariantCulture,
                    $"{Say.Thread(work, one.Thread).Capital()} and {Say.Thread(work, other.Thread)} touch and look alike: they differ by {difference:0.0} (CIEDE2000), first in {Say.Where(work, place)}."),
                "Choose a lighter, darker or clearer colour for one of them, or work both in one thread.");
        }
    }

    private static (bool[,] Alike, bool Any) Alike(Work work)
    {
        var threads = work.Piece.Threads;
        var lab = new Lab[threads.Length];
        for (var i = 0; i < lab.Length; i++) lab[i] = Lab.From(threads[i].Colour);
        var alike = new bool[lab.Length, lab.Length];
        var any = false;
        for (var i = 0; i < lab.Length; i++)
            for (var j = 0; j < i; j++)
                if (ColourDifference.Between(lab[i], lab[j]) < LeastDifference)
                    alike[i, j] = alike[j, i] = any = true;
        return (alike, any);
    }
}
