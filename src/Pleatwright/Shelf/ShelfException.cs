namespace Pleatwright.Shelf;

/// <summary>What kind of trouble a shelf met.</summary>
public enum ShelfTrouble
{
    /// <summary>No such piece or version.</summary>
    NotFound,

    /// <summary>The piece was changed by another bench or program since it was read; the copy sent was kept as a version.</summary>
    Conflict,

    /// <summary>Another piece has that name.</summary>
    Taken,

    /// <summary>The name cannot be used.</summary>
    BadName,

    /// <summary>The text is no piece file.</summary>
    Unreadable,

    /// <summary>There is no room left.</summary>
    Full,

    /// <summary>The shelf cannot be written.</summary>
    ReadOnly,

    /// <summary>Another bench is writing just now.</summary>
    Busy,

    /// <summary>The shelf cannot be reached at all.</summary>
    Unavailable,
}

/// <summary>A shelf could not do what was asked. Its message is for the maker: what happened, what was kept, what to do.</summary>
public class ShelfException(ShelfTrouble trouble, string message, Exception? inner = null) : Exception(message, inner)
{
    /// <summary>The kind of trouble.</summary>
    public ShelfTrouble Trouble { get; } = trouble;
}
