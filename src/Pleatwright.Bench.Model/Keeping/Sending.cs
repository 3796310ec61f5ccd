using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>
/// Brings a piece to the shelf over the edition it came from. An answer that was lost after the write is made up for: what stands there
/// is compared with what was sent from here, so that nobody is blamed for our own edit and no twin is made.
/// </summary>
public sealed class Sending(IShelf shelf, Journals journals)
{
    /// <summary>Sends a text.</summary>
    /// <param name="key">Whose it is.</param>
    /// <param name="standing">How it stands with the shelf.</param>
    /// <param name="text">The text.</param>
    /// <param name="title">Its title, for the name of a piece that is on no shelf yet.</param>
    /// <param name="kind">Who saves.</param>
    /// <param name="note">Notes in this browser what is being sent, before it is.</param>
    /// <returns>The key under which it stands on the shelf, and how.</returns>
    /// <exception cref="ShelfException">It could not be sent; on Conflict and NotFound they have parted.</exception>
    public async Task<(PieceKey Key, Standing Standing)> SendAsync(PieceKey key, Standing standing, byte[] text, string title, SaveKind kind, Func<Standing, Task> note)
    {
        var doubted = standing.InDoubt;
        if (doubted) (key, standing) = await AskAsync(key, standing);
        while (true)
        {
            try
            {
                await note(standing.Sending(Edition.Of(text)));
                if (key.Name is { } name) return (key, standing.At(await shelf.SaveAsync(name, text, standing.Base, kind)));
                var made = await shelf.CreateAsync(PieceName.Nearest(title), text);
                return (PieceKey.Of(key.Place, made.Name), new Standing(made.Edition) { Was = key.Piece });
            }
            catch (ShelfException e) when (doubted && e.Trouble is ShelfTrouble.Conflict or ShelfTrouble.NotFound)
            {
                // What was sent before may have come late.
                var (was, over) = (key, standing.Base);
                (key, standing) = await AskAsync(key, standing);
                if (key == was && standing.Base == over) throw;
            }
        }
    }

    /// <summary>Asks the shelf what became of what was sent from here.</summary>
    /// <exception cref="ShelfException">The shelf does not answer.</exception>
    public async Task<(PieceKey Key, Standing Standing)> AskAsync(PieceKey key, Standing standing)
    {
        if (key.Name is not { } name) return await AskForNewAsync(key, standing);
        if (await StandsAsync(name) is { } there) return (key, standing.IsOurs(there) ? standing with { Base = there } : standing);
        if (standing.To is not { } to || await StandsAsync(to) is not { } renamed || !standing.IsOurs(renamed)) return (key, standing);
        return (PieceKey.Of(key.Place, to), standing.At(renamed));
    }

    private async Task<(PieceKey Key, Standing Standing)> AskForNewAsync(PieceKey key, Standing standing)
    {
        foreach (var entry in (await shelf.ListAsync()).Pieces)
        {
            if (entry.Edition is not { } there || !standing.Sent.Contains(there) || !PieceName.TryParse(entry.Name, out var name, out _)) continue;
            var ours = PieceKey.Of(key.Place, name);
            if (await journals.LoadAsync(ours) is { } known && known.Standing.Base == there && known.Standing.Was != key.Piece) continue; // another of ours, just like it
            return (ours, new Standing(there) { Was = key.Piece });
        }
        return (key, standing);
    }

    private async Task<Edition?> StandsAsync(PieceName name)
    {
        try { return (await shelf.LoadAsync(name)).Edition; }
        catch (ShelfException e) when (e.Trouble == ShelfTrouble.NotFound) { return null; }
    }
}
