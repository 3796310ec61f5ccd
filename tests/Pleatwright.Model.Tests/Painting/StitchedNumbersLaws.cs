using System.Runtime.InteropServices;
using CsCheck;
using Pleatwright.Bench.Model.Painting;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Files;
using Pleatwright.Stitched;
using Pleatwright.Tests.Chart;

namespace Pleatwright.Tests.Painting;

/// <summary>What holds of the numbers that a graphics card draws the stitched look from, whatever the piece.</summary>
public class StitchedNumbersLaws
{
    private static Work Example(string name) => Smocking.Lay(PieceReader.Read(File.ReadAllText(Repository.Path("examples", name + ".piece.json"))));

    public static TheoryData<string> Examples => ["harbour-morning", "quay-bishop", "net-float", "quay-yoke", "gulls-turning"];

    private static List<Strand> All(StitchedNumbers numbers, bool whole)
    {
        var all = new List<Strand>();
        foreach (var block in numbers.Blocks) all.AddRange(MemoryMarshal.Cast<byte, Strand>(numbers.Lay(block, whole)));
        return all;
    }

    private static float[] Floats(in Strand strand) => MemoryMarshal.Cast<Strand, float>(new ReadOnlySpan<Strand>(in strand))[..(Strand.Floats - 1)].ToArray();

    [Fact]
    public void Every_strand_of_every_stitch_is_there_and_every_number_is_one() => PieceGen.Pieces.Sample(piece =>
    {
        var numbers = new StitchedNumbers();
        var work = Smocking.Lay(piece);
        numbers.Take(work);
        var laid = LaidStitch.Of(work);
        foreach (var whole in new[] { true, false })
        {
            var strands = All(numbers, whole);
            Assert.Equal(laid.Sum(s => whole || s.Round || work.Piece.Threads[s.Thread].Strands == 1 ? 1 : work.Piece.Threads[s.Thread].Strands + 1), strands.Count);
            foreach (ref readonly var s in CollectionsMarshal.AsSpan(strands))
            {
                Assert.All(Floats(s), n => Assert.True(float.IsFinite(n)));
                Assert.InRange(s.Thread, 0, work.Piece.Threads.Length - 1);
            }
        }
        foreach (var n in numbers.Nodes) Assert.True(float.IsFinite(n));
        Assert.Equal(0, numbers.Nodes.Length % (numbers.Columns * StitchedNumbers.NodeNumbers));
    }, iter: 150);

    [Theory, MemberData(nameof(Examples))]
    public void On_the_table_every_cable_lies_where_its_brick_is(string name)
    {
        // Whatever the form: where the hand's ring goes there is the thread.
        var work = Example(name);
        var piece = new StitchedPiece(work);
        var table = new OnTable(piece);
        var gauge = work.Pleating.Gauge;
        var strands = new List<Strand>();
        foreach (var stitch in LaidStitch.Of(work).Where(s => s is { Layer: 0, Round: false } && s.ToAcross - s.Across == 2 && s.Down == s.ToDown))
        {
            strands.Clear();
            table.Lay(stitch, strands, whole: true);
            var s = Assert.Single(strands);
            var pitch = work.Pleating.PitchAt((int)(stitch.Down / 2)).Millimetres;
            Assert.InRange(s.MidX, (stitch.Across + 1 - work.Pleating.Pleats / 2.0 - 0.5) * pitch, (stitch.Across + 1 - work.Pleating.Pleats / 2.0 + 0.5) * pitch);
            Assert.InRange(s.MidY, (stitch.Down - 0.2) * gauge.LineHeight.Millimetres, (stitch.Down + 0.2) * gauge.LineHeight.Millimetres);
            Assert.InRange(Math.Abs(s.AlongX), 0.85 * pitch, 1.15 * pitch);
            Assert.InRange(Math.Abs(s.AlongY), 0, 0.15 * pitch);
        }
    }

    [Theory, MemberData(nameof(Examples))]
    public void An_edit_elsewhere_leaves_the_rest(string name)
    {
        var work = Example(name);
        var numbers = new StitchedNumbers();
        var first = numbers.Take(work);
        Assert.True(first.Anew);
        Assert.Equal(numbers.Blocks, first.Blocks);
        var before = numbers.Blocks.ToDictionary(b => b, b => numbers.Lay(b, false).ToArray());

        Assert.Equal(new StitchedChange(false, null, []), numbers.Take(Smocking.Lay(work.Piece with { Title = "another" })), (a, b) => a!.Anew == b!.Anew && a.Cloth == b.Cloth && a.Blocks.SequenceEqual(b.Blocks));

        // One cable taken out of the middle of the last run of a figure that several make.
        var (row, edited) = work.Runs.ToArray().Where(r => r.To.Number - r.From.Number >= 2).Reverse()
            .Select(r => (r.Row, Smocking.Lay(Clear.Cables(work.Piece, [(new Valley((r.From.Number + r.To.Number) / 2), r.Row)]))))
            .First(e => e.Item2.Cables != work.Cables);
        var change = numbers.Take(edited);
        Assert.False(change.Anew);
        Assert.NotEmpty(change.Blocks);
        var reach = 2 * edited.Pleating.Gauge.CableRowsPerSpace; // rows: so far a stitch's hold is felt
        foreach (var block in numbers.Blocks)
        {
            var now = numbers.Lay(block, false).ToArray();
            if (!change.Blocks.Contains(block)) Near(MemoryMarshal.Cast<byte, float>(before[block]), MemoryMarshal.Cast<byte, float>(now));
        }
        Assert.True(change.Blocks.Count <= 2 * (2 * reach + 2), $"{change.Blocks.Count} blocks of {numbers.Blocks.Count()} are laid again");
        if (change.Cloth is { } lines) Assert.InRange(row.Index * 2f, lines.From, lines.To);

        // What was not laid again may lie a hair beside where it would.
        void Near(ReadOnlySpan<float> a, ReadOnlySpan<float> b)
        {
            Assert.Equal(a.Length, b.Length);
            for (var i = 0; i < a.Length; i++)
                if (i % Strand.Floats < 2) Assert.InRange(a[i] - b[i], -2 * StitchedNumbers.Tolerance * edited.Pleating.Gauge.Pitch.Millimetres, 2 * StitchedNumbers.Tolerance * edited.Pleating.Gauge.Pitch.Millimetres);
        }
    }

    [Fact]
    public void After_any_edits_all_is_as_if_it_had_been_laid_at_once() => Gen.Select(PieceGen.Pieces, PieceGen.Pieces).Sample((a, b) =>
    {
        StitchedNumbers one = new(), two = new();
        one.Take(Smocking.Lay(a));
        // The other piece's figures on this one's cloth, in its threads.
        var work = Smocking.Lay(b);
        one.Take(work);
        two.Take(work);
        Assert.Equal(two.Blocks, one.Blocks);
        Assert.Equal(two.Constants, one.Constants);
        foreach (var block in two.Blocks) Assert.Equal(two.Lay(block, true).ToArray(), one.Lay(block, true).ToArray());
        Assert.Equal(two.Nodes.ToArray(), one.Nodes.ToArray());
    }, iter: 60);
}
