using System.Globalization;

namespace Pleatwright.Bench.Model.Table;

/// <summary>What points.</summary>
public enum PointerKind { Mouse, Touch, Pen }

/// <summary>What a pointer does. A move without contact is a pen or mouse held over the cloth.</summary>
public enum PointerMove { Down, Move, Up, Cancel }

/// <summary>Keys held meanwhile.</summary>
[Flags]
public enum Held { None = 0, Shift = 1, Ctrl = 2, Alt = 4 }

/// <summary>Buttons pressed, as pointer events name them.</summary>
[Flags]
public enum PointerButtons { None = 0, Main = 1, Other = 2, Middle = 4, Eraser = 32 }

/// <summary>One event of a pointer, as it came.</summary>
/// <param name="Id">Which pointer.</param>
/// <param name="Kind">What points.</param>
/// <param name="Move">What it does.</param>
/// <param name="Buttons">Its buttons.</param>
/// <param name="Held">Keys held.</param>
/// <param name="X">Pixels from the view's left.</param>
/// <param name="Y">Pixels from the view's top.</param>
/// <param name="Pressure">0 to 1; 0.5 where it is not known.</param>
/// <param name="Size">Pixels across what touches; 0 or 1 where it is not known.</param>
public readonly record struct PointerReport(
    int Id, PointerKind Kind, PointerMove Move, PointerButtons Buttons, Held Held, double X, double Y, double Pressure = 0.5, double Size = 0)
{
    /// <summary>Reads "id kind move buttons held x y pressure size", as the page writes it; null when it is none.</summary>
    public static PointerReport? Read(string text)
    {
        var parts = text.Split(' ');
        if (parts.Length != 9 || !int.TryParse(parts[0], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var id)) return null;
        Span<double> numbers = stackalloc double[8];
        for (var i = 1; i < 9; i++)
            if (!double.TryParse(parts[i], NumberStyles.Float, CultureInfo.InvariantCulture, out numbers[i - 1]) || !double.IsFinite(numbers[i - 1])) return null;
        if (numbers[0] is not (0 or 1 or 2) || numbers[1] is not (0 or 1 or 2 or 3)) return null;
        return new PointerReport(id, (PointerKind)(int)numbers[0], (PointerMove)(int)numbers[1], (PointerButtons)(int)numbers[2], (Held)(int)numbers[3],
            numbers[4], numbers[5], numbers[6], numbers[7]);
    }
}

/// <summary>A turn of the wheel, or two fingers on a pad.</summary>
/// <param name="X">Pixels from the view's left.</param>
/// <param name="Y">Pixels from the view's top.</param>
/// <param name="Across">Pixels turned across.</param>
/// <param name="Down">Pixels turned down.</param>
/// <param name="Held">Keys held; a pinch on a pad comes with Ctrl.</param>
public readonly record struct WheelReport(double X, double Y, double Across, double Down, Held Held)
{
    private const double LinePixels = 24, PagePixels = 400; // our own choice

    /// <summary>Reads "x y across down unit held", unit 0 pixels, 1 lines, 2 pages; null when it is none.</summary>
    public static WheelReport? Read(string text)
    {
        var parts = text.Split(' ');
        if (parts.Length != 6) return null;
        Span<double> n = stackalloc double[6];
        for (var i = 0; i < 6; i++)
            if (!double.TryParse(parts[i], NumberStyles.Float, CultureInfo.InvariantCulture, out n[i]) || !double.IsFinite(n[i])) return null;
        var unit = n[4] switch { 1 => LinePixels, 2 => PagePixels, _ => 1 };
        return new WheelReport(n[0], n[1], n[2] * unit, n[3] * unit, (Held)(int)n[5]);
    }
}
