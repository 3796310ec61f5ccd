using System.Text;
using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Files;
using Pleatwright.Shelf;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Keeping;

/// <summary>Faults that makers met, each seen red before it was mended.</summary>
public class MendedTests
{
    private readonly AShelf at = new();

    [Fact]
    public void A_parted_piece_is_still_parted_after_a_reload_and_neither_history_is_emptied()
    {
        var one = at.Open();
        one.New("Boat");
        foreach (var title in new[] { "Boat 1", "Boat 2" }) one.Retitle(title);
        at.Thread.Pass(2);
        var two = at.Open();
        two.OpenPiece("Boat");
        two.Retitle("Theirs 1");
        two.Retitle("Theirs 2");
        one.Retitle("Boat 3");
        at.Thread.Pass(2);
        var (parted, other) = one.Keeper.State == Kept.Parted ? (one, two) : (two, one);
        Assert.Equal((Kept.Parted, Kept.Safe), (parted.Keeper.State, other.Keeper.State));
        var (mine, theirs) = (parted.Titles.ToList(), other.Titles.ToList());

        parted = parted.Reload();
        at.Thread.Pass(20);
        Assert.Equal(Kept.Parted, parted.Keeper.State);
        Assert.Equal(mine, parted.Titles);
        other = other.Reload();
        at.Thread.Pass(20);
        Assert.Equal(Kept.Safe, other.Keeper.State);
        Assert.Equal(theirs, other.Titles);

        at.Thread.Do(parted.Keeper.KeepAsNewAsync);
        Assert.Equal(Kept.Safe, parted.Keeper.State);
        Assert.Equal(mine, parted.Reload().Titles);
        Assert.Equal(new[] { mine[^1], theirs[^1] }.Order(StringComparer.Ordinal), at.Titles);
    }

    [Fact]
    public void A_new_piece_that_gets_a_name_set_free_does_not_move_the_journal_another_tab_keeps_under_it()
    {
        var one = at.Open();
        one.New("Boat");
        one.Retitle("Boat 1");
        at.Thread.Pass(2);
        at.Thread.Do(() => at.Shelf.DeleteAsync(PieceName.Parse("Boat"))); // by another
        at.Faults.Stopped = true;
        one.Retitle("Boat, reefed");
        var two = at.Open();
        two.New("Boat");
        two.New("Crab");
        at.Faults.Stopped = false;
        at.Thread.Pass(70, 0.2);
        Assert.Equal((Kept.Parted, "Boat, reefed"), (one.Keeper.State, one.Title));
        Assert.Equal(["Boat", "Crab"], at.Titles);
        one = one.Reload();
        at.Thread.Pass(20);
        Assert.Equal((Kept.Parted, "Boat, reefed"), (one.Keeper.State, one.Title));
    }

    [Fact]
    public void A_thread_put_into_the_stash_is_there_when_the_page_is_loaded_again_at_once()
    {
        var bench = at.Open();
        at.Faults.Stopped = true;
        at.Thread.Do(bench.Basket.OpenAsync);
        at.Faults.Stopped = false;
        at.Thread.Do(bench.Basket.OpenAsync);
        at.Thread.Do(() => bench.Basket.Do("a thread", s => s with { Threads = s.Threads.Add(new StashThread("sail red", Colour.Parse("#b3202c"), 1)) }));
        bench = bench.Reload();
        at.Thread.Do(bench.Basket.OpenAsync);
        Assert.Equal(["sail red"], bench.Basket.Stash.Threads.Select(t => t.Name));
    }

    [Fact]
    public void An_edit_made_without_the_shelf_goes_there_when_it_answers_whatever_is_on_the_table()
    {
        var bench = at.Open();
        bench.New("Crab");
        bench.New("Boat");
        at.Faults.Stopped = true;
        bench.Retitle("Boat offline");
        bench.OpenPiece("Crab");
        at.Thread.Pass(30);
        Assert.DoesNotContain("Boat offline", at.Titles);
        at.Faults.Stopped = false;
        at.Thread.Pass(30);
        Assert.Equal("Crab", bench.Title);
        Assert.Contains("Boat offline", at.Titles);
    }

