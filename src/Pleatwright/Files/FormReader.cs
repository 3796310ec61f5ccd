using System.Collections.Immutable;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Files;

/// <summary>Reads the form of the cloth from the keys it brings: which keys those are, its kind says.</summary>
internal static class FormReader
{
    /// <summary>The form named by the key “form” among <paramref name="keys"/>.</summary>
    public static Form Read(JsonText text, KeyReader keys)
    {
        var named = keys.Required("form");
        var kind = FormKind.Named(keys.AsString(named, "form")) ?? throw text.Error(named.Offset,
            $"“form” must be {KeyReader.JoinOr([.. FormKind.All.Select(k => $"“{k.Name}”")])}, but {named.Kind} was found.");
        return Measured(text, keys, kind, null);
    }

    /// <summary>The form of another size: what it is measured by is given anew, the rest may stay as in the piece's own.</summary>
    public static Form Resized(JsonText text, KeyReader keys, Form own) => Measured(text, keys, own.Kind, own.Values);

    private static Form Measured(JsonText text, KeyReader keys, FormKind kind, FormValues? own)
    {
        var values = own ?? FormValues.None;
        foreach (var key in kind.Keys)
        {
            if ((key.IsOptional || (own is not null && key != kind.Measure)) && keys.Optional(key.Name) is null) continue;
            values = key switch
            {
                LengthKey length => values.With(length, keys.Length(key.Name, allowZero: key.IsOptional)),
                AngleKey angle => values.With(angle, Degrees(keys, key.Name)),
                PiecesKey pieces => values.With(pieces, Pieces(text, keys, pieces)),
                _ => throw new ArgumentException($"No way is known to read the key “{key.Name}”."),
            };
        }
        return kind.Make(values);
    }

    private static Angle Degrees(KeyReader keys, string key) => keys.Required(key) switch
    {
        LocatedNumber { Value: > 0 and <= 360 } n => Angle.FromDegrees(n.Value),
        var other => throw keys.Wrong(other, key, "degrees, more than 0 and at most 360"),
    };

    private static ImmutableArray<RoundPanel> Pieces(JsonText text, KeyReader keys, PiecesKey key)
    {
        var at = keys.Required(key.Name);
        var list = keys.List(key.Name);
        if (list.Count is 0 || list.Count > key.Most)
            throw text.Error(at.Offset, $"“{key.Name}” holds {list.Count} panels; {key.Of} has 1 to {key.Most}.");
        return [.. list.Select(item =>
        {
            var panel = new KeyReader(text, item, "a panel");
            var read = new RoundPanel(panel.String("name"), panel.Length("cut"));
            panel.NothingElse();
            return read;
        })];
    }
}
