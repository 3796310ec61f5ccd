using System.Collections.Immutable;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Chart;

/// <summary>Cables of one row that a placement would put beyond the cloth; they are not laid.</summary>
/// <param name="Placement">Which placement, counted from 0.</param>
/// <param name="Row">Cable row asked for; may be off the cloth.</param>
/// <param name="From">Leftmost valley asked for that is off the cloth.</param>
/// <param name="To">Rightmost valley asked for that is off the cloth.</param>
public readonly record struct Stray(int Placement, CableRow Row, Valley From, Valley To);

/// <summary>A half stitch asked for by name that cannot be made.</summary>
/// <param name="Placement">Which placement, counted from 0.</param>
/// <param name="Row">The cable row it was asked for on.</param>
/// <param name="Valley">The end valley, or the figure's middle valley when the row is bare.</param>
/// <param name="End">Which end.</param>
public readonly record struct RefusedHalf(int Placement, CableRow Row, Valley Valley, RunEnd End);

/// <summary>
/// The piece laid out stitch by stitch. Every cable on the cloth is in exactly one run; later placements lie over
/// earlier ones, and figures over bands.
/// </summary>
public sealed class Work
{
    /// <summary>The most cables, bare ones included, that all placements together may lay here.</summary>
    public const long MostCellsLaid = 100_000_000;

    /// <summary>The most single stitches that all bands off the lattice may lay here.</summary>
    public const long MostBandStitches = 2_000_000;

    /// <summary>The most places, copies counted, in which all accents together may lie here.</summary>
    public const int MostAccentsLaid = 200_000;

    private const byte FlippedBit = 0x80;
    private readonly byte[] cells; // 0 bare, else 1 + index of the thread, with the top bit for the flipped phase
    private readonly int[] rowStart; // rowStart[y] .. rowStart[y + 1]: the runs of cable row y
    private readonly Run[] runs;
    private Areas? areas;
    private Footprint[]? footprints;

    private Work(Piece piece, PleatingPlan pleating, byte[] cells, Run[] runs, int[] rowStart,
        ImmutableArray<Stray> strays, ImmutableArray<RefusedHalf> refusedHalves)
    {
        Piece = piece;
        Pleating = pleating;
        this.cells = cells;
        this.runs = runs;
        this.rowStart = rowStart;
        Strays = strays;
        RefusedHalves = refusedHalves;
    }

    /// <summary>The piece laid out.</summary>
    public Piece Piece { get; }

    /// <summary>Its pleats, rows and cloth.</summary>
    public PleatingPlan Pleating { get; }

    /// <summary>Valleys across.</summary>
    public int Valleys => Pleating.Valleys;

    /// <summary>Cable rows down.</summary>
    public int CableRows => Pleating.CableRows;

    /// <summary>Every run, from the top row down and from left to right.</summary>
    public ReadOnlySpan<Run> Runs => runs;

    /// <summary>Cables asked for beyond the cloth.</summary>
    public ImmutableArray<Stray> Strays { get; }

    /// <summary>Half stitches asked for by name that cannot be made.</summary>
    public ImmutableArray<RefusedHalf> RefusedHalves { get; }

    /// <summary>Bands laid stitch by stitch, off the lattice of cables; bands of cables are among <see cref="Runs"/>.</summary>
    public ImmutableArray<LaidBand> Bands { get; private init; } = [];

    /// <summary>Accents, each in its place; they lie over everything else.</summary>
    public ImmutableArray<LaidAccent> Accents { get; private init; } = [];

    /// <summary>Cables in all, of runs.</summary>
    public int Cables { get; private init; }

    /// <summary>What hangs together on the cloth: stacked figures and rows on their own.</summary>
    public Areas Areas => areas ??= Areas.Find(this);

    /// <summary>The ground each placement asks for, in the placements' order.</summary>
    public ReadOnlySpan<Footprint> Footprints => footprints ??= Footprint.Find(this);

    /// <summary>Which cell of which placement a cable comes from; null where the pleats are bare or a band's.</summary>
    public Origin? OriginAt(Valley valley, CableRow row)
    {
        if (!IsWorked(valley, row)) return null;
        var placed = Footprints;
        for (var i = placed.Length - 1; i >= 0; i--)
            if (placed[i].CellAt(valley, row) is { } origin)
                return origin;
        return null;
    }

