using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Proof.Rules;
using Pleatwright.Thread;

namespace Pleatwright.Proof;

/// <summary>A colour of a colour way.</summary>
/// <param name="Key">The thread it is for.</param>
/// <param name="Colour">The colour.</param>
/// <param name="Word">A plain word for it.</param>
internal readonly record struct WayColour(ThreadKey Key, Colour Colour, string Word);

/// <summary>A piece in other colours.</summary>
/// <param name="Name">What to call it: the words of its leading colours.</param>
/// <param name="Threads">Every thread of the piece, in the order of the key; those it does not change keep their colour.</param>
/// <param name="Cloth">The colour of the cloth.</param>
/// <param name="ClothWord">A plain word for that.</param>
internal sealed record ColourWay(string Name, ImmutableArray<WayColour> Threads, Colour Cloth, string ClothWord)
{
    /// <summary>The piece in these colours; a thread whose colour changes is named by it.</summary>
    public Piece Of(Piece piece) => piece with
    {
        Cloth = piece.Cloth with { Colour = Cloth },
        Threads = [.. piece.Threads.Zip(Threads, (t, w) => t.Colour == w.Colour ? t : t with { Colour = w.Colour, Name = w.Word })],
    };

    /// <inheritdoc/>
    public bool Equals(ColourWay? other) => other is not null && Name == other.Name && Cloth == other.Cloth && Threads.SequenceEqual(other.Threads);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Name, Cloth, Threads.Length);
}

/// <summary>
/// Other colour ways that keep a piece's contrast: all hues are turned by one angle in CIELAB, and lightness stays, so what stood out by light and dark
/// stands out as before. A way is offered only where colours that touch stay as unlike as they were, or are unlike beyond doubt, and the proof
/// finds nothing that it did not find before. Which angles are tried, and what "beyond doubt" and "seen at once" are, is our own choice.
/// </summary>
internal static class ColourWays
{
    /// <summary>The most ways offered.</summary>
    public const int Most = 3;

    /// <summary>Degrees from one angle tried to the next.</summary>
    public const int Step = 15;

    /// <summary>Degrees of hue between two ways, and between a way and the piece as it is.</summary>
    public const int Apart = 60;

    /// <summary>Lightness kept to so much, of the 100 of CIELAB: a colour of a screen is a whole number in each of three channels.</summary>
    public const double LightnessKept = 1;

    /// <summary>Colours so unlike are told apart beyond doubt, CIEDE2000: twice what the proof asks of threads that touch, or of a thread and its cloth.</summary>
    public const double BeyondDoubt = 2;

    /// <summary>A way is another at a glance where a thread in use, or the cloth, changes by so much, CIEDE2000.</summary>
    public const double SeenAtOnce = 15;

    // The rules of the proof that look at colours; no other can find more after a change of colours (a law holds this).
    private static readonly ImmutableArray<Rule> Rules = [new ThreadsAlike(), new ThreadLikeCloth()];

    /// <summary>Up to <see cref="Most"/> ways, the best kept first; none where hues make no other colours, as of greys. The same piece always gives the same.</summary>
    public static ImmutableArray<ColourWay> Of(Work work)
    {
        var piece = work.Piece;
        var used = Used(work);
        if (!used.Contains(true)) return [];
        var touching = Touching(work, used);
        var before = Findings(work);
        var tried = Enumerable.Range(1, 360 / Step - 1).Select(i => i * Step).Where(a => a >= Apart && 360 - a >= Apart)
            .Select(angle => (Angle: angle, Colours: Turned(piece, angle)))
            .Select(t => (t.Angle, t.Colours, Kept: Kept(piece, t.Colours, used, touching)))
            .Where(t => t.Kept > 0 && IsSeen(piece, t.Colours, used))
            .OrderByDescending(t => Math.Round(t.Kept, 3)).ThenBy(t => Math.Abs(180 - t.Angle)).ThenBy(t => t.Angle);
        var ways = new List<(int Angle, ColourWay Way)>();
        var names = new HashSet<string> { Name(work, piece.Cloth.Colour, [.. piece.Threads.Select(t => t.Colour)], used) };
        foreach (var (angle, colours, _) in tried)
        {
            if (ways.Count == Most) break;
            if (ways.Any(w => Math.Abs(w.Angle - angle) is var off && Math.Min(off, 360 - off) < Apart)) continue;
            var name = Name(work, colours.Cloth, colours.Threads, used);
            if (names.Contains(name)) continue;
            var way = new ColourWay(name, [.. piece.Threads.Zip(colours.Threads, (t, c) => new WayColour(t.Key, c, ColourWords.For(c)))], colours.Cloth, ColourWords.For(colours.Cloth));
            if (!Findings(Work.Lay(way.Of(piece))).IsSubsetOf(before)) continue;
            names.Add(name);
            ways.Add((angle, way));
        }
        return [.. ways.Select(w => w.Way)];
    }

    private static HashSet<(string, Severity, Place)> Findings(Work work) => [.. Proofreading.Read(work, Rules).Select(f => (f.Rule, f.Severity, f.Place))];

    private static (Colour Cloth, ImmutableArray<Colour> Threads) Turned(Piece piece, int degrees) =>
        (Turned(piece.Cloth.Colour, degrees), [.. piece.Threads.Select(t => Turned(t.Colour, degrees))]);

