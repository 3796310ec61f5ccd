using System.CommandLine;
using Pleatwright.Cloth;
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
        var units = WorkOptions.Units();
        var command = new Command("plan", "Cloth, pleats, rows, and threads to buy and cut.") { piece, json, units };
        command.SetAction(async (parsed, cancel) =>
        {
            var order = await LongWork.Do(cancel, telling => LongWork.Plan(PieceFile.Lay(parsed, parsed.GetValue(piece)!), telling, cancel));
            var amounts = Amounts(order, parsed.GetValue(piece)!);
            if (parsed.GetValue(json)) CommandLine.PrintJson(Report(order, amounts));
            else Say(order, amounts, units.Read(parsed));
            return CommandLine.Done;
        });
        return command;
    }

    private static ThreadAmount[] Amounts(WorkingOrder order, string path)
    {
        try
        {
            return [.. order.ThreadUses().Select(u => Cutting.Amount(u, order.Work.Piece.Working.WorkingLength))];
        }
        catch (ArgumentException e)
        {
            throw UsageException.Of(path, e);
        }
    }

    private static object Report(WorkingOrder order, ThreadAmount[] amounts)
    {
        var work = order.Work;
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
            gatheredDepthMm = Math.Round(plan.Cloth.GatheredDepth.Millimetres, 4),
            cutDepthMm = Math.Round(plan.Cloth.CutDepth.Millimetres, 4),
            clothToBuyMm = Math.Round(ClothToBuy.Of(plan.Cloth).Millimetres, 4),
            soldByMm = Math.Round(plan.Cloth.Step.Millimetres, 4),
            wings = ClothReport.Wings(plan.Cloth),
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
                bandStitches = a.Use.BandStitches,
                accents = a.Use.Accents,
            }),
            backsmocking = Back(order),
            cutting = Cut(order.Cutting()),
        };
    }

    private static object Cut(CuttingPlan plan) => new
    {
        workingLengthMm = Math.Round(plan.WorkingLength.Millimetres, 4),
        skeins = plan.Skeins,
        flosses = plan.Flosses.Select(f => new
        {
            threads = f.Threads.Where(t => t.Key != default).Select(t => t.Key.ToString()),
            name = f.Threads[0].Name,
            colour = f.Threads[0].Colour.ToString(),
            skeins = f.Skeins,
            lengths = f.Lengths,
            spareStrands = f.SpareStrands,
            needlefuls = f.Needlefuls.Select(n => new
            {
                thread = n.Thread.Key == default ? "" : n.Thread.Key.ToString(),
                number = n.Number,
                from = n.From.Select(t => new { length = t.Length, strands = t.Strands }),
            }),
        }),
    };

    // Of thread near the cloth's colour, bought and cut apart from the piece's own.
    private static object? Back(WorkingOrder order)
    {
        var back = order.Backsmock;
        if (back.Rows.IsEmpty) return null;
        return new
        {
            gatheringRows = back.Rows.Select(r => r.Row.Number).Distinct(),
            strands = back.Thread.Strands,
            colour = back.Thread.Colour.ToString(),
            cables = back.Cables,
            lengthMm = Math.Round(back.Length.Millimetres, 4),
            needlefuls = back.Needlefuls,
            skeins = BackSkeins(order),
        };
    }

    private static int BackSkeins(WorkingOrder order) => Cutting.Amount(order.Backsmock.Use, order.Work.Piece.Working.WorkingLength).Skeins;

    private static void Say(WorkingOrder order, ThreadAmount[] amounts, UnitSystem units)
    {
        var work = order.Work;
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
            Console.WriteLine($"  {use.Thread.Key}  {use.Thread.Name.PadRight(widest)}  {Counting.Of(use.Thread.Strands, "strand")}  {use.Cables,6} cables"
                + (use.HalfStitches > 0 ? $" and {Counting.Of(use.HalfStitches, "half stitch", "half stitches")}" : "")
                + (use.BandStitches > 0 ? $", {Counting.Of(use.BandStitches, "stitch", "stitches")} of bands" : "")
                + (use.Accents > 0 ? $", {Counting.Of(use.Accents, "accent")}" : "")
                + $"  {use.Length.Say(units)}  {Counting.Of(use.Needlefuls, "needleful")}  {Counting.Of(skeins, "skein")}");
        }
        SayBack(order, units);
        var plan = order.Cutting();
        Console.WriteLine();
        Console.WriteLine($"Cutting   {CuttingWords.How(plan, units)}");
        foreach (var line in CuttingWords.Of(plan, units)) Console.WriteLine($"  {line.Threads}: {line.Words}");
    }

    private static void SayBack(WorkingOrder order, UnitSystem units)
    {
        var back = order.Backsmock;
        if (back.Rows.IsEmpty) return;
        Console.WriteLine($"  Backsmocking, in thread near the colour of the cloth  {Counting.Of(back.Thread.Strands, "strand")}  {back.Cables} cables on the back of "
            + Counting.Of(back.Rows.Select(r => r.Row).Distinct().Count(), "gathering row")
            + $"  {back.Length.Say(units)}  {Counting.Of(back.Needlefuls, "needleful")}  {Counting.Of(BackSkeins(order), "skein")}");
    }
}