    /// <summary>Whether a cable shows there that belongs to lettering.</summary>
    internal bool IsOfLetters(Valley valley, CableRow row) => OriginAt(valley, row) is { } origin && Footprints[origin.Placement].Figure.Letters.Length > 0;

    /// <summary>The runs of one cable row, from left to right; none when the row is off the cloth.</summary>
    public ReadOnlySpan<Run> RunsIn(CableRow row) =>
        (uint)row.Index < (uint)CableRows
            ? runs.AsSpan(rowStart[row.Index], rowStart[row.Index + 1] - rowStart[row.Index])
            : [];

    /// <summary>Index in <see cref="Runs"/> of the first run of a row; of the end when the row is past the last.</summary>
    public int FirstRunIndex(CableRow row) => rowStart[Math.Clamp(row.Index, 0, CableRows)];

    /// <summary>Thread one cable of a row takes in this maker's hand: what is reckoned at the row's pitch, by the maker's factor.</summary>
    public Length CableThread(CableRow row) =>
        Usage.Cable(Pleating.PitchAt(row.Index), Pleating.Gauge.LineHeight) * Piece.Working.ThreadFactor;

    /// <summary>Thread one half stitch of a row takes in this maker's hand.</summary>
    public Length HalfStitchThread(CableRow row) =>
        Usage.HalfStitch(Pleating.PitchAt(row.Index), Pleating.Gauge.LineHeight) * Piece.Working.ThreadFactor;

    /// <summary>Whether a valley and row lie on the cloth.</summary>
    public bool OnCloth(Valley valley, CableRow row) =>
        (uint)(valley.Number - 1) < (uint)Valleys && (uint)row.Index < (uint)CableRows;

    /// <summary>The thread of the cable here, or null where the pleats are bare or off the cloth.</summary>
    public ThreadKey? ThreadAt(Valley valley, CableRow row)
    {
        var index = ThreadIndexAt(valley, row);
        return index < 0 ? null : Piece.Threads[index].Key;
    }

    /// <summary>Index in the piece's threads of the cable here, or -1 where the pleats are bare or off the cloth.</summary>
    public int ThreadIndexAt(Valley valley, CableRow row) =>
        OnCloth(valley, row) ? (cells[Cell(valley, row)] & ~FlippedBit) - 1 : -1;

    /// <summary>The phase of the cable here; the piece's own where there is none.</summary>
    public Phase PhaseAt(Valley valley, CableRow row) =>
        OnCloth(valley, row) && (cells[Cell(valley, row)] & FlippedBit) != 0 ? Piece.Phase.Opposite() : Piece.Phase;

    /// <summary>Whether a cable lies here.</summary>
    public bool IsWorked(Valley valley, CableRow row) => OnCloth(valley, row) && cells[Cell(valley, row)] != 0;

    /// <summary>
    /// The bare facts of one row for tight loops: entry v - 1 is 0 where valley v is bare, else 1 + the thread's index,
    /// with 128 added where the phase is flipped.
    /// </summary>
    public ReadOnlySpan<byte> CellsOf(CableRow row) => cells.AsSpan(row.Index * Valleys, Valleys);

    private int Cell(Valley valley, CableRow row) => row.Index * Valleys + valley.Number - 1;

    /// <summary>Lays a piece out.</summary>
    /// <exception cref="ArgumentException">
    /// A placement names an unknown figure, a figure or band an unknown thread, a band an unknown stitch, or the piece
    /// is past the caps (see <see cref="PleatingPlan.Fault"/>, and <see cref="MostCellsLaid"/>, <see cref="MostBandStitches"/> and
    /// <see cref="MostAccentsLaid"/>). A piece read from a file has passed all of these but the last three.
    /// </exception>
    internal static Work Lay(Piece piece)
    {
        var pleating = new PleatingPlan(piece.Cloth);
        return new Layer(piece, pleating).Lay();
    }

    // A half stitch asked for by this placement; one that comes from squaring may be dropped without a word.
    private readonly record struct HalfWish(int Placement, bool ByName);

