using System.CommandLine;
using Pleatwright.App.Commands;

var root = new RootCommand("Designs, proves, orders and prints picture smocking.")
{
    PlanCommand.Make(),
    ProofCommand.Make(),
    OrderCommand.Make(),
};

return await CommandLine.Run(root, args);
