namespace Pleatwright.Bench.Model.Drafts;

/// <summary>What several forms say alike.</summary>
internal static class Said
{
    public const string Colour = "Write the colour as # and six digits, as in “#b3202c”.";

    public const string Name = "Give it a name you will know it by.";

    public const string TooLong = "The name or the note is too long.";

    /// <summary>What was written, without spaces about it; what was not touched stays to the letter.</summary>
    public static string Trimmed(string text, string? old) => text == old ? text : text.Trim();
}
