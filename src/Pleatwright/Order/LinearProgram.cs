namespace Pleatwright.Order;

/// <summary>
/// A small linear program that grows by columns: the least sum of x with A x ≥ b and x ≥ 0, where each
/// column costs 1. Solved by the revised simplex method with the inverse of the basis at hand (Dantzig and Orchard-Hays, 1954).
/// </summary>
internal sealed class LinearProgram
{
    private const double Hair = 1e-9;
    private readonly int rows;
    private readonly int covers;
    private readonly double[] need;
    private readonly List<(int Row, double Amount)[]> columns = [];
    private readonly int[] basis; // a column; below 0 the surplus of row -1 - it
    private readonly double[] amount;
    private readonly double[][] inverse;
    private readonly double[] price;
    private readonly double[] along;

    /// <summary>A program without columns yet.</summary>
    /// <param name="need">What each of the first rows needs, more than nothing.</param>
    /// <param name="more">So many rows more, that need nothing but must not come to less.</param>
    public LinearProgram(double[] need, int more)
    {
        (covers, rows) = (need.Length, need.Length + more);
        this.need = need;
        (basis, amount, price, along, inverse) = (new int[rows], new double[rows], new double[rows], new double[rows], new double[rows][]);
        for (var r = covers; r < rows; r++)
        {
            basis[r] = -1 - r;
            inverse[r] = new double[rows];
            inverse[r][r] = -1;
        }
    }

    /// <summary>What one more of each row would cost.</summary>
    public ReadOnlySpan<double> Prices => price;

    /// <summary>The least sum with the columns there are.</summary>
    public double Value { get; private set; }

    /// <summary>Adds a column; the first ones, one for each row that needs something and in their order, cover of those their own alone.</summary>
    public void Add((int Row, double Amount)[] column)
    {
        var number = columns.Count;
        columns.Add(column);
        if (number >= covers) return;
        basis[number] = number;
        inverse[number] = new double[rows];
        inverse[number][number] = 1 / column[0].Amount;
        amount[number] = need[number] / column[0].Amount;
        price[number] = 1 / column[0].Amount;
        Value += amount[number];
        for (var i = 1; i < column.Length; i++)
        {
            inverse[column[i].Row][number] += column[i].Amount / column[0].Amount;
            amount[column[i].Row] += column[i].Amount * amount[number];
        }
    }

    /// <summary>Brings the columns added since into the basis, as long as that lowers the sum.</summary>
    /// <param name="from">The first column not yet weighed.</param>
    /// <param name="most">The most changes of the basis.</param>
    public void Improve(int from, int most)
    {
        for (var turn = 0; turn < most; turn++)
        {
            var (entering, gain) = (int.MinValue, Hair * 100);
            for (var c = turn == 0 ? from : 0; c < columns.Count; c++)
            {
                var saved = -1.0;
                foreach (var (row, a) in columns[c]) saved += price[row] * a;
                if (saved > gain) (entering, gain) = (c, saved);
            }
            for (var r = 0; r < rows; r++)
                if (-price[r] > gain) (entering, gain) = (-1 - r, -price[r]);
            if (entering == int.MinValue)
            {
                if (turn == 0 && from > 0) { from = 0; continue; }
                return;
            }
            if (!Enter(entering)) return;
        }
    }

    private bool Enter(int entering)
    {
        for (var i = 0; i < rows; i++)
        {
            double sum = 0;
            if (entering < 0) sum = -inverse[i][-1 - entering];
            else
                foreach (var (row, a) in columns[entering]) sum += inverse[i][row] * a;
            along[i] = sum;
        }
        var (leaving, least) = (-1, double.MaxValue);
        for (var i = 0; i < rows; i++)
        {
            if (along[i] <= Hair) continue;
            var ratio = amount[i] / along[i];
            if (ratio < least - Hair || (ratio < least + Hair && (leaving < 0 || basis[i] < basis[leaving]))) (leaving, least) = (i, Math.Min(least, ratio));
        }
        if (leaving < 0) return false;
        var pivot = inverse[leaving];
        var by = along[leaving];
        for (var k = 0; k < rows; k++) pivot[k] /= by;
        amount[leaving] = Math.Max(0, amount[leaving] / by);
        for (var i = 0; i < rows; i++)
        {
            var factor = along[i];
            if (i == leaving || Math.Abs(factor) <= Hair) continue;
            var mine = inverse[i];
            for (var k = 0; k < rows; k++) mine[k] -= factor * pivot[k];
            amount[i] = Math.Max(0, amount[i] - factor * amount[leaving]);
        }
        basis[leaving] = entering;
        Array.Clear(price);
        Value = 0;
        for (var i = 0; i < rows; i++)
        {
            if (basis[i] < 0) continue;
            Value += amount[i];
            for (var k = 0; k < rows; k++) price[k] += inverse[i][k];
        }
        return true;
    }
}
