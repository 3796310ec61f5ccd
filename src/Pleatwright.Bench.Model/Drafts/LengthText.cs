using Pleatwright.Measure;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>What stands in the field of a length, as a maker writes it: taken over as it is typed, told of once it is left when it is none.</summary>
/// <param name="optional">Whether nothing may stand there, which is no length.</param>
public sealed class LengthText(bool optional)
{
    private Length? last;

    /// <summary>What is told of a text that is no length.</summary>
    public const string Fault = "Write a number and a unit, as in “3/8 in” or “45 cm”.";

    /// <summary>What stands in the field.</summary>
    public string Text { get; private set; } = "";

    /// <summary>Whether it was left and is no length.</summary>
    public bool IsWrong { get; private set; }

    /// <summary>What must match for the field to be given back.</summary>
    public string Pattern => optional ? $"({Length.Pattern})?" : Length.Pattern;

    /// <summary>Shows a length, unless it is what was just typed.</summary>
    public void Show(Length value)
    {
        if (last == value) return;
        (last, IsWrong) = (value, false);
        Text = optional && value == Length.Zero ? "" : value.ToString();
    }

    /// <summary>Takes over what is being typed.</summary>
    /// <returns>The length; null while it is none.</returns>
    public Length? Write(string? text)
    {
        Text = text ?? "";
        if (Read() is not { } length) return null;
        (last, IsWrong) = (length, false);
        return length;
    }

    /// <summary>The field is left.</summary>
    public void Leave(string? text)
    {
        Text = text ?? "";
        IsWrong = Read() is null;
    }

    private Length? Read() =>
        optional && string.IsNullOrWhiteSpace(Text) ? Length.Zero : Length.TryParse(Text, out var length) && length >= Length.Zero ? length : null;
}
