using System.CommandLine;
using Pleatwright.Chart;
using Pleatwright.Order;

namespace Pleatwright.App.Commands;

/// <summary>Left-handed work, whatever the piece says.</summary>
internal static class HandOption
{
    public static Option<bool> Make() => new("--left-handed") { Description = "Plan and write for a left-handed stitcher." };

    public static Work LeftHanded(Work work) =>
        Work.Lay(work.Piece with { Working = work.Piece.Working with { Hand = Hand.Left } });
}

/// <summary>The words for the levels.</summary>
internal static class WordsOption
{
    public static Option<LevelWords> Make() => new("--levels")
    {
        Description = "Words for the levels: up-down, or left-right for work held sideways.",
        HelpName = "up-down|left-right",
        DefaultValueFactory = _ => LevelWords.UpDown,
        CustomParser = result =>
        {
            switch (result.Tokens[0].Value)
            {
                case "up-down": return LevelWords.UpDown;
                case "left-right": return LevelWords.LeftRight;
                default:
                    result.AddError($"“{result.Tokens[0].Value}” names no levels; --levels takes up-down or left-right.");
                    return default;
            }
        },
    };
}
