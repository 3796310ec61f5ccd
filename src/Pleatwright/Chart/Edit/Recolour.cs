using Pleatwright.Thread;

namespace Pleatwright.Chart.Edit;

/// <summary>Works in one thread what was to be worked in another.</summary>
internal static class Recolour
{
    /// <summary>Everywhere on the piece: figures, bands and accents.</summary>
    /// <exception cref="ArgumentException">The piece has no thread <paramref name="to"/>.</exception>
    public static Piece Everywhere(Piece piece, ThreadKey from, ThreadKey to)
    {
        Known(piece, to);
        if (from == to) return piece;
        return piece with
        {
            Figures = [.. piece.Figures.Select(f => Change(f, from, to))],
            Bands = [.. piece.Bands.Select(b => b.Thread == from ? b with { Thread = to } : b)],
            Accents = [.. piece.Accents.Select(a => a.Thread == from ? a with { Thread = to } : a)],
        };
    }

    /// <summary>In one figure, and so in every copy of it.</summary>
    /// <exception cref="ArgumentException">The piece has no thread <paramref name="to"/> or no such figure.</exception>
    public static Piece InFigure(Piece piece, string figure, ThreadKey from, ThreadKey to)
    {
        Known(piece, to);
        var found = piece.Figure(figure) ?? throw new ArgumentException($"No figure is called “{figure}”.", nameof(figure));
        return from == to ? piece : piece.WithFigure(Change(found, from, to));
    }

    private static Figure Change(Figure figure, ThreadKey from, ThreadKey to) =>
        figure.WithRows([.. figure.Rows.Select(r => r.Replace(from.Letter, to.Letter))], figure.Halves);

    private static void Known(Piece piece, ThreadKey key)
    {
        if (piece.Thread(key) is null) throw new ArgumentException($"No thread has the letter '{key}'.", nameof(key));
    }
}
