using Pleatwright.Thread;

namespace Pleatwright.Picture;

/// <summary>Which part of a picture is background, to be left as bare pleats.</summary>
/// <param name="Kind">How it is found.</param>
/// <param name="Colour">Its colour; used when <paramref name="Kind"/> is <see cref="BackgroundKind.Colour"/>.</param>
public readonly record struct Background(BackgroundKind Kind, Colour Colour = default)
{
    /// <summary>
    /// How far a pixel may lie from the background's colour and still belong to it, in hundredths of the distance from
    /// black to white in Oklab, 0 to 100. Default 4 (our own choice).
    /// </summary>
    public double Tolerance { get; init; } = UsualTolerance;

    /// <summary>
    /// Whether places of this colour enclosed by the figure go too; otherwise only what can be reached from the
    /// picture's edges.
    /// </summary>
    public bool Enclosed { get; init; }

    /// <summary>The default tolerance.</summary>
    public const double UsualTolerance = 4;

    /// <summary>Nothing is background but what is transparent already.</summary>
    public static Background None => new(BackgroundKind.None);

    /// <summary>The colour that fills most of the picture's edge, if one does.</summary>
    public static Background Auto => new(BackgroundKind.Auto);

    /// <summary>A colour named by the maker.</summary>
    public static Background Of(Colour colour) => new(BackgroundKind.Colour, colour);
}

/// <summary>How the background is found.</summary>
public enum BackgroundKind
{
    /// <summary>Nothing but what is transparent already.</summary>
    None,

    /// <summary>The colour that at least two thirds of the picture's edge shows; none when no colour does.</summary>
    Auto,

    /// <summary>A colour given.</summary>
    Colour,
}
