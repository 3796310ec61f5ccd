using CsCheck;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Measure;

namespace Pleatwright.Model.Tests.Table;

/// <summary>While there is a mirror, every stroke, erase, fill and single stitch lies on both sides of its valley, held alike, in one act.</summary>
public class MirrorLaws
{
    private sealed record Act(string Words, Action<AtTable> Do);

    private static readonly Gen<Act> AnAct = AtTable.Mixed(
        (5, Gen.Select(Gen.Select(Gen.Double[0, 900], Gen.Double[0, 600]).Array[1, 5], AtTable.Pick(PointerButtons.Main, PointerButtons.Main, PointerButtons.Other)).Select((places, button) => new Act(
            $"stroke {string.Join(' ', places.Select(p => $"{p.Item1:0},{p.Item2:0}"))} {button}", at =>
            {
                at.Point(PointerMove.Down, places[0].Item1, places[0].Item2, buttons: button);
                foreach (var (x, y) in places) at.Point(PointerMove.Move, x, y, buttons: button);
                at.Point(PointerMove.Up, 0, 0, buttons: PointerButtons.None);
            }))),
        (3, Gen.Select(Gen.Int[1, 40], Gen.Int[0, 14], AtTable.Pick(" ", " ", "Delete", "*", "&", "r", "b", ".")).Select((v, y, key) => new Act($"{key} at {v} {y}", at =>
        {
            at.Needle.GoTo(new Valley(v), new CableRow(y));
            at.Key(key);
        }))),
        (1, Gen.Select(Gen.Int[1, 40], Gen.Int[0, 14], Gen.Int[1, 40], Gen.Int[0, 14], AtTable.Pick("*", "Delete")).Select((v, y, w, z, key) => new Act($"{key} over {v} {y} {w} {z}", at =>
        {
            at.Needle.Mark(Area.Between(new Valley(v), new CableRow(y), new Valley(w), new CableRow(z)) is var a && at.Desk.Work.OnCloth(a.To, a.Bottom) ? a : null);
            at.Key(key);
        }))),
        (1, Gen.Select(Gen.Double[0, 900], Gen.Double[0, 600]).Select((x, y) => new Act($"fill {x:0},{y:0}", at =>
        {
            at.Needle.TakeUp(Doing.Fill);
            at.Stroke((x, y));
            at.Needle.TakeUp(Doing.Stitch);
        }))));

    private static IEnumerable<(int Valley, int Row, char Thread, Level Level)> Cables(Work work) =>
        from cell in AtTable.Worked(work)
        let v = new Valley(cell.Valley)
        let y = new CableRow(cell.Row)
        select (cell.Valley, cell.Row, work.ThreadAt(v, y)!.Value.Letter, Lattice.LevelAt(v, y, work.PhaseAt(v, y)));

    // After every act all that is there is its own image about the mirror, and one undo takes the act back; answers how much was looked at.
    private static int EveryAct(Gen<Act> any, int times, Func<AtTable, (int Count, Action<Func<int, int?>> IsMirrored)> look)
    {
        var seen = 0;
        Gen.Select(Gen.Int[1, 40], any.Array[1, 12]).Sample((about, acts) =>
        {
            var at = new AtTable(Pieces.New(new Pleatwright.Cloth.Panel(Length.FromInches(2)), 3));
            var axis = Math.Min(about, at.Desk.Work.Valleys);
            at.Needle.MirrorAbout(axis);
            foreach (var act in acts)
            {
                var (before, past) = (at.Piece, at.Desk.History.Past.Count());
                act.Do(at);
                Assert.True(at.Desk.History.Past.Count() <= past + 1);
                var (count, isMirrored) = look(at);
                seen += count;
                isMirrored(valley => 2 * axis - valley is var image && image >= 1 && image <= at.Desk.Work.Valleys ? image : null); // where there is cloth for it
                if (ReferenceEquals(before, at.Piece)) continue;
                at.Key("Ctrl+z");
                Assert.Same(before, at.Piece);
                at.Key("Ctrl+y");
            }
        }, iter: times, threads: 1, print: t => $"about {t.Item1}: {string.Join("; ", t.Item2.Select(a => a.Words))}");
        return seen;
    }

