using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Thread;

namespace Pleatwright.Files;

/// <summary>Reads the keys that say where something lies and in which thread, which several things share.</summary>
internal static class PlaceReader
{
    /// <summary>The key “centre”: a valley, or the piece's own centre valley.</summary>
    public static Centre Centre(KeyReader keys) => keys.Optional("centre") switch
    {
        null or LocatedString { Value: "middle" } => Chart.Centre.Middle,
        LocatedNumber { IsWhole: true, Value: >= 1 and <= PleatingPlan.MostPleats } n => Chart.Centre.At(new Valley((int)n.Value)),
        var other => throw keys.Wrong(other, "centre", $"“middle” or a valley from 1 to {PleatingPlan.MostPleats}"),
    };

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
