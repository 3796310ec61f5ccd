using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using static Pleatwright.Tests.Chart.Edit.AnyPiece;

namespace Pleatwright.Tests.Chart.Edit;

public class PatchLaws
{
    private static readonly Gen<(Piece Piece, Area Area)> Areas =
        from piece in Singles.Select(p => p with { Bands = [] })
        from area in AreaOf(piece)
        select (piece, area);

    [Fact]
    public void Laid_where_it_was_lifted_a_patch_changes_nothing() => Areas.Sample(s =>
        Assert.Equal(Shown(s.Piece), Shown(Sound(Patch.Lift(Work.Lay(s.Piece), s.Area).LayOn(s.Piece, s.Area.From, s.Area.Top)))));

    [Fact]
    public void Mirrored_twice_in_place_is_the_same() => Areas.Sample(s =>
    {
        var once = Sound(Mirror.InPlace(Work.Lay(s.Piece), s.Area));
        Assert.Equal(Shown(s.Piece), Shown(Mirror.InPlace(Work.Lay(once), s.Area)));
    });

    [Fact]
    public void Upended_twice_in_place_is_the_same() => Areas.Sample(s =>
    {
        var once = Sound(Mirror.Upend(Work.Lay(s.Piece), s.Area));
        Assert.Equal(Shown(s.Piece), Shown(Mirror.Upend(Work.Lay(once), s.Area)));
    });

    [Fact]
    public void Mirrored_across_a_valley_every_cable_has_its_image_with_the_same_level() =>
        (from a in Areas from axis in CellOf(a.Piece) select (a.Piece, a.Area, Axis: axis.Valley)).Sample(s =>
        {
            var before = Work.Lay(s.Piece);
            if (s.Axis.Number >= s.Area.From.Number && s.Axis.Number <= s.Area.To.Number) return;
            var work = Work.Lay(Sound(Mirror.Across(before, s.Area, s.Axis)));
            foreach (var (valley, row) in s.Area.Cells())
            {
                var image = new Valley(2 * s.Axis.Number - valley.Number);
                if (!before.IsWorked(valley, row) || !work.OnCloth(image, row)) continue;
                Assert.Equal(before.ThreadAt(valley, row), work.ThreadAt(image, row));
                Assert.Equal(Lattice.LevelAt(valley, row, s.Piece.Phase), Lattice.LevelAt(image, row, s.Piece.Phase));
            }
        });

    [Fact]
    public void Moved_there_and_back_over_bare_pleats_is_the_same() =>
        (from a in Areas from dv in Gen.Int[-6, 6] from dy in Gen.Int[-4, 4] select (a.Piece, a.Area, dv, dy)).Sample(s =>
        {
            var work = Work.Lay(s.Piece);
            var (from, top) = (new Valley(s.Area.From.Number + s.dv), new CableRow(s.Area.Top.Index + s.dy));
            var (to, bottom) = (new Valley(s.Area.To.Number + s.dv), new CableRow(s.Area.Bottom.Index + s.dy));
            if (!work.OnCloth(from, top) || !work.OnCloth(to, bottom))
            {
                Assert.Throws<ArgumentException>(() => Move.Cables(work, s.Area, s.dv, s.dy));
                return;
            }
            var target = Area.Between(from, top, to, bottom);
            if (target.Cells().Any(c => work.IsWorked(c.Valley, c.Row) && !s.Area.Contains(c.Valley, c.Row))) return;
            var moved = Sound(Move.Cables(work, s.Area, s.dv, s.dy));
            Assert.Equal(work.Cables, Work.Lay(moved).Cables);
            Assert.Equal(Shown(s.Piece), Shown(Move.Cables(Work.Lay(moved), target, -s.dv, -s.dy)));
        });

    [Fact]
    public void An_area_made_a_figure_shows_the_same_cloth() => Areas.Sample(s =>
        Assert.Equal(Shown(s.Piece), Shown(Sound(Figures.FromArea(Work.Lay(s.Piece), s.Area)))));
}
