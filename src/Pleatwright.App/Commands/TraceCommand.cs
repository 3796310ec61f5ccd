using System.Collections.Immutable;
using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Pleatwright.App.Images;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Picture;
using Pleatwright.Proof;
using Pleatwright.Thread;

namespace Pleatwright.App.Commands;

/// <summary><c>pleatwright trace IMAGE -o PIECE</c>: from a picture to a figure that can be stitched, on cloth that holds it.</summary>
internal static class TraceCommand
{
    public static Command Make()
    {
        var image = CommandLine.FileArgument("image", "A picture: PNG, JPEG, WebP or GIF.");
        var output = new Option<string>("--output", "-o") { Description = "The piece file to write.", HelpName = "PIECE", Required = true };
        var width = PieceOptions.Whole("--width", 80, "VALLEYS", "Valleys across the figure.");
        var threads = PieceOptions.Whole("--threads", 6, "N", "Threads at most.");
        var stash = new Option<string?>("--stash") { Description = "Choose the threads from this file: your stash, a piece file's threads, or a CSV with the columns name and colour.", HelpName = "FILE" };
        var fidelity = new Option<double>("--fidelity") { Description = "From 0 (as few runs as can be) to 1 (true to every cable).", HelpName = "0..1", DefaultValueFactory = _ => 0.5, CustomParser = PieceOptions.Decimal };
        var background = new Option<Background?>("--background")
        {
            Description = "What is left bare: auto (the default) finds the colour of the picture's edge; none leaves only what is transparent.",
            HelpName = "auto|none|#rrggbb",
            CustomParser = ReadBackground,
        };
        var tolerance = new Option<double>("--tolerance") { Description = "How far from the background's colour still counts as background, 0 to 100.", HelpName = "0..100", DefaultValueFactory = _ => Background.UsualTolerance, CustomParser = PieceOptions.Decimal };
        var enclosed = new Option<bool>("--enclosed") { Description = "Leave the background bare where the figure encloses it, too." };
        var crop = new Option<Crop?>("--crop") { Description = "The part to trace, in pixels from the top left.", HelpName = "x,y,w,h", CustomParser = ReadCrop };
        var turn = new ChoiceOption<Turn>("--turn", "Turn it clockwise, after the crop.", ("0", Turn.None), ("90", Turn.Quarter), ("180", Turn.Half), ("270", Turn.ThreeQuarters));
        var mirror = new Option<bool>("--mirror") { Description = "Make the figure the same left and right of its middle." };
        var noHalves = new Option<bool>("--no-half-stitches") { Description = "Leave every run end without a half stitch." };
        var title = new Option<string?>("--title") { Description = "The piece's title; the picture's name when not given.", HelpName = "TEXT", CustomParser = PieceOptions.ReadTitle };
        var cloth = new Option<Colour?>("--cloth") { Description = "The cloth's colour.", HelpName = "#rrggbb", CustomParser = PieceOptions.ReadColour };
        var margin = PieceOptions.Whole("--margin", TracedPiece.UsualMargin, "PLEATS", "Bare pleats at each side of the figure at least.", (0, PleatingPlan.MostPleats));
        var gauge = new GaugeOptions();
        var force = OutputFile.ForceOption();
        var json = CommandLine.JsonOption();
        var command = new Command("trace", "Makes a figure that can be stitched from a picture, and a piece round it.")
        {
            image, output, width, threads, stash, fidelity, background, tolerance, enclosed, crop, turn, mirror, noHalves, title, cloth, margin, force, json,
        };
        gauge.AddTo(command);
        command.SetAction(async (parsed, cancel) =>
        {
            var path = parsed.GetValue(image)!;
            var name = Path.GetFileNameWithoutExtension(path);
            var options = new TracingOptions
            {
                Width = parsed.GetValue(width)!.Value,
                Threads = parsed.GetValue(threads)!.Value,
                Stash = parsed.GetValue(stash) is { } file ? StashFile.ReadThreads(file) : [],
                Fidelity = parsed.GetValue(fidelity),
                Background = (parsed.GetValue(background) ?? Background.Auto) with { Tolerance = parsed.GetValue(tolerance), Enclosed = parsed.GetValue(enclosed) },
                Crop = parsed.GetValue(crop),
                Turn = turn.Read(parsed),
                Mirror = parsed.GetValue(mirror),
                HalfStitches = !parsed.GetValue(noHalves),
                Gauge = gauge.Read(parsed),
                Name = name.Length > 0 ? name : "figure",
            };
            var target = parsed.GetValue(output)!;
            var written = OutputFile.Named(target, parsed.GetValue(force), Replaces.Nothing, path);
            var (trace, work, findings) = await LongWork.Do(cancel, telling =>
            {
                var (traced, piece) = Run(path, options, parsed.GetValue(title) ?? PieceOptions.Sentence(name), parsed.GetValue(cloth), parsed.GetValue(margin)!.Value, telling, cancel);
                var laid = Smocking.Lay(piece);
                return (traced, laid, LongWork.Proofread(laid, telling));
            });
            await written.WriteAsync(PieceWriter.WriteUtf8(work.Piece), cancel);
            if (parsed.GetValue(json)) CommandLine.PrintJson(Report(target, trace, work, findings));
            else Say(target, trace, work, findings);
            return CommandLine.Done;
        });
        return command;
    }

