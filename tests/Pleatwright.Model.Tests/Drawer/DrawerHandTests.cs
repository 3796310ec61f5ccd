using CsCheck;
using Pleatwright.Bench.Model.Drawer;
using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Shelf;
using Pleatwright.Tests;
using Pleatwright.Tests.Keeping;
using Pleatwright.Thread;

namespace Pleatwright.Model.Tests.Drawer;

/// <summary>The drawer and the piece on the table, at two benches on one shelf.</summary>
public class DrawerHandTests
{
    private readonly AShelf at = new() { WithDrawer = true };

    private static readonly Floss Red = Some.Floss('r', "#b3202c"), Blue = Some.Floss('b', "#1f4e79");

    private static readonly ClothPlan Cloth = new(new Panel(Length.FromInches(4)), Gauge.FromPleatsPerInch(10, Length.FromInches(0.3), Length.FromInches(0.375), 5), 5);

    private static readonly Piece Harbour = new("Harbour", Cloth, [Red, Blue], [new Figure("boat", ["..r..", ".rrr.", "bbbbb"])], [new Placement("boat", Centre.At(new Valley(12)), new GatheringRow(3), 2)]);

    private sealed class Seat
    {
        public Seat(AShelf at, Piece piece)
        {
            (Shelf, Bench) = (at, at.Open());
            at.Thread.Do(() => Bench.Keeper.NewAsync(piece));
            at.Thread.Do(() =>
            {
                Needle = new Needle(Bench.Desk);
                Hand = new DrawerHand(Bench.Desk, Needle, Bench.Drawer);
                Needle.Asked += q => Asked.Add((q, Needle.Subject));
            });
            at.Thread.Do(Bench.Drawer.OpenAsync);
        }

        public AShelf Shelf { get; }

        public ABench Bench { get; }

        public Needle Needle { get; private set; } = null!;

        public DrawerHand Hand { get; private set; } = null!;

        public List<(Question Question, object? Subject)> Asked { get; } = [];

        public Piece Piece => Bench.Desk.Piece;

        public string Said => Bench.Said[^1];

        public void Do(Action<DrawerHand> act) => Shelf.Thread.Do(() => act(Hand));

        public void Keep(string figure)
        {
            Shelf.Thread.Do(() => Hand.KeepAsync(figure));
            Shelf.Thread.Pass(1);
        }

        public void Look() => Shelf.Thread.Do(Bench.Drawer.LookAsync);

        public void Edit(Func<Piece, Piece> change) => Shelf.Thread.Do(() => Bench.Desk.Edit("an edit", change));
    }

    private Seat Sit(Piece piece) => new(at, piece);

    private static Piece Drawn(Piece piece, string figure) => Chart.Edit.Rows.Insert(piece, figure, 0) is var p ? p.WithFigure(p.Figure(figure)!.WithLetter(2, 0, piece.Figure(figure)!.Rows[0][2])) : p;

    [Fact]
    public void From_one_piece_into_another_with_other_letters_asked_where_in_doubt_and_a_change_is_offered_to_the_first()
    {
        var one = Sit(Harbour);
        Assert.Equal("Keep boat in your drawer", one.Hand.KeepWords(one.Piece.Figures[0]));
        one.Keep("boat");
        Assert.Equal("boat is in your drawer.", one.Said);
        Assert.Equal("", one.Hand.KeepWords(one.Piece.Figures[0]));
        Assert.Single(at.Files.All, f => f.Path == "boat.figure.json");

        // Its red is there as x; its blue only nearly: the maker is asked, and nothing is laid before.
        var other = Sit(Harbour with { Title = "Quay", Threads = [Some.Floss('r', "#2f6b3a"), Red with { Key = new('x') }, Some.Floss('n', "#26557f")], Figures = [], Placements = [] });
        var before = other.Piece;
        other.Do(h => h.PutDown(h.Drawer.All.Single().Kept!));
        Assert.Same(before, other.Piece);
        var coming = Assert.IsType<FigureComing>(Assert.Single(other.Asked).Subject);
        var doubt = Assert.Single(coming.Threads.InDoubt);
        Assert.Equal('b', doubt.From.Key.Letter);
        Assert.Contains("Worked in threads already here: thread r as x; thread n as n.", coming.Changes);
        coming.Threads.Choose(doubt, null);
        Assert.Contains(coming.Changes, c => c.StartsWith("Come along: ", StringComparison.Ordinal));
        coming.Threads.Choose(doubt, doubt.Choices[0].Thread.Key);
        Assert.Same(before, other.Piece); // it is only shown
        other.Do(_ => coming.Do());
        Assert.Equal(["..x..", ".xxx.", "nnnnn"], other.Piece.Figure("boat")!.Rows);
        Assert.Equal(3, other.Piece.Threads.Length);
        Assert.Equal(2, Assert.Single(other.Piece.Placements).FigureRow); // its base row lies on a gathering row again

        // Changed there and put back, it is offered where it came from, with its placement where it was.
        other.Edit(p => Drawn(p, "boat"));
        Assert.Equal("Put boat back into your drawer", other.Hand.KeepWords(other.Piece.Figure("boat")!));
        other.Keep("boat");
        Assert.Equal("boat is back in your drawer.", other.Said);
        Assert.Equal(["..r..", "..r..", ".rrr.", "bbbbb"], at.Thread.Do(() => at.Figures.LoadAsync(PieceName.Parse("boat"))) is { } stored ? Lettered(FigureReader.Read(stored.Text)) : []);
        Assert.Empty(one.Hand.Newer);
        one.Look();
        var newer = Assert.Single(one.Hand.Newer);
        Assert.Equal(("boat", false), (newer.Figure, newer.ChangedHere));
        Assert.Same(Harbour.Figures[0].Rows[0], one.Piece.Figure("boat")!.Rows[0]); // offered, not forced
        var taking = one.Hand.Coming(newer);
        Assert.Equal(["boat becomes 5 valleys wide, 4 rows high; here it is 5 valleys wide, 3 rows high.", "Its row 4 from the top lies on the gathering row, so far its row 3."], taking.Changes[..2]);
        Assert.Same(Harbour.Figures[0].Rows[0], one.Piece.Figure("boat")!.Rows[0]); // looked at, not taken
        one.Do(_ => taking.Do());
        Assert.Equal(["..r..", "..r..", ".rrr.", "bbbbb"], one.Piece.Figure("boat")!.Rows);
        Assert.Equal(Harbour.Placements[0] with { FigureRow = 3 }, one.Piece.Placements[0]);
        Assert.Empty(one.Hand.Newer);
        Assert.Equal("boat is as in your drawer.", one.Said);
    }

