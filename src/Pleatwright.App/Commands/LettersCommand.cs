using System.Collections.Immutable;
using System.CommandLine;
using Pleatwright.App.Images;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Letters;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Picture;
using Pleatwright.Proof;
using Pleatwright.Thread;

namespace Pleatwright.App.Commands;

/// <summary><c>pleatwright letters TEXT -o PIECE</c>: a name in letters that can be stitched, on cloth that holds it or in a piece there is.</summary>
internal static class LettersCommand
{
    public static Command Make()
    {
        var text = new Argument<string[]>("text") { Description = "What is to be stitched: a name, some words; each argument is a line of its own.", HelpName = "TEXT", Arity = ArgumentArity.OneOrMore };
        var output = new Option<string>("--output", "-o") { Description = "The piece file to write.", HelpName = "PIECE", Required = true };
        var into = new Option<string?>("--into") { Description = "Put them into this piece, where there is room, and write it with them; its cloth and gauge stay.", HelpName = "PIECE" };
        var alphabet = new ChoiceOption<Alphabet>("--alphabet", $"An alphabet drawn for the lattice: {string.Join("; ", Alphabet.All.Select(a => $"{a.Name}, {a.About}"))}.", [.. Alphabet.All.Select(a => (a.Name, a))]);
        var font = new Option<string?>("--font") { Description = "Letters of a font instead: a font file (TrueType or OpenType), or the name of an installed family.", HelpName = "FILE|NAME" };
        var height = new WholeOption("--height", "ROWS", "Cable rows of a capital; the nearest height whose lines lie on gathering rows is taken.", (1, LetteringOptions.MostHeight));
        var arrange = new ChoiceOption<Arrangement>("--arrange", "How the letters stand: on a row, drawn apart along a band, one below the other.", ("row", Arrangement.Row), ("band", Arrangement.Along), ("down", Arrangement.Down));
        var across = new WholeOption("--across", "VALLEYS", "Valleys that letters along a band fill; the cloth's width less a margin with --into.", (1, LetteringOptions.MostAcross));
        var band = new WholeOption("--band", "N", "With --into: the band of that piece that they go along, counted from 1.", (1, 5000));
        var monogram = new Option<bool>("--monogram") { Description = "Two or three letters as one figure, the middle one of three twice as large." };
        var border = new Option<bool>("--border") { Description = "A border round it, computed to fit." };
        var thread = Coloured("--thread", "The thread's colour, or with --into the letter of one of the piece's threads.");
        var borderThread = Coloured("--border-thread", "The border's thread, if another.");
        var title = new Option<string?>("--title") { Description = "The piece's title; the text when not given.", HelpName = "TEXT", CustomParser = PieceOptions.ReadTitle };
        var cloth = new Option<Colour?>("--cloth") { Description = "The cloth's colour.", HelpName = "#rrggbb", CustomParser = PieceOptions.ReadColour };
        var margin = new WholeOption("--margin", "PLEATS", "Bare pleats at each side at least.", (0, PleatingPlan.MostPleats)) { DefaultValueFactory = _ => TracedPiece.UsualMargin };
        var force = OutputFile.ForceOption();
        var gauge = new GaugeOptions();
        var json = CommandLine.JsonOption();
        var command = new Command("letters", "Sets a name in letters that can be stitched: two alphabets drawn for the lattice, or any font.")
        {
            text, output, into, alphabet, font, height, arrange, across, band, monogram, border, thread, borderThread, title, cloth, margin, force, json,
        };
        gauge.AddTo(command);
        command.SetAction(async (parsed, cancel) =>
        {
            var target = parsed.GetValue(output)!;
            var written = OutputFile.Named(target, parsed.GetValue(force), Replaces.Nothing, parsed.GetValue(into));
            var words = string.Join('\n', parsed.GetValue(text)!);
            var (lettered, order, findings) = await LongWork.Do(cancel, telling =>
            {
                var piece = parsed.GetValue(into) is { } path ? PieceFile.Lay(parsed, path).Piece : null;
                var measured = piece?.Cloth.Gauge ?? gauge.Read(parsed);
                try
                {
                    using var pictures = parsed.GetValue(font) is { } named ? FontFile.Open(named) : null;
                    var options = new LetteringOptions
                    {
                        Text = words,
                        Source = pictures is null ? alphabet.Read(parsed) : new FontLetters(pictures, measured),
                        Height = parsed.GetValue(height),
                        Arrangement = parsed.GetValue(monogram) ? Arrangement.Monogram : arrange.Read(parsed),
                        Across = parsed.GetValue(across),
                        Border = parsed.GetValue(border),
                    };
                    telling.Say("setting the letters");
                    var made = piece is null
                        ? LetteredPiece.Around(options, Threaded(null, parsed.GetValue(thread), 'a') ?? Usual, Threaded(null, parsed.GetValue(borderThread), 'b'), measured,
                            parsed.GetValue(title) ?? PieceOptions.Sentence(words), parsed.GetValue(cloth), parsed.GetValue(margin)!.Value)
                        : LetteredPiece.Into(piece, options, Threaded(piece, parsed.GetValue(thread), 'a') ?? piece.Threads.FirstOrDefault() ?? Usual, Threaded(piece, parsed.GetValue(borderThread), 'b'), BandOf(piece, parsed.GetValue(band)));
                    var work = Smocking.Lay(made.Piece);
                    return (made, Smocking.Plan(work), LongWork.Proofread(work, telling));
                }
                catch (ArgumentException e)
                {
                    throw UsageException.Of("letters", e);
                }
            });
            await written.WriteAsync(PieceWriter.WriteUtf8(lettered.Piece), cancel);
            if (parsed.GetValue(json)) CommandLine.PrintJson(Report(target, lettered, order, findings));
            else Say(target, lettered, order, findings);
            return CommandLine.Done;
        });
        return command;
    }

