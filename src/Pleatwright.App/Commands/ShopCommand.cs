using System.CommandLine;
using Pleatwright.Order;
using Pleatwright.Shopping;

namespace Pleatwright.App.Commands;

/// <summary><c>pleatwright shop PIECE...</c>: what to buy for one or more pieces, what it costs, how long it takes.</summary>
internal static class ShopCommand
{
    public static Command Make()
    {
        var pieces = new Argument<string[]>("pieces") { Description = "Piece files (*.piece.json).", HelpName = "PIECE", Arity = ArgumentArity.OneOrMore };
        var stash = new Option<string?>("--stash") { Description = "What you have, and your rates and pace; without it everything is bought.", HelpName = "FILE" };
        var json = CommandLine.JsonOption();
        var units = WorkOptions.Units();
        var command = new Command("shop", "What to buy for one or more pieces, what it costs, how long it takes.") { pieces, stash, json, units };
        command.SetAction(parsed =>
        {
            var had = parsed.GetValue(stash) is { } file ? StashFile.Read(file) : Stash.Empty;
            var list = ListOf(parsed.GetValue(pieces)!, had);
            var reckoning = Reckoning.Of(list, had.Rates, had.Pace);
            if (parsed.GetValue(json)) CommandLine.PrintJson(ShoppingReport.Of(list, reckoning, had));
            else CommandLine.Print(ShoppingWords.Lines(list, reckoning, had, units.Read(parsed), instead: false));
            return CommandLine.Done;
        });
        return command;
    }

    /// <summary>Reads pieces, orders them and makes their list.</summary>
    /// <exception cref="UsageException">One cannot be read, or its thread cannot be cut.</exception>
    public static ShoppingList ListOf(IReadOnlyList<string> paths, Stash stash)
    {
        var needs = new List<PieceNeeds>();
        foreach (var path in paths)
        {
            var work = PieceFile.Lay(path);
            var title = work.Piece.Title;
            // Two pieces of one title are told apart by their number.
            var name = title;
            for (var number = 2; needs.Exists(n => n.Piece == name); number++) name = $"{title} ({number})";
            needs.Add(PieceNeeds.Of(Planner.Plan(work, Effort.Plate), name));
        }
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
