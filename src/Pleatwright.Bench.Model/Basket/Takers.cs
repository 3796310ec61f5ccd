using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Shelf;
using Pleatwright.Shopping;

namespace Pleatwright.Bench.Model.Basket;

/// <summary>The pieces a list may be made for, and what each needs; worked out once for each edition.</summary>
public sealed class Takers(Desk desk, Keeper keeper, TimeProvider time)
{
    private readonly Dictionary<Edition, PieceNeeds> known = [];

    /// <summary>What a piece on the shelf needs.</summary>
    /// <exception cref="ShelfException">It cannot be read or laid out; the message says why.</exception>
    public async Task<PieceNeeds> NeedsAsync(ShelfEntry entry)
    {
        if (entry.Edition is { } edition && known.TryGetValue(edition, out var needs)) return needs;
        var name = PieceName.Parse(entry.Name);
        var stored = await keeper.Shelf.LoadAsync(name);
        try
        {
            var work = Smocking.Lay(Smocking.Read(stored.Text));
            await Task.Delay(TimeSpan.FromMilliseconds(1), time); // the page has a breath before the order is planned
            return known[stored.Edition] = PieceNeeds.Of(await desk.PlanAsync(work));
        }
        catch (PieceFormatException e)
        {
            throw new ShelfException(ShelfTrouble.Unreadable, $"“{name}” cannot be read: {e.Located(name.FileName)}", e);
        }
        catch (ArgumentException e)
        {
            throw new ShelfException(ShelfTrouble.Unreadable, $"“{name}” is too large to lay out: {e.Why()}.", e);
        }
    }
}
