using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>What is worked in one go: a border, a figure or what hangs together of one.</summary>
/// <param name="Area">The area it lies in.</param>
/// <param name="Figure">The figure it belongs to, by the figure's place in the hand's order.</param>
/// <param name="Way">-1 when all of it is worked upward from a border it stands on, 1 when downward, else 0.</param>
/// <param name="IsBorder">Whether it is a border.</param>
/// <param name="From">Its leftmost valley.</param>
/// <param name="To">Its rightmost valley.</param>
internal readonly record struct Part(int Area, int Figure, int Way, bool IsBorder, Valley From, Valley To);

/// <summary>
/// The parts of a work in the order a hand takes them: borders that figures stand on, then the figures at the sides, each side from the
/// outside in, and the middle one last. A part is an area; only where figures of their own stand on a border they touch, or hang from it, the border is one part and
/// each of them another. Parts with runs of one placement's copy are one figure.
/// </summary>
internal sealed class Parts
{
    /// <summary>The share of the valleys that a figure spans, copies and all, which serves as a border (common practice, no source).</summary>
    private const double BorderWidth = 0.75;

    private readonly Work work;
    private readonly Areas areas;
    private readonly Outward outward;
    private readonly int[] copyOf;      // per run: its placement's copy, numbered over the piece; -1 for a band
    private readonly bool[] spans;      // per placement
    private readonly int[] partOf;      // per stretch
    private readonly Part[] parts;      // in the hand's order

    public Parts(Work work, Outward outward)
    {
        (this.work, areas, this.outward) = (work, work.Areas, outward);
        copyOf = new int[work.Runs.Length];
        spans = new bool[work.Piece.Placements.Length];
        partOf = new int[areas.Stretches.Length];
        FindCopies();
        parts = Sort(Find());
    }

    /// <summary>Every part, in the hand's order.</summary>
    public ReadOnlySpan<Part> InOrder => parts;

    /// <summary>The part of a run, an index in <see cref="InOrder"/>.</summary>
    public int Of(int run) => partOf[outward.StretchOf(run)];

    /// <summary>The placement that a run is of; null for a band's.</summary>
    public int? PlacementOf(int run) => copyOf[run] < 0 ? null : PlacementOfCopy(copyOf[run]);

    private void FindCopies()
    {
        Array.Fill(copyOf, -1);
        var placements = work.Piece.Placements;
        if (placements.IsEmpty) return;
        var first = new int[placements.Length + 1];
        for (var p = 0; p < placements.Length; p++) first[p + 1] = first[p] + placements[p].Repeat.Count;
        var footprints = work.Footprints;
        var several = placements.Length > 1;
        for (var p = 0; p < spans.Length; p++)
            spans[p] = several && footprints[p].Width > 0 && footprints[p].To.Number - footprints[p].From.Number + 1 >= work.Valleys * BorderWidth
                && placements[p].Repeat.Every <= footprints[p].Width + work.Piece.Working.CarryPleats;
        var runs = work.Runs;
        if (first[^1] == 1 && work.Piece.Bands.IsEmpty)
        {
            Array.Clear(copyOf);
            return;
        }
        for (var r = 0; r < runs.Length; r++)
        {
            for (var p = placements.Length - 1; p >= 0 && copyOf[r] < 0; p--)
                if (runs[r].Row.Index >= footprints[p].Top.Index && runs[r].Row.Index <= footprints[p].Bottom.Index
                    && runs[r].From.Number >= footprints[p].From.Number && runs[r].From.Number <= footprints[p].To.Number
                    && footprints[p].CellAt(runs[r].From, runs[r].Row) is { } cell) copyOf[r] = first[p] + (spans[p] ? 0 : cell.Copy);
        }
    }

    private bool IsBorder(int stretch)
    {
        var s = areas.Stretches[stretch];
        for (var r = s.FirstRun; r < s.EndRun; r++)
            if (copyOf[r] >= 0 && !spans[PlacementOfCopy(copyOf[r])]) return false;
        return true;
    }

    private int PlacementOfCopy(int copy)
    {
        var placements = work.Piece.Placements;
        for (var p = 0; ; copy -= placements[p++].Repeat.Count)
            if (copy < placements[p].Repeat.Count) return p;
    }

