using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Picture;
using Pleatwright.Thread;

namespace Pleatwright.Recutting;

/// <summary>
/// Draws a figure again in another number of valleys and cable rows. The figure itself is the picture: each cable stands for the strip of its valley and its
/// row, a pleat wide and two lines high, which is as large as its brick. Under every strip of the new one it is told how much of each thread lies there, by area, and
/// the labelling is found that lowers the tracer's energy. Strips rather than bricks, as the teeth of a row's end are the lattice's and not
/// the figure's: seen brick by brick they would be drawn again, larger. No thread comes in that does not lie there, as a mean of colours would have it; what is
/// a row thin, or a cable or two short, is drawn where it shows most.
/// </summary>
internal static class FigureSampler
{
    // In hundredths of CIEDE2000, as the tracer reckons; our own choice, no source. Where a brick is all of one thread nothing turns it; these
    // decide where it is shared.
    private static readonly Weights Even = new() { Change = 160, Ragged = 80, Short = 60, Lone = 120, Overhang = 80 };

    // Where rows of the two do not fall on each other, a row may be half one thread's and half another's all along: there a lone cable costs more than
    // any stitch, lest the two be combed into each other.
    private static readonly Weights Uneven = new() { Change = 600, Ragged = 300, Short = 600, Lone = 6000, Overhang = 1000 };
    private const int LeastApart = 2000, MostApart = 4000, BareApart = 3000, Absent = 1000;

    // How much more the half of a brick towards the figure's middle counts, so that halves are settled alike at both sides.
    private const double Inward = 0.15;

    // A run still shows where this much of a brick of its thread lies on it.
    private const double Shows = 0.25;

    private const int MostSweeps = 100;
    private const double Hair = 1e-9;

    /// <summary>The figure in other numbers of valleys and rows.</summary>
    /// <param name="figure">The figure.</param>
    /// <param name="width">Valleys across, 1 to <see cref="Figure.MostValleys"/>.</param>
    /// <param name="height">Cable rows down, 1 to <see cref="Figure.MostRows"/>.</param>
    /// <param name="baseRow">The row of the new figure that all others are stacked on.</param>
    /// <param name="threads">The piece's threads.</param>
    public static Figure Draw(Figure figure, int width, int height, int baseRow, ImmutableArray<Floss> threads)
    {
        if (width == figure.Width && height == figure.Height) return figure;
        var letters = figure.Rows.SelectMany(r => r).Where(c => c != Figure.Bare).Distinct().Order().ToArray();
        var rows = letters.Length == 0
            ? [.. Enumerable.Repeat(new string(Figure.Bare, width), height)]
            : new Drawing(figure, letters, Apart(letters, threads), width, height, Math.Clamp(baseRow, 0, height - 1)).Rows();
        return new Figure(figure.Name, rows) { Square = figure.Square, Letters = figure.Letters, From = figure.From, Halves = Halves(figure, rows, height) };
    }

    // A row's half stitches follow the row that lies where its middle does.
    private static ImmutableArray<HalfMark> Halves(Figure figure, ImmutableArray<string> rows, int height) =>
    [
        .. from half in figure.Halves
           from row in Enumerable.Range(0, height)
           where half.Row == (int)((row + 0.5) * figure.Height / height) && rows[row].AsSpan().ContainsAnyExcept(Figure.Bare)
           select half with { Row = row },
    ];

    // How unlike two labels are, 0 for bare and then the letters; a thread the piece does not name is like none.
    private static int[,] Apart(char[] letters, ImmutableArray<Floss> threads)
    {
        var apart = new int[letters.Length + 1, letters.Length + 1];
        for (var a = 0; a <= letters.Length; a++)
            for (var b = 0; b <= letters.Length; b++)
                if (a != b) apart[a, b] = a == 0 || b == 0 ? BareApart : Between(letters[a - 1], letters[b - 1]);
        return apart;

        int Between(char one, char other)
        {
            var (first, second) = (threads.FirstOrDefault(t => t.Key.Letter == one), threads.FirstOrDefault(t => t.Key.Letter == other));
            return first is null || second is null ? MostApart : (int)Math.Clamp(100 * ColourDifference.Between(first.Colour, second.Colour), LeastApart, MostApart);
        }
    }

