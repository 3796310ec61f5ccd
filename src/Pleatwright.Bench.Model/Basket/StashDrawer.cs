using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Shopping;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Basket;

/// <summary>In which order the threads of the stash are listed.</summary>
public enum StashOrder { AsPutIn, ByName, ByColour }

/// <summary>The stash as it is listed and changed.</summary>
public sealed class StashDrawer(Desk desk, Workbasket basket)
{
    private const int Few = 10; // seen at a glance

    private static readonly Floss Blank = new(new ThreadKey('a'), "", default, Floss.DefaultStrands);

    /// <summary>What is looked for in names and notes.</summary>
    public string Find { get; set; } = "";

    /// <summary>In which order the threads are listed.</summary>
    public StashOrder Order { get; set; }

    /// <summary>What was last done, for the maker; empty when nothing was.</summary>
    public string Note { get; set; } = "";

    /// <summary>Whether there are so many threads that one looks for them.</summary>
    public bool MayFind => basket.Stash.Threads.Length > Few;

    /// <summary>Which of the threads are listed, in which order.</summary>
    public IEnumerable<int> Threads
    {
        get
        {
            var threads = basket.Stash.Threads;
            var shown = Enumerable.Range(0, threads.Length);
            if (!MayFind) return shown;
            if (Find.Trim() is { Length: > 0 } words)
                shown = shown.Where(t => threads[t].Name.Contains(words, StringComparison.OrdinalIgnoreCase) || threads[t].Note.Contains(words, StringComparison.OrdinalIgnoreCase));
            return Order switch
            {
                StashOrder.ByName => shown.OrderBy(t => threads[t].Name, StringComparer.OrdinalIgnoreCase),
                StashOrder.ByColour => ColourOrder.Of(threads, shown),
                _ => shown,
            };
        }
    }

    /// <summary>A thread of the stash as it would be in a piece, to be drawn.</summary>
    public static Floss Drawn(StashThread thread) => thread.InPlaceOf(Blank);

    /// <summary>A thread to be asked about: one of the stash, or a new one.</summary>
    public StashThread Thread(int? at) => at is { } i ? basket.Stash.Threads[i] : new StashThread("", Colour.Parse("#8c2f39"), 1);

    /// <summary>A cloth to be asked about: one of the stash, or a new one like that of the piece.</summary>
    public StashCloth Cloth(int? at) => at is { } i ? basket.Stash.Cloths[i] : new StashCloth("", desk.Piece.Cloth.Colour, desk.Piece.Cloth.FabricWidth, Length.FromMetres(1));

    /// <summary>A thread needed, as it would be put in the stash.</summary>
    public static StashThread Needed(ThreadLine line)
    {
        var floss = line.Pool.Thread;
        var name = line.Pool.Needs.FirstOrDefault(n => !n.IsBack)?.Name ?? ColourWords.For(floss.Colour);
        return new StashThread(name, floss.Colour, 1) { SkeinLength = floss.SkeinLength, StrandsInSkein = floss.StrandsInSkein, TexPerStrand = floss.TexPerStrand };
    }

    /// <summary>Keeps a thread in its place, or as one more.</summary>
    public void Keep(int? at, StashThread thread) => basket.Do(at is null ? $"{thread.Name} added" : $"{thread.Name} changed",
        s => s with { Threads = at is { } i && i < s.Threads.Length ? s.Threads.SetItem(i, thread) : s.Threads.Add(thread) });

    /// <summary>Keeps a cloth in its place, or as one more.</summary>
    public void Keep(int? at, StashCloth cloth) => basket.Do(at is null ? $"{cloth.Name} added" : $"{cloth.Name} changed",
        s => s with { Cloths = at is { } i && i < s.Cloths.Length ? s.Cloths.SetItem(i, cloth) : s.Cloths.Add(cloth) });

    public void Keep(Rates rates, Pace pace) => basket.Do("rates and pace", s => s with { Rates = rates, Pace = pace });

    /// <summary>Changes how much is left of a thread; what is no amount changes nothing.</summary>
    public void SetSkeins(int at, string? text)
    {
        if (double.TryParse(text, System.Globalization.CultureInfo.InvariantCulture, out var skeins) && skeins is >= 0 and <= StashThread.MostSkeins)
            basket.Do($"skeins of {basket.Stash.Threads[at].Name}", s => s with { Threads = s.Threads.SetItem(at, s.Threads[at] with { Skeins = skeins }) });
    }

    public void RemoveThread(int at) => Gone(basket.Stash.Threads[at].Name, s => s with { Threads = s.Threads.RemoveAt(at) });

    public void RemoveCloth(int at) => Gone(basket.Stash.Cloths[at].Name, s => s with { Cloths = s.Cloths.RemoveAt(at) });

    /// <summary>Brings in a list or a stash file; what cannot be read changes nothing, and is told.</summary>
    public void BringIn(string fileName, byte[] content)
    {
        StashList coming;
        try { coming = Read(fileName, content); }
        catch (PieceFormatException fault) { Note = $"Nothing was brought in. {fault.Located(fileName)}"; return; }
        var with = basket.Stash.With(coming.Threads, coming.Cloths);
        if (with.Threads.Length > Stash.MostOfAKind || with.Cloths.Length > Stash.MostOfAKind)
        {
            Note = $"Together that is more than {Words.Of(Stash.MostOfAKind)} threads or cloths; nothing was brought in.";
            return;
        }
        var added = with.Threads.Length + with.Cloths.Length - basket.Stash.Threads.Length - basket.Stash.Cloths.Length;
        var lines = coming.Threads.Length + coming.Cloths.Length;
        if (!basket.Do("a list brought in", _ => with)) { Note = "The stash has not been read; nothing was brought in."; return; }
        Note = $"{Words.Of(lines, "line")} brought in: {Words.Of(added)} new{(added < lines ? $", {Words.Of(lines - added)} in place of those of the same name" : "")}.";
    }

    private static StashList Read(string fileName, byte[] content) => fileName.EndsWith(".json", StringComparison.OrdinalIgnoreCase)
        ? StashReader.Read(content) is var read ? new StashList(read.Threads, read.Cloths) : null!
        : StashCsv.Read(content);

    private void Gone(string name, Func<Stash, Stash> change)
    {
        if (basket.Do($"{name} taken out", change)) desk.Say($"{name} was taken out; undo puts it back.");
    }
}
