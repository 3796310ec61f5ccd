using System.Collections.Immutable;

namespace Pleatwright.Bench.Model.Printing;

/// <summary>
/// The print that is chosen, as its pages come, and what is taken away of it. Every change of the piece or of what is chosen begins it anew and stops the last;
/// the maker may stop it, too, and nothing of it is left then.
/// </summary>
public sealed class Press
{
    private static readonly TimeSpan Soon = TimeSpan.FromMilliseconds(30); // the page shows that it is at work

    private readonly Desk desk;
    private readonly PrintChoice choice;
    private readonly IPressRoom room;
    private readonly TimeProvider time;
    private readonly Chore making, painting, taking;
    private PrintedPage?[] pages = [];
    private int laid;
    private ImmutableArray<LackingPicture> lacking = [];
    private int painted; // of what is lacking
    private Task underBrush = Task.CompletedTask;
    private PrintAsk? made;
    private (string Name, string Address)? written;

    /// <summary>Prints what lies on a table, where there is room for it.</summary>
    public Press(Desk desk, PrintChoice choice, IPressRoom room, TimeProvider time)
    {
        (this.desk, this.choice, this.room, this.time) = (desk, choice, room, time);
        (making, painting, taking) = (new(Tell), new(Tell), new(Tell));
    }

    /// <summary>The pages shown: those of the last print stay until there are others.</summary>
    public IEnumerable<PrintedPage> Pages => pages.OfType<PrintedPage>();

    /// <summary>How many pages the print has; 0 while that is not known.</summary>
    public int Of { get; private set; }

    /// <summary>Whether it is being laid out.</summary>
    public bool IsLaying => making.IsUnderWay;

    /// <summary>Whether there is anything to stop.</summary>
    public bool CanStop => making.IsUnderWay || taking.IsUnderWay;

    /// <summary>Whether the maker stopped it before it was laid out.</summary>
    public bool WasStopped => making.WasStopped;

    /// <summary>Whether it can be taken away now.</summary>
    public bool CanTake => made is not null && !taking.IsUnderWay;

    /// <summary>What is done now; empty when nothing is.</summary>
    public string Doing { get; private set; } = "";

    /// <summary>How much of that is done, 0 to 1; null where that cannot be told.</summary>
    public double? Share => !IsLaying ? null : Of > 0 ? (double)laid / Of : desk.Sought;

    /// <summary>Why there is no print, as a sentence; empty when there is one or will be.</summary>
    public string Trouble { get; private set; } = "";

    /// <summary>What is said of what is taken away.</summary>
    public string Note { get; private set; } = "";

    /// <summary>The name of a file that waits to be handed over; null when none does.</summary>
    public string? Waiting => written?.Name;

    /// <summary>Raised when any of this has changed.</summary>
    public event Action? Changed;

    /// <summary>Begins it anew.</summary>
    /// <param name="patience">How long what is chosen must rest, for a number may still be on its way.</param>
    public void Begin(TimeSpan? patience = null)
    {
        LeaveAll();
        Trouble = "";
        _ = making.BeginAsync(cancel => MakeAsync(patience ?? Soon, cancel));
    }

    /// <summary>Stops what is laid out or written.</summary>
    /// <returns>Whether there was anything to stop.</returns>
    public bool Stop()
    {
        if (taking.Stop())
        {
            painting.Leave();
            (Doing, Note) = ("", "Stopped.");
            Tell();
            return true;
        }
        if (!making.IsUnderWay) return false;
        Clear();
        Doing = "";
        return making.Stop();
    }

    /// <summary>Lets it go, for nobody looks at it any more.</summary>
    public void Leave()
    {
        LeaveAll();
        Clear();
    }

    /// <summary>Takes it away in a format; where the press that asked for it is too long ago by then, it waits for another.</summary>
    public void Take(PrintFormat format)
    {
        if (!CanTake) return;
        _ = taking.BeginAsync(cancel => TakeAsync(made!, format, cancel));
    }

    /// <summary>Hands over the file that waits.</summary>
    public void HandOver()
    {
        if (written is not { } file) return;
        room.Save(file.Address, file.Name);
        Note = $"{file.Name} was handed to the browser.";
        written = null;
        Tell();
    }

    private async Task MakeAsync(TimeSpan patience, CancellationToken cancel)
    {
        (Doing, Of, laid) = ("Laying the pages out…", 0, 0);
        Tell();
        await Task.Delay(patience, time, cancel);
        desk.Seeking += Tell;
        PrintAsk? ask;
        string fault;
        try { (ask, fault) = await PrintAsk.OfAsync(desk, choice, cancel); }
        finally { desk.Seeking -= Tell; }
        cancel.ThrowIfCancellationRequested();
        var pictures = ImmutableArray<LackingPicture>.Empty;
        if (ask is not null) (pictures, fault) = await room.MakeAsync(ask.Write(), page => Show(page, cancel), cancel);
        cancel.ThrowIfCancellationRequested();
        Doing = "";
        if (fault.Length > 0)
        {
            Clear();
            Trouble = fault;
            return;
        }
        (made, lacking, painted) = (ask, pictures, 0);
        Paint();
    }

    // The pictures of the stitched piece are painted beside all else while the drawn ones stand in their place; each page is shown anew when it has its own.
    private void Paint() => underBrush = painting.BeginAsync(async cancel =>
    {
        for (; painted < lacking.Length; painted++)
        {
            var jpeg = await room.PaintAsync(lacking[painted], cancel);
            cancel.ThrowIfCancellationRequested();
            if (jpeg is null) continue;
            await room.GiveAsync(painted, jpeg, page => Show(page, cancel), cancel);
            cancel.ThrowIfCancellationRequested();
        }
    });

    private async Task TakeAsync(PrintAsk ask, PrintFormat format, CancellationToken cancel)
    {
        LetWrittenGo();
        if (painted < lacking.Length)
        {
            Say("Painting the pictures…");
            if (!painting.IsUnderWay) Paint(); // it was stopped
            await underBrush.WaitAsync(cancel);
        }
        Say("Writing…");
        var (address, fault) = await room.WriteAsync(format.Ending, format.MediaType, cancel);
        if (cancel.IsCancellationRequested)
        {
            if (address.Length > 0) room.LetGo(address);
            cancel.ThrowIfCancellationRequested();
        }
        Say(fault.Length > 0 ? fault : "It is ready.");
        Doing = "";
        if (fault.Length > 0) return;
        written = (ask.FileName(format), address);
        if (room.MaySave()) HandOver();

        void Say(string words)
        {
            Doing = Note = words;
            Tell();
        }
    }

    // Pages of a print that was stopped are none.
    private void Show(PrintedPage page, CancellationToken cancel)
    {
        if (cancel.IsCancellationRequested)
        {
            room.LetGo(page.Address);
            return;
        }
        if (Of == 0)
        {
            Clear();
            (Of, pages) = (page.Of, new PrintedPage?[page.Of]);
        }
        if (pages[page.Number - 1] is { } before) room.LetGo(before.Address);
        else laid++;
        pages[page.Number - 1] = page;
        Tell();
    }

    private void LeaveAll()
    {
        taking.Leave();
        painting.Leave();
        making.Leave();
        LetWrittenGo();
        (made, lacking, painted, Doing, Note) = (null, [], 0, "", "");
    }

    private void Clear()
    {
        foreach (var page in Pages) room.LetGo(page.Address);
        (pages, Of, laid) = ([], 0, 0);
    }

    private void LetWrittenGo()
    {
        if (written is { } file) room.LetGo(file.Address);
        written = null;
    }

    private void Tell() => Changed?.Invoke();
}
