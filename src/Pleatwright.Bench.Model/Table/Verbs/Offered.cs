using System.Collections.Immutable;

namespace Pleatwright.Bench.Model.Table.Verbs;

/// <summary>The verbs most wanted where the hand is, as buttons.</summary>
public static class Offered
{
    private static readonly ImmutableArray<Verb>
        ForArea = Find("Ctrl+c", "Ctrl+v", "\\", "^", "|", "*", "Delete", "Escape"),
        ForFigure = Find("#", "<", "=", "|", "_", ":"),
        ForBare = Find("Ctrl+v", ";"),
        ForAccent = Find("@", "$", "!"),
        Always = Find("&");

    /// <summary>What is offered now: only what can be done.</summary>
    public static ImmutableArray<Verb> At(Workplace at)
    {
        var wanted = at.Needle.Area is not null ? ForArea : Accents.At(at) is not null ? ForAccent : at.Needle.Spot is not null ? ForFigure : ForBare;
        return [.. wanted.Concat(Always).Where(v => v.Can(at))];
    }

    /// <summary>What can be done now whose words hold what is sought, for the list that "/" opens.</summary>
    public static ImmutableArray<Verb> Sought(Workplace at, string words) =>
        [.. Verb.All.Where(v => !v.Unlisted && v.Key is not "/" && v.Words.Contains(words.Trim(), StringComparison.OrdinalIgnoreCase) && v.Can(at))];

    private static ImmutableArray<Verb> Find(params string[] keys) => [.. keys.Select(k => Verb.All.First(v => v.Key == k))];
}
