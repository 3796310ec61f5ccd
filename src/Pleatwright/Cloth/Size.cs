namespace Pleatwright.Cloth;

/// <summary>
/// One more size of the same design. The measurements are the maker's own; none are built in.
/// </summary>
/// <param name="Name">What the maker calls it.</param>
/// <param name="Form">The form in this size, of the same kind as the piece's own.</param>
public sealed record Size(string Name, Form Form)
{
    /// <summary>The most sizes one piece may have.</summary>
    public const int Most = 200;

    /// <summary>The longest name, in characters.</summary>
    public const int LongestName = 60;

    /// <summary>Gathering rows in this size; null keeps the piece's own.</summary>
    public int? GatheringRows { get; init; }

    /// <summary>The piece's cloth in this size.</summary>
    public ClothPlan Of(ClothPlan cloth) =>
        cloth with { Form = Form, GatheringRows = GatheringRows ?? cloth.GatheringRows };

    /// <summary>
    /// This size after the piece's own form has changed: a bishop's sweep and panels follow where they were the piece's own;
    /// null when the form is of another kind and has no use for these measurements.
    /// </summary>
    public Size? Follow(Form before, Form after) => FormKind.Follow(Form, before, after) is { } form ? (form == Form ? this : this with { Form = form }) : null;
}
