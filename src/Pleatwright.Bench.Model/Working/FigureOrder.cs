using System.Collections.Immutable;
using Pleatwright.Order;

namespace Pleatwright.Bench.Model.Working;

/// <summary>Borders and figures in the order they are worked, and the maker's say in it. Each change is one edit.</summary>
public sealed class FigureOrder(Desk desk)
{
    /// <summary>How many are listed at once. Our own choice: more copies than anybody orders one by one.</summary>
    public const int MostListed = 60;

    private ImmutableArray<WorkedFigure> figures = [];
    private WorkingOrder? of;

    /// <summary>What is worked first, second and so on, in words; the first <see cref="MostListed"/>.</summary>
    public ImmutableArray<string> Lines => [.. Figures.Take(MostListed).Select(WorkedFigures.Say)];

    /// <summary>How many there are.</summary>
    public int Count => Figures.Length;

    /// <summary>Whether the maker has had a say.</summary>
    public bool IsMakers => !desk.Piece.Working.Figures.IsEmpty;

    /// <summary>How they are ordered, in a few words.</summary>
    public string Title => IsMakers ? "in your own order" : "borders, then the sides, the middle last";

    /// <summary>What is not listed, as a sentence; empty when all is.</summary>
    public string Unlisted => Count > MostListed ? $"{Words.Of(Count - MostListed)} more follow." : "";

    /// <summary>What working one of them earlier is called.</summary>
    public static string EarlierWords(string line) => $"Earlier: {line}";

    /// <summary>What working one of them later is called.</summary>
    public static string LaterWords(string line) => $"Later: {line}";

    /// <summary>What working one of them first is called.</summary>
    public static string FirstWords(string line) => $"First of all: {line}";

    /// <summary>Works one of them earlier by one place.</summary>
    public void Earlier(int at) => Move(at, at - 1);

    /// <summary>Works one of them later by one place.</summary>
    public void Later(int at) => Move(at, at + 1);

    /// <summary>Works one of them first of all.</summary>
    public void First(int at) => Move(at, 0);

    /// <summary>Leaves the order to the program.</summary>
    public void LetGo()
    {
        if (IsMakers) desk.Edit("figures in the usual order", p => p with { Working = p.Working with { Figures = [] } });
    }

    private ImmutableArray<WorkedFigure> Figures
    {
        get
        {
            if (ReferenceEquals(of, desk.Order)) return figures;
            of = desk.Order;
            return figures = WorkedFigures.Of(of);
        }
    }

    private void Move(int from, int to)
    {
        if (from < 0 || from >= Count || to < 0 || to >= Count) return;
        var moved = WorkedFigures.Move(desk.Order, from, to);
        if (ReferenceEquals(moved, desk.Piece)) desk.Say("It stays there: a border is worked before what stands on it.");
        else desk.Edit("figures in another order", _ => moved);
    }
}
