using System.CommandLine;
using System.Globalization;
using System.Text;
using Pleatwright.App.Images;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Playing;
using Pleatwright.Plate.Writers;

namespace Pleatwright.App.Commands;

/// <summary><c>pleatwright show PIECE --step N -o OUT</c>: a step, or a move of the craft by itself, in motion.</summary>
internal static class ShowCommand
{
    private const int LeastWidth = 160, MostWidth = 1920, UsualWidth = 640;
    private const double LeastSpeed = 0.1, MostSpeed = 4, Aspect = 0.7;
    private const int LeastRate = 2, MostRate = 30, UsualRate = 12, MostFrames = 6000;

    private static readonly (string Ending, string Words)[] Endings =
    [
        (".png", "animated picture"), (".webp", "animated picture"), (".svg", "sheet of stills"), (".pdf", "sheet of stills"), (".html", "page that plays it"),
    ];

    public static Command Make()
    {
        var piece = new Argument<string?>("piece") { Description = "The piece file, or a plate that carries one; not needed with --move.", Arity = ArgumentArity.ZeroOrOne };
        var step = new WholeOption("--step", "N", "The step, by its number in the order.", (1, int.MaxValue));
        var band = new WholeOption("--band-step", "N", "A step of the bands, by its number in the directions.", (1, int.MaxValue));
        var accents = new WholeOption("--accents", "N", "Accents, by their number in the directions.", (1, int.MaxValue));
        var row = new WholeOption("--back-row", "N", "A gathering row that is cabled on the back.", (1, int.MaxValue));
        var move = new Option<string?>("--move") { Description = $"A move of the craft by itself, without a piece: {string.Join(", ", Lesson.All.Select(l => l.Name))}.", HelpName = "NAME" };
        var output = new Option<string>("--output", "-o") { Description = $"The file to write: {string.Join(", ", Endings.Select(e => $"{e.Ending} ({e.Words})"))}.", HelpName = "OUT", Required = true };
        var left = WorkOptions.LeftHanded();
        var levels = WorkOptions.Levels();
        var back = new Option<bool>("--back") { Description = "Seen from the back all along." };
        var speed = new Option<double>("--speed") { Description = "How fast, over the usual pace.", HelpName = "TIMES", DefaultValueFactory = _ => 1, CustomParser = PieceOptions.Decimal };
        var rate = PieceOptions.Whole("--frames", UsualRate, "N", "Frames a second of an animated picture.", (LeastRate, MostRate));
        var width = PieceOptions.Whole("--width", UsualWidth, "PX", "Pixels across of an animated picture.", (LeastWidth, MostWidth));
        var paper = new ChoiceOption<Paper>("--paper", "The paper of a sheet of stills.", [.. Paper.All.Select(p => (p.Name, p))]);
        var large = new Option<bool>("--large-print") { Description = "A sheet of stills in large print." };
        var drawn = new Option<bool>("--drawn") { Description = "Pleats and stitches drawn, not painted: sooner there, and a smaller page." };
        var force = OutputFile.ForceOption();
        var command = new Command("show", "A step in motion: needle and thread on the pleats, move by move, with the words of the directions.")
        {
            piece, step, band, accents, row, move, output, left, levels, back, speed, rate, width, paper, large, drawn, force,
        };
        command.SetAction(async (parsed, cancel) =>
        {
            var (path, target, name) = (parsed.GetValue(piece), parsed.GetValue(output)!, parsed.GetValue(move));
            var ending = Path.GetExtension(target).ToLowerInvariant();
            if (!Endings.Any(e => e.Ending == ending)) throw new UsageException($"{target}: moving pictures are written as {string.Join(", ", Endings.Select(e => $"{e.Ending} ({e.Words})"))}; end the name with one of them.");
            var written = OutputFile.Named(target, parsed.GetValue(force), Replaces.WhatCommandsMade, path);
            var pace = parsed.GetValue(speed);
            if (!(pace is >= LeastSpeed and <= MostSpeed)) throw new UsageException(string.Create(CultureInfo.InvariantCulture, $"--speed takes {LeastSpeed} to {MostSpeed}: 1 is the usual pace, 0.5 half of it."));
            var asked = new (string Option, int? Number)[] { ("--step", parsed.GetValue(step)), ("--band-step", parsed.GetValue(band)), ("--accents", parsed.GetValue(accents)), ("--back-row", parsed.GetValue(row)) };
            if (name is null && path is null) throw new UsageException("show takes a piece with --step N, or --move NAME without one.");
            if (name is not null && (path is not null || asked.Any(a => a.Number is not null))) throw new UsageException("--move shows a move of the craft by itself; leave out the piece and the step.");
            if (name is null && asked.Count(a => a.Number is not null) != 1) throw new UsageException("show takes one of --step, --band-step, --accents and --back-row, to say what of the piece is shown.");
            var (bytes, told) = await LongWork.Do(cancel, telling =>
            {
                var (film, gauge) = name is not null
                    ? (Lesson.Named(name) ?? throw new UsageException($"--move {name}: there is no such move; there are {string.Join(", ", Lesson.All.Select(l => l.Name))}.")).Film(parsed.GetValue(left) ? Hand.Left : Hand.Right, levels.Read(parsed), parsed.GetValue(back))
                    : OfPiece(parsed, path!, asked.Single(a => a.Number is not null), parsed.GetValue(left), levels.Read(parsed), parsed.GetValue(back), telling, cancel);
                var (moves, plain, look) = (Counting.Of(film.Takes.Length, "move"), parsed.GetValue(drawn), parsed.GetValue(large) ? Look.LargePrint : Look.Booklet);
                return ending switch
                {
                    ".html" => (Encoding.UTF8.GetBytes(PlayPage.Write(film, gauge, plain ? null : PlayPage.Paint(film, telling.Of("painting the stitches"), cancel))), moves),
                    ".png" or ".webp" => Animate(film, ending == ".png" ? new AnimatedPng() : new AnimatedWebp(), pace, parsed.GetValue(rate)!.Value, parsed.GetValue(width)!.Value, plain, telling, cancel) is var (made, frames) ? (made, $"{moves}, {Counting.Of(frames, "frame")}") : default,
                    _ => PlateFormat.OfFile(target)!.WritePages!(film.Title, ContactSheet.Of(film, paper.Read(parsed), look, plain ? null : ContactSheet.Painted(film, look, cancel))) is var sheet ? (sheet, moves) : default,
                };
            });
            await written.WriteAsync(bytes, cancel);
            Console.WriteLine($"Written: {target}, {told}.");
            return CommandLine.Done;
        });
        return command;
    }

