using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Pleatwright.Ticks;

namespace Pleatwright.Bench.Model.Chair;

/// <summary>The stitches ticked, as a set that does not change in place and is small to keep: a line of stitches is kept as its stretches.</summary>
public sealed class Worked
{
    private const string Head = "worked 2";

    private readonly ImmutableDictionary<string, ImmutableArray<(int From, int To)>> lines;

    private Worked(ImmutableDictionary<string, ImmutableArray<(int, int)>> lines) => this.lines = lines;

    /// <summary>Nothing yet.</summary>
    public static Worked Nothing { get; } = new(ImmutableDictionary<string, ImmutableArray<(int, int)>>.Empty);

    /// <summary>The stitches ticked in a log.</summary>
    internal static Worked Of(TickLog log) => new(log.Ticked().ToImmutableDictionary(l => l.Key, l => l.Value));

    /// <summary>Its lines, each with its stretches in order.</summary>
    internal IEnumerable<KeyValuePair<string, ImmutableArray<(int From, int To)>>> Lines => lines;

    /// <summary>A log in which all of it was ticked in one minute.</summary>
    internal TickLog ToLog(long minute) => TickLog.Nothing.Become(lines, minute);

    /// <summary>How many stitches are ticked.</summary>
    public int Count => lines.Values.Sum(stretches => stretches.Sum(s => s.To - s.From + 1));

    /// <summary>Whether a stitch is ticked.</summary>
    public bool Has(StitchName stitch)
    {
        if (!lines.TryGetValue(stitch.Line, out var stretches)) return false;
        var at = First(stretches, stitch.At);
        return at < stretches.Length && stretches[at].From <= stitch.At;
    }

    /// <summary>One more ticked; itself when it was already.</summary>
    public Worked With(StitchName stitch)
    {
        if (Has(stitch)) return this;
        var stretches = lines.GetValueOrDefault(stitch.Line, []);
        var at = First(stretches, stitch.At); // the first that ends at or after it: it begins after it, too
        var (from, to) = (stitch.At, stitch.At);
        if (at < stretches.Length && stretches[at].From == to + 1)
        {
            to = stretches[at].To;
            stretches = stretches.RemoveAt(at);
        }
        if (at > 0 && stretches[at - 1].To == from - 1)
        {
            from = stretches[at - 1].From;
            stretches = stretches.RemoveAt(--at);
        }
        return new(lines.SetItem(stitch.Line, stretches.Insert(at, (from, to))));
    }

    /// <summary>One less; itself when it was not ticked.</summary>
    public Worked Without(StitchName stitch)
    {
        if (!Has(stitch)) return this;
        var stretches = lines[stitch.Line];
        var at = First(stretches, stitch.At);
        var (from, to) = stretches[at];
        stretches = stretches.RemoveAt(at);
        if (to > stitch.At) stretches = stretches.Insert(at, (stitch.At + 1, to));
        if (from < stitch.At) stretches = stretches.Insert(at, (from, stitch.At - 1));
        return new(stretches.IsEmpty ? lines.Remove(stitch.Line) : lines.SetItem(stitch.Line, stretches));
    }

    /// <summary>As text: a line each, its stretches after it.</summary>
    public string Write()
    {
        var text = new StringBuilder(Head);
        foreach (var (line, stretches) in lines.OrderBy(l => l.Key, StringComparer.Ordinal))
        {
            text.Append('\n').Append(line);
            foreach (var (from, to) in stretches) text.Append(CultureInfo.InvariantCulture, $" {from}:{to}");
        }
        return text.ToString();
    }

    /// <summary>Reads what <see cref="Write"/> wrote; null when it is anything else.</summary>
    public static Worked? Read(string? text)
    {
        var rows = text?.Split('\n');
        if (rows is not [Head, ..]) return null;
        var lines = ImmutableDictionary.CreateBuilder<string, ImmutableArray<(int, int)>>();
        foreach (var row in rows.Skip(1))
        {
            var words = row.Split(' ');
            if (words.Length < 2 || words[0].Length == 0 || lines.ContainsKey(words[0])) return null;
            var stretches = ImmutableArray.CreateBuilder<(int From, int To)>(words.Length - 1);
            foreach (var word in words.Skip(1))
            {
                if (word.Split(':') is not [var a, var b] || !Number(a, out var from) || !Number(b, out var to) || to < from) return null;
                if (stretches.Count > 0 && from <= (long)stretches[^1].To + 1) return null; // not as this writes them
                stretches.Add((from, to));
            }
            lines[words[0]] = stretches.MoveToImmutable();
        }
        return new(lines.ToImmutable());
    }

    private static bool Number(string text, out int number) => int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out number);

    // The first stretch that ends at or after a number.
    private static int First(ImmutableArray<(int From, int To)> stretches, int at)
    {
        var (low, high) = (0, stretches.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (stretches[middle].To < at) low = middle + 1;
            else high = middle;
        }
        return low;
    }
}
