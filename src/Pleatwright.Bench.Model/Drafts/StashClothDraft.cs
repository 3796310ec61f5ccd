using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Shopping;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>A cloth of the stash, or one more.</summary>
public sealed class StashClothDraft(StashCloth cloth)
{
    public string Name { get; set; } = cloth.Name;

    public string ColourText { get; set; } = cloth.Colour.ToString();

    public string Note { get; set; } = cloth.Note;

    /// <summary>Length left.</summary>
    public Length Left { get; set; } = cloth.Left;

    /// <summary>Width, selvedge to selvedge.</summary>
    public Length Width { get; set; } = cloth.Width;

    /// <summary>Why it cannot be kept, as a sentence; empty when it can.</summary>
    public string Fault => Name.Trim().Length == 0 ? Said.Name
        : Name.Trim().Length > Stash.LongestName || Note.Trim().Length > Stash.LongestNote ? Said.TooLong
        : !Colour.TryParse(ColourText, out _) ? Said.Colour
        : Width <= Length.Zero ? "A cloth has a width, selvedge to selvedge."
        : Left < Length.Zero ? "No less than nothing is left of a cloth."
        : "";

    /// <summary>The cloth as answered; null when it cannot be kept.</summary>
    public StashCloth? Made => Fault.Length > 0 ? null : cloth with { Name = Name.Trim(), Colour = Colour.Parse(ColourText), Note = Note.Trim(), Left = Left, Width = Width };
}