    private static string[] Lettered(KeptFigure kept) => [.. kept.Figure.Rows.Select(r => string.Concat(r.Select(c => c == Figure.Bare ? c : kept.Threads.First(t => t.Key.Letter == c).Colour == Red.Colour ? 'r' : 'b')))];

    // One bench and the drawer, by another bench, have changed the same figure since.
    private (Seat One, Seat Other) BothChanged()
    {
        var one = Sit(Harbour);
        one.Keep("boat");
        var other = Sit(Harbour with { Title = "Quay", Figures = [], Placements = [] });
        other.Do(h => h.PutDown(h.Drawer.All.Single().Kept!));
        other.Edit(p => Drawn(p, "boat"));
        other.Keep("boat");
        one.Edit(p => Halves.Square(p, "boat", true));
        one.Look();
        return (one, other);
    }

    [Fact]
    public void Mine_is_kept_and_it_is_not_offered_again_until_the_drawer_changes_once_more()
    {
        var (one, other) = BothChanged();
        Assert.True(Assert.Single(one.Hand.Newer).ChangedHere);
        Assert.Contains("and it was changed here, too", one.Hand.Newer[0].Words, StringComparison.Ordinal);
        one.Do(h => h.Later(h.Newer[0]));
        Assert.Empty(one.Hand.Newer);
        at.Thread.Do(() => one.Bench.Keeper.SettleAsync());
        at.Thread.Do(() => one.Bench.Keeper.OpenExampleAsync(Pleatwright.Bench.Model.Examples.First));
        one.Bench.OpenPiece("Harbour");
        one.Do(h => h.KeepMine(Assert.Single(h.Newer))); // offered again as it is opened again
        Assert.Empty(one.Hand.Newer);
        Assert.True(one.Piece.Figure("boat")!.Square);
        other.Edit(p => Drawn(p, "boat"));
        other.Keep("boat");
        one.Look();
        Assert.Single(one.Hand.Newer);
    }

    [Fact]
    public void Put_back_over_a_state_that_was_not_seen_here_it_is_asked_which_stays_and_both_do()
    {
        var (one, other) = BothChanged();
        one.Keep("boat");
        var doubt = Assert.IsType<DrawerDoubtHere>(Assert.Single(one.Asked, a => a.Question == Question.WhichStays).Subject);
        one.Do(h => h.KeepAsAnother(doubt));
        at.Thread.Pass(1);
        Assert.Equal(["boat 2.figure.json", "boat.figure.json"], at.Files.All.Where(f => !f.Path.StartsWith('.') && f.Path.EndsWith(".figure.json", StringComparison.Ordinal)).Select(f => f.Path).Order(StringComparer.Ordinal));
        other.Look();
        Assert.Empty(other.Hand.Newer);
        one.Do(h => h.PutInPlace(doubt));
        at.Thread.Pass(1);
        other.Look();
        Assert.Equal("boat", Assert.Single(other.Hand.Newer).Figure);
        Assert.Equal(2, at.Thread.Do(() => at.Figures.VersionsAsync(PieceName.Parse("boat"))).Count);
    }

