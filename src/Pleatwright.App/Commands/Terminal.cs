namespace Pleatwright.App.Commands;

/// <summary>Words on their way to a terminal, which obeys what it is sent.</summary>
internal static class Terminal
{
    /// <summary>
    /// The words without anything that would steer the terminal or turn the reading direction: control characters but
    /// the tab and line ends, and the bidirectional controls of Unicode (UAX #9), become U+FFFD.
    /// </summary>
    public static string Plain(string words) => words.AsSpan().IndexOfAny(Steering) < 0 ? words : string.Create(words.Length, words, (plain, from) =>
    {
        for (var i = 0; i < plain.Length; i++) plain[i] = Steering.Contains(from[i]) ? '\uFFFD' : from[i];
    });

    private static readonly System.Buffers.SearchValues<char> Steering = System.Buffers.SearchValues.Create(
    [
        .. Enumerable.Range(0, 0x20).Where(c => c is not ('\t' or '\n' or '\r')).Concat(Enumerable.Range(0x7f, 0x21)).Select(c => (char)c),
        '\u061C', '\u200E', '\u200F', '\u202A', '\u202B', '\u202C', '\u202D', '\u202E', '\u2066', '\u2067', '\u2068', '\u2069',
    ]);
}
