using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Order;

/// <summary>
/// A working order as text, to be planned in one place and read in another: a line of numbers for each step, what the piece tells of it
/// left out. No file: only the program that wrote it reads it, for the very piece it was planned for.
/// </summary>
internal static class OrderText
{
    // Raised when what is written changes, or when the same piece may be ordered otherwise.
    private const string Head = "order 1";

    [Flags]
    private enum Is { None = 0, Threads = 1, Turned = 2, Carry = 4, Continues = 8, GoesOn = 16, Parks = 32, TieOff = 64, HalfAtBegin = 128, HalfAtEnd = 256 }

    /// <summary>Writes an order, with the least number of starts that any can have.</summary>
    public static string Write(WorkingOrder order)
    {
        var text = new StringBuilder(Head);
        text.Append(CultureInfo.InvariantCulture, $" {order.Effort} {order.Way} {order.LowerBoundStarts} {order.Work.Runs.Length}");
        foreach (var s in order.Steps)
        {
            var marks = (s.Threads ? Is.Threads : 0) | (s.Turned ? Is.Turned : 0) | (s.Starts == StartKind.Carry ? Is.Carry : 0) | (s.Continues ? Is.Continues : 0)
                | (s.GoesOn ? Is.GoesOn : 0) | (s.Parks ? Is.Parks : 0) | (s.TieOff ? Is.TieOff : 0) | (s.HalfAtBegin ? Is.HalfAtBegin : 0) | (s.HalfAtEnd ? Is.HalfAtEnd : 0);
            text.Append(CultureInfo.InvariantCulture, $"\n{s.RunIndex} {s.From.Number} {s.To.Number} {s.Needleful} {s.RestFrom} {(int)marks} {(int)s.Begin} {(int)s.End} {Of(s.Left)} {Of(s.Carried)} {s.CarriedPleats} {s.CarriedRows}");
        }
        return text.ToString();
    }

    /// <summary>Reads an order of a work.</summary>
    /// <returns>Null where the text is none of this work.</returns>
    public static WorkingOrder? Read(Work work, string text)
    {
        var lines = text.Split('\n');
        var head = lines[0].Split(' ');
        if (head.Length != 6 || $"{head[0]} {head[1]}" != Head || !Enum.TryParse<Effort>(head[2], out var effort) || !Enum.TryParse<WayOfWorking>(head[3], out var way)
            || !Number(head[4], out var bound) || !Number(head[5], out var runs) || runs != work.Runs.Length) return null;
        var layout = new Layout(work);
        if (way != layout.Way) return null;
        var steps = ImmutableArray.CreateBuilder<Step>(lines.Length - 1);
        var left = new int[work.Runs.Length];
        for (var r = 0; r < left.Length; r++) left[r] = work.Runs[r].Cables;
        foreach (var line in lines.AsSpan(1))
        {
            if (Step(work, line.Split(' '), steps) is not { } step) return null;
            steps.Add(step);
            left[step.RunIndex] -= step.Cables;
        }
        if (left.Any(cables => cables != 0)) return null;
        return new WorkingOrder(layout, steps.ToImmutable(), new(() => bound), ImmutableDictionary<ClusterKey, Planning.Solution>.Empty, effort);
    }

    private static Step? Step(Work work, string[] words, ImmutableArray<Step>.Builder before)
    {
        var n = new int[8];
        if (words.Length != 12) return null;
        for (var i = 0; i < n.Length; i++)
            if (!Number(words[i], out n[i])) return null;
        if (n[0] < 0 || n[0] >= work.Runs.Length || n[4] < 0 || n[4] > before.Count || !Length(words[8], out var left) || !Length(words[9], out var carried)
            || !Number(words[10], out var pleats) || !Number(words[11], out var rows)) return null;
        var (run, marks) = (work.Runs[n[0]], (Is)n[5]);
        if (!run.Contains(new Valley(n[1])) || !run.Contains(new Valley(n[2])) || n[3] <= 0 || !Enum.IsDefined((Level)n[6]) || !Enum.IsDefined((Level)n[7])
            || (marks.HasFlag(Is.Carry) && before.Count == 0)) return null;
        return new Step
        {
            Number = before.Count + 1,
            RunIndex = n[0],
            Thread = run.Thread,
            Row = run.Row,
            From = new Valley(n[1]),
            To = new Valley(n[2]),
            Needleful = n[3],
            RestFrom = n[4],
            Begin = (Level)n[6],
            End = (Level)n[7],
            Left = left,
            Carried = carried,
            CarriedPleats = pleats,
            CarriedRows = rows,
            Starts = marks.HasFlag(Is.Carry) ? StartKind.Carry : StartKind.New,
            Threads = marks.HasFlag(Is.Threads),
            Turned = marks.HasFlag(Is.Turned),
            Continues = marks.HasFlag(Is.Continues),
            GoesOn = marks.HasFlag(Is.GoesOn),
            Parks = marks.HasFlag(Is.Parks),
            TieOff = marks.HasFlag(Is.TieOff),
            HalfAtBegin = marks.HasFlag(Is.HalfAtBegin),
            HalfAtEnd = marks.HasFlag(Is.HalfAtEnd),
        };
    }

    // To the last bit, so that what is read is what was written.
    private static string Of(Length length) => FormattableString.Invariant($"{length.Millimetres:R}/{(int)length.Unit}");

    private static bool Length(string word, out Length length)
    {
        length = default;
        var parts = word.Split('/');
        if (parts.Length != 2 || !double.TryParse(parts[0], CultureInfo.InvariantCulture, out var millimetres) || !Number(parts[1], out var unit) || !Enum.IsDefined((LengthUnit)unit)) return false;
        length = Measure.Length.FromMillimetres(millimetres).In((LengthUnit)unit);
        return true;
    }

    private static bool Number(string word, out int number) => int.TryParse(word, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out number);
}
