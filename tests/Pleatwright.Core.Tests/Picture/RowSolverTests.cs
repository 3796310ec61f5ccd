using CsCheck;
using Pleatwright.Picture;

namespace Pleatwright.Tests.Picture;

/// <summary>The dynamic programme against every labelling there is.</summary>
public class RowSolverTests
{
    private sealed record Problem(int Width, int Labels, int Height, int BaseRow, int Row, int[] Costs, byte[] Figure, Weights Weights)
    {
        public Energy Energy() => new(Width, Height, Labels, Costs, Weights, BaseRow);
    }

    private static readonly Gen<Weights> GenWeights =
        Gen.Select(Gen.Int[0, 40], Gen.Int[0, 20], Gen.Int[0, 60], Gen.Int[0, 200], Gen.Int[0, 60],
            (change, ragged, pair, lone, overhang) =>
                new Weights { Change = 2 * change, Ragged = 2 * ragged, Short = pair, Lone = lone, Overhang = overhang });

    private static readonly Gen<Problem> GenProblem =
        from width in Gen.Int[1, 8]
        from labels in Gen.Int[2, 4]
        from height in Gen.Int[1, 3]
        from baseRow in Gen.Int[0, height - 1]
        from row in Gen.Int[0, height - 1]
        from costs in Gen.Int[0, 100].Array[width * height * labels]
        from figure in Gen.Byte[0, (byte)(labels - 1)].Array[width * height]
        from weights in GenWeights
        select new Problem(width, labels, height, baseRow, row, costs, figure, weights);

    [Fact]
    public void A_row_costs_the_least_of_all_labellings() => GenProblem.Sample(problem =>
    {
        var energy = problem.Energy();
        var solution = new byte[problem.Width];
        var cost = new RowSolver(energy, mirror: false).Solve(problem.Row, problem.Figure, solution);
        Assert.Equal(cost, energy.OfRowAmong(problem.Row, solution, problem.Figure));
        Assert.Equal(Every(problem.Width, problem.Labels).Min(row => energy.OfRowAmong(problem.Row, row, problem.Figure)), cost);
    }, iter: 400);

    [Fact]
    public void A_mirrored_row_costs_the_least_of_all_symmetric_labellings() => GenProblem.Sample(problem =>
    {
        Symmetric(problem.Figure, problem.Width, 1);
        Symmetric(problem.Costs, problem.Width, problem.Labels);
        var energy = problem.Energy();
        var solution = new byte[problem.Width];
        var cost = new RowSolver(energy, mirror: true).Solve(problem.Row, problem.Figure, solution);
        Assert.Equal(solution, solution.Reverse());
        Assert.Equal(cost, energy.OfRowAmong(problem.Row, solution, problem.Figure));
        var symmetric = Every(problem.Width, problem.Labels).Where(row => row.SequenceEqual(row.Reverse()));
        Assert.Equal(symmetric.Min(row => energy.OfRowAmong(problem.Row, row, problem.Figure)), cost);
    }, iter: 400);

    [Fact]
    public void What_a_row_costs_among_the_others_is_what_the_whole_changes_by() => GenProblem.Sample(problem =>
    {
        var energy = problem.Energy();
        var before = energy.Of(problem.Figure) - energy.OfRowAmong(problem.Row, RowOf(problem, problem.Figure), problem.Figure);
        var changed = problem.Figure.ToArray();
        Array.Reverse(changed, problem.Row * problem.Width, problem.Width);
        Assert.Equal(energy.Of(changed), before + energy.OfRowAmong(problem.Row, RowOf(problem, changed), problem.Figure));
    });

    private static ReadOnlySpan<byte> RowOf(Problem problem, byte[] figure) => figure.AsSpan(problem.Row * problem.Width, problem.Width);

    private static void Symmetric<T>(T[] values, int width, int perCell)
    {
        for (var start = 0; start < values.Length; start += width * perCell)
            for (var x = 0; x < width / 2; x++)
                Array.Copy(values, start + x * perCell, values, start + (width - 1 - x) * perCell, perCell);
    }

    private static IEnumerable<byte[]> Every(int width, int labels)
    {
        for (var n = 0; n < (int)Math.Pow(labels, width); n++)
        {
            var row = new byte[width];
            for (int x = 0, rest = n; x < width; x++, rest /= labels) row[x] = (byte)(rest % labels);
            yield return row;
        }
    }
}
