using System.CommandLine;
using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Proof;
using Pleatwright.Recutting;

namespace Pleatwright.App.Commands;

/// <summary><c>pleatwright recut PIECE --keep WHAT -o OUT</c>: the piece for another gauge, or one of its figures in another size.</summary>
internal static class RecutCommand
{
    public static Command Make()
    {
        var piece = CommandLine.PieceArgument();
        var output = new Option<string>("--output", "-o") { Description = "The piece file to write.", HelpName = "OUT", Required = true };
        var keep = new ChoiceOption<RecutKeep>("--keep", "What the piece keeps at another gauge: its size, the count of its pleats and stitches, or its pleats and the proportions of its figures.",
            ("size", RecutKeep.Size), ("count", RecutKeep.Count), ("proportions", RecutKeep.Proportions));
        var perInch = new NumberOption("--pleats-per-inch", "N", "Finished pleats in an inch; else as it is.");
        var takeUp = new LengthOption("--take-up", "Flat cloth one pleat takes up; else as it is.");
        var spacing = new LengthOption("--row-spacing", "From one gathering row to the next; else as it is.");
        var cableRows = new WholeOption("--cable-rows", "N", "Cable rows in one space; else as they are.", (1, Gauge.MostCableRowsPerSpace));
        var figure = new Option<string?>("--figure") { Description = "Scale this figure alone, at the gauge as it is.", HelpName = "NAME" };
        var scale = new NumberOption("--scale", "FACTOR", "How many times as large the figure becomes.");
        var width = new WholeOption("--width", "VALLEYS", "Valleys across the figure.", (1, Figure.MostValleys));
        var force = OutputFile.ForceOption();
        var json = CommandLine.JsonOption();
        var units = WorkOptions.Units();
        var command = new Command("recut", "The piece for another gauge, or one of its figures in another size; lists all that changes.")
        {
            piece, output, keep, perInch, takeUp, spacing, cableRows, figure, scale, width, force, json, units,
        };
        command.SetAction(async (parsed, cancel) =>
        {
            var path = parsed.GetValue(piece)!;
            var target = parsed.GetValue(output)!;
            var written = OutputFile.Named(target, parsed.GetValue(force), Replaces.Nothing, path);
            var work = PieceFile.Lay(parsed, path);
            var asked = new Asked(parsed.GetValue(perInch), parsed.GetValue(takeUp), parsed.GetValue(spacing), parsed.GetValue(cableRows));
            var (name, factor, valleys) = (parsed.GetValue(figure), parsed.GetValue(scale), parsed.GetValue(width));
            Check(asked, name, factor, valleys, parsed.GetResult(keep) is not null);
            var (recut, then, before, after) = await LongWork.Do(cancel, telling =>
            {
                telling.Say(name is null ? "recutting the piece" : "scaling the figure");
                var made = Made(path, () => name is null
                    ? Recutter.Recut(work.Piece, asked.Of(work.Piece.Cloth.Gauge), keep.Read(parsed))
                    : Recutter.Scale(work.Piece, name, valleys ?? WidthOf(work.Piece, name, factor!.Value)));
                var laid = Made(path, () => Smocking.Lay(made.Piece));
                return (made, laid, LongWork.Proofread(work, telling), LongWork.Proofread(laid, telling));
            });
            await written.WriteAsync(PieceWriter.WriteUtf8(recut.Piece), cancel);
            if (parsed.GetValue(json)) CommandLine.PrintJson(Report(target, name is null ? keep.Read(parsed) : null, name, work, then, recut, units.Read(parsed), before, after));
            else Say(target, work, recut, units.Read(parsed), before, after);
            return CommandLine.Done;
        });
        return command;
    }

    private readonly record struct Asked(double? PerInch, Length? TakeUp, Length? Spacing, int? CableRows)
    {
        public bool IsNothing => PerInch is null && TakeUp is null && Spacing is null && CableRows is null;

        public Gauge Of(Gauge now)
        {
            var pitch = PerInch is { } perInch ? Length.FromInches(1 / perInch) : now.Pitch;
            return new(pitch, TakeUp ?? now.TakeUp, Spacing ?? now.RowSpacing, CableRows ?? now.CableRowsPerSpace) { PleatThickness = now.PleatThickness };
        }
    }

