using System.Collections.Immutable;
using System.CommandLine;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Writers;
using Pleatwright.Proof;

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
        var edition = WorkOptions.Editions();
        var command = new Command("order", "The working order, row by row.") { piece, json, leftHanded, words, edition, units };
        command.SetAction(async (parsed, cancel) =>
        {
            var (order, ways, findings) = await LongWork.Do(cancel, telling =>
            {
                var work = PieceFile.Lay(parsed, parsed.GetValue(piece)!);
                var planned = LongWork.Plan(parsed.GetValue(leftHanded) ? WorkOptions.ForLeftHand(work) : work, telling, cancel);
                return (planned, Planner.InEveryWay(planned, telling.Of("weighing the other ways of working"), cancel), LongWork.Proofread(planned.Work, telling));
            });
            if (parsed.GetValue(json)) CommandLine.PrintJson(Report(order, ways));
            else Say(order, ways, words.Read(parsed), units.Read(parsed), edition.Read(parsed), Counts.Of(findings).Errors);
            return CommandLine.Done;
        });
        return command;
    }

    private static object Report(WorkingOrder order, ImmutableArray<WorkingOrder> ways)
    {
        var run = 0; // a run worked with several needlefuls is several steps
        return Report(order, ways, step => step.Continues ? run : ++run);
    }

    private static object Report(WorkingOrder order, ImmutableArray<WorkingOrder> ways, Func<Step, int> place) => new
    {
        steps = order.Steps.Select(s => new
        {
            number = s.Number,
            run = place(s),
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
            threads = s.Threads,
            restFrom = s.RestFrom,
            leftMm = Math.Round(s.Left.Millimetres, 4),
            carriedMm = Math.Round(s.Carried.Millimetres, 4),
        }),
        starts = order.Starts,
        turns = order.Turns,
        carriedMm = Math.Round(order.Carried.Millimetres, 4),
        lowerBoundStarts = order.LowerBoundStarts,
        way = WayWords.Of(order.Way),
        takeUps = order.TakeUps,
        longestWaitRows = order.LongestWaitRows,
        thread = order.ThreadUses().Select(u => new { key = u.Thread.Key.ToString(), cutLengths = u.Needlefuls }),
        ways = ways.Select(w => new
        {
            way = WayWords.Of(w.Way),
            starts = w.Starts,
            takeUps = w.TakeUps,
            longestWaitRows = w.LongestWaitRows,
            turns = w.Turns,
            carriedMm = Math.Round(w.Carried.Millimetres, 4),
            cutLengths = w.CutLengths,
        }),
        baseRow = order.BaseRow.Index,
        inAll = BandReport.InAll(order),
        backsmocking = BandReport.Back(order),
        bands = BandReport.Bands(order),
        accents = BandReport.Accents(order),
    };

    private static void Say(WorkingOrder order, ImmutableArray<WorkingOrder> ways, LevelWords words, UnitSystem units, Edition edition, int errors)
    {
        Console.WriteLine(order.Work.Piece.Title);
        Console.WriteLine($"Worked {WayWords.Of(order.Way)}: {Figures(order, units)}. No order worked so can have fewer starts than {order.LowerBoundStarts}.");
        foreach (var other in ways)
            if (other.Way != order.Way) Console.WriteLine($"  {WayWords.Of(other.Way)} it would be {Figures(other, units)}.");
        if (order.Needlefuls > order.Starts) Console.WriteLine(BandReport.Words(order, units));
        if (errors > 0) Console.WriteLine($"Not fit to stitch yet: the proof finds {Counting.Of(errors, "error")}. See pleatwright proof.");
        var directions = edition == Edition.Learner ? DirectionsText.Of(Directions.Write(order, words, units)) : DirectionsText.Of(Directions.Table(order, words, units));
        if (directions.Length == 0) return;
        Console.Write(directions);
        Console.WriteLine();
        var doubts = PrintedWords.Doubts(directions, order, units);
        foreach (var doubt in doubts) Console.WriteLine($"{doubt.Message} {doubt.Remedy}");
        if (doubts.IsEmpty && errors == 0) Console.WriteLine(PrintedWords.Proved);
    }

    // "12 starts from 9 lengths of thread, 3 threads left hanging and taken up again after 1 row at the most, 19 turns, 20 in carried"
    private static string Figures(WorkingOrder order, UnitSystem units) =>
        $"{Counting.Of(order.Starts, "start")} from {Counting.Of(order.CutLengths, "length")} of thread, "
        + (order.TakeUps == 0 ? "no thread left hanging" : $"{Counting.Of(order.TakeUps, "thread")} left hanging, the longest for {Counting.Of(order.LongestWaitRows, "row")}")
        + $", {Counting.Of(order.Turns, "turn")}, {order.Carried.Say(units)} carried";
}
