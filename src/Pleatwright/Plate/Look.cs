using Pleatwright.Thread;

namespace Pleatwright.Plate;

/// <summary>
/// How the plate is dressed: one ink, one quiet ink, one accent, and one scale of type. Everything on every page takes
/// its look from here.
/// </summary>
/// <param name="Ink">Running text and strong lines.</param>
/// <param name="Quiet">Captions and numbers.</param>
/// <param name="Hairline">Rules.</param>
/// <param name="Accent">Gathering rows, headings' small marks.</param>
/// <param name="Alarm">Faults and cautions.</param>
/// <param name="Pleat">The tint of a bare pleat on the chart.</param>
internal sealed record Look(Colour Ink, Colour Quiet, Colour Hairline, Colour Accent, Colour Alarm, Colour Pleat)
{
    /// <summary>The common look.</summary>
    public static Look Booklet { get; } = new(
        Colour.Parse("#26303b"), Colour.Parse("#5d6672"), Colour.Parse("#c9c3b8"), Colour.Parse("#2f6f79"), Colour.Parse("#9a3b1f"), Colour.Parse("#f3efe8"));

    /// <summary>Large print: larger type and stronger contrast throughout.</summary>
    public static Look LargePrint { get; } = new(
        Colour.Parse("#000000"), Colour.Parse("#222222"), Colour.Parse("#555555"), Colour.Parse("#0b4a55"), Colour.Parse("#7a1f00"), Colour.Parse("#f4f4f4"))
    {
        Large = true,
    };

    /// <summary>Whether this is large print.</summary>
    public bool Large { get; private init; }

    /// <summary>Share of their size at which running text and headings within a section are set, 1 as a rule; large print only sets its lines closer.</summary>
    public double Tight { get; init; } = 1;

    /// <summary>Title of the piece.</summary>
    public TypeStyle Title => new(Face.Display, Large ? 36 : 32, Ink);

    /// <summary>Heading of a section.</summary>
    public TypeStyle Heading => new(Face.Display, Large ? 24 : 16, Ink);

    /// <summary>Heading within a section.</summary>
    public TypeStyle Subheading => new(Face.TextBold, Large ? 17 : Tight * 10, Ink);

    /// <summary>Line under a title or a heading.</summary>
    public TypeStyle Lead => new(Face.DisplayItalic, Large ? 18 : 11, Quiet);

    /// <summary>Running text.</summary>
    public TypeStyle Body => new(Face.Text, Large ? 16 : Tight * 9.5, Ink);

    /// <summary>Strong words in running text.</summary>
    public TypeStyle Strong => Body with { Face = Face.TextBold };

    /// <summary>Captions, notes and footers.</summary>
    public TypeStyle Note => new(Face.Text, Large ? 14 : 8, Quiet);

    /// <summary>A figure that matters.</summary>
    public TypeStyle Figure => new(Face.Display, Large ? 20 : 14, Ink);

    /// <summary>Numbers along the chart.</summary>
    public TypeStyle Ruler => new(Face.Text, Large ? 12 : 7, Quiet);

    /// <summary>A fine rule.</summary>
    public Pen Fine => new(Hairline, Large ? 0.3 : 0.15);

    /// <summary>From one baseline of running text to the next, in millimetres.</summary>
    public double Leading => Body.Points * (1.42 - 0.8 * (1 - Tight)) * Typeface.MillimetresPerPoint;

    /// <summary>A colour mixed with another, in sRGB.</summary>
    /// <param name="colour">The colour.</param>
    /// <param name="other">What is mixed in.</param>
    /// <param name="share">How much of it, 0 to 1.</param>
    public static Colour Mix(Colour colour, Colour other, double share)
    {
        return new Colour(Channel(colour.Red, other.Red), Channel(colour.Green, other.Green), Channel(colour.Blue, other.Blue));
        byte Channel(byte a, byte b) => (byte)Math.Round(a + (b - a) * share);
    }

    /// <summary>A darker shade of a colour.</summary>
    public static Colour Darker(Colour colour, double share) => Mix(colour, Colour.Black, share);

    /// <summary>A lighter tint of a colour.</summary>
    public static Colour Lighter(Colour colour, double share) => Mix(colour, Colour.White, share);
}