    private static (Film, Gauge) OfPiece(ParseResult parsed, string path, (string Option, int? Number) asked, bool left, LevelWords levels, bool back, Telling telling, CancellationToken cancel)
    {
        var work = PieceFile.Lay(parsed, path);
        if (left) work = WorkOptions.ForLeftHand(work);
        var order = LongWork.Plan(work, telling, cancel);
        var told = Directions.Write(order, levels).Where(d => d.Kind == DirectionKind.Step).ToList();
        var (of, what) = asked.Option switch
        {
            "--step" => (told.FindAll(t => t.Step is not null), "step"),
            "--band-step" => (told.FindAll(t => t.Band is not null), "step of a band"),
            "--accents" => (told.FindAll(t => !t.Accents.IsEmpty), "line of accents"),
            _ => (told.FindAll(t => t.Back is not null), "row of backsmocking"),
        };
        var number = asked.Number!.Value;
        var chosen = asked.Option == "--back-row" ? of.Find(t => t.Back!.Value.Row.Number == number) : number <= of.Count ? of[number - 1] : null;
        if (chosen is null) throw new UsageException($"{path}: {asked.Option} {number} will not do: {(of.Count == 0 ? $"this piece has no {what}" : asked.Option == "--back-row" ? $"the back has rows {string.Join(", ", of.Select(t => t.Back!.Value.Row.Number))}" : $"this piece has {what} 1 to {of.Count}")}.");
        telling.Say("laying the moves");
        var title = work.Piece.Title.Length > 0 ? $"{work.Piece.Title}, {what} {number}" : $"{what.Capital()} {number}";
        return (Film.Of(order, [chosen], levels, title, back), work.Pleating.Gauge);
    }

    private static (byte[] File, int Frames) Animate(Film film, IAnimation animation, double pace, int rate, int width, bool plain, Telling telling, CancellationToken cancel)
    {
        var seconds = film.Seconds / pace;
        var frames = (int)Math.Ceiling(seconds * rate);
        if (frames > MostFrames) throw new UsageException($"this step takes {frames} frames, and an animated picture has at most {MostFrames}: give fewer with --frames, go faster with --speed, or write .html, which plays any length.");
        var progress = telling.Of("painting the frames");
        var aspect = film.Sideways ? 1 / Aspect * 0.8 : Aspect;
        var painted = plain ? null : new PaintedFilm(film, aspect, width / film.Wide, cancel);
        using var painter = new DrawnFrame(width, aspect);
        for (var frame = 0; frame < frames; frame++)
        {
            cancel.ThrowIfCancellationRequested();
            var (take, share) = film.At(frame * pace / rate);
            var number = $"{take + 1} of {film.Takes.Length}{(film.Takes[take].Stitch > 0 ? $"   {Film.Number(film.Takes[take])}" : "")}";
            using var image = painted?.At(take, share) is var (picture, box, state)
                ? painter.Paint(new Painted(picture, box, state, film.Sideways), Still.View(film, take, share, aspect), Still.Moving(film, take, share), number, film.Takes[take].Caption)
                : painter.Paint(Still.Of(film, take, share, aspect, Look.Booklet), number, film.Takes[take].Caption);
            // Whole milliseconds that add up: a third of a second is 333, 333 and 334.
            animation.Add(image, (int)((frame + 1) * 1000L / rate - frame * 1000L / rate));
            progress.Report((frame + 1.0) / frames);
        }
        return (animation.Finish(), frames);
    }
}
