using System.CommandLine;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.App.Commands;

/// <summary><c>pleatwright figure FILE</c>: the figures of a piece; one taken out as a file of its own, or put in from one.</summary>
internal static class FigureCommand
{
    public static Command Make()
    {
        var file = CommandLine.FileArgument("file", "A piece file (*.piece.json) or a plate that carries one, or a figure file (*.figure.json).");
        var name = new Option<string?>("--name") { Description = "Take this figure of the piece out, into the file that -o names.", HelpName = "FIGURE" };
        var put = new Option<string?>("--put") { Description = "Put the figure of this file into the piece, into the file that -o names.", HelpName = "FIGURE.figure.json" };
        var centre = new WholeOption("--centre", "VALLEY", "The valley its middle lies on; the centre valley when not given. With neither this nor --gathering-row it lies where there is room.", (1, PleatingPlan.MostPleats));
        var row = new WholeOption("--gathering-row", "N", "The gathering row its base row lies on.", (1, ClothPlan.MostGatheringRows));
        var thread = new Option<string[]>("--thread") { Description = "Of a thread in doubt: its letter in the figure, and the piece's thread it is to be worked in, as r=s; or r=new for a thread of its own. More than one may be given.", HelpName = "r=s", DefaultValueFactory = _ => [] };
        var output = new Option<string?>("--output", "-o") { Description = "The file to write: a figure file with --name, a piece file with --put.", HelpName = "OUT" };
        var force = OutputFile.ForceOption();
        var json = CommandLine.JsonOption();
        var command = new Command("figure", "The figures of a piece: list them, take one out as a file, put one in with its threads matched by colour.") { file, name, put, centre, row, thread, output, force, json };
        command.SetAction(async (parsed, cancel) =>
        {
            var (path, target, taking, putting) = (parsed.GetValue(file)!, parsed.GetValue(output), parsed.GetValue(name), parsed.GetValue(put));
            if (taking is not null && putting is not null) throw new UsageException("--name takes a figure out and --put puts one in; name one of them.");
            if ((taking ?? putting) is null != target is null)
                throw new UsageException(target is null ? $"name the file to write with -o." : "say with --name which figure is taken out, or with --put which is put in.");
            var written = target is null ? null : OutputFile.Named(target, parsed.GetValue(force), Replaces.Nothing, path, putting);
            if (taking is null && putting is null)
            {
                List(parsed, path, parsed.GetValue(json));
                return CommandLine.Done;
            }
            var work = PieceFile.Lay(parsed, path);
            if (taking is not null)
            {
                if (work.Piece.Figure(taking) is null) throw new UsageException($"{path}: {NoneCalled(work.Piece, taking)}");
                var kept = Drawer.Take(work.Piece, taking);
                await written!.WriteAsync(FigureWriter.WriteUtf8(kept), cancel);
                if (parsed.GetValue(json)) CommandLine.PrintJson(Report(kept, target));
                else Console.WriteLine($"{Words(kept)}\nWritten: {target}");
                return CommandLine.Done;
            }
            var coming = Read(putting!);
            var drawn = Put(path, work, coming, parsed.GetValue(centre), parsed.GetValue(row), Answers(parsed.GetValue(thread)!, coming, work.Piece));
            var (fit, left) = (new GaugeFit(coming.Gauge, work.Piece.Cloth.Gauge), LeftOut.Of(Lay(target!, drawn.Piece), drawn.Figure));
            await written!.WriteAsync(PieceWriter.WriteUtf8(drawn.Piece), cancel);
            if (parsed.GetValue(json)) CommandLine.PrintJson(Report(target!, drawn, fit, left));
            else Say(target!, drawn, fit, left);
            return CommandLine.Done;
        });
        return command;
    }

    /// <summary>That a piece has no figure of a name, and which it has.</summary>
    internal static string NoneCalled(Piece piece, string name) =>
        $"no figure is called “{name}”; there {(piece.Figures.Length == 1 ? "is" : "are")} {(piece.Figures.IsEmpty ? "none" : string.Join(", ", piece.Figures.Take(12).Select(f => $"“{f.Name}”")))}.";

    private static KeptFigure Read(string path)
    {
        try
        {
            return FigureReader.Read(InputFile.Read(path, "a figure file", FigureReader.MostBytes));
        }
        catch (PieceFormatException e)
        {
            throw new UsageException(e.Located(path));
        }
    }

    private static Work Lay(string path, Piece piece)
    {
        try
        {
            return Smocking.Lay(piece);
        }
        catch (ArgumentException e)
        {
            throw UsageException.Of(path, e);
        }
    }

    private static Dictionary<ThreadKey, ThreadKey?> Answers(string[] given, KeptFigure coming, Piece piece)
    {
        var answers = new Dictionary<ThreadKey, ThreadKey?>();
        foreach (var answer in given)
        {
            if (answer.Split('=') is not [[var from], var to] || !char.IsAsciiLetter(from) || (to != "new" && (to.Length != 1 || !char.IsAsciiLetter(to[0]))))
                throw new UsageException($"“{answer}” will not do: --thread takes a letter of the figure and one of the piece, as r=s, or r=new.");
            if (!coming.Threads.Any(t => t.Key.Letter == from)) throw new UsageException($"“{answer}” will not do: {coming.Name} has no thread with the letter {from}.");
            if (to != "new" && piece.Thread(new ThreadKey(to[0])) is null) throw new UsageException($"“{answer}” will not do: the piece has no thread with the letter {to}.");
            answers[new ThreadKey(from)] = to == "new" ? null : new ThreadKey(to[0]);
        }
        return answers;
    }

