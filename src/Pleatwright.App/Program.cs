using System.CommandLine;
using System.Text;
using Pleatwright.App.Commands;

// What is printed is UTF-8 everywhere; Windows would give a pipe, and JSON in it, the letters of an old code page.
if (OperatingSystem.IsWindows()) Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);

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
