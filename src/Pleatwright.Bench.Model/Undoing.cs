using Pleatwright.Bench.Model.Basket;
using Pleatwright.Bench.Model.Chair;

namespace Pleatwright.Bench.Model;

/// <summary>What “undo” and “redo” mean at a view: the stash's last edit, the chair's last tick, else the last edit of the piece.</summary>
public sealed class Undoing
{
    private readonly Desk desk;
    private readonly Workbasket basket;
    private readonly Ticking ticking;

    /// <summary>Of what lies on the table, in the stash and at the chair.</summary>
    public Undoing(Desk desk, Workbasket basket, Ticking ticking)
    {
        (this.desk, this.basket, this.ticking) = (desk, basket, ticking);
        desk.Changed += () => Changed?.Invoke();
        basket.Changed += () => Changed?.Invoke();
        ticking.Changed += () => Changed?.Invoke();
    }

    /// <summary>Raised when any of the below may have changed.</summary>
    public event Action? Changed;

    /// <summary>Whether anything can be undone at a view.</summary>
    public bool CanUndo(View at) => at == View.Stitch ? ticking.CanUndo : (OfStash(at) && basket.CanUndo) || desk.History.CanUndo;

    /// <summary>Whether anything can be redone at a view.</summary>
    public bool CanRedo(View at) => at == View.Stitch ? ticking.CanRedo : (OfStash(at) && basket.CanRedo) || desk.History.CanRedo;

    /// <summary>What would be undone, in a word or two; empty when nothing can be.</summary>
    public string Edit(View at) =>
        !CanUndo(at) ? "" : at == View.Stitch ? "a tick" : OfStash(at) && basket.CanUndo ? basket.Edit : desk.History.Now.Edit;

    /// <summary>Undoes the last of what is meant.</summary>
    public void Undo(View at)
    {
        if (at != View.Stitch) basket.UndoFrom(at);
        else if (ticking.CanUndo) ticking.Undo();
        else desk.Say("No stitch is ticked yet.");
    }

    /// <summary>Does again what was undone last.</summary>
    public void Redo(View at)
    {
        if (at != View.Stitch) basket.RedoFrom(at);
        else if (ticking.CanRedo) ticking.Redo();
        else desk.Say("Nothing to tick again.");
    }

    private bool OfStash(View at) => basket.IsMeantAt(at) && (basket.CanUndo || basket.CanRedo);
}
