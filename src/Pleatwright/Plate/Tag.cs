namespace Pleatwright.Plate;

/// <summary>What a part of a page is to those who have it read aloud.</summary>
internal enum Role
{
    /// <summary>Nothing: rules, footers, running heads, boxes to tick.</summary>
    Ornament,

    /// <summary>A section: its heading, and all that is of it.</summary>
    Section,

    /// <summary>The title of it all.</summary>
    Title,

    /// <summary>The heading of a section.</summary>
    Heading,

    /// <summary>A heading within a section.</summary>
    Subheading,

    /// <summary>A paragraph, or a line by itself.</summary>
    Paragraph,

    /// <summary>A drawing, which words stand for.</summary>
    Figure,

    /// <summary>A table; rows are its parts.</summary>
    Table,

    /// <summary>A line of a table; names of columns or cells are its parts.</summary>
    Row,

    /// <summary>The name of a column.</summary>
    ColumnName,

    /// <summary>A cell.</summary>
    Cell,
}

/// <summary>
/// A part of what is printed, as it is read aloud: marks, perhaps in several places, that belong together. Tags are read in the order they are first met on
/// the pages; the parts of a tag in the order they were made.
/// </summary>
internal sealed class Tag
{
    private readonly List<Tag> parts = [];

    /// <summary>Makes a tag.</summary>
    /// <param name="role">What it is.</param>
    /// <param name="within">What it is a part of; null for nothing.</param>
    public Tag(Role role, Tag? within = null)
    {
        Role = role;
        Within = within;
        within?.parts.Add(this);
    }

    /// <summary>A drawing.</summary>
    /// <param name="alternate">What it shows, in a sentence or a few words.</param>
    public static Tag Figure(string alternate) => new(Role.Figure) { Alternate = alternate };

    /// <summary>The tag of all that is not read.</summary>
    public static Tag Ornament { get; } = new(Role.Ornament);

    /// <summary>What it is.</summary>
    public Role Role { get; }

    /// <summary>What it is a part of, or null.</summary>
    public Tag? Within { get; private set; }

    /// <summary>Words in place of a drawing, or of what is not printed; else empty.</summary>
    public string Alternate { get; init; } = "";

    /// <summary>The tag of the same words where they stood first, for what is printed again on a later page; it is read where those are on none of the pages.</summary>
    public Tag? Again { get; init; }

    /// <summary>Makes it, or what it is a part of, the next part of a section, unless it is of one.</summary>
    public void Join(Tag section)
    {
        var top = this;
        while (top.Within is { } within) top = within;
        if (top.Role is Role.Ornament or Role.Section) return;
        top.Within = section;
        section.parts.Add(top);
    }

    /// <summary>Its parts, in the order they are read.</summary>
    public IReadOnlyList<Tag> Parts => parts;
}
