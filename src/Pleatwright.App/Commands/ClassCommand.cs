using System.CommandLine;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Plate;
using Pleatwright.Plate.Teaching;

namespace Pleatwright.App.Commands;

/// <summary><c>pleatwright class PIECE --students N -o OUT</c>: what a class needs of one piece, in the format the name's ending says.</summary>
internal static class ClassCommand
{
    private static readonly string Endings = string.Join(", ", ClassFormat.All.Select(f => $"{f.Ending} ({f.Words})"));

    public static Command Make()
    {
        var piece = CommandLine.PieceArgument();
        var students = Number("--students", "How many students", 1, ClassOptions.MostStudents);
        students.Required = true;
        var spareKits = Number("--spare-kits", "Kits beyond one for each student", 0, ClassOptions.MostSpareKits);
        var extraLengths = Number("--extra-lengths", "Lengths of each thread in every kit beyond those worked", 0, ClassOptions.MostExtraLengths);
        var sessions = Number("--sessions", "Share the work over so many sessions", 1, ClassOptions.MostSessions);
        var output = new Option<string?>("--output", "-o") { Description = $"The file to write: {Endings}. Without it the totals are printed.", HelpName = "OUT" };
        var force = OutputFile.ForceOption();
        var json = CommandLine.JsonOption();
        var page = new PageOptions();
        var command = new Command("class", "A class pack: kits, labels, handout, teacher's sheet, and the students' page.")
        {
            piece, students, spareKits, extraLengths, sessions, output, force, json,
        };
        page.AddTo(command);
        command.SetAction(async (parsed, cancel) =>
        {
            var path = parsed.GetValue(output);
            ClassFormat? format = null;
            OutputFile? target = null;
            if (path is not null)
            {
                target = OutputFile.Named(path, parsed.GetValue(force), Replaces.WhatCommandsMade, parsed.GetValue(piece));
                format = ClassFormat.OfFile(path) ?? throw new UsageException($"{path}: a class pack is written as {Endings}; end the name with one of them.");
            }
            var plateOptions = page.Read(parsed);
            var options = new ClassOptions(parsed.GetValue(students)!.Value)
            {
                SpareKits = parsed.GetValue(spareKits) ?? 0,
                ExtraLengths = parsed.GetValue(extraLengths) ?? 0,
                Sessions = parsed.GetValue(sessions),
            };
            try
            {
                var (pack, written, lacking) = await LongWork.Do(cancel, telling =>
                {
                    var (laid, name) = PieceFile.Open(parsed, parsed.GetValue(piece)!, Deed.Printed);
                    var plate = LongWork.Plate(page.Work(parsed, laid), plateOptions with { Name = name }, telling, cancel);
                    var made = ClassPack.Make(plate, options);
                    return (made, format?.Write(made), format is { IsEmbeddedAlone: true } ? Typeface.Lacking(made.Sheets) : "");
                });
                if (written is not null) await target!.WriteAsync(written, cancel);
                PageOptions.SayLacking(lacking);
                if (parsed.GetValue(json)) CommandLine.PrintJson(Report(pack));
                else if (format is null) Say(pack, plateOptions.Units);
            }
            catch (Exception e) when (e is PlateTooLargeException or ArgumentException)
            {
                throw new UsageException($"{path ?? parsed.GetValue(piece)}: {e.Message}");
            }
            return CommandLine.Done;
        });
        return command;
    }

    private static WholeOption Number(string name, string words, int least, int most) => new(name, "N", $"{words}, {least} to {most}.", (least, most));

    private static object Report(ClassPack pack) => new
    {
        title = pack.Plate.Title,
        students = pack.Cutting.Students,
        spareKits = pack.Cutting.SpareKits,
        kits = pack.Cutting.Kits,
        workingLengthMm = Math.Round(pack.Cutting.WorkingLength.Millimetres, 4),
        skeins = pack.Cutting.Skeins,
        threads = pack.Cutting.Flosses.Select(f => new
        {
            keys = f.Threads.Where(t => t != pack.Plate.Order.Backsmock.Thread).Select(t => t.Key.ToString()),
            name = f.Threads[0].Name,
            colour = f.Threads[0].Colour.ToString(),
            lengthsPerSkein = f.LengthsPerSkein,
            lengthsPerKit = f.LengthsInKit,
            needlefulsPerKit = f.NeedlefulsInKit,
            needlefuls = f.Needlefuls,
            lengths = f.Lengths,
            skeins = f.Skeins,
            lengthsLeft = f.LengthsLeft,
        }),
        cloths = pack.Cutting.Kits,
        cutWidthMm = Math.Round(pack.Plate.Work.Pleating.CutWidth.Millimetres, 4),
    };

    private static void Say(ClassPack pack, UnitSystem units)
    {
        var cutting = pack.Cutting;
        Console.WriteLine($"{pack.Plate.Title}: {Counting.Of(cutting.Students, "student")}{(cutting.SpareKits > 0 ? $" and {Counting.Of(cutting.SpareKits, "spare kit")}" : "")}");
        Console.WriteLine($"Thread    {Counting.Of(cutting.Skeins, "skein")}, cut in lengths of {cutting.WorkingLength.Say(units)}");
        var widest = cutting.Flosses.Select(f => f.Threads[0].Name.Length).DefaultIfEmpty(0).Max();
        foreach (var floss in cutting.Flosses)
            Console.WriteLine($"  {floss.Threads[0].Name.PadRight(widest)}  {Counting.Of(floss.LengthsInKit, "length")} in each kit for {Counting.Of(floss.NeedlefulsInKit, "needleful")}, "
                + $"{floss.Lengths} in all from {Counting.Of(floss.Skeins, "skein")}");
        Console.WriteLine($"Cloth     {Counting.Of(cutting.Kits, "cut")} {pack.Plate.Work.Pleating.CutWidth.Say(units)} wide");
    }
}