    [Fact]
    public void An_edit_made_without_the_shelf_goes_there_from_the_next_bench_whatever_it_opens()
    {
        var bench = at.Open();
        bench.New("Crab");
        bench.New("Boat");
        at.Faults.Stopped = true;
        bench.Retitle("Boat offline");
        bench.OpenPiece("Crab");
        at.Thread.Pass(0.1);
        bench.Close();
        at.Faults.Stopped = false;
        bench = at.Open(); // another tab
        at.Thread.Pass(3);
        Assert.Equal("Crab", bench.Title);
        Assert.Contains("Boat offline", at.Titles);
    }

    [Fact]
    public void Without_the_shelf_new_pieces_are_begun_and_all_go_there_without_twins()
    {
        var bench = at.Open();
        at.Faults.Stopped = true;
        bench.New("Boat");
        bench.Retitle("Boat 1");
        bench.New("Crab");
        bench.Retitle("Crab 1");
        bench = bench.Reload();
        Assert.Equal(["Crab", "Crab 1"], bench.Titles);
        at.Thread.Pass(2);
        Assert.Equal(Kept.Trouble, bench.Keeper.State);
        at.Faults.Stopped = false;
        at.Thread.Pass(30);
        Assert.Equal(["Boat 1", "Crab 1"], at.Titles);
        Assert.Equal(Kept.Safe, bench.Keeper.State);
        bench.OpenPiece("Boat 1");
        Assert.Equal(["Boat", "Boat 1"], bench.Titles);
    }

    [Fact]
    public void Without_the_shelf_any_piece_this_browser_holds_can_be_opened()
    {
        var bench = at.Open();
        bench.New("Crab");
        bench.Retitle("Crab 1");
        bench.New("Boat");
        at.Faults.Stopped = true;
        bench.OpenPiece("Crab");
        Assert.Equal(["Crab", "Crab 1"], bench.Titles);
        bench = bench.Reload();
        bench.OpenPiece("Boat");
        Assert.Equal("Boat", bench.Title);
    }

    [Fact]
    public void A_save_whose_answer_was_lost_is_not_blamed_on_another_bench()
    {
        var bench = at.Open();
        bench.New("Boat");
        at.Faults.OnWire(Fault.AnswerLost);
        bench.Retitle("Boat 1");
        at.Thread.Pass(2);
        Assert.Equal(["Boat 1"], at.Titles);
        bench.Retitle("Boat 2");
        at.Thread.Pass(30);
        Assert.Equal(Kept.Safe, bench.Keeper.State);
        Assert.Equal(["Boat 2"], at.Titles);
        Assert.DoesNotContain(bench.Said, s => s.Contains("another bench", StringComparison.Ordinal));
    }

    [Fact]
    public void A_save_whose_answer_was_lost_is_known_after_a_reload_too()
    {
        var bench = at.Open();
        bench.New("Boat");
        at.Faults.OnWire(Fault.AnswerLost);
        bench.Retitle("Boat 1");
        at.Thread.Pass(2);
        bench.Retitle("Boat 2");
        bench = bench.Reload();
        at.Thread.Pass(30);
        Assert.Equal(Kept.Safe, bench.Keeper.State);
        Assert.Equal(["Boat", "Boat 1", "Boat 2"], bench.Titles);
        Assert.Equal(["Boat 2"], at.Titles);
    }

    [Fact]
    public void A_new_piece_whose_answer_was_lost_has_no_twin()
    {
        var bench = at.Open();
        bench.Retitle("Example kept"); // an example goes to the shelf with its first edit
        at.Faults.OnWire(Fault.AnswerLost);
        at.Thread.Pass(30);
        Assert.Equal(Kept.Safe, bench.Keeper.State);
        Assert.Equal(["Example kept"], at.Titles);
    }