    private sealed class Drawing
    {
        private readonly Figure figure;
        private readonly char[] letters;
        private readonly int width, height, labels, baseRow;
        private readonly bool mirror;
        private readonly Weights weights;
        private readonly double across, down; // pleats and rows of the new figure to one of the old
        private readonly byte[] cells;  // the old figure's labels
        private readonly double[] shares; // of each label under each stitch of the new figure
        private readonly int[] costs;

        public Drawing(Figure figure, char[] letters, int[,] apart, int width, int height, int baseRow)
        {
            (this.figure, this.letters, this.width, this.height, this.baseRow) = (figure, letters, width, height, baseRow);
            labels = letters.Length + 1;
            (across, down) = ((width + 1.0) / (figure.Width + 1), (double)height / figure.Height);
            weights = IsWhole(across) && IsWhole(down) ? Even : Uneven;
            mirror = figure.Rows.All(r => r.SequenceEqual(r.Reverse())) && (width & 1) == (figure.Width & 1);
            cells = [.. figure.Rows.SelectMany(r => r).Select(c => (byte)(Array.IndexOf(letters, c) + 1))];
            shares = Share();
            costs = Cost(apart);
        }

        private static bool IsWhole(double ratio) => Math.Max(ratio, 1 / ratio) is var r && Math.Abs(r - Math.Round(r)) < Hair;

        public ImmutableArray<string> Rows()
        {
            var solved = Solve();
            if (Hold(solved)) solved = Solve();
            return [.. Enumerable.Range(0, height).Select(y => string.Create(width, 0, (text, _) =>
            {
                for (var x = 0; x < width; x++) text[x] = solved[y * width + x] is var l and > 0 ? letters[l - 1] : Figure.Bare;
            }))];
        }

        // The strip under a stitch of the new figure, in the old one's valleys and rows. A figure w valleys wide has w + 1 pleats, and half a pleat at each
        // side that is no valley's: what lies at the side goes on there.
        private (double Left, double Right, double Top, double Bottom) Under(int x, int y) =>
            ((x + 0.5) / across - 0.5, (x + 1.5) / across - 0.5, y / down, (y + 1) / down);

        private double[] Share()
        {
            var shares = new double[width * height * labels];
            for (var y = 0; y < height; y++)
                for (var x = 0; x < width; x++)
                {
                    var (left, right, top, bottom) = Under(x, y);
                    double middle = (left + right) / 2, half = figure.Width / 2.0;
                    var lean = Math.Abs(middle - half) < Hair ? 0 : middle < half ? Inward : -Inward;
                    var share = shares.AsSpan((y * width + x) * labels, labels);
                    Add(share, left, middle, top, bottom, (1 - lean) / ((right - left) * (bottom - top)));
                    Add(share, middle, right, top, bottom, (1 + lean) / ((right - left) * (bottom - top)));
                }
            return shares;
        }

        private void Add(Span<double> share, double left, double right, double top, double bottom, double weight)
        {
            for (var row = (int)(top + Hair); row < bottom - Hair && row < figure.Height; row++)
                for (var column = (int)Math.Floor(left + Hair); column < right - Hair; column++)
                    share[cells[row * figure.Width + Math.Clamp(column, 0, figure.Width - 1)]] +=
                        (Math.Min(row + 1, bottom) - Math.Max(row, top)) * (Math.Min(column + 1, right) - Math.Max(column, left)) * weight;
        }

        private int[] Cost(int[,] apart)
        {
            var costs = new int[shares.Length];
            for (var cell = 0; cell < width * height; cell++)
            {
                var share = shares.AsSpan(cell * labels, labels);
                for (var l = 0; l < labels; l++)
                {
                    var cost = share[l] < Hair ? (double)Absent : 0;
                    for (var other = 0; other < labels; other++) cost += share[other] * apart[l, other];
                    costs[cell * labels + l] = (int)Math.Round(cost);
                }
            }
            if (!mirror) return costs;
            for (var y = 0; y < height; y++)
                for (var x = 0; x < width / 2; x++)
                    for (var l = 0; l < labels; l++)
                    {
                        ref var left = ref costs[(y * width + x) * labels + l];
                        ref var right = ref costs[(y * width + width - 1 - x) * labels + l];
                        left = right = (left + right) / 2;
                    }
            return costs;
        }

        private byte[] Solve()
        {
            var solved = new byte[width * height];
            for (var i = 0; i < solved.Length; i++)
            {
                var cost = costs.AsSpan(i * labels, labels);
                for (var l = 1; l < labels; l++)
                    if (cost[l] < cost[solved[i]]) solved[i] = (byte)l;
            }
            var sweeps = new Sweeps(new Energy(width, height, labels, costs, weights, baseRow), mirror, solved);
            for (var sweep = 0; sweep < MostSweeps && sweeps.Sweep(); sweep++) { }
            return solved;
        }

