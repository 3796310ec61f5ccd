using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>Whether the shelf answers: told by every call to it, whoever makes it.</summary>
public sealed class Reach
{
    /// <summary>Whether it answered when it was last asked.</summary>
    public bool Answers { get; private set; } = true;

    /// <summary>Raised when it answers again.</summary>
    public event Action? Back;

    /// <summary>Passes a call on and notes whether it was answered; a refusal is an answer.</summary>
    public async Task<T> Of<T>(Task<T> call)
    {
        try
        {
            var answer = await call;
            Heard(true);
            return answer;
        }
        catch (ShelfException e)
        {
            Heard(e.Trouble != ShelfTrouble.Unavailable);
            throw;
        }
    }

    private void Heard(bool answer)
    {
        var back = answer && !Answers;
        Answers = answer;
        if (back) Back?.Invoke();
    }
}

/// <summary>A shelf whose answers are listened to.</summary>
/// <param name="shelf">The shelf.</param>
/// <param name="reach">What listens.</param>
public class HeardTexts(ITextShelf shelf, Reach reach) : ITextShelf
{
    /// <inheritdoc/>
    public bool InBrowserOnly => shelf.InBrowserOnly;

    /// <inheritdoc/>
    public Task<ShelfContents> ListAsync(CancellationToken cancel = default) => reach.Of(shelf.ListAsync(cancel));

    /// <inheritdoc/>
    public Task<StoredPiece> LoadAsync(PieceName name, CancellationToken cancel = default) => reach.Of(shelf.LoadAsync(name, cancel));

    /// <inheritdoc/>
    public Task<StoredPiece> CreateAsync(PieceName wanted, byte[] text, CancellationToken cancel = default) => reach.Of(shelf.CreateAsync(wanted, text, cancel));

    /// <inheritdoc/>
    public Task<Edition> SaveAsync(PieceName name, byte[] text, Edition over, SaveKind kind, CancellationToken cancel = default) =>
        reach.Of(shelf.SaveAsync(name, text, over, kind, cancel));

    /// <inheritdoc/>
    public Task RenameAsync(PieceName name, PieceName to, CancellationToken cancel = default) => reach.Of(Done(shelf.RenameAsync(name, to, cancel)));

    /// <inheritdoc/>
    public Task DeleteAsync(PieceName name, CancellationToken cancel = default) => reach.Of(Done(shelf.DeleteAsync(name, cancel)));

    /// <inheritdoc/>
    public Task<PieceName> UndoDeleteAsync(PieceName name, CancellationToken cancel = default) => reach.Of(shelf.UndoDeleteAsync(name, cancel));

    /// <inheritdoc/>
    public Task<IReadOnlyList<PieceVersion>> VersionsAsync(PieceName name, CancellationToken cancel = default) => reach.Of(shelf.VersionsAsync(name, cancel));

    /// <inheritdoc/>
    public Task<byte[]> LoadVersionAsync(PieceName name, int number, CancellationToken cancel = default) => reach.Of(shelf.LoadVersionAsync(name, number, cancel));

    /// <inheritdoc/>
    public Task<Edition> RestoreAsync(PieceName name, int number, CancellationToken cancel = default) => reach.Of(shelf.RestoreAsync(name, number, cancel));

    private static async Task<bool> Done(Task call)
    {
        await call;
        return true;
    }
}

/// <summary>A shelf of pieces whose answers are listened to.</summary>
/// <inheritdoc cref="HeardTexts" path="/param"/>
public sealed class HeardShelf(IShelf shelf, Reach reach) : HeardTexts(shelf, reach), IShelf
{
    private readonly Reach hears = reach;
    private readonly IShelf pieces = shelf;

    /// <inheritdoc/>
    public Task<StoredPlace?> LoadPlaceAsync(PieceName name, CancellationToken cancel = default) => hears.Of(pieces.LoadPlaceAsync(name, cancel));

    /// <inheritdoc/>
    public Task<Edition> SavePlaceAsync(PieceName name, byte[] text, Edition? over, CancellationToken cancel = default) => hears.Of(pieces.SavePlaceAsync(name, text, over, cancel));

    /// <inheritdoc/>
    public Task<PieceName> DuplicateAsync(PieceName name, CancellationToken cancel = default) => hears.Of(pieces.DuplicateAsync(name, cancel));
}
