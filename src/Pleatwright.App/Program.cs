using System.CommandLine;
using Pleatwright.App.Commands;

var root = new RootCommand("Designs, proves, orders and prints picture smocking. Without a command, opens the bench.")
{
    PlanCommand.Make(),
    ProofCommand.Make(),
    OrderCommand.Make(),
    PlateCommand.Make(),
    PictureCommand.Make(),
    ShowCommand.Make(),
    ClassCommand.Make(),
    TraceCommand.Make(),
    RecutCommand.Make(),
    LettersCommand.Make(),
    FigureCommand.Make(),
    StashCommand.Make(),
    ShopCommand.Make(),
    BenchCommand.Make(),
};
root.Options.Add(PieceFile.Large);
root.SetAction((_, cancel) => BenchCommand.Open(cancel));

return await CommandLine.Run(root, args);
