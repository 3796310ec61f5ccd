using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Thread;

namespace Pleatwright.Files;

/// <summary>Reads the keys that say where something lies and in which thread, which several things share.</summary>
internal static class PlaceReader
{
    /// <summary>The key “centre”: a valley, the piece's own centre valley, or what it hangs on.</summary>
    public static Centre Centre(JsonText text, KeyReader keys, ClothPlan cloth) => keys.Optional("centre") switch
    {
        null or LocatedString { Value: "middle" } => Chart.Centre.Middle,
        LocatedNumber { IsWhole: true, Value: >= 1 and <= PleatingPlan.MostPleats } n => Chart.Centre.At(new Valley((int)n.Value)),
        LocatedObject hung => Hung(text, hung, cloth),
        var other => throw keys.Wrong(other, "centre", $"“middle”, a valley from 1 to {PleatingPlan.MostPleats}, or what it hangs on, such as {{ \"panel\": \"front\" }}"),
    };

    private static Centre Hung(JsonText text, LocatedObject value, ClothPlan cloth)
    {
        var keys = new KeyReader(text, value, "what a centre hangs on");
        var panel = Panel(text, keys, cloth);
        var from = keys.OneOf("from", CountedFrom.Centre, ("centre", CountedFrom.Centre), ("left", CountedFrom.Left), ("right", CountedFrom.Right));
        var valleys = from == CountedFrom.Centre
            ? keys.Whole("valleys", -PleatingPlan.MostPleats, PleatingPlan.MostPleats, 0)
            : keys.Whole("valleys", -PleatingPlan.MostPleats, PleatingPlan.MostPleats);
        keys.NothingElse();
        return Chart.Centre.Hung(panel, from, valleys);
    }

    /// <summary>The key “panel”: a panel of the cloth by its name, the first that has it; null when it is left out.</summary>
    public static string? Panel(JsonText text, KeyReader keys, ClothPlan cloth)
    {
        if (keys.Optional("panel") is not { } value) return null;
        var name = keys.AsString(value, "panel");
        ImmutableArray<string> panels = cloth.Form.Kind.Pieces is { } pieces ? [.. cloth.Form.Values.Pieces(pieces).Select(p => p.Name)] : [];
        return panels.Contains(name) ? name
            : throw text.Error(value.Offset, $"no panel is called {JsonText.Quote(name)}; {(panels.IsEmpty ? "this form of cloth is not sewn of named panels" : $"there are {string.Join(", ", panels.Distinct().Take(12).Select(JsonText.Quote))}")}.");
    }

    /// <summary>The key “repeat”; once when it is left out.</summary>
    public static Repeat Repeat(JsonText text, KeyReader keys)
    {
        if (keys.Optional("repeat") is not { } value) return Chart.Repeat.Once;
        var own = new KeyReader(text, value, "a repeat");
        var repeat = new Repeat(own.Whole("count", 1, Chart.Repeat.MostCount), own.Whole("every", 1, PleatingPlan.MostPleats));
        own.NothingElse();
        return repeat;
    }

    /// <summary>The key “thread”: the letter of one of the piece's threads.</summary>
    public static ThreadKey Thread(JsonText text, KeyReader keys, ImmutableArray<Floss> threads)
    {
        var at = keys.Required("thread");
        var letter = keys.AsString(at, "thread");
        foreach (var thread in threads)
            if (thread.Key.ToString() == letter) return thread.Key;
        throw text.Error(at.Offset, $"no thread has the letter {JsonText.Quote(letter)}; {ThreadsThereAre(threads)}.");
    }

    /// <summary>"there are a, b, c": the letters to choose from, for an error's words.</summary>
    public static string ThreadsThereAre(ImmutableArray<Floss> threads) => threads.Length == 0
        ? "the piece has no threads"
        : "there " + (threads.Length == 1 ? "is " : "are ") + string.Join(", ", threads.Select(t => t.Key.ToString()));
}
