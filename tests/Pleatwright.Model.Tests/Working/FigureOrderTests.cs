using CsCheck;
using Pleatwright.Bench.Model;
using Pleatwright.Bench.Model.Working;
using Pleatwright.Files;
using Pleatwright.Order;
using Pleatwright.Tests.Drafts;

namespace Pleatwright.Tests.Working;

/// <summary>The maker's say in what is worked first: a figure goes where it is asked to, the others keep their order, and one undo takes it back.</summary>
public class FigureOrderTests
{
    private static readonly string[] Several = [.. Examples.Names.Where(n => new FigureOrder(OnTable(n)).Count > 2)];

    private static Desk OnTable(string name)
    {
        var (desk, _) = Tables.Set(Examples.Read(name));
        return desk;
    }

    private static WorkedFigure[] Now(Desk desk) => [.. WorkedFigures.Of(desk.Order)];

    [Fact]
    public void Whatever_is_moved_stands_where_it_was_asked_to_or_it_is_told_and_nothing_changes() =>
        Gen.Select(Gen.Int[0, Several.Length - 1], Gen.Select(Gen.Int[0, 9], Gen.Int[0, 3]).Array[1, 6]).Sample((at, acts) =>
        {
            var desk = OnTable(Several[at]);
            var (figures, said) = (new FigureOrder(desk), "");
            desk.Said += Hear;
            try
            {
                foreach (var (which, act) in acts)
                {
                    var (before, piece, past) = (Now(desk), desk.Piece, desk.History.Past.Count());
                    var from = which % before.Length;
                    var to = act switch { 0 => from - 1, 1 => from + 1, 2 => 0, _ => -1 };
                    said = "";
                    switch (act)
                    {
                        case 0: figures.Earlier(from); break;
                        case 1: figures.Later(from); break;
                        case 2: figures.First(from); break;
                        default: figures.LetGo(); break;
                    }
                    Assert.Equal(figures.Count, before.Length);
                    Assert.Equal(!desk.Piece.Working.Figures.IsEmpty, figures.IsMakers);
                    Tables.Holds(desk.Piece);
                    if (act == 3) { Assert.False(figures.IsMakers); continue; }
                    if (to < 0 || to >= before.Length || to == from) { Assert.Same(piece, desk.Piece); continue; }
                    if (ReferenceEquals(piece, desk.Piece)) { Assert.Contains("border", said, StringComparison.Ordinal); continue; }
                    Assert.Equal(past + 1, desk.History.Past.Count());
                    var after = Now(desk).Select(f => f.FirstRun).ToList();
                    var wanted = before.Select(f => f.FirstRun).ToList();
                    wanted.RemoveAt(from);
                    wanted.Insert(to, before[from].FirstRun);
                    // a border is worked before what stands on it, so that alone may put it elsewhere
                    if (!before.Any(f => f.IsBorder)) Assert.Equal(wanted, after);
                    Assert.Equal(wanted.Order(), after.Order());
                    desk.Undo();
                    Assert.Equal(before.Select(f => f.FirstRun), Now(desk).Select(f => f.FirstRun));
                    desk.Redo();
                }
            }
            finally { desk.Said -= Hear; }
            void Hear(string words) => said = words;
        }, iter: 30, threads: 1);

    [Fact]
    public void The_steps_take_the_figures_up_as_they_are_listed()
    {
        foreach (var name in Several)
        {
            var desk = OnTable(name);
            var figures = new FigureOrder(desk);
            figures.First(figures.Count - 1);
            var order = Smocking.Plan(desk.Work);
            var listed = WorkedFigures.Of(order);
            var begun = listed.Select(f => order.Steps.First(s => s.Row == f.Begins.Row && order.Work.Runs[s.RunIndex].Contains(f.Begins.Valley)).Number).ToList();
            Assert.Equal(begun.Order(), begun);
        }
    }

    [Fact]
    public void No_more_are_named_than_need_be()
    {
        var desk = OnTable(Several[0]);
        var (figures, before) = (new FigureOrder(desk), desk.Piece);
        figures.First(figures.Count - 1);
        Assert.Single(desk.Piece.Working.Figures);
        figures.LetGo();
        Assert.Equal(PieceWriter.Write(before), PieceWriter.Write(desk.Piece));
    }

    [Fact]
    public void Each_is_told_by_its_name_its_pleats_and_the_row_it_begins_on()
    {
        var lines = new FigureOrder(OnTable("harbour-morning")).Lines;
        Assert.Equal("Band of cables, pleats 1 to 176, from row 5", lines[0]);
        Assert.Equal("Boat, pleats 23 to 46, from row 20", lines[2]);
        Assert.Equal(lines.Length, lines.Distinct().Count());
        Assert.Empty(new FigureOrder(Tables.Set(Tables.Empty).Desk).Lines);
    }
}
