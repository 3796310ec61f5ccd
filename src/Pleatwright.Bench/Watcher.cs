using Microsoft.AspNetCore.Components;
using Pleatwright.Bench.Model;
using Pleatwright.Bench.Model.Table;

namespace Pleatwright.Bench;

/// <summary>A part of the page that is rendered again only when what it shows has changed.</summary>
public abstract class Watcher : ComponentBase, IDisposable
{
    private object? shown;

    [Inject] protected Desk Desk { get; set; } = null!;

    [Inject] protected Needle Needle { get; set; } = null!;

    /// <summary>All that is shown, as one value to compare.</summary>
    protected abstract object Shown { get; }

    /// <summary>Whether it also shows something of the hand.</summary>
    protected virtual bool WatchesHand => true;

    /// <summary>Whether it shows something of the order or the amounts, which come a moment after the rest.</summary>
    protected virtual bool WatchesOrder => false;

    protected override void OnInitialized()
    {
        shown = Shown;
        if (WatchesOrder) Desk.Ordered += Watch;
        else Desk.Changed += Watch;
        if (WatchesHand) Needle.Changed += Watch;
    }

    private void Watch()
    {
        var now = Shown;
        if (now.Equals(shown)) return;
        shown = now;
        StateHasChanged();
    }

    public virtual void Dispose()
    {
        Desk.Changed -= Watch;
        Desk.Ordered -= Watch;
        Needle.Changed -= Watch;
        GC.SuppressFinalize(this);
    }
}
