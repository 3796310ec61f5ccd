using System.Globalization;
using Pleatwright.Bench.Model.Keeping;

namespace Pleatwright.Bench.Model.Chair;

/// <summary>Where the maker is: items done, and ticks done in the one under way.</summary>
/// <param name="Items">Items done, from 0.</param>
/// <param name="Ticks">Ticks done of the next item, from 0.</param>
public readonly record struct ChairPlace(int Items, int Ticks)
{
    /// <summary>One tick on; an item is done with its last.</summary>
    public ChairPlace On(ChairWork work) =>
        Items >= work.Items.Length ? this
        : Ticks + 1 < work.Items[Items].Ticks ? this with { Ticks = Ticks + 1 }
        : new ChairPlace(Items + 1, 0);

    /// <summary>The whole item done.</summary>
    public ChairPlace ItemDone(ChairWork work) => Items < work.Items.Length ? new ChairPlace(Items + 1, 0) : this;

    /// <summary>One tick back, into the item before where need be.</summary>
    public ChairPlace Back(ChairWork work) => (Items, Ticks) switch
    {
        (_, > 0) => this with { Ticks = Ticks - 1 },
        ( > 0, _) => new ChairPlace(Items - 1, work.Items[Items - 1].Ticks - 1),
        _ => this,
    };

    /// <summary>The place remembered of a piece, through reloads and kills; false beside it when the piece has changed since.</summary>
    public static async Task<(ChairPlace Place, bool Same)> RememberedAsync(IMemory memory, string piece, ChairWork work)
    {
        var words = (await memory.RememberedAsync(Key(piece)))?.Split(' ');
        if (words is not [var items, var ticks, var mark]
            || !int.TryParse(items, NumberStyles.None, CultureInfo.InvariantCulture, out var i)
            || !int.TryParse(ticks, NumberStyles.None, CultureInfo.InvariantCulture, out var t)) return (default, true);
        i = Math.Min(i, work.Items.Length);
        return mark == work.Mark && (i == work.Items.Length || t < work.Items[i].Ticks) ? (new ChairPlace(i, t), true) : (new ChairPlace(i, 0), false);
    }

    /// <summary>Remembers it.</summary>
    public Task RememberAsync(IMemory memory, string piece, ChairWork work) =>
        memory.RememberAsync(Key(piece), string.Create(CultureInfo.InvariantCulture, $"{Items} {Ticks} {work.Mark}"));

    private static string Key(string piece) => $"place\n{piece}";
}