    private static void Check(Asked asked, string? figure, double? scale, int? width, bool keeps)
    {
        if (figure is null)
        {
            if (scale is not null || width is not null) throw new UsageException($"{(scale is not null ? "--scale" : "--width")} scales one figure; name it with --figure.");
            if (asked.IsNothing) throw new UsageException("no other gauge was given; give --pleats-per-inch, --take-up, --row-spacing or --cable-rows, or scale one figure with --figure.");
            return;
        }
        if (!asked.IsNothing || keeps) throw new UsageException("--figure scales one figure at the gauge as it is; recut the piece to another gauge apart from it.");
        if (scale is null == width is null) throw new UsageException("--figure takes either --scale or --width.");
    }

    private static int WidthOf(Piece piece, string figure, double factor)
    {
        var now = piece.Figure(figure) ?? throw new ArgumentException($"the piece has no figure “{figure}”; it has {Names(piece)}");
        // Over pleats, of which there is one more than valleys.
        return (int)Math.Clamp(Math.Round((now.Width + 1) * factor) - 1, 1, Figure.MostValleys);
    }

    private static string Names(Piece piece) => piece.Figures.IsEmpty ? "none" : string.Join(", ", piece.Figures.Select(f => $"“{f.Name}”"));

    private static T Made<T>(string path, Func<T> make)
    {
        try
        {
            return make();
        }
        catch (ArgumentException e)
        {
            throw UsageException.Of(path, e);
        }
    }

    private static object Report(string target, RecutKeep? keep, string? figure, Work before, Work after, RecutPiece recut, UnitSystem units, IReadOnlyList<Finding> was, IReadOnlyList<Finding> becomes) => new
    {
        piece = target,
        keep,
        figure,
        before = Numbers(before, was),
        after = Numbers(after, becomes),
        changes = recut.Changes.Where(c => !c.IsLoss).Select(c => new { kind = Kind(c), message = RecutWords.Of(c, units) }),
        losses = recut.Changes.Where(c => c.IsLoss).Select(c => new { kind = Kind(c), message = RecutWords.Of(c, units) }),
    };

    // "figureRedrawn" and the like would be a second list of names to keep: the fact's own name serves.
    private static string Kind(RecutChange change) => JsonName(change.GetType().Name);

    private static string JsonName(string name) => char.ToLowerInvariant(name[0]) + name[1..];

    private static object Numbers(Work work, IReadOnlyList<Finding> findings) => new
    {
        pleats = work.Pleating.Pleats,
        pleatsPerInch = Math.Round(work.Pleating.Gauge.PleatsPerInch, 4),
        gatheringRows = work.Pleating.Cloth.GatheringRows,
        cableRowsPerSpace = work.Pleating.Gauge.CableRowsPerSpace,
        rowSpacingMm = Math.Round(work.Pleating.Gauge.RowSpacing.Millimetres, 4),
        finishedWidthMm = Math.Round(work.Pleating.FinishedWidth.Millimetres, 4),
        depthMm = Math.Round(work.Pleating.Depth.Millimetres, 4),
        cutWidthMm = Math.Round(work.Pleating.CutWidth.Millimetres, 4),
        fullness = Math.Round(work.Pleating.Fullness, 4),
        cables = work.Cables,
        figures = work.Piece.Figures.Select(f => new { name = f.Name, width = f.Width, height = f.Height }),
        counts = ProofCommand.Counts(findings),
    };

    private static void Say(string target, Work work, RecutPiece recut, UnitSystem units, IReadOnlyList<Finding> before, IReadOnlyList<Finding> after)
    {
        Console.WriteLine(work.Piece.Title);
        if (recut.Changes.IsEmpty) Console.WriteLine("  Nothing changes.");
        foreach (var change in recut.Changes.Where(c => !c.IsLoss).Select(c => RecutWords.Of(c, units)).Distinct()) Console.WriteLine($"  {change}");
        if (recut.Loses) Console.WriteLine("Look at this:");
        foreach (var loss in recut.Changes.Where(c => c.IsLoss).Select(c => RecutWords.Of(c, units)).Distinct()) Console.WriteLine($"  {loss}");
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Proof: {ProofCommand.InWords(before)} before, {ProofCommand.InWords(after)} now."));
        Console.WriteLine($"Written: {target}");
    }
}