    [Fact]
    public void What_an_older_bench_kept_in_the_browser_still_opens()
    {
        MomentText[] moments = [.. new[] { "Old", "Old 1", "Old 2" }.Select(t => new MomentText(t, PieceWriter.Write(ABench.Small(t))))];
        at.Files.Put("Boat.piece.json", PieceWriter.WriteUtf8(ABench.Small("Old 1")));
        at.Browser.Lay("a folder\nBoat", new JournalNote(0, 3, 2, Edition.Of(PieceWriter.WriteUtf8(ABench.Small("Old 1"))).ToString(), moments));
        at.Browser.Lay("a folder\n", new JournalNote(0, 2, 1, "", [new MomentText("", PieceWriter.Write(ABench.Small("Example"))), new MomentText("x", PieceWriter.Write(ABench.Small("Unnamed")))]));
        var bench = at.Open();
        Assert.Equal(["Example", "Unnamed"], bench.Titles);
        at.Thread.Pass(3);
        Assert.Equal(["Old 2", "Unnamed"], at.Titles); // both went to the shelf, one from the table, one by itself
        bench.OpenPiece("Boat");
        Assert.Equal(["Old", "Old 1", "Old 2"], bench.Titles);
        Assert.Equal(Kept.Safe, bench.Keeper.State);
    }

    [Fact]
    public void A_piece_changed_on_the_shelf_alone_is_one_step_on_and_the_way_back_stays()
    {
        var bench = at.Open();
        bench.New("Boat");
        bench.Retitle("Boat 1");
        at.Thread.Pass(3);
        at.Files.Put("Boat.piece.json", PieceWriter.WriteUtf8(ABench.Small("By hand")));
        bench = bench.Reload();
        Assert.Equal(Kept.Safe, bench.Keeper.State);
        Assert.Equal(["Boat", "Boat 1", "By hand"], bench.Titles);
    }

    [Fact]
    public void A_piece_taken_off_and_put_back_has_its_way_back()
    {
        var bench = at.Open();
        bench.New("Boat");
        bench.Retitle("Boat 1");
        at.Thread.Pass(3);
        at.Thread.Do(() => bench.Keeper.DeleteAsync(PieceName.Parse("Boat")));
        bench.New("Boat"); // another of its name; the first steps aside
        at.Thread.Do(() => bench.Keeper.Shelf.UndoDeleteAsync(PieceName.Parse("Boat 2")));
        bench.OpenPiece("Boat 2");
        Assert.Equal(["Boat", "Boat 1"], bench.Titles);
    }

    [Fact]
    public void What_can_be_kept_nowhere_stays_on_the_table()
    {
        var bench = at.Open();
        bench.New("Crab");
        bench.New("Boat");
        (at.Faults.Stopped, at.Faults.NoStore) = (true, true);
        bench.Retitle("Boat 1");
        var refused = Assert.Throws<ShelfException>(() => at.Thread.Do(() => bench.Keeper.OpenExampleAsync("harbour-morning")));
        Assert.Contains("stays there", refused.Message, StringComparison.Ordinal);
        Assert.Equal("Boat 1", bench.Title);
        at.Faults.Stop();
        at.Thread.Pass(10);
        Assert.Equal(["Boat 1", "Crab"], at.Titles);
    }

    [Fact]
    public void A_stash_whose_answer_was_lost_is_not_undone_by_itself()
    {
        var bench = at.Open();
        at.Thread.Do(bench.Basket.OpenAsync);
        at.Faults.OnWire(Fault.AnswerLost);
        Put(bench, "red");
        at.Thread.Pass(1);
        Put(bench, "blue");
        at.Thread.Pass(10);
        Assert.Equal(["red", "blue"], bench.Basket.Stash.Threads.Select(t => t.Name));
        Assert.Empty(bench.Basket.Trouble);
        bench = bench.Reload();
        at.Thread.Do(bench.Basket.OpenAsync);
        Assert.Equal(["red", "blue"], bench.Basket.Stash.Threads.Select(t => t.Name));
    }

