using System.CommandLine;
using Pleatwright.Shopping;

namespace Pleatwright.App.Commands;

/// <summary><c>pleatwright shop PIECE...</c>: what to buy for one or more pieces, what it costs, how long it takes.</summary>
internal static class ShopCommand
{
    public static Command Make()
    {
        var pieces = CommandLine.FileArguments("piece", "Piece files (*.piece.json), or plates that carry their pieces.");
        var stash = new Option<string?>("--stash") { Description = "What you have, and your rates and pace; without it everything is bought.", HelpName = "FILE" };
        var json = CommandLine.JsonOption();
        var units = WorkOptions.Units();
        var command = new Command("shop", "What to buy for one or more pieces, what it costs, how long it takes.") { pieces, stash, json, units };
        command.SetAction(async (parsed, cancel) =>
        {
            var had = parsed.GetValue(stash) is { } file ? StashFile.Read(file) : Stash.Empty;
            var list = ListOf(await LongWork.Do(cancel, telling => Needs(parsed, parsed.GetValue(pieces)!, telling, cancel)), had);
            var reckoning = Reckoning.Of(list, had.Rates, had.Pace);
            if (parsed.GetValue(json)) CommandLine.PrintJson(ShoppingReport.Of(list, reckoning, had));
            else CommandLine.Print(ShoppingWords.Lines(list, reckoning, had, units.Read(parsed), instead: false));
            return CommandLine.Done;
        });
        return command;
    }

    /// <summary>Reads pieces and plans their orders, to count what they need.</summary>
    /// <exception cref="UsageException">One cannot be read.</exception>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static List<PieceNeeds> Needs(ParseResult parsed, IReadOnlyList<string> paths, Telling telling, CancellationToken cancel)
    {
        var works = paths.Select(p => PieceFile.Lay(parsed, p)).ToList(); // a file that cannot be read is told before long work
        var needs = new List<PieceNeeds>();
        foreach (var (i, work) in works.Index())
        {
            var order = LongWork.Plan(work, telling, cancel, $"planning piece {i + 1} of {works.Count}");
            // Two pieces of one title are told apart by their number.
            var name = work.Piece.Title;
            for (var number = 2; needs.Exists(n => n.Piece == name); number++) name = $"{work.Piece.Title} ({number})";
            needs.Add(PieceNeeds.Of(order, name));
        }
        return needs;
    }

    /// <summary>The list for them, with what is had.</summary>
    /// <exception cref="UsageException">A thread cannot be cut.</exception>
    public static ShoppingList ListOf(IReadOnlyList<PieceNeeds> needs, Stash stash)
    {
        try
        {
            return ShoppingList.Of(needs, stash);
        }
        catch (ArgumentException e)
        {
            throw new UsageException(e.Message);
        }
    }
}
