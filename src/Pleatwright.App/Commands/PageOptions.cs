using System.CommandLine;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Plate;

namespace Pleatwright.App.Commands;

/// <summary>How pages are made: what every command that prints them takes.</summary>
internal sealed class PageOptions
{
    private readonly ChoiceOption<Paper> paper = new("--paper", "The paper it is laid out on.", [.. Paper.All.Select(p => (p.Name, p))]);
    private readonly Option<bool> largePrint = new("--large-print") { Description = "Larger type and bricks, stronger contrast." };
    private readonly Option<bool> trueScale = new("--true-scale") { Description = "Add the chart at the size of the finished work, to lay beside the pleats." };
    private readonly Option<bool> noTrueScale = new("--no-true-scale") { Description = "Without it, as it is unless asked for.", Hidden = true };
    private readonly Option<bool> noPiece = new("--no-piece") { Description = "Leave the piece file out of what is written: a plate to sell, from which nobody can open the piece." };
    private readonly Option<bool> leftHanded = WorkOptions.LeftHanded();
    private readonly ChoiceOption<LevelWords> levels = WorkOptions.Levels();
    private readonly ChoiceOption<Edition> edition = WorkOptions.Editions();
    private readonly ChoiceOption<UnitSystem> units = WorkOptions.Units();
    private readonly Option<string?> size = SizeOption.Make();

    public void AddTo(Command command)
    {
        foreach (var option in (Option[])[size, paper, edition, units, levels, leftHanded, largePrint, trueScale, noTrueScale, noPiece]) command.Options.Add(option);
    }

    /// <summary>The work in the size and for the hand asked for.</summary>
    public Work Work(ParseResult parsed, Work work)
    {
        work = SizeOption.In(work, parsed.GetValue(size));
        return parsed.GetValue(leftHanded) ? WorkOptions.ForLeftHand(work) : work;
    }

    /// <summary>Says which characters a printed page could not show.</summary>
    public static void SayLacking(string characters)
    {
        if (characters.Length > 0)
            Console.Error.WriteLine($"Note: the printed typefaces have no sign for {characters}; boxes stand in their place. A page written as .html shows them.");
    }

    public PlateOptions Read(ParseResult parsed) => new()
    {
        Paper = paper.Read(parsed),
        Units = units.Read(parsed),
        Levels = levels.Read(parsed),
        Edition = edition.Read(parsed),
        LargePrint = parsed.GetValue(largePrint),
        CarriesPiece = !parsed.GetValue(noPiece),
        TrueScaleChart = parsed.GetValue(trueScale) && !parsed.GetValue(noTrueScale),
    };
}