    // The parts, in the order of their first stretches; partOf is filled with their indices.
    private List<Part> Find()
    {
        var stretches = areas.Stretches;
        var border = new bool[stretches.Length];
        for (var s = 0; s < border.Length; s++) border[s] = IsBorder(s);
        // a border is split off where the base row lies in it and something else in the area does not
        var onBorder = new bool[areas.Count];
        var whole = new bool[areas.Count];
        Array.Fill(whole, true);
        for (var s = 0; s < border.Length; s++)
        {
            var area = areas.AreaOfStretch(s);
            if (!border[s]) whole[area] = false;
            else if (outward.WayOfStretch(s) == 0) onBorder[area] = true;
        }
        var root = Roots.Apart(stretches.Length);
        var ofBase = new bool[stretches.Length];
        Queue<int> queue = new();
        for (var s = 0; s < border.Length; s++)
        {
            var area = areas.AreaOfStretch(s);
            if (!onBorder[area] || whole[area] || !border[s] || outward.WayOfStretch(s) != 0) continue;
            ofBase[s] = true;
            queue.Enqueue(s);
        }
        while (queue.TryDequeue(out var s))
            foreach (var t in Beside(s))
                if (border[t] && !ofBase[t])
                {
                    ofBase[t] = true;
                    queue.Enqueue(t);
                }
        var firstOfArea = new int[areas.Count];
        Array.Fill(firstOfArea, -1);
        for (var s = 0; s < border.Length; s++)
        {
            var area = areas.AreaOfStretch(s);
            if (onBorder[area] && !whole[area] && !ofBase[s])
            {
                foreach (var t in Beside(s))
                    if (!ofBase[t]) Roots.Join(root, s, t);
            }
            else if (firstOfArea[area] < 0) firstOfArea[area] = s;
            else Roots.Join(root, firstOfArea[area], s);
        }
        var number = new int[stretches.Length];
        var found = new List<Part>();
        for (var s = 0; s < border.Length; s++)
        {
            ref var n = ref number[Roots.Of(root, s)];
            var area = areas.AreaOfStretch(s);
            var split = onBorder[area] && !whole[area];
            if (n == 0)
            {
                found.Add(new Part(area, 0, split && !ofBase[s] ? outward.WayOfStretch(s) : 0, split ? ofBase[s] : whole[area], stretches[s].From, stretches[s].To));
                n = found.Count;
            }
            var part = found[n - 1];
            found[n - 1] = part with
            {
                Way = part.Way == outward.WayOfStretch(s) ? part.Way : 0,
                From = stretches[s].From.Number < part.From.Number ? stretches[s].From : part.From,
                To = stretches[s].To.Number > part.To.Number ? stretches[s].To : part.To,
            };
            partOf[s] = n - 1;
        }
        return found;
    }

    private IEnumerable<int> Beside(int stretch)
    {
        var (first, end) = areas.Above(stretch);
        for (var t = first; t < end; t++) yield return t;
        (first, end) = areas.Below(stretch);
        for (var t = first; t < end; t++) yield return t;
    }

    private sealed class Figure
    {
        public List<int> Parts { get; } = [];

        public bool IsBorder { get; set; } = true;

        public int From { get; set; } = int.MaxValue;

        public int To { get; set; }

        public int Base { get; set; } // the base row of its widest area

        public int Widest { get; set; } = -1;

        public int Across { get; set; } // where that lies, in the direction of the hand

        public int Named { get; set; } = int.MaxValue; // its place among those the maker named

        public int Place { get; set; } = -1;
    }

