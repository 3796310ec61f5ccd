using NetArchTest.Rules;
using Pleatwright.Chart;

namespace Pleatwright.Tests;

/// <summary>The arrows between the rooms of docs/architecture.md.</summary>
public class RoomTests
{
    private static readonly Dictionary<string, string[]> MayKnow = new()
    {
        ["Measure"] = [],
        ["Thread"] = ["Measure"],
        ["Cloth"] = ["Measure", "Thread"],
        ["Chart"] = ["Measure", "Thread", "Cloth"],
        ["Proof"] = ["Measure", "Thread", "Cloth", "Chart"],
        ["Moves"] = ["Measure", "Thread", "Cloth", "Chart"],
        ["Order"] = ["Measure", "Thread", "Cloth", "Chart", "Moves"],
        ["Picture"] = ["Measure", "Thread", "Cloth", "Chart"],
        ["Stitched"] = ["Measure", "Thread", "Cloth", "Chart", "Picture"], // a picture is pixels, whichever way it goes
        ["Recutting"] = ["Measure", "Thread", "Cloth", "Chart", "Picture"],
        ["Letters"] = ["Measure", "Thread", "Cloth", "Chart", "Picture"],
        ["ReadBack"] = ["Measure", "Thread", "Cloth", "Chart"], // not the order, nor the words it is told in: a reader that shared them would prove nothing
        ["Plate"] = ["Measure", "Thread", "Cloth", "Chart", "Moves", "Proof", "Order", "ReadBack", "Picture", "Stitched", "Shopping", "Files", "Shelf"], // a painted still is pixels; a plate carries its piece file, by its name
        ["Shopping"] = ["Measure", "Thread", "Cloth", "Chart", "Order"],
        ["Ticks"] = [],
        ["Files"] = ["Measure", "Thread", "Cloth", "Chart", "Shopping", "Ticks"],
        ["Shelf"] = ["Measure", "Thread", "Cloth", "Chart", "Shopping", "Ticks", "Files"],
    };

    // The inner rooms of Chart, Plate and Files; "" is what lies in the room itself. Of Chart's own files two ask the edits: a cell in
    // words, and a piece fitted to a size.
    private static readonly Dictionary<string, string[]> InnerMayKnow = new()
    {
        ["Chart"] = ["Stitches", "Accents"],
        ["Chart.Stitches"] = [],
        ["Chart.Accents"] = ["Stitches"],
        ["Chart.Edit"] = ["Stitches", "Accents"],
        ["Plate"] = ["Parts", "Sections"],
        ["Plate.Sections"] = ["Parts"],
        ["Plate.Parts"] = [],
        ["Plate.Writers"] = ["Parts", "Sections"],
        ["Plate.Preparation"] = ["Parts"],
        ["Plate.Playing"] = ["Parts", "Writers"],
        ["Plate.Teaching"] = ["Parts", "Writers", "Playing"],
        ["Files"] = ["Pdf"],
        ["Files.Pdf"] = [],
    };

    private static readonly string[] AskTheEdits = [nameof(Where), "SizeFit"];

    public static TheoryData<string> InnerRooms => [.. InnerMayKnow.Keys];

    [Theory, MemberData(nameof(InnerRooms))]
    public void An_inner_room_knows_only_those_that_are_drawn(string room)
    {
        var outer = room.Split('.')[0];
        var siblings = InnerMayKnow.Keys.Where(r => r.StartsWith(outer + ".")).Select(r => r.Split('.')[1]);
        var barred = siblings.Except(InnerMayKnow[room]).Where(r => $"{outer}.{r}" != room).Select(r => $"Pleatwright.{outer}.{r}").ToArray();
        var here = typeof(Piece).Assembly.GetTypes().Where(t => (t.DeclaringType ?? t).Namespace == $"Pleatwright.{room}").ToArray();
        Assert.NotEmpty(here);
        var result = Types.InAssembly(typeof(Piece).Assembly).That().ResideInNamespaceMatching($"^Pleatwright\\.{room.Replace(".", "\\.")}$").And().DoNotHaveName(AskTheEdits)
            .ShouldNot().HaveDependencyOnAny(barred).GetResult();
        Assert.True(result.IsSuccessful, string.Join(", ", (result.FailingTypes ?? []).Select(t => t.FullName)));
    }

    [Fact]
    public void Every_inner_room_is_drawn()
    {
        var inner = typeof(Piece).Assembly.GetTypes().Select(t => (t.Namespace ?? "").Replace("Pleatwright.", "")).Where(n => n.StartsWith("Chart.") || n.StartsWith("Plate.") || n.StartsWith("Files.")).Distinct();
        Assert.Equal(InnerMayKnow.Keys.Where(r => r.Contains('.')).Order(), inner.Order());
    }

    public static TheoryData<string> Rooms => [.. MayKnow.Keys];

    [Theory, MemberData(nameof(Rooms))]
    public void A_room_knows_only_the_rooms_before_it(string room)
    {
        var barred = MayKnow.Keys.Except(MayKnow[room]).Where(r => r != room).Select(r => $"Pleatwright.{r}").ToArray();
        var result = Types.InAssembly(typeof(Piece).Assembly)
            .That().ResideInNamespace($"Pleatwright.{room}")
            .ShouldNot().HaveDependencyOnAny(barred).GetResult();
        Assert.True(result.IsSuccessful, string.Join(", ", (result.FailingTypes ?? []).Select(t => t.FullName)));
    }

    [Fact]
    public void Every_type_of_the_core_is_in_a_room_but_for_the_front_door()
    {
        var homeless = typeof(Piece).Assembly.GetTypes().Where(t => t.Namespace is { } space && (space + ".").StartsWith("Pleatwright.", StringComparison.Ordinal))
            .Where(t => t is { IsNested: false } && !MayKnow.ContainsKey(t.Namespace!.Replace("Pleatwright.", "").Split('.')[0])).ToArray();
        Assert.Equal([typeof(Smocking)], homeless);
    }

    [Fact]
    public void No_room_leans_on_the_front_door()
    {
        var result = Types.InAssembly(typeof(Piece).Assembly).That().DoNotHaveName(nameof(Smocking))
            .ShouldNot().HaveDependencyOnAny(typeof(Smocking).FullName).GetResult();
        Assert.True(result.IsSuccessful, string.Join(", ", (result.FailingTypes ?? []).Select(t => t.FullName)));
    }

    [Fact]
    public void The_core_knows_no_file_network_clock_console_or_program_of_ours()
    {
        var result = Types.InAssembly(typeof(Piece).Assembly).ShouldNot().HaveDependencyOnAny(
            "System.IO.File", "System.IO.Directory", "System.IO.FileStream", "System.Net", "System.Console",
            "System.Diagnostics.Process", "System.Diagnostics.Stopwatch", "Pleatwright.App", "Pleatwright.Bench", "Microsoft").GetResult();
        Assert.True(result.IsSuccessful, string.Join(", ", (result.FailingTypes ?? []).Select(t => t.FullName)));
    }
}
