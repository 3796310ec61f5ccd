using System.CommandLine;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Writers;
using Pleatwright.Proof;

namespace Pleatwright.App.Commands;

/// <summary><c>pleatwright plate PIECE -o OUT</c>: the plate, in the format that the name's ending says.</summary>
internal static class PlateCommand
{
    private static readonly string Endings = string.Join(", ", PlateFormat.All.Select(f => f.Ending));

    public static Command Make()
    {
        var piece = CommandLine.PieceArgument();
        var output = new Option<string>("--output", "-o") { Description = $"The file to write: {Endings}.", HelpName = "OUT", Required = true };
        var paper = new ChoiceOption<Paper>("--paper", "The paper it is laid out on.", [.. Paper.All.Select(p => (p.Name, p))]);
        var largePrint = new Option<bool>("--large-print") { Description = "Larger type and bricks, stronger contrast." };
        var noTrueScale = new Option<bool>("--no-true-scale") { Description = "Leave out the chart at the size of the finished work." };
        var leftHanded = WorkOptions.LeftHanded();
        var levels = WorkOptions.Levels();
        var units = WorkOptions.Units();
        var sheet = SheetOption.Make();
        var size = SizeOption.Make();
        var command = new Command("plate", "The plate: stitched picture, chart, key, materials and directions.")
        {
            piece, output, sheet, size, paper, units, levels, leftHanded, largePrint, noTrueScale,
        };
        command.SetAction(async (parsed, cancel) =>
        {
            var path = parsed.GetValue(output)!;
            var format = PlateFormat.OfFile(path) ?? throw new UsageException($"{path}: a plate is written as {Endings}; end the name with one of them.");
            PieceFile.CheckWritable(path);
            var work = SizeOption.In(PieceFile.Lay(parsed.GetValue(piece)!), parsed.GetValue(size));
            if (parsed.GetValue(leftHanded)) work = WorkOptions.ForLeftHand(work);
            var options = new PlateOptions
            {
                Paper = paper.Read(parsed),
                Units = units.Read(parsed),
                Levels = levels.Read(parsed),
                LargePrint = parsed.GetValue(largePrint),
                TrueScaleChart = !parsed.GetValue(noTrueScale),
            };
            try
            {
                await PieceFile.WriteWhole(path, sheet.Read(parsed) is { } kind
                    ? SheetOption.Write(work.Piece, kind, options, format, path)
                    : format.Write(PlateMaker.Make(work, Planner.Plan(work, Effort.Plate), Proofreading.Read(work), options)), cancel);
            }
            catch (PlateTooLargeException e)
            {
                throw new UsageException($"{path}: {e.Message}");
            }
            return CommandLine.Done;
        });
        return command;
    }
}
