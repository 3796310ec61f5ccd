using System.CommandLine;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Thread;

namespace Pleatwright.App.Commands;

/// <summary><c>pleatwright plan PIECE</c>: cloth, pleats, rows, threads to buy and cut.</summary>
internal static class PlanCommand
{
    public static Command Make()
    {
        var piece = CommandLine.PieceArgument();
        var json = CommandLine.JsonOption();
        var units = UnitOption.Make();
        var command = new Command("plan", "Cloth, pleats, rows, and threads to buy and cut.") { piece, json, units };
        command.SetAction(parsed =>
        {
            var work = PieceFile.Lay(parsed.GetValue(piece)!);
            var amounts = Amounts(Planner.Plan(work));
            if (parsed.GetValue(json)) CommandLine.PrintJson(Report(work, amounts));
            else Say(work, amounts, parsed.GetValue(units));
            return CommandLine.Done;
        });
        return command;
    }

    private static ThreadAmount[] Amounts(WorkingOrder order)
    {
        try
        {
            return [.. order.ThreadUses().Select(u => Cutting.Amount(u, order.Work.Piece.Working.WorkingLength))];
        }
        catch (ArgumentException e)
        {
            throw new UsageException(e.Message);
        }
    }

    private static object Report(Work work, ThreadAmount[] amounts)
    {
        var plan = work.Pleating;
        return new
        {
            title = work.Piece.Title,
            pleats = plan.Pleats,
            cutWidthMm = Math.Round(plan.CutWidth.Millimetres, 4),
            finishedWidthMm = Math.Round(plan.FinishedWidth.Millimetres, 4),
            fullness = Math.Round(plan.Fullness, 6),
            gatheringRows = plan.Cloth.GatheringRows,
            holdingRows = new[] { plan.Cloth.HoldingRowsAbove, plan.Cloth.HoldingRowsBelow },
            rowsToGather = plan.RowsToGather,
            seamPleats = plan.Cloth.SeamPleats,
            pleatsToGather = plan.PleatsToGather,
            centreValley = plan.CentreValley,
            cableRows = plan.CableRows,
            depthMm = Math.Round(plan.Depth.Millimetres, 4),
            fabricWidths = plan.FabricWidths,
            form = plan.Cloth.Form.Name,
            panels = ClothReport.Panels(plan),
            joins = ClothReport.Joins(plan),
            passes = ClothReport.Passes(plan),
            rows = ClothReport.Rows(plan),
            sizes = ClothReport.Sizes(work.Piece),
            swatch = ClothReport.Swatch(work.Piece),
            threads = amounts.Select(a => new
            {
                key = a.Use.Thread.Key.ToString(),
                name = a.Use.Thread.Name,
                strands = a.Use.Thread.Strands,
                cables = a.Use.Cables,
                halfStitches = a.Use.HalfStitches,
                lengthMm = Math.Round(a.Use.Length.Millimetres, 4),
                needlefuls = a.Use.Needlefuls,
                skeins = a.Skeins,
            }),
        };
    }

    private static void Say(Work work, ThreadAmount[] amounts, UnitSystem units)
    {
        Console.WriteLine(work.Piece.Title);
        Console.WriteLine();
        ClothReport.Say(work, units);
        ClothReport.SaySizes(work.Piece, units);
        if (amounts.Length == 0) return;
        Console.WriteLine();
        Console.WriteLine($"Threads   cut in needlefuls of {work.Piece.Working.WorkingLength.Say(units)}");
        var widest = amounts.Max(a => a.Use.Thread.Name.Length);
        foreach (var (use, skeins) in amounts)
        {
            Console.WriteLine($"  {use.Thread.Key}  {use.Thread.Name.PadRight(widest)}  {use.Thread.Strands} strands  {use.Cables,6} cables"
                + (use.HalfStitches > 0 ? $" and {use.HalfStitches} half stitches" : "")
                + $"  {use.Length.Say(units)}  {Count(use.Needlefuls, "needleful")}  {Count(skeins, "skein")}");
        }
    }

    private static string Count(int n, string what) => n == 1 ? $"1 {what}" : $"{n} {what}s";
}