        // Every run that is a row thin, or one or two cables short, shows somewhere: where it has gone, the bricks that it fills most are its own.
        private bool Hold(byte[] solved)
        {
            var held = false;
            for (var y = 0; y < figure.Height; y++)
            {
                var row = cells.AsSpan(y * figure.Width, figure.Width);
                for (int x = 0, end; x < row.Length; x = end)
                {
                    for (end = x + 1; end < row.Length && row[end] == row[x]; end++) { }
                    if (row[x] == 0 && (x == 0 || end == row.Length)) continue;
                    if (!IsThin(y, x, end, row[x]) || IsShown(solved, y, x, end, row[x])) continue;
                    held |= HoldRun(y, x, end, row[x]);
                }
            }
            return held;
        }

        private bool IsThin(int y, int from, int end, byte label)
        {
            if (IsShort(from, end) && !GoesOnLonger(y - 1) && !GoesOnLonger(y + 1)) return true;
            if (label == 0) return false;
            var alone = 0;
            for (var x = from; x < end; x++)
                if (Deep(x) is var deep && (deep == 1 || deep * down < 1 + Hair)) alone++;
            return 2 * alone > end - from;

            bool IsShort(int first, int past) => past - first <= 2 || (past - first + 1) * across < 3 + Hair;

            // Whether the thread goes on over it or under it in a run that is not short: then this one is its edge, and no thing of its own.
            bool GoesOnLonger(int row)
            {
                if ((uint)row >= (uint)figure.Height) return false;
                var beside = cells.AsSpan(row * figure.Width, figure.Width);
                for (int x = 0, past; x < beside.Length; x = past)
                {
                    for (past = x + 1; past < beside.Length && beside[past] == beside[x]; past++) { }
                    if (beside[x] == label && past > from && x < end && !IsShort(x, past)) return true;
                }
                return false;
            }

            int Deep(int column)
            {
                int top = y, bottom = y;
                while (top > 0 && cells[(top - 1) * figure.Width + column] == label && bottom - top < 2 / down) top--;
                while (bottom < figure.Height - 1 && cells[(bottom + 1) * figure.Width + column] == label && bottom - top < 2 / down) bottom++;
                return bottom - top + 1;
            }
        }

        // The stitches of the new figure over a run, each with the share of it that is the run's.
        private IEnumerable<(int X, int Y, double Share)> Over(int y, int from, int end)
        {
            for (var row = Math.Max(0, (int)(y * down) - 1); row < Math.Min(height, (y + 1) * down + 1); row++)
                for (var x = Math.Max(0, (int)(from * across) - 2); x < Math.Min(width, (end + 1) * across); x++)
                {
                    var (left, right, top, bottom) = Under(x, row);
                    var area = Math.Max(0, Math.Min(right, end) - Math.Max(left, from)) * Math.Max(0, Math.Min(bottom, y + 1) - Math.Max(top, y));
                    if (area > 0) yield return (x, row, area / ((right - left) * (bottom - top)));
                }
        }

        private bool IsShown(byte[] solved, int y, int from, int end, byte label) =>
            Over(y, from, end).Any(b => solved[b.Y * width + b.X] == label && b.Share >= Shows);

        private bool HoldRun(int y, int from, int end, byte label)
        {
            var over = Over(y, from, end).ToList();
            if (over.Count == 0) return false;
            // The row on which it shows most; there every brick that it fills by half, or those it fills most.
            var row = over.GroupBy(b => b.Y).MaxBy(g => g.Sum(b => b.Share))!.ToList();
            var most = row.Max(b => b.Share);
            foreach (var brick in row.Where(b => b.Share >= Math.Min(most - Hair, 0.5)))
            {
                Lock(brick.X, brick.Y, label);
                if (mirror) Lock(width - 1 - brick.X, brick.Y, label);
            }
            return true;
        }

        private void Lock(int x, int y, byte label)
        {
            var cost = costs.AsSpan((y * width + x) * labels, labels);
            if (cost[label] >= Weights.Never) return; // another's already
            for (var l = 0; l < labels; l++)
                if (l != label) cost[l] += Weights.Never;
        }
    }
}
