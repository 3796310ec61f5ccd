using System.Text.RegularExpressions;
using System.Xml.Linq;
using Mono.Cecil;
using Mono.Cecil.Cil;
using NetArchTest.Rules;
using Pleatwright.Bench.Model;

namespace Pleatwright.Tests;

/// <summary>The arrows of docs/architecture.md about the bench's mind: its rooms, what it may ask of the machine, and which project may know which.</summary>
public class RoomTests
{
    private const string Model = "Pleatwright.Bench.Model";

    private static readonly Dictionary<string, string[]> MayKnow = new()
    {
        ["Table"] = [],
        ["Painting"] = [],
        ["Keeping"] = [],
        ["Printing"] = [],
        ["Drafts"] = ["Table"],
        ["Tabletop"] = ["Table", "Drafts", "Keeping"],
        ["Working"] = ["Keeping", "Table"],
        ["Basket"] = ["Keeping"],
        ["Drawer"] = ["Keeping", "Table", "Drafts"],
        ["Chair"] = ["Keeping"],
        ["Showing"] = [],
        ["Pieces"] = ["Keeping"],
        ["Tracing"] = ["Basket", "Table"],
    };

    // Of what lies in the model itself, these look into a room: what undo means at a view depends on the stash and the chair.
    private static readonly Dictionary<string, string[]> OfTheModelItself = new() { [nameof(Undoing)] = ["Basket", "Chair"] };

    private static readonly Dictionary<string, string[]> Projects = new()
    {
        ["Pleatwright.Typefaces"] = [],
        ["Pleatwright"] = ["Pleatwright.Typefaces"],
        ["Pleatwright.Bench.Model"] = ["Pleatwright"],
        ["Pleatwright.Bench"] = ["Pleatwright.Bench.Model"],
        ["Pleatwright.App"] = ["Pleatwright", "Pleatwright.Bench"],
    };

    public static TheoryData<string> Rooms => [.. MayKnow.Keys];

    [Theory, MemberData(nameof(Rooms))]
    public void A_room_of_the_model_knows_only_the_rooms_that_are_drawn(string room)
    {
        var barred = MayKnow.Keys.Except(MayKnow[room]).Where(r => r != room).Select(r => $"{Model}.{r}").ToArray();
        Assert.Contains(typeof(Desk).Assembly.GetTypes(), t => (t.Namespace ?? "").StartsWith($"{Model}.{room}"));
        Holds(Types.InAssembly(typeof(Desk).Assembly).That().ResideInNamespaceMatching($"^{Regex.Escape(Model)}\\.{room}(\\.|$)").ShouldNot().HaveDependencyOnAny([.. barred, typeof(Undoing).FullName!]).GetResult());
    }

    [Fact]
    public void What_lies_in_the_model_itself_knows_no_room_but_where_it_is_drawn()
    {
        foreach (var type in typeof(Desk).Assembly.GetTypes().Where(t => t.Namespace == Model && t.DeclaringType is null && !t.Name.StartsWith('<')))
        {
            var barred = MayKnow.Keys.Except(OfTheModelItself.GetValueOrDefault(type.Name, [])).Select(r => $"{Model}.{r}").ToArray();
            Holds(Types.InAssembly(typeof(Desk).Assembly).That().ResideInNamespaceMatching($"^{Regex.Escape(Model)}$").And().HaveName(type.Name).ShouldNot().HaveDependencyOnAny(barred).GetResult());
        }
    }

    [Fact]
    public void Every_room_of_the_model_is_drawn() => Assert.Equal(MayKnow.Keys.Order(),
        typeof(Desk).Assembly.GetTypes().Select(t => t.Namespace ?? "").Where(n => n.StartsWith(Model + ".")).Select(n => n[(Model.Length + 1)..].Split('.')[0]).Distinct().Order());

