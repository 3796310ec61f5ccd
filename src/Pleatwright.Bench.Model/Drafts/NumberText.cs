using System.Globalization;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>What stands in the field of a number, taken over as it is typed when it is in its range.</summary>
/// <param name="optional">Whether nothing may stand there, which is 0.</param>
public sealed class NumberText(bool optional)
{
    private double? last;

    /// <summary>What stands in the field.</summary>
    public string Text { get; private set; } = "";

    /// <summary>Shows a number, unless it is what was just typed.</summary>
    public void Show(double value)
    {
        if (last == value) return;
        last = value;
        Text = optional && value == 0 ? "" : Words.Plain(value);
    }

    /// <summary>Takes over what is being typed.</summary>
    /// <returns>The number; null while it is none, or out of its range.</returns>
    public double? Write(string? text, double least, double most, bool whole)
    {
        Text = text ?? "";
        double number;
        if (optional && Text.Length == 0) number = 0;
        else if (!double.TryParse(Text, NumberStyles.Float, CultureInfo.InvariantCulture, out number) || !(number >= least && number <= most) || !double.IsFinite(number) || whole && number != Math.Floor(number))
            return null;
        last = number;
        return number;
    }
}
