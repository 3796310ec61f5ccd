using CsCheck;
using Pleatwright.Order;
using Pleatwright.Plate.Writers;
using Pleatwright.Tests.Chart;

namespace Pleatwright.Tests;

/// <summary>The five verbs: pure, from any thread, stopped when asked.</summary>
public class SmockingTests
{
    public static TheoryData<string> Pieces => [.. Repository.Examples];

    [Theory, MemberData(nameof(Pieces))]
    public void On_the_same_values_from_many_threads_the_verbs_give_the_same(string path)
    {
        var work = Smocking.Lay(Smocking.Read(File.ReadAllBytes(path)));
        var order = Smocking.Plan(work, Effort.Drawing);
        var made = new string[8];
        Parallel.For(0, made.Length, new ParallelOptions { MaxDegreeOfParallelism = made.Length }, i =>
        {
            var own = i % 2 == 0 ? order : Smocking.Plan(work, order, Effort.Drawing);
            made[i] = PlateFormat.Text.Write(Smocking.Plate(own, Smocking.Prove(work))) is var text ? Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(text)) : "";
        });
        Assert.Single(made.Distinct());
    }

    [Fact]
    public void Progress_never_falls_and_ends_at_the_whole()
    {
        var told = new List<double>();
        Smocking.Plan(Smocking.Lay(Smocking.Read(File.ReadAllBytes(Repository.Path("examples", "gulls-turning.piece.json")))), progress: new Told(told));
        Assert.Equal(told.Order(), told);
        Assert.Equal(1, told[^1]);
    }

    [Fact]
    public void Planning_stops_when_asked()
    {
        var work = Smocking.Lay(Smocking.Read(File.ReadAllBytes(Repository.Path("examples", "gulls-turning.piece.json"))));
        var stopped = new CancellationToken(canceled: true);
        Assert.Throws<OperationCanceledException>(() => Smocking.Plan(work, cancel: stopped));
        Assert.Throws<OperationCanceledException>(() => Smocking.Plan(work, Smocking.Plan(work), cancel: stopped));
    }

    [Fact]
    public void Any_piece_goes_the_whole_way() => PieceGen.Pieces.Sample(piece =>
    {
        var work = Smocking.Lay(piece);
        var plate = Smocking.Plate(Smocking.Plan(work, Effort.Drawing), Smocking.Prove(work));
        Assert.Same(work, plate.Work);
        Assert.NotEmpty(PlateFormat.Text.Write(plate));
    }, iter: 200);

    private sealed class Told(List<double> told) : IProgress<double>
    {
        public void Report(double value) => told.Add(value);
    }
}