    private Part[] Sort(List<Part> found)
    {
        var working = work.Piece.Working;
        var leftHanded = working.Hand == Hand.Left;
        var firstUp = working.First != FirstWay.Down;
        var centre = work.Pleating.CentreValley;
        var figures = Figures(found);
        foreach (var (figure, i) in working.Figures.Select((f, i) => (f, i)))
            if (RunOver(figure) is var run and >= 0)
                foreach (var of in figures.Where(f => f.Parts.Contains(partOf[outward.StretchOf(run)]))) of.Named = Math.Min(of.Named, i);
        int Across(int from, int to) => leftHanded ? work.Valleys + 1 - to : from;
        // the side where the hand begins, the other side, and last what lies over the centre
        int Side(Figure f) => f.From <= centre && f.To >= centre ? 2 : f.From > centre != leftHanded ? 1 : 0;
        // the way first worked first where figures stand on a border and hang from it
        int Second(int way) => way == 0 || way < 0 == firstUp ? 0 : 1;
        var inOrder = figures.OrderBy(f => f.Named).ThenBy(f => f.IsBorder ? 0 : 1)
            .ThenBy(f => f.IsBorder ? 0 : f.Parts.Max(p => Second(found[p].Way)))
            .ThenBy(f => f.IsBorder ? f.Base : Side(f)).ThenBy(f => f.IsBorder ? 0 : -Math.Abs(f.From + f.To - 2 * centre))
            .ThenBy(f => Across(f.From, f.To)).ThenBy(f => f.To - f.From).ThenBy(f => f.Base).ThenBy(f => f.Parts[0]).ToList();
        var sorted = new List<int>();
        var figureOf = new int[found.Count];
        var placed = 0;
        var borderIn = new Dictionary<int, Figure>(); // by area
        foreach (var figure in inOrder)
            if (figure.IsBorder)
                foreach (var part in figure.Parts) borderIn[found[part].Area] = figure;
        foreach (var figure in inOrder) Place(figure);
        var renumber = new int[found.Count];
        for (var i = 0; i < sorted.Count; i++) renumber[sorted[i]] = i;
        for (var s = 0; s < partOf.Length; s++) partOf[s] = renumber[partOf[s]];
        return [.. sorted.Select(p => found[p] with { Figure = figureOf[p] })];

        // a border before what stands on it, whatever the maker named first
        void Place(Figure figure)
        {
            if (figure.Place >= 0) return;
            figure.Place = int.MaxValue;
            if (!figure.IsBorder)
                foreach (var part in figure.Parts)
                    if (borderIn.TryGetValue(found[part].Area, out var border)) Place(border);
            figure.Place = placed++;
            foreach (var part in figure.Parts.OrderBy(p => Second(found[p].Way) != 0 || Beyond(p, figure) ? 1 : 0)
                .ThenBy(p => Math.Abs(areas.All[found[p].Area].Base.Index - figure.Base))
                .ThenBy(p => Across(found[p].From.Number, found[p].To.Number)).ThenBy(p => found[p].To.Number - found[p].From.Number).ThenBy(p => p))
            {
                figureOf[part] = figure.Place;
                sorted.Add(part);
            }
        }

        // outward from the base row of the figure's widest part: all of one way, then all of the other
        bool Beyond(int part, Figure figure) => areas.All[found[part].Area].Base.Index - figure.Base is var away && away != 0 && away < 0 != firstUp;
    }

    private List<Figure> Figures(List<Part> found)
    {
        var root = Roots.Apart(found.Count);
        var firstWith = new Dictionary<int, int>(); // by copy, a part with a run of it
        var stretches = areas.Stretches;
        for (var s = 0; s < stretches.Length; s++)
        {
            if (found[partOf[s]].IsBorder) continue;
            for (var r = stretches[s].FirstRun; r < stretches[s].EndRun; r++)
                if (copyOf[r] >= 0 && !firstWith.TryAdd(copyOf[r], partOf[s])) Roots.Join(root, firstWith[copyOf[r]], partOf[s]);
        }
        var figures = new Dictionary<int, Figure>();
        for (var p = 0; p < found.Count; p++)
        {
            var of = Roots.Of(root, p);
            if (!figures.TryGetValue(of, out var figure)) figures[of] = figure = new Figure();
            figure.Parts.Add(p);
            figure.IsBorder &= found[p].IsBorder;
            figure.From = Math.Min(figure.From, found[p].From.Number);
            figure.To = Math.Max(figure.To, found[p].To.Number);
            var area = areas.All[found[p].Area];
            // of two as wide the first in the direction of the hand, so that either hand finds the same
            var across = work.Piece.Working.Hand == Hand.Left ? work.Valleys + 1 - found[p].To.Number : found[p].From.Number;
            if ((area.WidestCables, -across, -area.Base.Index).CompareTo((figure.Widest, -figure.Across, -figure.Base)) <= 0) continue;
            (figure.Widest, figure.Across, figure.Base) = (area.WidestCables, across, area.Base.Index);
        }
        foreach (var figure in figures.Values)
            if (work.Piece.Working.BaseRow is { } pinned && figure.Parts.Exists(p => areas.All[found[p].Area].Base == pinned)) figure.Base = pinned.Index;
        return [.. figures.Values];
    }

    private int RunOver(FigurePlace place)
    {
        for (var r = work.FirstRunIndex(place.Row); r < work.FirstRunIndex(new CableRow(place.Row.Index + 1)); r++)
            if (work.Runs[r].Contains(place.Valley)) return r;
        return -1;
    }
}