    [Fact]
    public void The_model_knows_no_browser_page_file_or_console() => Holds(Types.InAssembly(typeof(Desk).Assembly).ShouldNot().HaveDependencyOnAny(
        "System.Runtime.InteropServices.JavaScript", "Microsoft", "System.IO.File", "System.IO.Directory", "System.IO.FileStream", "System.Console", "System.Diagnostics.Process",
        "Pleatwright.App", "Pleatwright.Bench.Table", "Pleatwright.Bench.Keeping").GetResult());

    [Fact]
    public void Only_keeping_goes_to_the_host() => Holds(Types.InAssembly(typeof(Desk).Assembly).That().DoNotResideInNamespace($"{Model}.Keeping").ShouldNot().HaveDependencyOnAny("System.Net").GetResult());

    [Fact]
    public void Time_in_the_model_comes_from_a_time_provider_alone()
    {
        var calls = ForbiddenCalls(typeof(Desk).Assembly.Location).ToArray();
        Assert.Empty(calls);
        // The reader of calls does find what it looks for: this test's own assembly does it below.
        Assert.Contains(ForbiddenCalls(typeof(RoomTests).Assembly.Location), c => c.Contains(nameof(WhatTheModelMayNotDo)));
    }

    [Fact]
    public void Projects_know_each_other_as_drawn()
    {
        foreach (var (project, mayKnow) in Projects)
        {
            var file = XDocument.Load(Repository.Path("src", project, project + ".csproj"));
            Assert.Equal(mayKnow.Order(), file.Descendants("ProjectReference").Select(r => Path.GetFileNameWithoutExtension((string)r.Attribute("Include")!)).Order());
        }
        Assert.Equal(Projects.Keys.Order(), Directory.GetDirectories(Repository.Path("src")).Select(f => Path.GetFileName(f)!).Order());
    }

    [Fact]
    public void No_cap_or_pattern_is_written_in_a_view_where_the_core_or_the_model_states_it()
    {
        var stated = new Regex("""\b(max|maxlength|Most|pattern)="@?[^"@\w]*(?!1")\d+""");
        Assert.Matches(stated, """<input max="5000" />"""); // it would be seen
        var written = Directory.GetFiles(Repository.Path("src", "Pleatwright.Bench"), "*.razor", SearchOption.AllDirectories)
            .Where(f => !f.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}"))
            .SelectMany(f => stated.Matches(File.ReadAllText(f)).Select(m => $"{Path.GetFileName(f)}: {m.Value}"));
        Assert.Empty(written);
    }

    private static void Holds(NetArchTest.Rules.TestResult result) => Assert.True(result.IsSuccessful, string.Join(", ", (result.FailingTypes ?? []).Select(t => t.FullName)));

    // Calls that read a clock or wait by one without being given it.
    private static IEnumerable<string> ForbiddenCalls(string assembly)
    {
        using var read = AssemblyDefinition.ReadAssembly(assembly);
        foreach (var method in read.MainModule.GetTypes().SelectMany(t => t.Methods).Where(m => m.HasBody))
            foreach (var instruction in method.Body.Instructions)
                if (instruction.OpCode.FlowControl == FlowControl.Call && instruction.Operand is MethodReference called && IsForbidden(called))
                    yield return $"{method.FullName} calls {called.FullName}";
    }

    private static bool IsForbidden(MethodReference called) => (called.DeclaringType.FullName, called.Name) switch
    {
        ("System.DateTime" or "System.DateTimeOffset", "get_Now" or "get_UtcNow" or "get_Today") => true,
        ("System.Threading.Tasks.Task", "Delay") => !called.Parameters.Any(p => p.ParameterType.Name == nameof(TimeProvider)),
        ("System.Threading.CancellationTokenSource", "CancelAfter") or ("System.Threading.Thread", "Sleep") or ("System.TimeProvider", "get_System") => true,
        ("System.Diagnostics.Stopwatch" or "System.Threading.Timer" or "System.Timers.Timer" or "System.Threading.PeriodicTimer", _) => true,
        ("System.Environment", "get_TickCount" or "get_TickCount64") => true,
        _ => false,
    };

    internal static async Task<DateTime> WhatTheModelMayNotDo()
    {
        await Task.Delay(1);
        return DateTime.Now;
    }
}