    // Worked by default in the red of the examples.
    private static Floss Usual => new(new ThreadKey('a'), ColourWords.For(Red), Red, Floss.DefaultStrands);

    private static Colour Red => Colour.Parse("#b3202c");

    private static object Report(string target, LetteredPiece lettered, WorkingOrder order, ImmutableArray<Finding> findings) => new
    {
        piece = target,
        figure = lettered.Figure,
        text = lettered.Set.Figure.Letters,
        width = lettered.Set.Figure.Width,
        height = lettered.Set.Figure.Height,
        baseRow = lettered.Set.BaseRow,
        free = lettered.IsFree,
        over = lettered.Over,
        pleats = order.Work.Pleating.Pleats,
        gatheringRows = order.Work.Piece.Cloth.GatheringRows,
        cables = lettered.Set.Figure.Rows.Sum(r => r.Count(c => c != Figure.Bare)),
        letters = lettered.Set.Letters.Select(l => new
        {
            character = l.Character,
            line = l.Line,
            column = l.Left,
            width = l.Shape.Width,
            rows = l.Shape.Rows.Length,
            cables = l.Shape.Rows.Sum(r => r.Count(c => c == LetterShape.Cable)),
        }),
        starts = order.Starts,
        steps = order.Steps.Length,
        counts = ProofCommand.Counts(findings),
    };

    private static void Say(string target, LetteredPiece lettered, WorkingOrder order, ImmutableArray<Finding> findings)
    {
        Console.WriteLine(lettered.Words);
        if (!lettered.IsFree) Console.WriteLine($"There is no room for it: it lies in the middle{(lettered.Over.IsEmpty ? "" : $", over {string.Join(" and ", lettered.Over)}")}.");
        Console.WriteLine($"{Counting.Of(lettered.Set.Letters.Length, "letter")}, {Counting.Of(order.Starts, "start")}, {Counting.Of(order.Steps.Length, "step")} in the whole piece.");
        Console.WriteLine($"Proof: {ProofCommand.InWords(findings)}.");
        Console.WriteLine($"Written: {target}");
    }

    // A colour, or the letter of a thread that the piece has; null where nothing is asked for.
    private static Floss? Threaded(Piece? piece, string? given, char key)
    {
        if (given is null) return null;
        if (Colour.TryParse(given, out var colour)) return new Floss(new ThreadKey(key), ColourWords.For(colour), colour, Floss.DefaultStrands);
        if (piece is null) throw new ArgumentException($"“{given}” is no colour written as #rrggbb");
        return given.Length == 1 && char.IsAsciiLetter(given[0]) && piece.Thread(new ThreadKey(given[0])) is { } own ? own
            : throw new ArgumentException($"“{given}” is neither a colour written as #rrggbb nor the letter of a thread of this piece");
    }

    private static int? BandOf(Piece piece, int? number)
    {
        if (number is not { } n) return null;
        return n <= piece.Bands.Length ? n - 1 : throw new ArgumentException($"this piece has {Counting.Of(piece.Bands.Length, "band")}, so there is no band {n}");
    }

    private static Option<string?> Coloured(string name, string description) => new(name) { Description = description, HelpName = "#rrggbb" };
}
