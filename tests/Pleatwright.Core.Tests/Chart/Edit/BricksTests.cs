using CsCheck;
using Pleatwright.Chart;

namespace Pleatwright.Tests.Chart.Edit;

public class BricksTests
{
    [Fact]
    public void Packed_bytes_say_what_the_work_says() => AnyPiece.Pieces.Sample(piece =>
    {
        var work = Work.Lay(piece);
        var bytes = new byte[Bricks.PackedLength(work)];
        Bricks.Pack(work, bytes);
        var (halves, ends) = (0, 0);
        for (var y = 0; y < work.CableRows; y++)
            for (var v = 1; v <= work.Valleys; v++)
            {
                var (valley, row) = (new Valley(v), new CableRow(y));
                var at = (y * work.Valleys + v - 1) * 2;
                var marks = (BrickMarks)bytes[at + 1];
                Assert.Equal(work.ThreadIndexAt(valley, row) + 1, bytes[at]);
                Assert.Equal(Lattice.LevelAt(valley, row, work.PhaseAt(valley, row)) == Level.Down, marks.HasFlag(BrickMarks.Down));
                halves += (marks.HasFlag(BrickMarks.HalfLeft) ? 1 : 0) + (marks.HasFlag(BrickMarks.HalfRight) ? 1 : 0);
                ends += (marks.HasFlag(BrickMarks.RunFrom) ? 1 : 0) + (marks.HasFlag(BrickMarks.RunTo) ? 1 : 0);
            }
        var expected = 0;
        foreach (var run in work.Runs) expected += run.HalfStitches;
        Assert.Equal(expected, halves);
        Assert.Equal(work.Runs.Length * 2, ends);
    });
}
