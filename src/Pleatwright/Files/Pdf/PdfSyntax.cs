using System.Buffers.Text;
using System.Text;

namespace Pleatwright.Files.Pdf;

/// <summary>How much may yet be read of a file in all, by whatever ways the same bytes are come back to.</summary>
/// <param name="steps">About as many bytes.</param>
internal sealed class PdfPatience(int steps)
{
    private int left = steps;

    /// <summary>Takes steps.</summary>
    /// <exception cref="PdfFault">There are none left.</exception>
    public void Spend(int steps, int at)
    {
        if ((left -= steps) < 0) throw new PdfFault(at, "the PDF holds more than any plate");
    }
}

/// <summary>Reads values one after the other (ISO 32000-2, 7.2 and 7.3).</summary>
/// <param name="bytes">What they stand in.</param>
/// <param name="at">Where the first begins.</param>
/// <param name="patience">How much may yet be read.</param>
internal sealed class PdfSyntax(byte[] bytes, int at, PdfPatience patience)
{
    private const int MostDeep = 64, StepsOfValue = 16; // a value takes more room than its bytes

    /// <summary>Where the next value begins.</summary>
    public int At { get; private set; } = at;

    /// <summary>The next value.</summary>
    /// <exception cref="PdfFault">There is none.</exception>
    public PdfValue Read() => Read(0);

    /// <summary>The next value, which is a whole number and no less than 0.</summary>
    /// <exception cref="PdfFault">It is something else.</exception>
    public int ReadWhole()
    {
        SkipSpace();
        var from = At;
        patience.Spend(1, from);
        if (!Utf8Parser.TryParse(bytes.AsSpan(At), out int number, out var used) || number < 0) throw Damaged(from);
        At += used;
        return number;
    }

    /// <summary>Takes a keyword where it stands next.</summary>
    public bool Takes(ReadOnlySpan<byte> word)
    {
        SkipSpace();
        if (!bytes.AsSpan(At).StartsWith(word)) return false;
        At += word.Length;
        return true;
    }

    /// <summary>Takes the line break that a stream begins after.</summary>
    public void TakeLineBreak()
    {
        if (At < bytes.Length && bytes[At] == '\r') At++;
        if (At < bytes.Length && bytes[At] == '\n') At++;
    }

    private PdfFault Damaged(int where) => new(where, "the PDF is damaged");

    private PdfValue Read(int deep)
    {
        SkipSpace();
        var from = At;
        patience.Spend(StepsOfValue, from);
        if (deep > MostDeep) throw new PdfFault(from, "the PDF nests deeper than any plate");
        if (At >= bytes.Length) throw new PdfFault(from, "the PDF breaks off");
        switch (bytes[At])
        {
            case (byte)'/':
                At++;
                return new PdfName(Name());
            case (byte)'(':
                At++;
                return new PdfString(Literal());
            case (byte)'[':
                At++;
                List<PdfValue> items = [];
                while (!Takes("]"u8)) items.Add(Read(deep + 1));
                return new PdfList(items);
            case (byte)'<' when At + 1 < bytes.Length && bytes[At + 1] == '<':
                At += 2;
                Dictionary<string, PdfValue> entries = [];
                while (!Takes(">>"u8))
                {
                    if (Read(deep + 1) is not PdfName key) throw Damaged(from);
                    entries[key.Text] = Read(deep + 1);
                }
                return new PdfTable(entries);
            case (byte)'<':
                At++;
                return new PdfString(Hex());
        }
        var word = Regular();
        if (word.IsEmpty) throw Damaged(from); // a bracket that closes nothing
        if (!Utf8Parser.TryParse(word, out double number, out var used) || used < word.Length || !double.IsFinite(number)) return new PdfWord(Encoding.Latin1.GetString(word));
        return number >= 0 && number <= int.MaxValue && Math.Floor(number) == number && IsReference() ? new PdfReference((int)number) : new PdfNumber(number);
    }

    // Whether a generation and an R follow; they are taken when they do.
    private bool IsReference()
    {
        var from = At;
        SkipSpace();
        var generation = Regular();
        if (!generation.IsEmpty && generation.IndexOfAnyExceptInRange((byte)'0', (byte)'9') < 0)
        {
            SkipSpace();
            if (Regular() is [(byte)'R']) return true;
        }
        At = from;
        return false;
    }