    private sealed class Layer(Piece piece, PleatingPlan pleating)
    {
        private readonly int valleys = pleating.Valleys;
        private readonly int rows = pleating.CableRows;
        private readonly byte[] cells = new byte[pleating.Valleys * pleating.CableRows];
        private readonly List<Stray> strays = [];
        private readonly Dictionary<(int Valley, int Row, RunEnd End), HalfWish> wishes = [];
        private readonly byte[] threadOf = ThreadTable(piece);
        private readonly List<LaidBand> bands = [];
        private long laid;
        private long laidInBands;

        public Work Lay()
        {
            for (var i = 0; i < piece.Bands.Length; i++) LayBand(i, piece.Bands[i]);
            for (var i = 0; i < piece.Placements.Length; i++) LayPlacement(i, piece.Placements[i]);
            return Gather();
        }

        private static byte[] ThreadTable(Piece piece)
        {
            if (piece.Threads.Length > 52) throw new ArgumentException("A piece has at most 52 threads, one a letter.");
            var table = new byte[128];
            for (var i = 0; i < piece.Threads.Length; i++) table[piece.Threads[i].Key.Letter] = (byte)(i + 1);
            return table;
        }

        private byte ThreadByte(char letter) =>
            threadOf[letter] != 0 ? threadOf[letter] : throw new ArgumentException($"No thread has the letter '{letter}'.");

        private void LayBand(int index, Band band)
        {
            var stitch = BandStitch.Named(band.Stitch) ?? throw new ArgumentException($"No stitch is called “{band.Stitch}”.");
            var thread = ThreadByte(band.Thread.Letter);
            if (stitch.OnLattice && LatticeRow(band) is { } top)
            {
                var fit = BandFit.Of(stitch, band, pleating);
                var cell = (byte)(thread | (band.UpsideDown ? FlippedBit : 0));
                for (var y = top; y < top + band.Rows; y++)
                    for (var v = fit.First.Number; v < fit.Last.Number; v++) cells[y * valleys + v - 1] = cell;
                return;
            }
            laidInBands += Outlay.OfBand(stitch, band, pleating);
            if (laidInBands > MostBandStitches) throw new ArgumentException("the bands together lay more than two million stitches");
            bands.Add(LaidBand.Lay(index, band, stitch, pleating, piece.Working.Hand));
        }

        // The cable row a band of cables begins on, when all its rows are whole cable rows of the cloth.
        private int? LatticeRow(Band band)
        {
            var perSpace = pleating.Gauge.CableRowsPerSpace;
            if (band.Offset * perSpace % 4 != 0) return null;
            var row = band.GatheringRow.CableRow(perSpace).Index + band.Offset * perSpace / 4 + band.Drop;
            return row >= 0 && row + band.Rows <= rows ? row : null;
        }

        private void LayPlacement(int index, Placement placement)
        {
            var figure = piece.Figure(placement.Figure) ?? throw new ArgumentException($"No figure is called “{placement.Figure}”.");
            laid += (long)figure.Width * figure.Height * placement.Repeat.Count;
            if (laid > MostCellsLaid) throw new ArgumentException("the placements together lay more than a hundred million stitches");
            if (placement.Mirror) figure = figure.Mirrored();
            for (var copy = 0; copy < placement.Repeat.Count; copy++)
                LayCopy(index, placement, figure, placement.Left(figure, pleating, copy).Number, placement.Top(pleating).Index);
        }

        private void LayCopy(int index, Placement placement, Figure figure, int left, int top)
        {
            var flip = placement.FlipPhase ? FlippedBit : (byte)0;
            for (var r = 0; r < figure.Height; r++)
            {
                var text = figure.Rows[r];
                var y = top + r;
                var onRow = (uint)y < (uint)rows;
                for (var i = 0; i < text.Length;)
                {
                    if (text[i] == Figure.Bare) { i++; continue; }
                    var end = i;
                    while (end < text.Length && text[end] != Figure.Bare) end++;
                    LayStretch(index, text, i, end, left, y, onRow, flip);
                    i = end;
                }
                if (figure.Square && onRow) SquareRow(index, text, left, y);
            }
            foreach (var half in figure.Halves) WishByName(index, figure, half, left, top);
        }

