using System.Globalization;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>The fields of a form in which something else stands than was asked for. Nothing is kept while there is one.</summary>
internal sealed class Unread
{
    private readonly Dictionary<string, string> faults = [];

    /// <summary>What is wrong in the first of them, as a sentence; null when all could be read.</summary>
    public string? Fault => faults.Count == 0 ? null : faults.Values.First();

    /// <summary>What stood in a field was replaced otherwise.</summary>
    public void Forget(string field) => faults.Remove(field);

    /// <summary>Reads a whole number.</summary>
    /// <param name="field">The field, as it is labelled.</param>
    /// <param name="text">What stands in it.</param>
    /// <param name="number">The number.</param>
    /// <param name="least">The least it may be, where nothing after it looks.</param>
    public bool Whole(string field, string? text, out int number, int least = int.MinValue) =>
        Is(int.TryParse(text, NumberStyles.Integer, CultureInfo.InvariantCulture, out number) && number >= least, field,
            least == int.MinValue ? "a whole number" : $"a whole number from {least} on");

    /// <summary>Reads a whole number, or nothing where nothing stands.</summary>
    public bool MaybeWhole(string field, string? text, out int? number)
    {
        number = null;
        if (string.IsNullOrWhiteSpace(text)) return Is(true, field, "");
        if (!Whole(field, text, out var read)) return false;
        number = read;
        return true;
    }

    /// <summary>Reads a number.</summary>
    public bool Number(string field, string? text, out double number) =>
        Is(double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out number) && double.IsFinite(number), field, "a number");

    /// <summary>Reads a number, or nothing where nothing stands.</summary>
    public bool MaybeNumber(string field, string? text, out double? number)
    {
        number = null;
        if (string.IsNullOrWhiteSpace(text)) return Is(true, field, "");
        if (!Number(field, text, out var read)) return false;
        number = read;
        return true;
    }

    private bool Is(bool read, string field, string wanted)
    {
        if (read) faults.Remove(field);
        else faults[field] = $"“{field}” wants {wanted}.";
        return read;
    }
}
