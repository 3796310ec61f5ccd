using Pleatwright.Bench.Model.Drafts;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Thread;

namespace Pleatwright.Model.Tests.Table;

/// <summary>What is copied from one piece and laid on another brings its threads.</summary>
public class CopyTests
{
    private static readonly Floss Red = Pieces.Empty.Threads[0], Blue = Pieces.Empty.Threads[1];

    /// <summary>A row of red and blue copied from one piece, and a piece of other threads opened.</summary>
    private static AtTable Copied(params Floss[] threads)
    {
        var at = new AtTable(Pieces.Empty);
        at.Key("r");
        at.Stroke(at.Middle(10, 4), at.Middle(12, 4));
        at.Key("b");
        at.Stroke(at.Middle(13, 4), at.Middle(14, 4));
        at.Key("Ctrl+a");
        at.Key("Ctrl+c");
        at.Desk.Open(Pieces.Empty with { Threads = [.. threads] });
        at.Said.Clear();
        return at;
    }

    private static string[] Colours(AtTable at) => [.. at.Worked().Select(c => at.Piece.Thread(at.Desk.Work.ThreadAt(new Valley(c.Valley), new CableRow(c.Row))!.Value)!.Colour.ToString())];

    [Fact]
    public void Threads_that_the_piece_lacks_come_along_and_one_undo_takes_all_back()
    {
        var at = Copied();
        var before = at.Piece;
        at.Key("Ctrl+v");
        Assert.Equal([.. Enumerable.Repeat(Red.Colour.ToString(), 3), .. Enumerable.Repeat(Blue.Colour.ToString(), 2)], Colours(at));
        Assert.Contains("Came along: sail red as r; deep blue as b.", at.Said);
        at.Key("Ctrl+z");
        Assert.Same(before, at.Piece);
    }

    [Fact]
    public void A_letter_taken_by_another_colour_is_left_and_it_is_said()
    {
        var at = Copied(new Floss(new('r'), "moss", Colour.Parse("#4a6a2a"), 4));
        at.Key("Ctrl+v");
        Assert.Equal([.. Enumerable.Repeat(Red.Colour.ToString(), 3), .. Enumerable.Repeat(Blue.Colour.ToString(), 2)], Colours(at));
        Assert.Contains("Came along: sail red as a, for r is another thread here; deep blue as b.", at.Said);
        Assert.Equal(3, at.Piece.Threads.Length);
    }

    [Fact]
    public void The_same_colour_and_make_is_the_same_thread_whatever_its_letter_and_name()
    {
        var at = Copied(Red with { Key = new('x'), Name = "flag" });
        at.Key("Ctrl+v");
        Assert.Equal(2, at.Piece.Threads.Length);
        Assert.Contains("Came along: deep blue as b. Worked in threads already here: flag as x.", at.Said);
    }

    [Fact]
    public void A_near_colour_and_the_same_made_otherwise_are_asked_about_once_and_nothing_is_laid_before()
    {
        var at = Copied(Red with { Key = new('x'), Colour = Colour.Parse("#c0323a"), Name = "flag" }, Blue with { Strands = 3 });
        var before = at.Piece;
        at.Key("Ctrl+v");
        Assert.Same(before, at.Piece);
        Assert.Equal("Which threads for what was copied?", at.Sheets.Title);
        var question = Assert.IsType<ThreadQuestion>(at.Needle.Subject);
        Assert.Equal(["sail red, 4 strands", "deep blue, 4 strands"], question.InDoubt.Select(ThreadQuestion.Words));
        Assert.Equal(["flag (x): a near colour", "deep blue (b): the same colour, but 3 strands"], question.InDoubt.Select(m => ThreadQuestion.Words(m, m.Choices[0])));
        question.Choose(question.InDoubt[1], null);
        question.Done();
        Assert.Contains("Came along: deep blue as a, for b is another thread here. Worked in threads already here: flag as x.", at.Said);
        Assert.Equal(3, at.Piece.Threads.Length);
        at.Key("PageDown");
        at.Key("Ctrl+v"); // of this piece by now: no word more
        Assert.Single(at.Asked, q => q == Question.Match);
        Assert.Equal(3, at.Piece.Threads.Length);
        Assert.Equal(10, at.Worked().Count);
    }

    [Fact]
    public void A_piece_with_every_letter_taken_refuses_and_stays_as_it_is()
    {
        var all = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ".Select((c, i) => new Floss(new(c), $"t{i}", new Colour((byte)(i * 4), 200, (byte)(255 - i * 4)), 4));
        var at = Copied([.. all]);
        var before = at.Piece;
        at.Key("Ctrl+v");
        Assert.Same(before, at.Piece);
        Assert.Contains("A piece has at most 52 threads, one a letter.", at.Said);
    }

    [Fact]
    public void In_its_own_piece_a_thread_keeps_its_letter_whatever_has_become_of_its_colour()
    {
        var at = new AtTable(Pieces.Empty);
        at.Stroke(at.Middle(10, 4));
        at.Key("Ctrl+c");
        at.Desk.Edit("a thread changed", p => Threads.Change(p, Red.Key, Red with { Colour = Colour.Parse("#ff8800") }));
        at.Key("PageUp");
        at.Key("End");
        at.Key("Ctrl+v");
        Assert.Equal(2, at.Piece.Threads.Length);
        Assert.Equal(2, at.Worked().Count);
    }

    [Fact]
    public void A_thread_without_a_name_gets_an_honest_one()
    {
        var at = new AtTable(Pieces.Empty);
        var draft = ThreadDraft.Open(at.Desk, at.Needle, null);
        draft.SetColour("#b3202c");
        Assert.True(draft.KeepAndTake());
        Assert.Equal(ColourWords.For(Colour.Parse("#b3202c")), at.Piece.Thread(at.Needle.Thread!.Value)!.Name);
        draft = ThreadDraft.Open(at.Desk, at.Needle, null);
        draft.SetLetter("r");
        Assert.False(draft.KeepAndTake());
        Assert.Equal("Another thread has the letter r.", draft.Told);
    }
}
