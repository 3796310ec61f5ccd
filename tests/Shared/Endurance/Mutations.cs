using System.Diagnostics;
using System.Text;

namespace Pleatwright.Tests.Endurance;

/// <summary>Good input gone bad: bytes flipped, pieces lost, doubled and swapped, tokens put where they do harm.</summary>
internal sealed class Mutations(int seed, IReadOnlyList<byte[]> good)
{
    private const long MostBytes = 512L * 1024 * 1024;
    private static readonly TimeSpan MostTime = TimeSpan.FromSeconds(1);

    private static readonly byte[][] Tokens =
    [
        .. new[]
        {
            "[[[[[[[[", "{{{{{{", "]", "}", "\"", "\\u0000", "\\ud800", "1e999", "-1", "0", "99999999999999999999", "1e-400", "null", "true", "\u202e", "\0", ",,",
            "5001", "2147483648", "9e9 in", "0 in", "-3 cm", "1/0 in", "NaN", ".", "\r\n", "\uFEFF", "=1+1", "\"\"", ";", "\t", "%00", "../", "<script>",
        }.Select(Encoding.UTF8.GetBytes),
        [0xff, 0xfe], [0xc0, 0x80], [0xed, 0xa0, 0x80], [0, 0, 0, 0], [0xff, 0xff, 0xff, 0xff], [0x7f, 0xff, 0xff, 0xff],
    ];

    private readonly Random random = new(seed);

    public byte[] Next()
    {
        if (random.Next(Long.Of(40, 200)) == 0) return Grown();
        var bytes = new List<byte>(Pick());
        for (var times = random.Next(1, 5); times > 0; times--)
        {
            var at = random.Next(bytes.Count + 1);
            var length = Math.Min(random.Next(1, 40), bytes.Count - at);
            switch (random.Next(6))
            {
                case 0 when at < bytes.Count: bytes[at] ^= (byte)(1 << random.Next(8)); break;
                case 1: bytes.RemoveRange(at, length); break;
                case 2: bytes.InsertRange(at, bytes.GetRange(at, length)); break;
                case 3: bytes.InsertRange(at, Tokens[random.Next(Tokens.Length)]); break;
                case 4:
                    var other = Pick();
                    var from = random.Next(other.Length);
                    bytes.InsertRange(at, other.AsSpan(from, Math.Min(random.Next(1, 200), other.Length - from)).ToArray());
                    break;
                default:
                    var token = Tokens[random.Next(Tokens.Length)];
                    bytes.RemoveRange(at, Math.Min(token.Length, bytes.Count - at));
                    bytes.InsertRange(at, token);
                    break;
            }
        }
        return [.. bytes];
    }

    /// <summary>Reads the good ones, then so many gone bad: none over a second, none that takes memory without bound.</summary>
    public static void Try(IReadOnlyList<byte[]> good, int times, Action<byte[]> read)
    {
        foreach (var bytes in good) read(bytes); // compiled, and the clock fair to the first
        var mutations = new Mutations(7, good);
        for (var i = 0; i < times; i++)
        {
            var bytes = mutations.Next();
            var before = GC.GetAllocatedBytesForCurrentThread();
            var clock = Stopwatch.StartNew();
            try { read(bytes); }
            catch (Exception e) { throw new InvalidOperationException($"input {i}, {Convert.ToBase64String(bytes)}", e); }
            var took = clock.Elapsed;
            var taken = GC.GetAllocatedBytesForCurrentThread() - before;
            for (var again = 0; took > MostTime && again < 5; again++) // the machine may have been busy elsewhere
            {
                clock.Restart();
                read(bytes);
                took = clock.Elapsed;
            }
            Assert.True(took <= MostTime, $"{took} for input {i}, {Convert.ToBase64String(bytes)}");
            Assert.InRange(taken, 0, MostBytes);
        }
    }

    // One part of it over and over, as often as fits into what is a little at first and much in the end.
    private byte[] Grown()
    {
        var bytes = Pick();
        var at = random.Next(bytes.Length);
        var part = bytes.AsSpan(at, Math.Min(random.Next(1, 200), bytes.Length - at));
        var times = Math.Max(1, (1 << random.Next(10, Long.Of(18, 25))) / part.Length);
        var grown = new byte[bytes.Length + part.Length * times];
        bytes.AsSpan(0, at).CopyTo(grown);
        for (var i = 0; i < times; i++) part.CopyTo(grown.AsSpan(at + i * part.Length));
        bytes.AsSpan(at).CopyTo(grown.AsSpan(at + times * part.Length));
        return grown;
    }

    private byte[] Pick() => good[random.Next(good.Count)];
}