    /// <summary>A colour with its hue turned in CIELAB, its lightness kept; as much of its chroma as a screen can show there. A grey stays as it is.</summary>
    internal static Colour Turned(Colour colour, double degrees)
    {
        if (Oklab.From(colour).Chroma < Oklab.Grey) return colour;
        var lab = Lab.From(colour);
        var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
        double a = lab.A * cos - lab.B * sin, b = lab.A * sin + lab.B * cos;
        double least = 0, most = 1;
        if (Shows(1)) least = 1;
        else
            for (var i = 0; i < 20; i++)
            {
                var half = (least + most) / 2;
                if (Shows(half)) least = half;
                else most = half;
            }
        return new Lab(lab.L, a * least, b * least).ToLight().ToColour();

        bool Shows(double share)
        {
            var light = new Lab(lab.L, a * share, b * share).ToLight();
            return Math.Min(light.Red, Math.Min(light.Green, light.Blue)) >= -1e-4 && Math.Max(light.Red, Math.Max(light.Green, light.Blue)) <= 1 + 1e-4;
        }
    }

    // Threads with a stitch on the cloth.
    private static bool[] Used(Work work)
    {
        var used = new bool[work.Piece.Threads.Length];
        foreach (ref readonly var run in work.Runs) used[work.ThreadIndexAt(run.From, run.Row)] = true;
        foreach (var t in Laid(work)) used[t] = true;
        return used;
    }

    // Threads of bands and accents, which lie beside and over whatever there is.
    private static IEnumerable<int> Laid(Work work) => work.Bands.Select(b => b.Band.Thread).Concat(work.Accents.Select(a => a.Mark.Thread)).Distinct()
        .Select(key => work.Piece.Threads.Select(t => t.Key).ToList().IndexOf(key)).Where(i => i >= 0);

    private static HashSet<(int, int)> Touching(Work work, bool[] used)
    {
        var touching = new HashSet<(int, int)>();
        void Touch(int a, int b)
        {
            if (a != b) touching.Add((Math.Min(a, b), Math.Max(a, b)));
        }
        foreach (var contact in Contacts.Of(work))
            Touch(IndexOf(contact.First), IndexOf(contact.Second));
        foreach (var laid in Laid(work))
            for (var t = 0; t < used.Length; t++)
                if (used[t]) Touch(laid, t);
        return touching;

        int IndexOf(int run) => work.ThreadIndexAt(work.Runs[run].From, work.Runs[run].Row);
    }

    // How much of its contrast every pair keeps, 1 for all of it; 0 where one loses what it must keep.
    private static double Kept(Piece piece, (Colour Cloth, ImmutableArray<Colour> Threads) colours, bool[] used, HashSet<(int, int)> touching)
    {
        var kept = 1.0;
        foreach (var (a, b) in touching)
            kept = Math.Min(kept, Kept(piece.Threads[a].Colour, piece.Threads[b].Colour, colours.Threads[a], colours.Threads[b], ThreadsAlike.LeastDifference));
        for (var t = 0; t < used.Length; t++)
            if (used[t]) kept = Math.Min(kept, Kept(piece.Threads[t].Colour, piece.Cloth.Colour, colours.Threads[t], colours.Cloth, ThreadLikeCloth.LeastDifference));
        return kept;
    }

    /// <summary>
    /// How much of its contrast a pair of colours keeps, 0 to 1: 0 where it loses lightness between them, or is no longer as unlike as it was, nor
    /// unlike beyond doubt.
    /// </summary>
    internal static double Kept(Colour one, Colour other, Colour oneNow, Colour otherNow, double least)
    {
        double light = Math.Abs(Lab.From(one).L - Lab.From(other).L), lightNow = Math.Abs(Lab.From(oneNow).L - Lab.From(otherNow).L);
        if (lightNow < light - LightnessKept) return 0;
        double was = ColourDifference.Between(one, other), now = ColourDifference.Between(oneNow, otherNow);
        return now >= Math.Min(was, BeyondDoubt * least) - Hair ? Math.Min(1, now / Math.Max(was, Hair)) : 0;
    }

    private const double Hair = 1e-6;

    private static bool IsSeen(Piece piece, (Colour Cloth, ImmutableArray<Colour> Threads) colours, bool[] used) =>
        ColourDifference.Between(piece.Cloth.Colour, colours.Cloth) >= SeenAtOnce
        || used.Index().Any(u => u.Item && ColourDifference.Between(piece.Threads[u.Index].Colour, colours.Threads[u.Index]) >= SeenAtOnce);

    // "Dark green and sand": the two most used threads that are no greys; "white on pale pink" where all of them are.
    private static string Name(Work work, Colour cloth, ImmutableArray<Colour> threads, bool[] used)
    {
        var cables = new int[used.Length];
        foreach (ref readonly var run in work.Runs) cables[work.ThreadIndexAt(run.From, run.Row)] += run.Cables;
        var order = Enumerable.Range(0, used.Length).Where(t => used[t]).OrderByDescending(t => cables[t]).ThenBy(t => t).ToList();
        var hued = order.Where(t => Oklab.From(threads[t]).Chroma >= Oklab.Grey).Select(t => ColourWords.For(threads[t])).Distinct().Take(2).ToList();
        return hued.Count > 0 ? string.Join(" and ", hued) : $"{ColourWords.For(threads[order[0]])} on {ColourWords.For(cloth)}";
    }
}
