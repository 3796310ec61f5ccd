using System.CommandLine;
using Pleatwright.Chart;
using Pleatwright.Plate;
using Pleatwright.Plate.Writers;

namespace Pleatwright.App.Commands;

/// <summary><c>pleatwright plate PIECE -o OUT</c>: the plate, in the format that the name's ending says.</summary>
internal static class PlateCommand
{
    private static readonly string Endings = string.Join(", ", PlateFormat.All.Select(f => f.Ending));

    public static Command Make()
    {
        var piece = CommandLine.PieceArgument();
        var output = new Option<string>("--output", "-o") { Description = $"The file to write: {Endings}.", HelpName = "OUT", Required = true };
        var sheet = SheetOption.Make();
        var force = OutputFile.ForceOption();
        var page = new PageOptions();
        var command = new Command("plate", "The plate: stitched picture, chart, key, materials and directions.")
        {
            piece, output, sheet, force,
        };
        page.AddTo(command);
        command.SetAction(async (parsed, cancel) =>
        {
            var path = parsed.GetValue(output)!;
            var target = OutputFile.Named(path, parsed.GetValue(force), Replaces.WhatCommandsMade, parsed.GetValue(piece));
            var format = PlateFormat.OfFile(path) ?? throw new UsageException($"{path}: a plate is written as {Endings}; end the name with one of them.");
            try
            {
                var (made, lacking) = await LongWork.Do(cancel, telling =>
                {
                    var (laid, name) = PieceFile.Open(parsed, parsed.GetValue(piece)!, sheet.Read(parsed) is null ? Deed.Printed : Deed.Opened);
                    var work = page.Work(parsed, laid);
                    if (sheet.Read(parsed) is { } kind) return (SheetOption.Write(work.Piece, kind, page.Read(parsed), format, path), "");
                    var plate = LongWork.Plate(work, page.Read(parsed) with { Name = name }, telling, cancel);
                    return (format.Write(plate), format.IsEmbeddedAlone ? Typeface.Lacking(plate.Sheets) : "");
                });
                await target.WriteAsync(made, cancel);
                PageOptions.SayLacking(lacking);
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
