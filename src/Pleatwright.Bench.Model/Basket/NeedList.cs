using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Chart.Edit;
using Pleatwright.Measure;
using Pleatwright.Shelf;
using Pleatwright.Shopping;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Basket;

/// <summary>What the pieces ticked need of the stash, what is to be bought, what it costs.</summary>
public sealed class NeedList(Desk desk, Keeper keeper, Workbasket basket, TimeProvider time)
{
    private readonly Takers takers = new(desk, keeper, time);
    private readonly Dictionary<string, PieceNeeds> ticked = [];

    /// <summary>The other pieces on the shelf.</summary>
    public IReadOnlyList<ShelfEntry> Others { get; private set; } = [];

    /// <summary>Whether the piece on the table is ticked.</summary>
    public bool TableTicked { get; private set; } = true;

    /// <summary>The list; null when it cannot be made, and <see cref="Trouble"/> says why.</summary>
    public ShoppingList? List { get; private set; }

    /// <summary>Whether a piece is being planned.</summary>
    public bool IsBusy { get; private set; }

    /// <summary>Why something could not be done; empty when all is well.</summary>
    public string Trouble { get; private set; } = "";

    /// <summary>The units the maker thinks in.</summary>
    public UnitSystem Units => desk.Piece.Cloth.FabricWidth.Units();

    /// <summary>Looks for the other pieces on the shelf.</summary>
    public async Task LookAsync()
    {
        await keeper.SettleAsync();
        _ = desk.SettleAsync();
        var trouble = "";
        try { Others = [.. (await keeper.Shelf.ListAsync()).Pieces.Where(p => p.Name != keeper.Name?.ToString())]; }
        catch (ShelfException e) { trouble = e.Message; }
        Renew();
        if (trouble.Length > 0) Trouble = trouble;
    }

    /// <summary>Makes the list anew from the piece on the table, those ticked and the stash.</summary>
    public void Renew()
    {
        var pieces = new List<PieceNeeds>();
        if (TableTicked) pieces.Add(PieceNeeds.Of(desk.Order, OnTable));
        pieces.AddRange(Others.Where(o => ticked.ContainsKey(o.Name)).Select(o => ticked[o.Name]));
        try { (List, Trouble) = (ShoppingList.Of(pieces, basket.Stash), ""); }
        catch (ArgumentException e) { (List, Trouble) = (null, Sentences.Of(e.Why())); }
    }

    public void TickTable(bool on)
    {
        TableTicked = on;
        Renew();
    }

    public bool IsTicked(ShelfEntry entry) => ticked.ContainsKey(entry.Name);

    /// <summary>Ticks a piece of the shelf; it is planned first, which may take a moment.</summary>
    public async Task TickAsync(ShelfEntry entry, bool on)
    {
        if (!on) ticked.Remove(entry.Name);
        else
        {
            IsBusy = true;
            try { ticked[entry.Name] = (await takers.NeedsAsync(entry)).Called(NameOf(entry)); }
            catch (ShelfException e)
            {
                Trouble = e.Message;
                return;
            }
            finally { IsBusy = false; }
        }
        Renew();
    }

    /// <summary>What a piece is called here: two of one title are told apart by the names of their files.</summary>
    public string NameOf(ShelfEntry entry) =>
        entry.Title == OnTable || Others.Count(o => o.Title == entry.Title) > 1 ? $"{entry.Title} ({entry.Name})" : entry.Title;

    /// <summary>Whether another thread may take the place of this one in the piece on the table.</summary>
    public bool MayTakeInstead(ThreadLine line) => KeysOnTable(line).Any();

    /// <summary>Works the piece on the table in a thread of the stash instead.</summary>
    /// <returns>What was done, for the maker.</returns>
    public string TakeInstead(ThreadLine line, StashThread thread)
    {
        var needleful = desk.Piece.Working.WorkingLength;
        var keys = KeysOnTable(line).ToArray();
        if (keys.Any(key => Cutting.LengthsPerSkein(thread.InPlaceOf(desk.Piece.Thread(key)!), needleful) < 1))
            return $"A skein of {thread.Name} is shorter than a needleful of {Words.Of(needleful)}; nothing was changed.";
        desk.Edit($"{thread.Name} instead", piece => keys.Aggregate(piece, (p, key) => Threads.Change(p, key, thread.InPlaceOf(p.Thread(key)!))));
        return $"{OnTable} is now worked in {thread.Name} instead of {line.Pool.Name}. Undo puts it back.";
    }

    /// <summary>Puts what was to buy in the stash.</summary>
    public string Bought() =>
        List is { } list && basket.Do("what was bought", list.Bought) ? "What was to buy is in the stash now." : "The stash cannot be changed just now; nothing was put in.";

    /// <summary>Takes what the pieces need off the stash.</summary>
    public string Worked() =>
        List is { } list && basket.Do("what was used", list.Worked) ? "What the pieces take is off the stash." : "The stash cannot be changed just now; nothing was taken off.";

    /// <summary>Whether nothing is to buy.</summary>
    public bool HasAll => List is { SkeinsToBuy: 0 } list && list.ClothToBuy == Length.Zero;

    /// <summary>How much is to buy, in words: skeins, then cloth.</summary>
    public (string Skeins, string Cloth) ToBuy => List is not { } list ? ("", "")
        : (list.SkeinsToBuy == 0 ? "No skein" : Words.Of(list.SkeinsToBuy, "skein"), list.ClothToBuy == Length.Zero ? "no cloth" : Pleatwright.Cloth.ClothToBuy.Say(list.ClothToBuy, Units) + " of cloth");

    /// <summary>Hours and cost, label and words.</summary>
    public IEnumerable<(string Label, string Words)> Cost => List is not { } list ? []
        : ShoppingWords.Of(Reckoning.Of(list, basket.Stash.Rates, basket.Stash.Pace), basket.Stash.Rates, basket.Stash.Pace).Select(l => (l.Label, l.Words));

    /// <summary>The list as text, to be taken along.</summary>
    public byte[] Text => List is not { } list ? [] : System.Text.Encoding.UTF8.GetBytes(
        string.Join("\r\n", ShoppingWords.Lines(list, Reckoning.Of(list, basket.Stash.Rates, basket.Stash.Pace), basket.Stash, Units, instead: true)) + "\r\n");

    private string OnTable => desk.Piece.Title;

    private IEnumerable<ThreadKey> KeysOnTable(ThreadLine line) =>
        TableTicked ? line.Pool.Needs.Where(n => !n.IsBack && n.Piece == OnTable).Select(n => n.Thread.Key).Where(k => desk.Piece.Thread(k) is not null) : [];
}
