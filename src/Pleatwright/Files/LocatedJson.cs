using System.Text;
using System.Text.Json;

namespace Pleatwright.Files;

/// <summary>A JSON value that knows where in the text it stands.</summary>
internal abstract record Located(int Offset)
{
    /// <summary>What kind of thing it is, in words.</summary>
    public abstract string Kind { get; }
}

internal sealed record LocatedString(int Offset, string Value) : Located(Offset)
{
    public override string Kind => $"the text {JsonText.Quote(Value)}";
}

internal sealed record LocatedNumber(int Offset, double Value, bool IsWhole) : Located(Offset)
{
    public override string Kind => FormattableString.Invariant($"the number {Value}");
}

internal sealed record LocatedBool(int Offset, bool Value) : Located(Offset)
{
    public override string Kind => Value ? "true" : "false";
}

internal sealed record LocatedNull(int Offset) : Located(Offset)
{
    public override string Kind => "null";
}

internal sealed record LocatedArray(int Offset, List<Located> Items) : Located(Offset)
{
    public override string Kind => "a list";
}

internal sealed record LocatedMember(int Offset, string Name, Located Value);

internal sealed record LocatedObject(int Offset, List<LocatedMember> Members) : Located(Offset)
{
    public override string Kind => "an object";
}

/// <summary>The text of a piece file with its values located, and errors that say line and column.</summary>
internal sealed class JsonText
{
    /// <summary>The most values that are read of a document, one within another counted each. A picture as large as any cloth has some thousands.</summary>
    internal const int MostValues = 1_000_000;

    private const int LongestQuote = 40, MostDeep = 16;

    private readonly byte[] utf8;
    private int values;

    private JsonText(byte[] utf8) => this.utf8 = utf8;

    /// <summary>Reads a document.</summary>
    /// <remarks>Every file of ours is an object; of what begins otherwise no more than that is read.</remarks>
    /// <exception cref="PieceFormatException">It is not JSON, is nested too deep, holds too many values, or repeats a key.</exception>
    public static (JsonText Text, Located Root) Read(ReadOnlySpan<byte> utf8)
    {
        if (utf8.StartsWith(Encoding.UTF8.Preamble)) utf8 = utf8[3..];
        var text = new JsonText(utf8.ToArray());
        var reader = new Utf8JsonReader(text.utf8, new JsonReaderOptions { MaxDepth = MostDeep });
        if (utf8.IndexOfAnyExcept(" \t\r\n"u8) < 0) throw text.Error(0, "the file is empty; it must begin with {.");
        try
        {
            reader.Read();
            if (reader.TokenType == JsonTokenType.StartArray) return (text, new LocatedArray((int)reader.TokenStartIndex, []));
            var root = text.Value(ref reader);
            reader.Read(); // anything after the document is an error of the reader's own
            return (text, root);
        }
        catch (JsonException e)
        {
            var line = (int)(e.LineNumber ?? 0);
            throw new PieceFormatException(line + 1, text.CharactersIn(line, (int)(e.BytePositionInLine ?? 0)) + 1,
                reader.CurrentDepth >= MostDeep - 1 // the last one opened is not counted
                    ? "lists and objects lie deeper within one another here than any file of ours has them."
                    : "this is not valid JSON; a comma, a quotation mark or a bracket may be wrong or missing, here or just before.");
        }
        catch (InvalidOperationException) // a string that is not valid UTF-8 or holds half a surrogate pair
        {
            throw text.Error((int)reader.TokenStartIndex, "this text is not valid Unicode.");
        }
    }

    /// <summary>An error at a byte offset.</summary>
    public PieceFormatException Error(int offset, string message)
    {
        var before = utf8.AsSpan(0, Math.Min(offset, utf8.Length));
        var line = before.Count((byte)'\n');
        return new PieceFormatException(line + 1, CharactersIn(line, before.Length - (before.LastIndexOf((byte)'\n') + 1)) + 1, message);
    }

    /// <summary>Text in quotation marks, cut short when long, with control characters made harmless.</summary>
    public static string Quote(string text)
    {
        var quoted = new StringBuilder("“");
        var end = text.Length <= LongestQuote ? text.Length : char.IsHighSurrogate(text[LongestQuote - 1]) ? LongestQuote - 1 : LongestQuote;
        foreach (var c in text.AsSpan(0, end)) quoted.Append(char.IsControl(c) ? '?' : c);
        return quoted.Append(end < text.Length ? "…”" : "”").ToString();
    }

    /// <summary>The byte offset of a character within a string of the text, whose letters may be written as escapes.</summary>
    /// <param name="value">The string.</param>
    /// <param name="index">Which character of what it says, from 0.</param>
    public int OffsetIn(Located value, int index)
    {
        var at = value.Offset + 1; // past the opening quotation mark
        for (var i = 0; i < index;)
        {
            if (utf8[at] == '\\')
            {
                at += utf8[at + 1] == 'u' ? 6 : 2;
                i++;
                continue;
            }
            Rune.DecodeFromUtf8(utf8.AsSpan(at), out var rune, out var bytes);
            at += bytes;
            i += rune.Utf16SequenceLength;
        }
        return at;
    }

    private int CharactersIn(int line, int bytes)
    {
        var rest = utf8.AsSpan();
        for (; line > 0; line--)
        {
            var end = rest.IndexOf((byte)'\n');
            if (end < 0) break;
            rest = rest[(end + 1)..];
        }
        return Encoding.UTF8.GetCharCount(rest[..Math.Min(bytes, rest.Length)]);
    }

    private Located Value(ref Utf8JsonReader reader)
    {
        var at = (int)reader.TokenStartIndex;
        if (++values > MostValues) throw Error(at, string.Create(System.Globalization.CultureInfo.InvariantCulture, $"up to here there are {MostValues:N0} values; no file of ours has so many."));
        switch (reader.TokenType)
        {
            case JsonTokenType.String: return new LocatedString(at, reader.GetString()!);
            case JsonTokenType.True: return new LocatedBool(at, true);
            case JsonTokenType.False: return new LocatedBool(at, false);
            case JsonTokenType.Null: return new LocatedNull(at);
            case JsonTokenType.Number:
                return reader.TryGetDouble(out var number) && double.IsFinite(number)
                    ? new LocatedNumber(at, number, Math.Floor(number) == number)
                    : throw Error(at, "this number is out of range.");
            case JsonTokenType.StartArray:
                List<Located> items = [];
                while (reader.Read() && reader.TokenType != JsonTokenType.EndArray) items.Add(Value(ref reader));
                return new LocatedArray(at, items);
            default:
                List<LocatedMember> members = [];
                HashSet<string> names = [];
                while (reader.Read() && reader.TokenType != JsonTokenType.EndObject)
                {
                    var nameAt = (int)reader.TokenStartIndex;
                    var name = reader.GetString()!;
                    if (!names.Add(name)) throw Error(nameAt, $"the key {Quote(name)} stands here a second time; keep one.");
                    reader.Read();
                    members.Add(new LocatedMember(nameAt, name, Value(ref reader)));
                }
                return new LocatedObject(at, members);
        }
    }
}
