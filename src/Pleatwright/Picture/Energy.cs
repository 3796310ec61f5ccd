namespace Pleatwright.Picture;

/// <summary>
/// The one energy that tracing lowers: how far the threads are from the picture, what every run costs to start, what
/// short runs cost, and what hangs over. A labelling gives every valley of every row 0 (bare) or 1 + the index of a
/// thread. All costs are whole numbers, so sums are exact and the same on every machine.
/// </summary>
internal sealed class Energy
{
    private readonly int[] cost; // [(row * Width + column) * Labels + label]

    public Energy(int width, int height, int labels, int[] cost, Weights weights, int baseRow)
    {
        Width = width;
        Height = height;
        Labels = labels;
        this.cost = cost;
        Weights = weights;
        BaseRow = baseRow;
    }

    public int Width { get; }

    public int Height { get; }

    /// <summary>Bare and the threads.</summary>
    public int Labels { get; }

    public Weights Weights { get; }

    /// <summary>The row that all others are stacked on.</summary>
    public int BaseRow { get; }

    public Energy WithBaseRow(int row) => new(Width, Height, Labels, cost, Weights, row);

    /// <summary>What each label would cost in each valley of a row by itself.</summary>
    public ReadOnlySpan<int> CostsOf(int row) => cost.AsSpan(row * Width * Labels, Width * Labels);

    /// <summary>The whole energy of a labelling.</summary>
    public long Of(ReadOnlySpan<byte> labels)
    {
        long sum = 0;
        for (var y = 0; y < Height; y++)
        {
            var row = labels.Slice(y * Width, Width);
            sum += OfRow(row, CostsOf(y));
            if (y + 1 < Height) sum += Ragged(row, labels.Slice((y + 1) * Width, Width));
            if (y != BaseRow) sum += Overhang(row, labels.Slice(Support(y) * Width, Width));
        }
        return sum;
    }

    /// <summary>The part of the energy that changes with one row: its own, and what its neighbours pay because of it.</summary>
    public long OfRowAmong(int y, ReadOnlySpan<byte> row, ReadOnlySpan<byte> labels)
    {
        var sum = OfRow(row, CostsOf(y));
        for (var near = y - 1; near <= y + 1; near += 2)
        {
            if (near < 0 || near >= Height) continue;
            var other = labels.Slice(near * Width, Width);
            sum += Ragged(row, other);
            if (y != BaseRow && Support(y) == near) sum += Overhang(row, other);
            if (near != BaseRow && Support(near) == y) sum += Overhang(other, row);
        }
        return sum;
    }

    /// <summary>The row this one is stacked on: the next towards the base row.</summary>
    public int Support(int row) => row < BaseRow ? row + 1 : row - 1;

    private long OfRow(ReadOnlySpan<byte> row, ReadOnlySpan<int> costs)
    {
        long sum = 0;
        for (int x = 0, start = 0; x < Width; x++)
        {
            sum += costs[x * Labels + row[x]];
            if (x + 1 < Width && row[x + 1] == row[x]) continue;
            if (row[x] != 0) sum += Weights.Change + LengthCost(x + 1 - start);
            start = x + 1;
        }
        return sum;
    }

    /// <summary>What a run of so many cables pays for being short.</summary>
    public int LengthCost(int cables) => cables switch { 1 => Weights.Lone, 2 => Weights.Short, _ => 0 };

    private long Ragged(ReadOnlySpan<byte> row, ReadOnlySpan<byte> below)
    {
        long sum = 0;
        for (var x = 0; x < Width; x++) sum += RaggedBetween(row[x], below[x]);
        return sum;
    }

    /// <summary>What two cables pay that lie one over the other.</summary>
    public int RaggedBetween(byte label, byte other) =>
        label == other ? 0 : label == 0 || other == 0 ? Weights.Ragged / 2 : Weights.Ragged;

    private long Overhang(ReadOnlySpan<byte> row, ReadOnlySpan<byte> support)
    {
        long sum = 0;
        for (var x = 0; x < Width; x++)
            if (row[x] != 0 && !IsHeld(support, x)) sum += Weights.Overhang;
        return sum;
    }

    /// <summary>Whether a cable in this valley would be held by the row it is stacked on.</summary>
    public static bool IsHeld(ReadOnlySpan<byte> support, int x) =>
        support[x] != 0 || x > 0 && support[x - 1] != 0 || x + 1 < support.Length && support[x + 1] != 0;
}