    private ReadOnlySpan<byte> Regular()
    {
        var from = At;
        while (At < bytes.Length && !IsSpace(bytes[At]) && !IsDelimiter(bytes[At])) At++;
        patience.Spend(At - from, from);
        return bytes.AsSpan(from, At - from);
    }

    private string Name()
    {
        var raw = Regular();
        if (!raw.Contains((byte)'#')) return Encoding.Latin1.GetString(raw);
        var name = new StringBuilder();
        for (var i = 0; i < raw.Length; i++)
            if (raw[i] == '#' && i + 2 < raw.Length && Digit(raw[i + 1]) is >= 0 and var high && Digit(raw[i + 2]) is >= 0 and var low) (_, i) = (name.Append((char)(high * 16 + low)), i + 2);
            else name.Append((char)raw[i]);
        return name.ToString();
    }

    private byte[] Literal()
    {
        var from = At;
        List<byte> text = [];
        for (var open = 1; ;)
        {
            if (At >= bytes.Length) throw new PdfFault(from, "the PDF breaks off");
            patience.Spend(1, from);
            var next = bytes[At++];
            if (next == '\\') Escaped(text);
            else if (next == ')' && --open == 0) return [.. text];
            else
            {
                if (next == '(') open++;
                text.Add(next);
            }
        }
    }

    private void Escaped(List<byte> text)
    {
        if (At >= bytes.Length) return;
        var next = bytes[At++];
        switch (next)
        {
            case (byte)'n': text.Add((byte)'\n'); break;
            case (byte)'r': text.Add((byte)'\r'); break;
            case (byte)'t': text.Add((byte)'\t'); break;
            case (byte)'b': text.Add((byte)'\b'); break;
            case (byte)'f': text.Add((byte)'\f'); break;
            case (byte)'\n': break;
            case (byte)'\r': if (At < bytes.Length && bytes[At] == '\n') At++; break;
            case >= (byte)'0' and <= (byte)'7':
                var code = next - '0';
                for (var i = 0; i < 2 && At < bytes.Length && bytes[At] is >= (byte)'0' and <= (byte)'7'; i++) code = code * 8 + bytes[At++] - '0';
                text.Add((byte)code);
                break;
            default: text.Add(next); break;
        }
    }

    private byte[] Hex()
    {
        var from = At;
        List<byte> text = [];
        var high = -1;
        for (; ; At++)
        {
            if (At >= bytes.Length) throw new PdfFault(from, "the PDF breaks off");
            patience.Spend(1, from);
            if (bytes[At] == '>') break;
            if (IsSpace(bytes[At])) continue;
            if (Digit(bytes[At]) is not (>= 0 and var digit)) throw Damaged(At);
            if (high >= 0) text.Add((byte)(high * 16 + digit));
            high = high >= 0 ? -1 : digit;
        }
        At++;
        if (high >= 0) text.Add((byte)(high * 16));
        return [.. text];
    }

    private void SkipSpace()
    {
        var from = At;
        for (; At < bytes.Length; At++)
            if (bytes[At] == '%')
            {
                while (At + 1 < bytes.Length && bytes[At + 1] is not ((byte)'\n' or (byte)'\r')) At++;
            }
            else if (!IsSpace(bytes[At])) break;
        patience.Spend(At - from, from);
    }

    private static int Digit(byte letter) => letter switch
    {
        >= (byte)'0' and <= (byte)'9' => letter - '0',
        >= (byte)'a' and <= (byte)'f' => letter - 'a' + 10,
        >= (byte)'A' and <= (byte)'F' => letter - 'A' + 10,
        _ => -1,
    };

    private static bool IsSpace(byte b) => b is 0 or (byte)'\t' or (byte)'\n' or 12 or (byte)'\r' or (byte)' ';

    private static bool IsDelimiter(byte b) => b is (byte)'(' or (byte)')' or (byte)'<' or (byte)'>' or (byte)'[' or (byte)']' or (byte)'{' or (byte)'}' or (byte)'/' or (byte)'%';
}
