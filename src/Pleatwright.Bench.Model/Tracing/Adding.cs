using Pleatwright.Chart.Edit;
using Pleatwright.Picture;
using Pleatwright.Proof;

namespace Pleatwright.Bench.Model.Tracing;

/// <summary>Adds a traced figure to the piece on the table.</summary>
public static class Adding
{
    /// <summary>
    /// Adds it where there is room. Where there is none, or where the proof would find errors that it does not find now, nothing is
    /// done until the maker has been asked.
    /// </summary>
    /// <param name="desk">The table.</param>
    /// <param name="traced">The figure.</param>
    /// <param name="anyway">Whether the maker was asked and said yes.</param>
    /// <returns>What to ask; null when it was added.</returns>
    /// <exception cref="ArgumentException">The piece would be past its caps.</exception>
    internal static string? To(Desk desk, TracedFigure traced, bool anyway)
    {
        desk.KeepDraft();
        var added = TracedPiece.Into(desk.Piece, traced);
        if (!anyway && Doubt(desk, added) is { } doubt) return doubt;
        desk.Edit("a traced figure", _ => added.Piece);
        desk.Say($"{added.Figure} is on the cloth. {BroughtWords.Of(added.Threads)}".TrimEnd());
        return null;
    }

    private static string? Doubt(Desk desk, AddedFigure added)
    {
        var more = Counts.Of(Smocking.Prove(Smocking.Lay(added.Piece))).Errors - Counts.Of(desk.Findings).Errors;
        var errors = more > 0 ? $"the proof would find {Words.Of(more, "error")} more" : "";
        if (added.IsFree) return errors.Length == 0 ? null : $"{added.Figure} would lie free, but {errors}.";
        var where = added.Over.IsEmpty ? "it would lie in the middle" : $"it would lie in the middle, over {string.Join(" and ", added.Over)}";
        return $"There is no room for {added.Figure} on {desk.Piece.Title}: {where}{(errors.Length > 0 ? $", and {errors}" : "")}.";
    }
}
