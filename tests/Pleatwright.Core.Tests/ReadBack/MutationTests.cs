using System.Text.RegularExpressions;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Tests.Chart.Stitches;
using Pleatwright.Tests.Endurance;
using Pleatwright.Tests.Order;

namespace Pleatwright.Tests.ReadBack;

/// <summary>Printed words gone wrong: every number and every word for a level or a side changed in turn.</summary>
public partial class MutationTests
{
    [GeneratedRegex(@"\d+|\b(?:up|down|left|right|near|far|above|below|top|bottom|L|R|N|F)\b")]
    private static partial Regex Marks();

    private static readonly Dictionary<string, string> Other = new()
    {
        ["up"] = "down", ["down"] = "up", ["left"] = "right", ["right"] = "left", ["near"] = "far", ["far"] = "near", ["above"] = "below", ["below"] = "above",
        ["top"] = "bottom", ["bottom"] = "top", ["L"] = "R", ["R"] = "L", ["N"] = "F", ["F"] = "N",
    };

    private static string Changed(string mark, int by) => Other.TryGetValue(mark, out var other) ? other
        : int.Parse(mark) is var n && by % 2 == 0 ? $"{n + 1 + by % 3}" : n > 0 ? $"{n - 1}" : "1";

    /// <summary>How many changes there were, and those that were not noticed.</summary>
    private static (int Changes, List<string> Unnoticed) Mutate(WorkingOrder order, int most, int seed)
    {
        var changes = 0;
        List<string> unnoticed = [];
        foreach (var words in new[] { LevelWords.UpDown, LevelWords.LeftRight })
            foreach (var printed in ReadBackTests.Editions(order, words))
            {
                var marks = Marks().Matches(printed);
                var every = Math.Max(1, marks.Count / most);
                for (var i = seed % every; i < marks.Count; i += every)
                {
                    var mark = marks[i];
                    var wrong = printed[..mark.Index] + Changed(mark.Value, i + seed) + printed[(mark.Index + mark.Length)..];
                    changes++;
                    if (PrintedWords.Differences(wrong, order).Count == 0)
                        unnoticed.Add(wrong.Substring(Math.Max(0, mark.Index - 60), Math.Min(120, wrong.Length - Math.Max(0, mark.Index - 60))).ReplaceLineEndings(" / "));
                }
            }
        return (changes, unnoticed);
    }

    [Fact]
    public void Of_a_thousand_words_changed_in_the_examples_not_two_go_unnoticed()
    {
        var (changes, unnoticed) = (0, new List<string>());
        foreach (var path in Repository.Examples)
        {
            var (more, missed) = Mutate(Planner.Plan(Work.Lay(PieceReader.Read(File.ReadAllBytes(path))), Effort.Drawing), Long.Of(35, 700), path.Length);
            changes += more;
            unnoticed.AddRange(missed);
        }
        Assert.True(unnoticed.Count * 1000 <= changes, $"{unnoticed.Count} of {changes}:\n{string.Join('\n', unnoticed)}");
        TestContext.Current.TestOutputHelper?.WriteLine($"{unnoticed.Count} of {changes}:\n{string.Join('\n', unnoticed)}");
    }

    [Fact]
    public void Of_a_thousand_words_changed_in_random_pieces_not_two_go_unnoticed()
    {
        var (changes, unnoticed) = (0, new List<string>());
        Gen.Select(Gen.OneOf(OrderGen.Pieces, BandGen.Pieces, CopiesTests.Pieces), Gen.Int[0, 1000]).Sample((piece, seed) =>
        {
            var (more, missed) = Mutate(Planner.Plan(Work.Lay(piece), Effort.Drawing), Long.Of(25, 100), seed);
            lock (unnoticed)
            {
                changes += more;
                unnoticed.AddRange(missed);
            }
        }, iter: Long.Of(12, 300));
        Assert.True(unnoticed.Count * 1000 <= changes + 999, $"{unnoticed.Count} of {changes}:\n{string.Join('\n', unnoticed)}");
    }
}
