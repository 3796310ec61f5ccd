using Pleatwright.Measure;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>
/// What stands in the field of a length, as a maker writes it: taken over as it is typed, told of once it is left when it is none. A bare
/// number, a fraction too, means the unit that the field showed last: "12" over "6 in" is 12 in.
/// </summary>
/// <param name="optional">Whether nothing may stand there, which is no length.</param>
public sealed class LengthText(bool optional)
{
    private Length? last;
    private string? unit; // the one shown last, as it is written; null while none was

    /// <summary>What is told of a text that is no length.</summary>
    public const string Fault = "Write a number and a unit, as in “3/8 in” or “45 cm”.";

    /// <summary>What stands in the field.</summary>
    public string Text { get; private set; } = "";

    /// <summary>Whether it was left and is no length.</summary>
    public bool IsWrong { get; private set; }

    /// <summary>What must match for the field to be given back.</summary>
    public string Pattern
    {
        get
        {
            var length = unit is null ? Length.Pattern : $"{Length.Pattern}|{Length.NumberPattern}";
            return optional ? $"({length})?" : length;
        }
    }

    /// <summary>Shows a length, unless it is what was just typed.</summary>
    public void Show(Length value)
    {
        if (last == value) return;
        (last, IsWrong) = (value, false);
        var bare = optional && value == Length.Zero;
        Text = bare ? "" : value.ToString();
        if (!bare) TakeUnit();
    }

    /// <summary>Takes over what is being typed.</summary>
    /// <returns>The length; null while it is none.</returns>
    public Length? Write(string? text)
    {
        Text = text ?? "";
        if (Read() is not { } length) return null;
        (last, IsWrong) = (length, false);
        TakeUnit();
        return length;
    }

    /// <summary>The field is left: its unit is written out where a bare number stands.</summary>
    public void Leave(string? text)
    {
        Text = text ?? "";
        IsWrong = Read() is null;
        if (!IsWrong && IsBare) Text = WithUnit;
    }

    private bool IsBare => unit is not null && Text.AsSpan().Trim() is { IsEmpty: false } number && !char.IsAsciiLetter(number[^1]);

    private string WithUnit => $"{Text.Trim()} {unit}";

    private Length? Read() =>
        optional && string.IsNullOrWhiteSpace(Text) ? Length.Zero
        : !Text.AsSpan().TrimStart().StartsWith('-') && Length.TryParse(IsBare ? WithUnit : Text, out var length) ? length : null; // “-0” is less than nothing, too

    // The unit as it is written at the end of the text.
    private void TakeUnit()
    {
        var text = Text.AsSpan().TrimEnd();
        var at = text.Length;
        while (at > 0 && char.IsAsciiLetter(text[at - 1])) at--;
        if (at < text.Length) unit = text[at..].ToString();
    }
}
