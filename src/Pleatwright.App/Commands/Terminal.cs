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
    /// <param name="terminal">The other.</param>
    public static TextWriter PlainTo(TextWriter terminal) => new GuardedWriter(terminal, Plain, isNeeded: true);

    /// <summary>The same for what is said beside the result: where nobody can hear it, it is not said.</summary>
    public static TextWriter AsideTo(TextWriter terminal) => new GuardedWriter(terminal, Plain, isNeeded: false);

    /// <summary>A writer that passes all on to the letter.</summary>
    public static TextWriter WholeTo(TextWriter terminal) => new GuardedWriter(terminal, static words => words, isNeeded: true);

    private static char Plain(char c) => Steering.Contains(c) ? '\uFFFD' : c;

    private sealed class GuardedWriter(TextWriter terminal, Func<string, string> pass, bool isNeeded) : TextWriter(terminal.FormatProvider)
    {
        public override Encoding Encoding => terminal.Encoding;

        public override void Write(char value) => Do(() => terminal.Write(pass(value.ToString())));

        public override void Write(char[] buffer, int index, int count) => Do(() => terminal.Write(pass(new string(buffer, index, count))));

        public override void Write(string? value) => Do(() => terminal.Write(pass(value ?? "")));

        public override void WriteLine(string? value) => Do(() => terminal.WriteLine(pass(value ?? "")));

        public override void Flush() => Do(terminal.Flush);

        private void Do(Action write)
        {
            try
            {
                write();
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException or ObjectDisposedException)
            {
                if (isNeeded) throw new UnheardException(AtomicFile.Why(e));
            }
        }
    }
}

/// <summary>What the program was asked for cannot be written to standard output: the disk is full, or it is closed.</summary>
internal sealed class UnheardException(string why) : Exception($"standard output cannot be written: {why}");
