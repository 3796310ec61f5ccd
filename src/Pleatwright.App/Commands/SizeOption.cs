using System.CommandLine;
using Pleatwright.Chart;

namespace Pleatwright.App.Commands;

/// <summary>Which of its sizes a piece is made in.</summary>
internal static class SizeOption
{
    public static Option<string?> Make() => new("--size") { Description = "One of the piece's sizes, by its name; else its own.", HelpName = "NAME" };

    /// <summary>The work in the size named, or as it is when none was.</summary>
    /// <exception cref="UsageException">The piece lists no such size, or its cloth cannot be made in it.</exception>
    public static Work In(Work work, string? name)
    {
        if (name is null) return work;
        var piece = work.Piece;
        var size = piece.Sizes.FirstOrDefault(s => s.Name == name) ?? throw new UsageException(
            $"the piece has no size “{name}”; it has {(piece.Sizes.IsEmpty ? "only its own" : string.Join(", ", piece.Sizes.Select(s => $"“{s.Name}”")))}.");
        try
        {
            return Smocking.Lay(SizeTable.In(piece, size));
        }
        catch (ArgumentException e)
        {
            throw UsageException.Of($"size “{name}”", e);
        }
    }
}