    [Fact]
    public void Changed_by_another_bench_on_the_way_ours_is_among_the_versions_and_theirs_is_offered()
    {
        Seat one = Sit(Harbour), other = Sit(Harbour with { Title = "Quay" });
        one.Keep("boat");
        other.Look();
        other.Do(h => _ = h.KeepAsync("boat")); // the very same: noted, and nothing is put
        Assert.Equal("boat is in your drawer as it is here.", other.Said);
        other.Edit(p => Drawn(p, "boat"));
        one.Edit(p => Halves.Square(p, "boat", true));
        other.Keep("boat");
        one.Keep("boat"); // has not seen it
        Assert.Contains("yours is the latest among its versions", one.Said, StringComparison.Ordinal);
        Assert.Single(one.Hand.Newer);
        Assert.Equal(2, at.Thread.Do(() => at.Figures.VersionsAsync(PieceName.Parse("boat"))).Count);
    }

    [Fact]
    public void What_two_closed_tabs_could_not_bring_there_goes_with_the_next_bench()
    {
        Seat one = Sit(Harbour), other = Sit(Harbour with { Title = "Quay", Figures = [new Figure("kite", ["rbr"])], Placements = [] });
        at.Faults.Stopped = true;
        one.Keep("boat");
        other.Keep("kite");
        Assert.Equal(["boat"], one.Bench.Drawer.All.Select(f => f.Name)); // it is seen here at once
        one.Bench.Close();
        other.Bench.Close();
        at.Faults.Stop();
        var next = at.Open();
        at.Thread.Pass(10);
        Assert.Equal(["boat.figure.json", "kite.figure.json"], at.Files.All.Where(f => f.Path.EndsWith(".figure.json", StringComparison.Ordinal)).Select(f => f.Path));
        Assert.Equal(Kept.Safe, next.Drawer.State);
    }

    [Fact]
    public void Renamed_in_the_drawer_it_is_the_same_figure_and_offers_nothing()
    {
        var one = Sit(Harbour);
        one.Keep("boat");
        at.Thread.Do(() => one.Bench.Drawer.RenameAsync(one.Bench.Drawer.All[0], "Little boat"));
        Assert.Empty(one.Hand.Newer);
        Assert.Equal("", one.Hand.KeepWords(one.Piece.Figures[0]));
        Assert.Single(at.Files.All, f => f.Path == "Little boat.figure.json");
        one.Edit(p => Drawn(p, "boat"));
        one.Keep("boat");
        Assert.Equal("Little boat is back in your drawer.", one.Said); // under the name it has by now
        Assert.Equal("Little boat", one.Bench.Drawer.All.Single().Kept!.Name);
    }

    [Fact]
    public void It_is_searched_by_name_by_colour_and_by_size()
    {
        var one = Sit(Harbour with { Figures = [.. Harbour.Figures, new Figure("kite", ["rrrrrrrrr", "rrrrrrrrr"])], Threads = [Red with { Name = "sail" }, Blue with { Name = "deep" }] });
        one.Keep("boat");
        one.Keep("kite");
        var list = new DrawerList(one.Bench.Drawer);
        string[] Found(string find, string wide = "", string high = "")
        {
            (list.Find, list.Wide, list.High) = (find, wide, high);
            return [.. list.Found.Select(f => f.Kept!.Name).Order()];
        }

        Assert.Equal(["boat", "kite"], Found(""));
        Assert.Equal(["boat"], Found("BOA"));
        Assert.Equal(["boat"], Found("deep"));
        Assert.Equal(["boat"], Found("blue red")); // by the word of its colour, whatever the maker calls it
        Assert.Equal(["boat", "kite"], Found("red"));
        Assert.Equal(["boat"], Found("", "6"));
        Assert.Equal(["kite"], Found("", "", "2"));
        Assert.Equal([], Found("gull"));
        Assert.Equal("Nothing in the drawer is like that.", list.Words);
        Assert.Equal("5 valleys wide, 3 rows high; sail, deep", DrawerList.About(one.Bench.Drawer.All.First(f => f.Name == "boat").Kept!));
    }

    [Fact]
    public void Put_down_and_taken_whatever_the_pieces_it_can_be_laid_and_undone() => Gen.Select(Pleatwright.Tests.Chart.Edit.AnyPiece.Pieces.Where(p => p.Figures.Length > 0), Pleatwright.Tests.Chart.Edit.AnyPiece.Pieces).Sample((from, to) =>
    {
        var shelf = new AShelf { WithDrawer = true };
        var seat = new Seat(shelf, to);
        var kept = Chart.Edit.Drawer.Take(from, from.Figures[0].Name);
        var before = seat.Piece;
        seat.Do(h => h.PutDown(kept));
        if (seat.Asked is [.., (Question.Coming, FigureComing coming)]) seat.Do(_ => coming.Do());
        Assert.NotSame(before, seat.Piece);
        Pleatwright.Tests.Chart.Edit.AnyPiece.Sound(seat.Piece);
        seat.Do(_ => seat.Bench.Desk.Undo());
        Assert.Same(before, seat.Piece);
    }, iter: 20, threads: 1);
}