        // A stretch of worked valleys text[from..to), of any threads; what falls off the cloth is noted instead of laid.
        private void LayStretch(int index, string text, int from, int to, int left, int y, bool onRow, byte flip)
        {
            int first = left + from, last = left + to - 1;
            if (!onRow || last < 1 || first > valleys)
            {
                strays.Add(new Stray(index, new CableRow(y), new Valley(first), new Valley(last)));
                return;
            }
            if (first < 1) strays.Add(new Stray(index, new CableRow(y), new Valley(first), new Valley(0)));
            if (last > valleys) strays.Add(new Stray(index, new CableRow(y), new Valley(valleys + 1), new Valley(last)));
            var row = cells.AsSpan(y * valleys, valleys);
            for (var v = Math.Max(first, 1); v <= Math.Min(last, valleys); v++)
            {
                row[v - 1] = (byte)(ThreadByte(text[v - left]) | flip);
                if (wishes.Count == 0) continue; // what lies over a run's end takes its half stitch away
                wishes.Remove((v, y, RunEnd.Left));
                wishes.Remove((v, y, RunEnd.Right));
            }
        }

        private void SquareRow(int index, string text, int left, int y)
        {
            for (var i = 0; i < text.Length; i++)
            {
                if (text[i] == Figure.Bare) continue;
                if (i == 0 || text[i - 1] != text[i]) wishes[(left + i, y, RunEnd.Left)] = new HalfWish(index, false);
                if (i == text.Length - 1 || text[i + 1] != text[i]) wishes[(left + i, y, RunEnd.Right)] = new HalfWish(index, false);
            }
        }

        private void WishByName(int index, Figure figure, HalfMark half, int left, int top)
        {
            var text = figure.Rows[half.Row].AsSpan();
            var at = half.End == RunEnd.Left ? text.IndexOfAnyExcept(Figure.Bare) : text.LastIndexOfAnyExcept(Figure.Bare);
            wishes[(left + (at < 0 ? figure.Middle : at), top + half.Row, half.End)] = new HalfWish(index, true);
        }

        private Work Gather()
        {
            var (grantedLeft, grantedRight, refused) = GrantHalves();
            var runs = new List<Run>();
            var rowStart = new int[rows + 1];
            var cables = 0;
            for (var y = 0; y < rows; y++)
            {
                rowStart[y] = runs.Count;
                var row = cells.AsSpan(y * valleys, valleys);
                for (var i = 0; i < valleys;)
                {
                    var cell = row[i];
                    if (cell == 0) { i++; continue; }
                    var end = i + 1;
                    while (end < valleys && row[end] == cell) end++;
                    runs.Add(new Run(new CableRow(y), new Valley(i + 1), new Valley(end),
                        piece.Threads[(cell & ~FlippedBit) - 1].Key,
                        (cell & FlippedBit) != 0 ? piece.Phase.Opposite() : piece.Phase,
                        grantedLeft.Contains(y * valleys + i), grantedRight.Contains(y * valleys + end - 1)));
                    cables += end - i;
                    i = end;
                }
            }
            rowStart[rows] = runs.Count;
            return new Work(piece, pleating, cells, [.. runs], rowStart, [.. strays], refused)
            {
                Cables = cables,
                Bands = [.. bands],
                Accents = LaidAccent.Lay(piece, pleating),
            };
        }

        // A half stitch can be made at a run's end where the next valley is bare: there alone is the notch. Beside
        // another run the notch is already filled by that run's end cable.
        private (HashSet<int> Left, HashSet<int> Right, ImmutableArray<RefusedHalf> Refused) GrantHalves()
        {
            HashSet<int> left = [], right = [];
            var refused = ImmutableArray.CreateBuilder<RefusedHalf>();
            foreach (var ((valley, row, end), wish) in wishes)
            {
                var beside = valley + (end == RunEnd.Left ? -1 : 1);
                var can = CellAt(valley, row) != 0 && CellAt(beside, row) == 0;
                if (can) (end == RunEnd.Left ? left : right).Add(row * valleys + valley - 1);
                else if (wish.ByName)
                    refused.Add(new RefusedHalf(wish.Placement, new CableRow(row), new Valley(valley), end));
            }
            refused.Sort((a, b) => (a.Row, a.Valley, a.End).CompareTo((b.Row, b.Valley, b.End)));
            return (left, right, refused.ToImmutable());
        }

        private byte CellAt(int valley, int y) =>
            (uint)(valley - 1) < (uint)valleys && (uint)y < (uint)rows ? cells[y * valleys + valley - 1] : (byte)0;
    }
}