    [Fact]
    public void What_two_tabs_put_into_the_stash_without_the_shelf_goes_there_from_both()
    {
        var (one, two) = (at.Open(), at.Open());
        at.Thread.Do(one.Basket.OpenAsync);
        at.Thread.Do(two.Basket.OpenAsync);
        at.Faults.Stopped = true;
        Put(one, "red");
        Put(two, "blue");
        at.Thread.Pass(2);
        one.Close(killed: true);
        two.Close(killed: true);
        at.Faults.Stopped = false;
        var next = at.Open();
        at.Thread.Do(next.Basket.OpenAsync);
        at.Thread.Pass(10);
        foreach (var name in new[] { "red", "blue" })
            Assert.Contains(at.Files.All, f => Encoding.UTF8.GetString(f.Text).Contains($"\"{name}\"", StringComparison.Ordinal));
        Assert.DoesNotContain(at.Browser.AllRemembered, r => r.Key.StartsWith("stash ", StringComparison.Ordinal));
        Assert.Empty(next.Basket.Trouble);
    }

    [Fact]
    public void What_is_opened_in_trouble_after_a_parted_piece_is_tried_again()
    {
        var bench = at.Open();
        bench.New("Crab");
        bench.New("Boat");
        at.Files.Put("Boat.piece.json", PieceWriter.WriteUtf8(ABench.Small("By hand")));
        bench.Retitle("Boat 1");
        at.Thread.Pass(2);
        Assert.Equal(Kept.Parted, bench.Keeper.State);
        at.Faults.OnWire(Fault.Full);
        bench.OpenPiece("Crab");
        Assert.Equal(Kept.Trouble, bench.Keeper.State);
        at.Thread.Pass(10);
        Assert.Equal(Kept.Safe, bench.Keeper.State);
    }

    [Fact]
    public void What_a_second_tab_borrows_of_the_first_without_the_shelf_outlives_its_reload()
    {
        var one = at.Open();
        one.New("Boat");
        one.Retitle("Boat 1");
        at.Thread.Pass(2);
        at.Faults.Stopped = true;
        var two = at.Open();
        Assert.Equal(["Boat", "Boat 1"], two.Titles);
        two.Retitle("Boat 2");
        Assert.Equal(["Boat", "Boat 1", "Boat 2"], two.Reload().Titles);
    }

    [Fact]
    public void A_stroke_under_way_is_kept_under_the_piece_that_is_put_away()
    {
        var bench = at.Open();
        bench.New("Crab");
        bench.New("Boat");
        bench.Stroke("Boat, a stroke");
        bench.OpenPiece("Crab");
        Assert.Equal(["Crab"], bench.Titles);
        bench.OpenPiece("Boat");
        Assert.Equal(["Boat", "Boat, a stroke"], bench.Titles);
    }

    [Fact]
    public void A_stroke_begun_while_another_piece_is_being_opened_is_kept_under_its_own()
    {
        var bench = at.Open();
        bench.New("Crab");
        bench.New("Boat");
        at.Faults.OnWire(Fault.Slow);
        Task? opening = null;
        at.Thread.Do(() => { opening = bench.Keeper.OpenAsync(PieceName.Parse("Crab")); });
        at.Thread.Pass(1);
        bench.Stroke("Boat, a stroke");
        at.Thread.Pass(8);
        Assert.True(opening!.IsCompletedSuccessfully);
        Assert.Equal(["Crab"], bench.Titles);
        bench.OpenPiece("Boat");
        Assert.Equal(["Boat", "Boat, a stroke"], bench.Titles);
    }

    [Fact]
    public void A_stroke_under_way_when_the_page_goes_is_kept()
    {
        var bench = at.Open();
        bench.New("Boat");
        bench.Stroke("Boat, a stroke");
        Assert.Equal(["Boat", "Boat, a stroke"], bench.Reload().Titles);
    }

    private void Put(ABench bench, string name) =>
        at.Thread.Do(() => bench.Basket.Do(name, s => s with { Threads = s.Threads.Add(new StashThread(name, Colour.Parse("#8c2f39"), 1)) }));
}
