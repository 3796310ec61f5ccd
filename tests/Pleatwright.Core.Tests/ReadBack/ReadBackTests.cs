using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Writers;
using Pleatwright.Tests.Chart.Stitches;
using Pleatwright.Tests.Endurance;
using Pleatwright.Tests.Order;

namespace Pleatwright.Tests.ReadBack;

/// <summary>A reader that knows only words works the directions and gets the very piece.</summary>
public class ReadBackTests
{
    private static readonly LevelWords[] Frames = [LevelWords.UpDown, LevelWords.LeftRight];

    internal static IEnumerable<string> Editions(WorkingOrder order, LevelWords words) =>
        [DirectionsText.Of(Directions.Table(order, words)), DirectionsText.Of(Directions.Write(order, words))];

    internal static void Gives_the_piece(WorkingOrder order)
    {
        foreach (var words in Frames)
            foreach (var printed in Editions(order, words))
            {
                var differences = PrintedWords.Differences(printed, order);
                Assert.True(differences.Count == 0, $"{string.Join('\n', differences.Take(6))}\n{printed[..Math.Min(printed.Length, 6000)]}");
            }
    }

    public static TheoryData<string> Examples => [.. Repository.Examples.Select(f => Path.GetFileName(f)!)];

    [Theory, MemberData(nameof(Examples))]
    public void The_examples_are_rebuilt_from_words_for_either_hand_upright_and_sideways(string example)
    {
        var piece = PieceReader.Read(File.ReadAllBytes(Repository.Examples.Single(f => Path.GetFileName(f) == example)));
        foreach (var hand in new[] { Hand.Right, Hand.Left })
            Gives_the_piece(Planner.Plan(Work.Lay(piece with { Working = piece.Working with { Hand = hand } }), Effort.Drawing));
    }

    [Fact]
    public void Pictures_of_all_sorts_are_rebuilt() => OrderGen.Pieces.Sample(piece => Gives_the_piece(Planner.Plan(Work.Lay(piece), Effort.Drawing)), iter: Long.Of(40, 3_000));

    [Fact]
    public void Bands_accents_and_the_back_are_rebuilt() => BandGen.Pieces.Sample(piece => Gives_the_piece(Planner.Plan(Work.Lay(piece), Effort.Drawing)), iter: Long.Of(40, 3_000));

    [Fact]
    public void Repeated_figures_are_rebuilt() => CopiesTests.Pieces.Sample(piece => Gives_the_piece(Planner.Plan(Work.Lay(piece), Effort.Drawing)), iter: Long.Of(20, 1_000));
}
