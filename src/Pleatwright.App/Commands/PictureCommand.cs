using System.CommandLine;
using Pleatwright.App.Images;
using Pleatwright.Picture;
using Pleatwright.Stitched;

namespace Pleatwright.App.Commands;

/// <summary><c>pleatwright picture PIECE -o OUT.png</c>: the piece as the needle will make it.</summary>
internal static class PictureCommand
{
    private const int LeastWidth = 16, UsualWidth = 1600;

    public static Command Make()
    {
        var piece = CommandLine.PieceArgument();
        var output = new Option<string>("--output", "-o") { Description = "The picture to write: .png.", HelpName = "OUT.png", Required = true };
        var width = PieceOptions.Whole("--width", UsualWidth, "PX", "Pixels across. A page 7 in wide takes 2100 at 300 dots an inch.", (LeastWidth, Painter.MostPixels));
        var figure = new Option<string?>("--figure") { Description = "Frame this figure alone, from close by and whole.", HelpName = "FIGURE" };
        var size = SizeOption.Make();
        var force = OutputFile.ForceOption();
        var command = new Command("picture", "A picture of the piece as it will be stitched, for a shop's page or to look at before the first stitch.") { piece, output, width, figure, size, force };
        command.SetAction(async (parsed, cancel) =>
        {
            var (path, target) = (parsed.GetValue(piece)!, parsed.GetValue(output)!);
            if (!target.EndsWith(".png", StringComparison.OrdinalIgnoreCase)) throw new UsageException($"{target}: a picture is written as .png; end the name with it.");
            var written = OutputFile.Named(target, parsed.GetValue(force), Replaces.Nothing, path);
            var (raster, frame) = await LongWork.Do(cancel, telling =>
            {
                telling.Say("laying the stitches");
                var stitched = new StitchedPiece(SizeOption.In(PieceFile.Lay(parsed, path), parsed.GetValue(size)));
                var frame = FrameOf(stitched, parsed.GetValue(figure), path);
                var wide = parsed.GetValue(width)!.Value;
                if (frame.PixelsHigh(wide) is var high && (high > Painter.MostPixels || !Raster.Fits(wide, high)))
                    throw new UsageException($"--width {wide} will not do: the picture would be {wide} × {high} pixels; at most {Painter.MostPixels} either way and {Raster.MostPixels / 1_000_000} million in all can be made.");
                telling.Say("painting the picture");
                return (new Painter(stitched, frame, wide).Paint(cancel), frame);
            });
            await written.WriteAsync(PngFile.Write(raster), cancel);
            Console.WriteLine(FormattableString.Invariant($"Written: {target}, {raster.Width} × {raster.Height} pixels, {raster.Width / frame.Width * 25.4:0} to an inch of the finished piece."));
            return CommandLine.Done;
        });
        return command;
    }

    private static Frame FrameOf(StitchedPiece stitched, string? figure, string path)
    {
        if (figure is null) return stitched.Whole;
        var piece = stitched.Work.Piece;
        if (piece.Figure(figure) is null) throw new UsageException($"{path}: {FigureCommand.NoneCalled(piece, figure)}");
        return Framing.Of(stitched, figure) ?? throw new UsageException($"{path}: “{figure}” is on the cloth nowhere in sight, so that there is no picture of it; place it, or leave --figure out.");
    }
}