    private static (Traced, Piece) Run(string path, TracingOptions options, string title, Colour? cloth, int margin, Telling telling, CancellationToken cancel)
    {
        try
        {
            options.Check();
            var raster = ImageFile.Read(path);
            var trace = Tracer.Trace(raster, options, new Stages(telling), cancel);
            return (trace, TracedPiece.Around(trace, options.Gauge, title, cloth, margin));
        }
        catch (ArgumentException e)
        {
            throw UsageException.Of(path, e);
        }
    }

    private static object Report(string target, Traced trace, Work work, ImmutableArray<Finding> findings) => new
    {
        piece = target,
        width = trace.Figure.Width,
        height = trace.Figure.Height,
        pleats = work.Pleating.Pleats,
        gatheringRows = work.Pleating.Cloth.GatheringRows,
        baseRow = trace.BaseRow,
        cables = trace.Cables,
        runs = trace.Runs,
        meanDifference = Math.Round(trace.MeanDifference, 3),
        energies = trace.Energies,
        threads = trace.Threads.Select(t => new
        {
            key = t.Key.ToString(),
            name = t.Name,
            colour = t.Colour.ToString(),
            cables = CablesIn(work, t.Key),
        }),
        counts = ProofCommand.Counts(findings),
    };

    private static void Say(string target, Traced trace, Work work, ImmutableArray<Finding> findings)
    {
        Console.WriteLine($"{work.Piece.Title}: {trace.Figure.Width} valleys by {trace.Figure.Height} cable rows, {Counting.Of(trace.Cables, "cable")} in {Counting.Of(trace.Runs, "run")}.");
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"The threads lie {trace.MeanDifference:0.0} from the picture on the mean (CIEDE2000)."));
        foreach (var thread in trace.Threads) Console.WriteLine($"  {thread.Key}  {thread.Colour}  {thread.Name}, {Counting.Of(CablesIn(work, thread.Key), "cable")}");
        Console.WriteLine($"Proof: {ProofCommand.InWords(findings)}.");
        Console.WriteLine($"Written: {target}");
    }

    private static int CablesIn(Work work, ThreadKey thread)
    {
        var cables = 0;
        foreach (var run in work.Runs) if (run.Thread == thread) cables += run.Cables;
        return cables;
    }

    private static Background? ReadBackground(ArgumentResult result) => result.Tokens[0].Value switch
    {
        "auto" => Background.Auto,
        "none" => Background.None,
        var text when Colour.TryParse(text, out var colour) => Background.Of(colour),
        _ => PieceOptions.Refuse<Background?>(result, "--background takes auto, none or a colour written as #rrggbb"),
    };

    private static Crop? ReadCrop(ArgumentResult result)
    {
        var parts = result.Tokens[0].Value.Split(',');
        var numbers = parts.Select(p => int.TryParse(p, NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : -1).ToArray();
        return numbers is [>= 0, >= 0, >= 1, >= 1]
            ? new Crop(numbers[0], numbers[1], numbers[2], numbers[3])
            : PieceOptions.Refuse<Crop?>(result, "--crop takes x,y,w,h in whole pixels, with no spaces");
    }

    private static string Words(TraceProgress progress) => progress.Stage switch
    {
        TraceStage.Preparing => "preparing the picture",
        TraceStage.Sampling => "sampling on the bricks",
        TraceStage.Choosing => "choosing the threads",
        TraceStage.Smoothing => string.Create(CultureInfo.InvariantCulture, $"smoothing, sweep {progress.Sweep + 1}, energy {progress.Energy}"),
        _ => $"settled after {progress.Sweep} sweeps",
    };

    private sealed class Stages(Telling telling) : IProgress<TraceProgress>
    {
        public void Report(TraceProgress value) => telling.Say(Words(value));
    }
}
