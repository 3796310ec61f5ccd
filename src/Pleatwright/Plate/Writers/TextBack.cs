using System.Globalization;
using System.Text;
using Pleatwright.Order;

namespace Pleatwright.Plate.Writers;

/// <summary>The wrong side in letters: one column a pleat, the last pleat at the left, one line a cable row.</summary>
internal static class TextBack
{
    private const int Label = 11;

    /// <summary>What the letters stand for.</summary>
    internal const string Meaning = "One column is one pleat and one line is one cable row: = is backsmocked, : stitched on the front, * is where a thread starts, o where it is tied off, | and - are threads carried.";

    public static void Write(StringBuilder text, WorkingOrder order, int columns)
    {
        var work = order.Work;
        var pleats = work.Pleating.Pleats;
        var cells = new char[work.CableRows, pleats + 1];
        foreach (var run in work.Runs)
            for (var p = run.FirstPleat.Number; p <= run.LastPleat.Number; p++) cells[run.Row.Index, p] = ':';
        foreach (var row in order.Backsmock.Rows)
            for (var p = Math.Min(row.From.Number, row.To.Number); p <= Math.Max(row.From.Number, row.To.Number) + 1; p++) Set(row.Row.CableRow(work.Pleating.Gauge.CableRowsPerSpace).Index, p, '=');
        foreach (var points in BackPath.CarriesOfBacksmocking(order)) Carry([.. points]);
        var paths = order.BackPaths().AddRange(BackPath.OfBands(order));
        foreach (var path in paths.Where(p => p.Kind == BackPathKind.Carry)) Carry([.. path.Points]);
        foreach (var path in paths.Where(p => p.Kind == BackPathKind.TieOff)) At(path.Points[^1], 'o');
        foreach (var path in paths.Where(p => p.Kind == BackPathKind.Start)) At(path.Points[^1], '*');
        foreach (var line in TextTable.Broken(Meaning, columns)) text.Append(line).Append('\n');
        var strip = (columns - Label - 1) / 10 * 10;
        for (var last = pleats; last >= 1; last -= strip)
        {
            var first = Math.Max(1, last - strip + 1);
            if (!Any(first, last)) continue;
            text.Append('\n');
            Ruler(text, first, last);
            for (var y = 0; y < work.CableRows; y++)
            {
                var gathering = y % work.Pleating.Gauge.CableRowsPerSpace == 0 ? FormattableString.Invariant($"G{y / work.Pleating.Gauge.CableRowsPerSpace + 1}") : "";
                text.Append(FormattableString.Invariant($"{gathering,-5}{y,4}  "));
                for (var p = last; p >= first; p--) text.Append(cells[y, p] is var c && c == 0 ? '.' : c);
                text.Append('\n');
            }
        }

        void Set(int row, int pleat, char sign)
        {
            if (row >= 0 && row < work.CableRows && pleat >= 1 && pleat <= pleats) cells[row, pleat] = sign;
        }

        void At(BackPoint point, char sign) => Set((int)Math.Floor(point.Row), (int)Math.Round(point.Pleat, MidpointRounding.AwayFromZero), sign);

        void Carry(List<BackPoint> points)
        {
            for (var i = 0; i + 1 < points.Count; i++)
            {
                var (a, b) = (points[i], points[i + 1]);
                if (Math.Abs(a.Pleat - b.Pleat) < 0.01)
                    for (var y = (int)Math.Floor(Math.Min(a.Row, b.Row)) + 1; y < (int)Math.Floor(Math.Max(a.Row, b.Row)); y++) At(new(a.Pleat, y + 0.5), '|');
                else
                    for (var p = (int)Math.Ceiling(Math.Min(a.Pleat, b.Pleat)); p <= (int)Math.Floor(Math.Max(a.Pleat, b.Pleat)); p++) At(new(p, a.Row), '-');
            }
        }

        bool Any(int first, int last)
        {
            for (var y = 0; y < work.CableRows; y++)
                for (var p = first; p <= last; p++)
                    if (cells[y, p] != 0) return true;
            return false;
        }
    }

    private static void Ruler(StringBuilder text, int first, int last)
    {
        var numbers = new char[Label + last - first + 6];
        Array.Fill(numbers, ' ');
        "pleat".CopyTo(numbers);
        for (var p = first; p <= last; p++)
        {
            if (p % 10 != 0) continue;
            var number = p.ToString(CultureInfo.InvariantCulture);
            var at = Label + last - p;
            if (at > 6) number.CopyTo(0, numbers, at, Math.Min(number.Length, numbers.Length - at));
        }
        text.Append(new string(numbers).TrimEnd()).Append('\n');
    }
}
