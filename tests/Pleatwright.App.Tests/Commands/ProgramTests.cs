namespace Pleatwright.Tests.Commands;

/// <summary>What the other tests run within their own process is what the program does in one of its own.</summary>
public class ProgramTests
{
    [Theory]
    [InlineData(0, "plan", "examples/harbour-morning.piece.json")] // a path from where one stands
    [InlineData(0, "plan", "examples/first-pennant.piece.json", "--json")]
    [InlineData(0, "order", "examples/first-pennant.piece.json")]
    [InlineData(0, "--help")]
    [InlineData(1, "proof", "examples/flawed-kite.piece.json")]
    [InlineData(2, "plan", "nowhere.piece.json")]
    [InlineData(2, "proof", "--jsom")]
    public void A_process_of_its_own_says_the_same(int exit, params string[] arguments)
    {
        Program.Outcome apart = Program.RunApart(arguments), here = Program.Run(arguments);
        Assert.Equal((exit, exit), (apart.Exit, here.Exit));
        Assert.NotEmpty(exit < 2 ? apart.Out : apart.Error);
        Assert.Equal(apart.Out.Replace("  pleatwright ", "  ", StringComparison.Ordinal), here.Out.Replace($"  {RunnerName} ", "  ", StringComparison.Ordinal));
        if (exit == 2) Assert.Equal(apart.Complaint, here.Complaint);
    }

    private static string RunnerName => Path.GetFileNameWithoutExtension(Environment.GetCommandLineArgs()[0]);
}
