namespace Pleatwright.Picture;

/// <summary>
/// Lowers the energy row by row: down the figure, then up, each row solved exactly while its neighbours stand still, until
/// no row can be bettered by itself. A row is only ever replaced by a cheaper one, so the energy never rises.
/// </summary>
internal sealed class Sweeps
{
    private readonly RowSolver solver;
    private readonly byte[] solution;
    private readonly bool[] settled; // solved, and neither neighbour has changed since
    private bool down = true;

    /// <summary>Starts from a labelling, which is changed in place; with mirror symmetry it must be symmetric.</summary>
    public Sweeps(Energy energy, bool mirror, byte[] labels)
    {
        Energy = energy;
        Labels = labels;
        solver = new RowSolver(energy, mirror);
        solution = new byte[energy.Width];
        settled = new bool[energy.Height];
        Value = energy.Of(labels);
    }

    public Energy Energy { get; }

    public byte[] Labels { get; }

    /// <summary>The energy now.</summary>
    public long Value { get; private set; }

    /// <summary>One sweep over all rows that are not settled.</summary>
    /// <returns>Whether any row changed.</returns>
    public bool Sweep(CancellationToken cancel = default)
    {
        var before = Value;
        for (var i = 0; i < Energy.Height; i++)
        {
            cancel.ThrowIfCancellationRequested();
            Settle(down ? i : Energy.Height - 1 - i);
        }
        down = !down;
        return Value < before;
    }

    private void Settle(int row)
    {
        if (settled[row]) return;
        settled[row] = true;
        var now = Labels.AsSpan(row * Energy.Width, Energy.Width);
        var cost = Energy.OfRowAmong(row, now, Labels);
        var better = solver.Solve(row, Labels, solution);
        if (better >= cost) return;
        Value += better - cost;
        solution.CopyTo(now);
        if (row > 0) settled[row - 1] = false;
        if (row + 1 < Energy.Height) settled[row + 1] = false;
    }
}
