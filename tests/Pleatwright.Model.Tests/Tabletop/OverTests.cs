using CsCheck;
using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Bench.Model.Tabletop;

namespace Pleatwright.Tests.Tabletop;

/// <summary>What lies over the cloth can always be put away, and lies there again when the bench is opened.</summary>
public class OverTests
{
    private sealed class Settings : IMemory
    {
        private readonly Dictionary<string, string> known = [];

        public string? Setting(string name) => known.GetValueOrDefault(name);

        public void SetSetting(string name, string? value)
        {
            if (value is null) known.Remove(name);
            else known[name] = value;
        }

        public Task<string?> RememberedAsync(string name) => Task.FromResult<string?>(null);

        public Task RememberAsync(string name, string? text) => Task.CompletedTask;

        public Task<bool> ReplaceAsync(string name, string? was, string? text) => Task.FromResult(true);

        public string? OfTab(string name) => null;

        public void SetOfTab(string name, string? value) { }

        public void OnLeave(Action act) { }
    }

    [Fact]
    public void After_any_acts_the_same_tab_shuts_what_it_opened_and_Esc_leaves_the_cloth_bare() => Gen.Int[0, 13].Array[0, 20].Sample(acts =>
    {
        var memory = new Settings();
        var over = new Over(memory);
        Assert.Null(over.Open); // a cloth nobody has worked at is bare
        foreach (var act in acts)
        {
            switch (act)
            {
                case < 6: over.Toggle((Section)act); break;
                case < 10: over.Toggle((Choice)(act - 5)); break;
                case 10: over.ToggleLast(); break;
                case 11: over.PutAway(); break;
                case 12: over.ToggleMap(); break;
                default: over.Escape(); break;
            }
            var again = new Over(memory);
            Assert.Equal((over.Open, over.MapAway), (again.Open, again.MapAway));
            Assert.Equal(Choice.None, again.Choice); // a small choice is not taken up again
        }
        foreach (var section in Over.Sections)
        {
            if (over.Open == section) over.Toggle(section);
            over.Toggle(section);
            Assert.Equal((section, Choice.None), (over.Open, over.Choice));
            over.Toggle(section);
            Assert.Null(over.Open);
        }
        over.ToggleLast();
        Assert.NotEqual(Section.Proof, over.Open);
        over.Toggle(Choice.Look);
        Assert.True(over.Escape());
        Assert.NotNull(over.Open);
        Assert.True(over.Escape());
        Assert.Null(over.Open);
        Assert.False(over.Escape()); // nothing lies there: the key is for what is marked
    });

    [Fact]
    public void A_setting_that_names_nothing_opens_nothing()
    {
        foreach (var text in new[] { "", "drawers", "7", "-1", "figures;" })
        {
            var memory = new Settings();
            memory.SetSetting("drawer", text);
            Assert.Null(new Over(memory).Open);
        }
    }
}
