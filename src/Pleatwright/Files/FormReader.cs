using System.Collections.Immutable;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Files;

/// <summary>Reads the form of the cloth from the keys it brings: which keys those are depends on its name.</summary>
internal static class FormReader
{
    /// <summary>The form named by the key “form” among <paramref name="keys"/>.</summary>
    public static Form Read(JsonText text, KeyReader keys)
    {
        var named = keys.Required("form");
        return Measured(text, keys, keys.AsString(named, "form"), null)
            ?? throw text.Error(named.Offset, $"“form” must be “panel”, “round” or “ball”, but {named.Kind} was found.");
    }

    /// <summary>The form of another size: what it is measured by is given anew, the rest may stay as in the piece's own.</summary>
    public static Form Resized(JsonText text, KeyReader keys, Form own) => Measured(text, keys, own.Name, own as Round)
        ?? throw new ArgumentException($"No way is known to read a size of a form called “{own.Name}”.");

    // The form of a name by the keys it brings; a round one's sweep and panels may stay as in the piece's own.
    private static Form? Measured(JsonText text, KeyReader keys, string name, Round? own) => name switch
    {
        "panel" => new Panel(keys.Length("finishedWidth")),
        "round" => new Round(keys.Length("neck"), Sweep(keys) ?? own?.Sweep ?? Angle.FullTurn,
            own is not null && keys.Optional("panels") is null ? own.Panels : Panels(text, keys)),
        "ball" => new Ball(keys.Length("diameter")),
        _ => null,
    };

    /// <summary>The sweep of a round form, when given.</summary>
    private static Angle? Sweep(KeyReader keys) => keys.Optional("sweep") switch
    {
        null => null,
        LocatedNumber { Value: > 0 and <= 360 } n => Angle.FromDegrees(n.Value),
        var other => throw keys.Wrong(other, "sweep", "degrees, more than 0 and at most 360"),
    };

    /// <summary>The panels of a round form.</summary>
    private static ImmutableArray<RoundPanel> Panels(JsonText text, KeyReader keys)
    {
        var at = keys.Required("panels");
        var list = keys.List("panels");
        if (list.Count is 0 or > Round.MostPanels)
            throw text.Error(at.Offset, $"“panels” holds {list.Count} panels; a round form has 1 to {Round.MostPanels}.");
        return [.. list.Select(item =>
        {
            var panel = new KeyReader(text, item, "a panel");
            var read = new RoundPanel(panel.String("name"), panel.Length("cut"));
            panel.NothingElse();
            return read;
        })];
    }
}