    private static DrawnIn Put(string path, Work work, KeptFigure coming, int? centre, int? row, Dictionary<ThreadKey, ThreadKey?> answers)
    {
        // What is in doubt is asked, and nothing is written.
        var doubts = ThreadMatching.Of(work.Piece.Threads, coming.Threads).Where(m => m.Fit == ThreadFit.InDoubt && !answers.ContainsKey(m.From.Key)).ToList();
        if (doubts.Count > 0)
            throw new UsageException($"{path}: {string.Join(" ", doubts.Select(m => $"{coming.Name} has {DrawerWords.Question(m)}; here is {string.Join("; ", m.Choices.Select(c => DrawerWords.Choice(m, c)))}. Say {string.Join(", ", m.Choices.Select(c => $"--thread {m.From.Key}={c.Thread.Key}"))} or --thread {m.From.Key}=new."))}");
        if (row > work.Piece.Cloth.GatheringRows) throw new UsageException($"{path}: it has {work.Piece.Cloth.GatheringRows} gathering rows; --gathering-row {row} is none of them.");
        if (centre > work.Valleys) throw new UsageException($"{path}: it has {work.Valleys} valleys; --centre {centre} is none of them.");
        try
        {
            return centre is null && row is null
                ? Drawer.PutWhereFree(work.Piece, coming, answers) ?? throw new UsageException($"{path}: there is no room where {coming.Name} would lie free; say with --centre and --gathering-row where it is to lie.")
                : Drawer.Put(work.Piece, coming, new Valley(centre ?? work.Pleating.CentreValley), new GatheringRow(row ?? (work.Piece.Cloth.GatheringRows + 1) / 2), answers);
        }
        catch (ArgumentException e)
        {
            throw UsageException.Of(path, e);
        }
    }

    private static void List(ParseResult parsed, string path, bool json)
    {
        var bytes = InputFile.Read(path, "a piece or a figure file", PieceReader.MostBytes);
        if (FigureReader.IsFigure(bytes))
        {
            var kept = Read(path);
            if (json) CommandLine.PrintJson(Report(kept, path));
            else Console.WriteLine(Words(kept));
            return;
        }
        var piece = PieceFile.Lay(parsed, path).Piece;
        var figures = piece.Figures.Select(f => (Kept: Drawer.Take(piece, f.Name), f.From, Times: piece.Placements.Where(p => p.Figure == f.Name).Sum(p => p.Repeat.Count))).ToList();
        if (json)
        {
            CommandLine.PrintJson(new
            {
                figures = figures.Select(f => new
                {
                    name = f.Kept.Name, width = f.Kept.Figure.Width, height = f.Kept.Figure.Height, baseRow = f.Kept.BaseRow, onTheCloth = f.Times, threads = f.Kept.Threads.Select(t => t.Key.ToString()),
                    from = f.From is { } from ? new { figure = from.Figure, state = from.State, changedSince = from.As != FigureMark.OfStitches(piece.Figure(f.Kept.Name)!) } : null,
                }),
            });
            return;
        }
        if (figures.Count == 0) Console.WriteLine("No figures.");
        foreach (var (kept, _, times) in figures) Console.WriteLine($"{Words(kept)}; on the cloth {Counting.Of(times, "time")}");
    }

    private static object Report(KeptFigure kept, string? path) => new
    {
        file = path,
        name = kept.Name,
        id = kept.Id,
        state = kept.State,
        width = kept.Figure.Width,
        height = kept.Figure.Height,
        baseRow = kept.BaseRow,
        threads = kept.Threads.Select(t => new { key = t.Key.ToString(), name = t.Name, colour = t.Colour.ToString(), strands = t.Strands }),
    };

    private static object Report(string target, DrawnIn drawn, GaugeFit fit, LeftOut left)
    {
        var placed = drawn.Piece.Placements[^1];
        return new
        {
            piece = target,
            figure = drawn.Figure,
            centre = placed.Centre.On(new PleatingPlan(drawn.Piece.Cloth)).Number,
            gatheringRow = placed.GatheringRow.Number,
            threads = drawn.Threads.Select(t => new { from = t.From.Key.ToString(), to = t.To.Key.ToString(), name = t.To.Name, colour = t.To.Colour.ToString(), added = t.Added }),
            cablesOffTheCloth = left.Cables,
            halfStitchesNotMade = left.Halves,
            widthToDrawn = Math.Round(fit.Width, 4),
            heightToDrawn = Math.Round(fit.Height, 4),
        };
    }

    private static void Say(string target, DrawnIn drawn, GaugeFit fit, LeftOut left)
    {
        var placed = drawn.Piece.Placements[^1];
        Console.WriteLine($"{drawn.Figure} lies on valley {placed.Centre.On(new PleatingPlan(drawn.Piece.Cloth)).Number}, {placed.GatheringRow}.");
        foreach (var words in (string[])[BroughtWords.Of(drawn.Threads), DrawerWords.Of(fit), DrawerWords.Of(left)])
            if (words.Length > 0) Console.WriteLine(words);
        Console.WriteLine($"Written: {target}");
    }

    private static string Words(KeptFigure kept) =>
        $"{kept.Name}: {DrawerWords.Size(kept.Figure)}; {(kept.Threads.IsEmpty ? "no threads" : string.Join(", ", kept.Threads.Select(t => t.Name.Length > 0 ? t.Name : ColourWords.For(t.Colour))))}";
}
