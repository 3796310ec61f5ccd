using System.Collections.Immutable;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Files;

/// <summary>
/// Reads the keys of one JSON object, each once. What is missing, of the wrong kind or unknown becomes a located error
/// that says what would serve.
/// </summary>
internal sealed class KeyReader
{
    private readonly JsonText text;
    private readonly LocatedObject source;
    private string what;
    private readonly List<string> known = [];

    public KeyReader(JsonText text, Located value, string what)
    {
        this.text = text;
        this.what = what;
        source = value as LocatedObject ?? throw text.Error(value.Offset, $"{what} must be an object, but {value.Kind} was found.");
    }

    public int Offset => source.Offset;

    /// <summary>Says more exactly what is read, once that is known.</summary>
    public void Named(string what) => this.what = what;

    public IReadOnlyList<LocatedMember> Members => source.Members;

    public Located? Optional(string key)
    {
        if (!known.Contains(key)) known.Add(key);
        foreach (var member in source.Members)
            if (member.Name == key) return member.Value;
        return null;
    }

    public Located Required(string key) =>
        Optional(key) ?? throw Lacking(key);

    public string String(string key) => AsString(Required(key), key);

    public string? OptionalString(string key) => Optional(key) is { } value ? AsString(value, key) : null;

    public string? OptionalString(string key, int longest) => Optional(key) is { } value ? AsString(value, key, longest) : null;

    public string? OptionalLines(string key, int longest) => Optional(key) is { } value ? Within(value, key, AsLines(value, key), longest) : null;

    public string AsString(Located value, string key, int longest) => Within(value, key, AsString(value, key), longest);

    private string Within(Located value, string key, string found, int longest) => found.Length <= longest
        ? found
        : throw text.Error(value.Offset, $"“{key}” is longer than {longest} characters.");

    public int Whole(string key, int from, int to) => AsWhole(Required(key), key, from, to);

    public int Whole(string key, int from, int to, int otherwise) =>
        Optional(key) is { } value ? AsWhole(value, key, from, to) : otherwise;

    public double Number(string key, double from, double to) => AsNumber(Required(key), key, from, to);

    public double? OptionalNumber(string key, double from, double to) =>
        Optional(key) is { } value ? AsNumber(value, key, from, to) : null;

    public double AsNumber(Located value, string key, double from, double to) => value switch
    {
        LocatedNumber n when n.Value >= from && n.Value <= to => n.Value,
        _ => throw Wrong(value, key, FormattableString.Invariant($"a number from {from} to {to}")),
    };

    /// <summary>A mark by which a figure or its state is known.</summary>
    public string Mark(string key) => OptionalMark(key) ?? throw Lacking(key);

    public string? OptionalMark(string key) => Optional(key) switch
    {
        null => null,
        LocatedString s when Chart.FigureMark.Is(s.Value) => s.Value,
        var other => throw Wrong(other, key, $"{Chart.FigureMark.Length} hexadecimal digits in lower case"),
    };

    public Colour Colour(string key) => OptionalColour(key) ?? throw Lacking(key);

    public Colour? OptionalColour(string key) => Optional(key) switch
    {
        null => null,
        LocatedString s when Thread.Colour.TryParse(s.Value, out var colour) => colour,
        var other => throw Wrong(other, key, "a colour such as \"#b3202c\""),
    };

    public Length Length(string key, bool allowZero = false) => AsLength(Required(key), key, allowZero);

    public Length? OptionalLength(string key, bool allowZero = false) =>
        Optional(key) is { } value ? AsLength(value, key, allowZero) : null;

    public bool Flag(string key, bool otherwise) => Optional(key) switch
    {
        null => otherwise,
        LocatedBool flag => flag.Value,
        var other => throw Wrong(other, key, "true or false"),
    };

    public IReadOnlyList<Located> List(string key) => Optional(key) switch
    {
        null => [],
        LocatedArray list => list.Items,
        var other => throw Wrong(other, key, "a list"),
    };

