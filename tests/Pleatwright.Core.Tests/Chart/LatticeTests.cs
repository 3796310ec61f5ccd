using CsCheck;
using Pleatwright.Chart;

namespace Pleatwright.Tests.Chart;

public class LatticeTests
{
    private static readonly Gen<Phase> Phases = Gen.OneOf(Phase.Even, Phase.Odd);

    [Fact]
    public void Levels_alternate_along_a_row_and_mirror_from_row_to_row() =>
        Gen.Select(Gen.Int[-50, 5000], Gen.Int[-50, 5000], Phases).Sample((v, y, phase) =>
        {
            var here = Lattice.LevelAt(new Valley(v), new CableRow(y), phase);
            Assert.Equal(here.Opposite(), Lattice.LevelAt(new Valley(v + 1), new CableRow(y), phase));
            Assert.Equal(here.Opposite(), Lattice.LevelAt(new Valley(v), new CableRow(y + 1), phase));
            Assert.Equal(here.Opposite(), Lattice.LevelAt(new Valley(v), new CableRow(y), phase.Opposite()));
        });

    [Fact]
    public void The_down_cable_of_a_row_touches_the_up_cable_of_the_next_in_the_same_valley() =>
        Gen.Select(Gen.Int[1, 500], Gen.Int[0, 500], Phases).Where((v, y, p) => Lattice.LevelAt(new Valley(v), new CableRow(y), p) == Level.Down)
            .Sample((v, y, phase) =>
            {
                var down = Lattice.LineOf(new CableRow(y), Level.Down);
                var next = Lattice.LineOf(new CableRow(y + 1), Lattice.LevelAt(new Valley(v), new CableRow(y + 1), phase));
                Assert.Equal(down.Index + 1, next.Index);
            });

    // A filled rectangle, half stitches at its ends: every pleat of every line is covered once, no gap and no overlap.
    [Fact]
    public void Cables_and_half_stitches_tile_a_filled_area() =>
        Gen.Select(Gen.Int[1, 20], Gen.Int[1, 20], Gen.Int[0, 9], Gen.Int[1, 9], Phases).Sample((from, width, top, height, phase) =>
        {
            var covered = new Dictionary<(int Line, int Pleat), int>();
            void Cover(Line line, Pleat pleat) => covered[(line.Index, pleat.Number)] = covered.GetValueOrDefault((line.Index, pleat.Number)) + 1;
            int to = from + width - 1;
            for (var y = top; y < top + height; y++)
            {
                var row = new CableRow(y);
                for (var v = from; v <= to; v++)
                {
                    var valley = new Valley(v);
                    var line = Lattice.LineOf(row, Lattice.LevelAt(valley, row, phase));
                    Cover(line, valley.LeftPleat);
                    Cover(line, valley.RightPleat);
                }
                Cover(Lattice.HalfStitchLine(new Valley(from), row, phase), Lattice.HalfStitchPleat(new Valley(from), RunEnd.Left));
                Cover(Lattice.HalfStitchLine(new Valley(to), row, phase), Lattice.HalfStitchPleat(new Valley(to), RunEnd.Right));
            }
            Assert.All(covered.Values, times => Assert.Equal(1, times));
            Assert.Equal(2 * height * (width + 1), covered.Count);
        });

    [Fact]
    public void Line_phases_down_the_cloth_go_a_b_b_a_a_b_b_a()
    {
        var starts = Enumerable.Range(0, 8).Select(line =>
            Enumerable.Range(1, 2).First(v => Lattice.LineOf(new CableRow(line / 2), Lattice.LevelAt(new Valley(v), new CableRow(line / 2), Phase.Even)).Index == line));
        Assert.Equal([2, 1, 1, 2, 2, 1, 1, 2], starts);
    }
}
