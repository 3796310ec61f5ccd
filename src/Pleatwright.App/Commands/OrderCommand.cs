using System.CommandLine;
using Pleatwright.Measure;
using Pleatwright.Order;

namespace Pleatwright.App.Commands;

/// <summary><c>pleatwright order PIECE</c>: the working order.</summary>
internal static class OrderCommand
{
    public static Command Make()
    {
        var piece = CommandLine.PieceArgument();
        var json = CommandLine.JsonOption();
        var leftHanded = WorkOptions.LeftHanded();
        var words = WorkOptions.Levels();
        var units = WorkOptions.Units();
        var command = new Command("order", "The working order, row by row.") { piece, json, leftHanded, words, units };
        command.SetAction(async (parsed, cancel) =>
        {
            var order = await LongWork.Do(cancel, telling =>
            {
                var work = PieceFile.Lay(parsed.GetValue(piece)!);
                return LongWork.Plan(parsed.GetValue(leftHanded) ? WorkOptions.ForLeftHand(work) : work, telling, cancel);
            });
            if (parsed.GetValue(json)) CommandLine.PrintJson(Report(order));
            else Say(order, words.Read(parsed), units.Read(parsed));
            return CommandLine.Done;
        });
        return command;
    }

    private static object Report(WorkingOrder order) => new
    {
        steps = order.Steps.Select(s => new
        {
            number = s.Number,
            thread = s.Thread.ToString(),
            cableRow = s.Row.Index,
            from = s.From.Number,
            to = s.To.Number,
            cables = s.Cables,
            begin = s.Begin,
            end = s.End,
            turned = s.Turned,
            heldBegin = s.HeldBegin,
            starts = s.Starts,
            tieOff = s.TieOff,
            halfStitches = s.HalfStitches,
            needleful = s.Needleful,
            carriedMm = Math.Round(s.Carried.Millimetres, 4),
        }),
        starts = order.Starts,
        turns = order.Turns,
        carriedMm = Math.Round(order.Carried.Millimetres, 4),
        lowerBoundStarts = order.LowerBoundStarts,
        baseRow = order.BaseRow.Index,
        inAll = BandReport.InAll(order),
        backsmocking = BandReport.Back(order),
        bands = BandReport.Bands(order),
        accents = BandReport.Accents(order),
    };

    private static void Say(WorkingOrder order, LevelWords words, UnitSystem units)
    {
        Console.WriteLine(order.Work.Piece.Title);
        Console.WriteLine($"{Counting.Of(order.Starts, "start")} (no order can have fewer than {order.LowerBoundStarts}), {Counting.Of(order.Turns, "turn")}, {order.Carried.Say(units)} carried.");
        if (order.Needlefuls > order.Starts) Console.WriteLine(BandReport.Words(order, units));
        foreach (var direction in Directions.Write(order, words, grouped: true))
        {
            if (direction.Kind == DirectionKind.Heading) Console.WriteLine();
            Console.WriteLine(direction.Kind switch
            {
                DirectionKind.Step or DirectionKind.Copy => $"{direction.Step?.Number,5}  {direction.Text}",
                DirectionKind.Heading => direction.Text,
                _ => $"       {direction.Text}",
            });
        }
    }
}
