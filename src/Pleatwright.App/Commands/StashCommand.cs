using System.CommandLine;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Shopping;

namespace Pleatwright.App.Commands;

/// <summary><c>pleatwright stash FILE</c>: what the maker has; lists in and out; a piece's needs against it.</summary>
internal static class StashCommand
{
    public static Command Make()
    {
        var file = CommandLine.FileArgument("file", "A stash file (JSON).");
        var import = new Option<string?>("--import") { Description = "Take in a list: lines of a name that is there take its place, others are added. Makes the file when there is none.", HelpName = "CSV" };
        var export = new Option<string?>("--export") { Description = "Write the stash as a list for a spreadsheet.", HelpName = "CSV" };
        var piece = new Option<string?>("--for") { Description = "Hold a piece's needs against the stash, with what may be taken instead.", HelpName = "PIECE" };
        var force = OutputFile.ForceOption();
        var json = CommandLine.JsonOption();
        var units = WorkOptions.Units();
        var command = new Command("stash", "Your threads and cloths: list them, take a list in or out, hold a piece against them.") { file, import, export, piece, force, json, units };
        command.SetAction(async (parsed, cancel) =>
        {
            var path = parsed.GetValue(file)!;
            var coming = parsed.GetValue(import) is { } csv ? StashFile.ReadCsv(csv) : null;
            var stash = coming is not null && !Path.Exists(path) ? Stash.Empty : StashFile.Read(path);
            var own = coming is null ? null : OutputFile.Named(path, force: true, Replaces.Nothing); // it is named to be changed
            if (coming is not null) stash = Together(path, stash, coming);
            var target = parsed.GetValue(export) is { } named ? OutputFile.Named(named, parsed.GetValue(force), Replaces.Nothing, path, parsed.GetValue(import), parsed.GetValue(piece)) : null;
            // All that may be refused is done; only then is anything written.
            var list = parsed.GetValue(piece) is { } p
                ? ShopCommand.ListOf(await LongWork.Do(cancel, telling => ShopCommand.Needs(parsed, [p], telling, cancel)), stash)
                : null;
            if (own is not null) await own.ChangeAsync(standing => StashWriter.WriteUtf8(stash = Together(path, standing is null ? Stash.Empty : StashFile.Read(path, standing), coming!)), cancel);
            if (target is not null) await target.WriteAsync(StashCsv.Write(stash), cancel);
            if (list is not null)
            {
                var reckoning = Reckoning.Of(list, stash.Rates, stash.Pace);
                if (parsed.GetValue(json)) CommandLine.PrintJson(ShoppingReport.Of(list, reckoning, stash));
                else CommandLine.Print(ShoppingWords.Lines(list, reckoning, stash, units.Read(parsed), instead: true));
            }
            else if (parsed.GetValue(json)) CommandLine.PrintJson(Report(stash));
            else Say(stash, units.Read(parsed));
            return CommandLine.Done;
        });
        return command;
    }

    private static Stash Together(string path, Stash stash, StashList coming)
    {
        var together = stash.With(coming.Threads, coming.Cloths);
        return together.Threads.Length <= Stash.MostOfAKind && together.Cloths.Length <= Stash.MostOfAKind ? together
            : throw new UsageException($"{path}: together that is more than {Stash.MostOfAKind} threads or cloths; nothing was taken in.");
    }

    private static object Report(Stash stash) => new
    {
        threads = stash.Threads.Select(t => new
        {
            name = t.Name,
            colour = t.Colour.ToString(),
            skeins = t.Skeins,
            skeinMm = Math.Round(t.SkeinLength.Millimetres, 4),
            strandsInSkein = t.StrandsInSkein,
            tex = t.TexPerStrand,
            note = t.Note,
        }),
        cloths = stash.Cloths.Select(c => new
        {
            name = c.Name,
            colour = c.Colour.ToString(),
            widthMm = Math.Round(c.Width.Millimetres, 4),
            leftMm = Math.Round(c.Left.Millimetres, 4),
            note = c.Note,
        }),
        rates = new { money = stash.Rates.Money, skein = stash.Rates.Skein, cloth = stash.Rates.Cloth, clothPerMm = Math.Round(stash.Rates.ClothPer.Millimetres, 4), hour = stash.Rates.Hour },
        cablesAnHour = ShoppingReport.Pace(stash.Pace),
    };

    private static void Say(Stash stash, UnitSystem units)
    {
        var threads = stash.Threads.Select(t => ShoppingWords.Coloured(t.Name, t.Colour)).ToList();
        var cloths = stash.Cloths.Select(c => ShoppingWords.Coloured(c.Name, c.Colour)).ToList();
        var widest = threads.Concat(cloths).Select(n => n.Length).DefaultIfEmpty(0).Max();
        Console.WriteLine($"Threads   {(stash.Threads.IsEmpty ? "none" : stash.Threads.Length)}");
        foreach (var (i, t) in stash.Threads.Index())
            Console.WriteLine($"  {threads[i].PadRight(widest)}  {ShoppingWords.Skeins(t.Skeins)}{(t.Note.Length > 0 ? $"   {t.Note}" : "")}");
        Console.WriteLine($"Cloths    {(stash.Cloths.IsEmpty ? "none" : stash.Cloths.Length)}");
        foreach (var (i, c) in stash.Cloths.Index())
            Console.WriteLine($"  {cloths[i].PadRight(widest)}  {c.Left.Say(units)}, {c.Width.Say(units)} wide{(c.Note.Length > 0 ? $"   {c.Note}" : "")}");
        if (ShoppingWords.Of(stash.Pace) is { } pace) Console.WriteLine($"Pace      {pace}");
    }
}
