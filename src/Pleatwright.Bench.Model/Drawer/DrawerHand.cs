using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;

namespace Pleatwright.Bench.Model.Drawer;

/// <summary>A figure of the piece on the table that has changed in the drawer since it was taken.</summary>
/// <param name="Figure">Its name in the piece.</param>
/// <param name="Kept">The figure as the drawer has it now.</param>
/// <param name="ChangedHere">Whether it was changed in the piece, too.</param>
public sealed record NewerFigure(string Figure, KeptFigure Kept, bool ChangedHere)
{
    /// <summary>What has happened, as sentences.</summary>
    public string Words => $"{Figure} has changed in your drawer since it was put here{(ChangedHere ? ", and it was changed here, too; taking the drawer's puts it in place of that. Undo brings it back" : "")}.";
}

/// <summary>
/// The drawer and the piece on the table: figures are put down from it and kept in it, and what has changed in it is offered, never forced.
/// </summary>
public sealed class DrawerHand
{
    private readonly Desk desk;
    private readonly Needle needle;
    private readonly HashSet<(string Id, string State)> later = []; // put off until the piece is opened again
    private KeptFigure? wanted;

    /// <summary>Between a table, its hand and a drawer.</summary>
    public DrawerHand(Desk desk, Needle needle, FigureKeeper drawer)
    {
        (this.desk, this.needle, Drawer) = (desk, needle, drawer);
        desk.Opened += OnOpened;
        desk.Changed += Look;
        drawer.Changed += Look;
        OnOpened();
    }

    /// <summary>The drawer.</summary>
    public FigureKeeper Drawer { get; }

    /// <summary>The figures of the piece that have changed in the drawer, those put off apart.</summary>
    public IReadOnlyList<NewerFigure> Newer { get; private set; } = [];

    /// <summary>Raised when <see cref="Newer"/> has changed.</summary>
    public event Action? Changed;

    /// <summary>
    /// Puts a figure of the drawer on the cloth where the hand is. Where a thread is in doubt, stitches cannot be worked there or the proof finds a fault more, that is shown first.
    /// </summary>
    public void PutDown(KeptFigure kept)
    {
        var coming = FigureComing.Down(desk, needle, kept);
        if (coming.AsksALook) needle.Ask(Question.Coming, coming);
        else coming.Do();
    }

    /// <summary>A figure chosen elsewhere, to be put down once the table is looked at.</summary>
    public void Want(KeptFigure kept) => wanted = kept;

    /// <summary>Puts down what was chosen elsewhere.</summary>
    public void PutDownWanted()
    {
        if (wanted is not { } kept) return;
        wanted = null;
        PutDown(kept);
    }

    /// <summary>What keeping a figure in the drawer would be: "Keep boat in your drawer", "Put boat back into your drawer"; empty where the drawer has it so.</summary>
    public string KeepWords(Figure figure) => Standing(figure) switch
    {
        null => $"Keep {figure.Name} in your drawer",
        var there when IsThere(figure, there) => "",
        _ => $"Put {figure.Name} back into your drawer",
    };

    /// <summary>
    /// Keeps a figure of the piece in the drawer: a new one there, or put back over the one it came from. Where the drawer has that one otherwise by now, nothing is done
    /// until the maker has said which stays.
    /// </summary>
    public async Task KeepAsync(string figure)
    {
        await Drawer.OpenAsync();
        desk.KeepDraft();
        if (desk.Piece.Figure(figure) is not { } found) return;
        if (Standing(found) is not { } there)
        {
            var taken = Chart.Edit.Drawer.Take(desk.Piece, figure);
            Keep(figure, found.From is null ? taken with { Figure = taken.Figure with { Name = Drawer.FreeName(taken.Name) } } : taken, found.From?.State);
            return;
        }
        var back = Chart.Edit.Drawer.Return(desk.Piece, figure, there);
        if (back.State == there.State) Note(figure, there, $"{there.Name} is in your drawer as it is here.");
        else if (found.From?.State == there.State) Keep(figure, back, there.State);
        else needle.Ask(Question.WhichStays, new DrawerDoubtHere(figure, new DrawerDoubt(back, there)));
    }

