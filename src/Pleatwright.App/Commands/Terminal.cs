using System.Buffers;
using System.Text;

namespace Pleatwright.App.Commands;

/// <summary>Words on their way to a terminal, which obeys what it is sent: titles and names come from anyone's file.</summary>
internal static class Terminal
{
    private static readonly SearchValues<char> Steering = SearchValues.Create(
    [
        .. Enumerable.Range(0, 0x20).Where(c => c is not ('\t' or '\n' or '\r')).Concat(Enumerable.Range(0x7f, 0x21)).Select(c => (char)c),
        '\u061C', '\u200E', '\u200F', '\u202A', '\u202B', '\u202C', '\u202D', '\u202E', '\u2066', '\u2067', '\u2068', '\u2069',
    ]);

    /// <summary>
    /// The words without anything that would steer the terminal or turn the reading direction: control characters but
    /// the tab and line ends, and the bidirectional controls of Unicode (UAX #9), become U+FFFD.
    /// </summary>
    public static string Plain(string words) => words.AsSpan().IndexOfAny(Steering) < 0 ? words : string.Create(words.Length, words, (plain, from) =>
    {
        for (var i = 0; i < plain.Length; i++) plain[i] = Plain(from[i]);
    });

    /// <summary>A writer that lets only plain words through to another.</summary>
    public static TextWriter PlainTo(TextWriter terminal) => new PlainWriter(terminal);

    private static char Plain(char c) => Steering.Contains(c) ? '\uFFFD' : c;

    private sealed class PlainWriter(TextWriter terminal) : TextWriter(terminal.FormatProvider)
    {
        public override Encoding Encoding => terminal.Encoding;

        public override void Write(char value) => terminal.Write(Plain(value));

        public override void Write(char[] buffer, int index, int count) => terminal.Write(Plain(new string(buffer, index, count)));

        public override void Write(string? value) => terminal.Write(Plain(value ?? ""));

        public override void WriteLine(string? value) => terminal.WriteLine(Plain(value ?? ""));

        public override void Flush() => terminal.Flush();
    }
}