    /// <summary>The lattice is the outside source: each cable's image, wherever there is cloth for it, is of its thread and at its level.</summary>
    [Fact]
    public void From_bare_cloth_all_that_is_made_is_its_own_image_and_every_act_one_undo()
    {
        var cables = EveryAct(AnAct, 400, at =>
        {
            var there = Cables(at.Desk.Work).ToHashSet();
            return (there.Count, image =>
            {
                foreach (var (valley, row, thread, level) in there)
                    if (image(valley) is { } other) Assert.Contains((other, row, thread, level), there);
            });
        });
        Assert.True(cables > 4_000, $"{cables} cables");
    }

    [Fact]
    public void A_stitch_is_laid_on_both_sides_in_one_figure_and_taken_back_at_once()
    {
        var at = new AtTable(Pieces.Empty);
        at.Needle.GoTo(new Valley(30), new CableRow(4));
        at.Key(">");
        at.Needle.GoTo(new Valley(22), new CableRow(4));
        Assert.Equal(38, at.Needle.Image?.Number);
        at.Key(" ");
        Assert.Equal([(22, 4), (38, 4)], at.Worked());
        Assert.Single(at.Piece.Figures);
        at.Key("Ctrl+z");
        Assert.Empty(at.Worked());
        at.Key(">");
        Assert.Null(at.Needle.Mirror);
        at.Key(" ");
        Assert.Equal([(22, 4)], at.Worked());
    }

    private static readonly Gen<Act> AnAccent = AtTable.Mixed(
        (4, Gen.Select(Gen.Int[1, 40], Gen.Int[0, 14], AtTable.Pick("4", "5", "6", "7", "$", "!", "Delete", "r", "b", "Alt+ArrowLeft", "Alt+ArrowRight", "Alt+ArrowUp")).Select((v, y, key) => new Act($"{key} at {v} {y}", at =>
        {
            at.Needle.GoTo(new Valley(v), new CableRow(y));
            at.Key(key);
        }))),
        (3, Gen.Select(Gen.Double[0, 900], Gen.Double[0, 600]).Array[2, 4].Select(places => new Act($"drag {string.Join(' ', places.Select(p => $"{p.Item1:0},{p.Item2:0}"))}", at =>
        {
            at.Needle.TakeUp(Doing.Accent);
            at.Stroke(places);
            at.Needle.TakeUp(Doing.Stitch);
        }))),
        (1, Gen.Select(Gen.Int[1, 40], Gen.Int[0, 14]).Select((v, y) => new Act($"hold of the first, to {v} {y}", at =>
        {
            if (at.Desk.Work.Accents.IsEmpty) return;
            var laid = at.Desk.Work.Accents[0];
            at.Needle.TakeUp(Doing.Accent);
            at.Stroke(at.Middle(laid.Valley.Number, Accenting.RowOf(at.Desk.Work, laid).Index), at.Middle(Math.Min(v, at.Desk.Work.Valleys), y));
            at.Needle.TakeUp(Doing.Stitch);
        }))));

    [Fact]
    public void Every_accent_put_on_moved_recoloured_or_taken_off_is_its_own_image_too()
    {
        var accents = EveryAct(AnAccent, 120, at =>
        {
            var there = at.Desk.Work.Accents.Select(a => (a.Accent.Name, a.Valley.Number, a.Depth, a.Mark.Thread)).ToList();
            return (there.Count, image =>
            {
                foreach (var (name, valley, depth, thread) in there)
                    if (image(valley) is { } other) Assert.Equal(there.Count(a => a == (name, valley, depth, thread)), there.Count(a => a == (name, other, depth, thread)));
            });
        });
        Assert.True(accents > 200, $"{accents} accents");
    }

    [Fact]
    public void Copies_of_an_accent_are_mirrored_as_a_set_wherever_they_balance() =>
        Gen.Select(Gen.Int[1, 5], Gen.Int[1, 9], Gen.Int[10, 50], Gen.Int[10, 50]).Sample((count, every, centre, axis) =>
        {
            var mark = new Pleatwright.Chart.Accents.AccentMark("knot", Centre.At(new Valley(centre)), new GatheringRow(2), new('r')) { Repeat = new Repeat(count, every) };
            if (2 * axis - centre is < 1 or > 58) return; // there is no cloth for its image
            var at = Mirror.Put(Pieces.Empty, mark, new Valley(axis));
            var valleys = Work.Lay(at).Accents.Select(a => a.Valley.Number).Order().ToList();
            Assert.Equal(valleys, valleys.Select(v => 2 * axis - v).Order());
        });