    /// <summary>Puts a figure of the piece in place of the drawer's, which stays among its earlier versions.</summary>
    public void PutInPlace(DrawerDoubtHere doubt) => Keep(doubt.Figure, doubt.Doubt.Mine, doubt.Doubt.Standing.State);

    /// <summary>Keeps a figure of the piece beside the drawer's, as another.</summary>
    public void KeepAsAnother(DrawerDoubtHere doubt) => Keep(doubt.Figure, Drawer.AsAnother(doubt.Doubt.Mine), null);

    /// <summary>What the drawer has of a figure of the piece, to be looked at with all it changes, and taken. Placements stay where they are.</summary>
    public FigureComing Coming(NewerFigure newer) => FigureComing.Instead(desk, newer);

    /// <summary>Keeps the piece's own; it is offered again when the drawer's changes once more.</summary>
    public void KeepMine(NewerFigure newer) => Note(newer.Figure, newer.Kept, $"{newer.Figure} stays as it is here.");

    /// <summary>Puts the offer off until the piece is opened again.</summary>
    public void Later(NewerFigure newer)
    {
        later.Add((newer.Kept.Id, newer.Kept.State));
        Look();
    }

    /// <summary>A figure of the piece as it is here, by itself.</summary>
    public KeptFigure Here(string figure) => Chart.Edit.Drawer.Take(desk.Piece, figure);

    /// <summary>Shows both, side by side, and what taking the drawer's would change.</summary>
    public void Compare(NewerFigure newer) => needle.Ask(Question.Newer, newer.Figure);

    private void Keep(string figure, KeptFigure kept, string? over)
    {
        Drawer.Put(kept, over);
        Note(figure, kept, $"{kept.Name} is {(over is null ? "in" : "back in")} your drawer.");
    }

    private void Note(string figure, KeptFigure kept, string words)
    {
        if (desk.Piece.Figure(figure) is not null) desk.Edit($"{figure} and the drawer", p => Chart.Edit.Drawer.Noted(p, figure, kept));
        desk.Say(words);
    }

    // The figure of the drawer that a figure of the piece is: the one it came from, else the very same.
    private KeptFigure? Standing(Figure figure) => figure.From is { } from ? Drawer.Find(from.Figure, from.State)
        : Drawer.IsSeen ? Drawer.Find(Chart.Edit.Drawer.Take(desk.Piece, figure.Name).Id) : null;

    private bool IsThere(Figure figure, KeptFigure there) =>
        figure.From is { } from && from.State == there.State && from.As == FigureMark.OfStitches(figure) && Chart.Edit.Drawer.Return(desk.Piece, figure.Name, there).State == there.State;

    // A piece that knows the drawer makes the bench look into it.
    private void OnOpened()
    {
        later.Clear();
        if (desk.Piece.Figures.Any(f => f.From is not null)) _ = Drawer.OpenAsync();
        Look();
    }

    private void Look()
    {
        var found = new List<NewerFigure>();
        foreach (var figure in desk.Piece.Figures)
            if (figure.From is { } from && Drawer.Find(from.Figure, from.State) is { } kept && kept.State != from.State && !later.Contains((kept.Id, kept.State))
                && Chart.Edit.Drawer.Return(desk.Piece, figure.Name, kept).State != kept.State) // it is so here, too
                found.Add(new NewerFigure(figure.Name, kept, from.As != FigureMark.OfStitches(figure)));
        if (found.SequenceEqual(Newer)) return;
        Newer = found;
        Changed?.Invoke();
    }
}

/// <summary>A figure of the piece that is to be kept, where the drawer has it in another state than it was taken in.</summary>
/// <param name="Figure">Its name in the piece.</param>
/// <param name="Doubt">Both states.</param>
public sealed record DrawerDoubtHere(string Figure, DrawerDoubt Doubt);
