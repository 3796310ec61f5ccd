using System.CommandLine;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Plate;

namespace Pleatwright.App.Commands;

/// <summary>Options that more than one command takes.</summary>
internal static class WorkOptions
{
    public static ChoiceOption<UnitSystem> Units() => new("--units", "The units lengths are given in.",
        ("both", UnitSystem.Both), ("metric", UnitSystem.Metric), ("inches", UnitSystem.Inches));

    public static ChoiceOption<LevelWords> Levels() => new("--levels", "Words for the levels; left and right are for work held sideways.",
        ("up-down", LevelWords.UpDown), ("left-right", LevelWords.LeftRight));

    public static ChoiceOption<Edition> Editions() => new("--edition", "What directions are told in: plate is a table, a line a run; learner is sentences, every copy in full.",
        ("plate", Edition.Plate), ("learner", Edition.Learner), ("learner's", Edition.Learner));

    public static Option<bool> LeftHanded() => new("--left-handed") { Description = "Plan and write for a left-handed stitcher." };

    /// <summary>The work as a left-handed stitcher does it, whatever the piece says.</summary>
    public static Work ForLeftHand(Work work) =>
        Smocking.Lay(work.Piece with { Working = work.Piece.Working with { Hand = Hand.Left } });
}
