using System.Collections.Immutable;
using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Bench.Model.Table;

namespace Pleatwright.Bench.Model.Tabletop;

/// <summary>A section of the drawer beside the cloth.</summary>
public enum Section { Figures, Bands, Accents, Cloth, Threads, Proof }

/// <summary>A small choice that opens over the cloth where there is no room for it to stand, and goes once it is made.</summary>
public enum Choice { None, Thread, Doing, Look, Views }

/// <summary>What lies over the cloth: the drawer and its section, a small choice, the map. None of it ever moves the cloth.</summary>
public sealed class Over
{
    private const string DrawerSetting = "drawer";
    private const string MapSetting = "map";
    private const string Away = "away";

    private readonly IMemory memory;

    /// <summary>As it lay when the bench was last left.</summary>
    public Over(IMemory memory)
    {
        this.memory = memory;
        if (Enum.TryParse<Section>(memory.Setting(DrawerSetting), ignoreCase: true, out var section) && Enum.IsDefined(section)) Take(section);
        MapAway = memory.Setting(MapSetting) == Away;
    }

    /// <summary>Raised when something came or went.</summary>
    public event Action? Changed;

    /// <summary>Every section, in the order of its tabs.</summary>
    public static ImmutableArray<Section> Sections { get; } = [.. Enum.GetValues<Section>()];

    /// <summary>The section that lies open; null when the drawer is shut.</summary>
    public Section? Open { get; private set; }

    /// <summary>The section that was open last, the proof apart: what one tab for all of them opens.</summary>
    public Section Last { get; private set; }

    /// <summary>The small choice that lies open.</summary>
    public Choice Choice { get; private set; }

    /// <summary>Whether the map was put away.</summary>
    public bool MapAway { get; private set; }

    /// <summary>Whether a question is answered in a form docked beside the cloth, which stays in use; else in a sheet over all of it.</summary>
    public static bool IsDocked(Question question) => question is not (Question.Do or Question.Keys or Question.Sizes or Question.Match or Question.WhichStays);

    /// <summary>Opens a section, or shuts the drawer when it is open already.</summary>
    public void Toggle(Section section)
    {
        Choice = Choice.None;
        if (Open == section) Open = null;
        else Take(section);
        Remember();
    }

    /// <summary>Opens the section that was open last, the proof apart, or shuts it.</summary>
    public void ToggleLast() => Toggle(Last);

    /// <summary>Shuts the drawer.</summary>
    public void PutAway()
    {
        if (Open is null) return;
        Open = null;
        Remember();
    }

    /// <summary>Opens a small choice, or shuts it when it is open already.</summary>
    public void Toggle(Choice choice)
    {
        Choice = Choice == choice ? Choice.None : choice;
        Changed?.Invoke();
    }

    /// <summary>The choice was made.</summary>
    public void Chosen()
    {
        if (Choice != Choice.None) Toggle(Choice);
    }

    /// <summary>Shows the map, or puts it away.</summary>
    public void ToggleMap()
    {
        MapAway = !MapAway;
        memory.SetSetting(MapSetting, MapAway ? Away : null);
        Changed?.Invoke();
    }

    /// <summary>Puts away what lies on top.</summary>
    /// <returns>False when nothing lay over the cloth that can be put away so.</returns>
    public bool Escape()
    {
        if (Choice != Choice.None) Chosen();
        else if (Open is not null) PutAway();
        else return false;
        return true;
    }

    private void Take(Section section)
    {
        Open = section;
        if (section != Section.Proof) Last = section;
    }

    private void Remember()
    {
        memory.SetSetting(DrawerSetting, Open?.ToString().ToLowerInvariant());
        Changed?.Invoke();
    }
}