    [Fact]
    public void A_copy_is_laid_on_both_sides_and_lies_as_it_is_where_it_crosses_the_mirror() =>
        Gen.Select(Gen.Int[1, 30], Gen.Int[1, 50], Gen.Int[0, 12]).Sample((axis, to, row) =>
        {
            var at = new AtTable(Pieces.Empty with
            {
                Figures = [new Figure("tag", ["rrb.", ".bbr"])],
                Placements = [new Placement("tag", Centre.At(new Valley(50)), new GatheringRow(4), 0)],
            });
            at.Needle.Mark(Area.Between(new Valley(49), new CableRow(15), new Valley(52), new CableRow(16)));
            at.Key("Ctrl+c");
            at.Needle.Mark(null);
            at.Needle.MirrorAbout(axis);
            at.Needle.GoTo(new Valley(to), new CableRow(row));
            var (before, past) = (Cables(at.Desk.Work).ToList(), at.Desk.History.Past.Count());
            at.Key("Ctrl+v");
            Assert.Equal(past + 1, at.Desk.History.Past.Count());
            var own = new[] { (0, 0, 'r'), (1, 0, 'r'), (2, 0, 'b'), (1, 1, 'b'), (2, 1, 'b'), (3, 1, 'r') }.Select(c => (Valley: to + c.Item1, Row: row + c.Item2, Thread: c.Item3)).ToList();
            foreach (var (valley, y, thread) in own)
            {
                Assert.Equal(thread, at.Desk.Work.ThreadAt(new Valley(valley), new CableRow(y))!.Value.Letter);
                var image = 2 * axis - valley;
                if (image >= 1 && image <= at.Desk.Work.Valleys && !own.Any(c => c.Valley == image && c.Row == y))
                    Assert.Equal(thread, at.Desk.Work.ThreadAt(new Valley(image), new CableRow(y))!.Value.Letter);
            }
            at.Key("Ctrl+z");
            Assert.Equal(before, Cables(at.Desk.Work));
        }, iter: 200, threads: 1);

    [Fact]
    public void A_place_on_a_pleat_becomes_the_nearer_valley_and_one_off_the_cloth_the_last()
    {
        var at = new AtTable(Pieces.Empty);
        foreach (var (across, valley) in new[] { (29.6, 30), (30.4, 30), (-3.0, 1), (9999.0, at.Desk.Work.Valleys) })
        {
            at.Needle.MirrorAbout(across);
            Assert.Equal(valley, at.Needle.Mirror?.Number);
        }
    }

    [Fact]
    public void Where_the_other_side_is_of_the_other_phase_neither_stitch_is_laid_and_the_maker_is_told_once()
    {
        var piece = Pieces.Empty with
        {
            Figures = [new Figure("here", ["rrr"]), new Figure("there", ["bbb"])],
            Placements = [new Placement("here", Centre.At(new Valley(20)), new GatheringRow(2), 0), new Placement("there", Centre.At(new Valley(40)), new GatheringRow(2), 0) { FlipPhase = true }],
        };
        var at = new AtTable(piece);
        at.Needle.MirrorAbout(30);
        at.Needle.TakeThread(new('b'));
        var row = new GatheringRow(2).CableRow(at.Desk.Work.Pleating.Gauge.CableRowsPerSpace).Index;
        at.Stroke(at.Middle(19, row), at.Middle(21, row));
        Assert.Equal(PieceText(piece), PieceText(at.Piece));
        Assert.Single(at.Said, Needle.OtherPhase);
        at.Stroke(at.Middle(19, row + 3), at.Middle(19, row + 3)); // bare on both sides: one figure, one phase
        Assert.Contains((41, row + 3), at.Worked());
        at.Needle.PutMirrorAway();
        at.Stroke(at.Middle(19, row));
        Assert.Equal('b', at.Desk.Work.ThreadAt(new Valley(19), new CableRow(row))!.Value.Letter);
    }

    [Fact]
    public void Another_piece_has_no_mirror_and_a_cloth_cut_narrower_than_it_loses_it()
    {
        var at = new AtTable(Pieces.Empty);
        at.Needle.MirrorAbout(at.Desk.Work.Valleys);
        at.Desk.Edit("other cloth", p => OtherCloth.To(p, p.Cloth with { Form = new Pleatwright.Cloth.Panel(Length.FromInches(2)) }));
        Assert.Null(at.Needle.Mirror);
        at.Needle.MirrorAbout(5);
        at.Desk.Open(Pieces.Full);
        Assert.Null(at.Needle.Mirror);
    }

    private static string PieceText(Piece piece) => Pleatwright.Files.PieceWriter.Write(piece);
}