    /// <summary>Reads every entry of a list; none when the key is left out.</summary>
    public ImmutableArray<T> Many<T>(string key, int most, Func<Located, T> read)
    {
        var list = List(key);
        return list.Count == 0 ? ImmutableArray<T>.Empty : list.Count <= most ? [.. list.Select(read)] : throw text.Error(list[most].Offset, $"“{key}” holds more than {most} entries.");
    }

    /// <summary>Checks the number of the format under the key that marks the file.</summary>
    /// <param name="key">The key.</param>
    /// <param name="newest">The newest format read.</param>
    /// <param name="kind">What such a file holds: "piece".</param>
    public void Format(string key, int newest, string kind)
    {
        var format = Required(key);
        if (format is LocatedNumber { IsWhole: true } n && n.Value > newest)
            throw text.Error(format.Offset, FormattableString.Invariant(
                $"this {kind} is of format {n.Value}, newer than this program reads ({newest}); it was left untouched. Use a newer Pleatwright."));
        AsWhole(format, key, newest, newest);
    }

    /// <summary>Reads one of several words.</summary>
    public T OneOf<T>(string key, T otherwise, params ReadOnlySpan<(string Word, T Value)> words)
    {
        if (Optional(key) is not { } value) return otherwise;
        var found = AsString(value, key);
        foreach (var (word, meaning) in words)
            if (word == found) return meaning;
        var choices = new List<string>();
        foreach (var (word, _) in words) choices.Add($"“{word}”");
        throw text.Error(value.Offset, $"“{key}” must be {JoinOr(choices)}, but {value.Kind} was found.");
    }

    public string AsString(Located value, string key) => OneLine(AsLines(value, key));

    /// <summary>Text that may go over several lines.</summary>
    public string AsLines(Located value, string key) =>
        value is LocatedString s ? s.Value : throw Wrong(value, key, "text");

    /// <summary>A name or a title as it is said: on one line, whatever the file has, so that on a terminal or in a list it cannot pass for a line of ours.</summary>
    public static string OneLine(string text) =>
        text.AsSpan().IndexOfAnyInRange('\0', '\u001f') < 0 && !text.AsSpan().ContainsAnyInRange('\u007f', '\u009f') && !text.AsSpan().ContainsAny('\u2028', '\u2029') ? text
        : string.Concat(text.Select(c => char.IsControl(c) || c is '\u2028' or '\u2029' ? ' ' : c));

    public int AsWhole(Located value, string key, int from, int to) => value switch
    {
        LocatedNumber { IsWhole: true } n when n.Value >= from && n.Value <= to => (int)n.Value,
        _ => throw Wrong(value, key, FormattableString.Invariant($"a whole number from {from} to {to}")),
    };

    public Length AsLength(Located value, string key, bool allowZero = false)
    {
        if (value is not LocatedString s || !Measure.Length.TryParse(s.Value, out var length))
            throw Wrong(value, key, "a length with its unit, such as \"3/8 in\" or \"45 cm\"");
        return length > Measure.Length.Zero || (allowZero && length == Measure.Length.Zero)
            ? length
            : throw Wrong(value, key, "more than nothing");
    }

    private PieceFormatException Lacking(string key) => text.Error(source.Offset, $"{what} lacks the key “{key}”.");

    public PieceFormatException Wrong(Located value, string key, string wanted) =>
        text.Error(value.Offset, $"“{key}” must be {wanted}, but {value.Kind} was found.");

    /// <summary>Refuses every key that was never asked for.</summary>
    public void NothingElse()
    {
        foreach (var member in source.Members)
        {
            if (known.Contains(member.Name)) continue;
            throw text.Error(member.Offset,
                $"{what} has no key {JsonText.Quote(member.Name)}; it takes {JoinOr([.. known.Select(k => $"“{k}”")], "and")}.");
        }
    }

    public static string JoinOr(List<string> words, string last = "or") => words.Count switch
    {
        0 => "none",
        1 => words[0],
        _ => string.Join(", ", words.Take(words.Count - 1)) + $" {last} " + words[^1],
    };
}
