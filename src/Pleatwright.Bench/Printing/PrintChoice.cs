using Pleatwright.Chart;
using Pleatwright.Plate;
using Pleatwright.Plate.Preparation;

namespace Pleatwright.Bench.Printing;

/// <summary>What was last chosen to be printed, and how; it stays for the next plate.</summary>
public sealed class PrintChoice
{
    private readonly Desk desk;

    public PrintChoice(Desk desk)
    {
        this.desk = desk;
        desk.Opened += () => Size = "";
    }

    /// <summary>How it is made.</summary>
    public PlateOptions Options { get; set; } = new();

    /// <summary>The sheet that prepares the cloth; null for the plate.</summary>
    public PreparationKind? Sheet { get; set; }

    /// <summary>Name of the size it is made in; empty for the piece as it is.</summary>
    public string Size { get; set; } = "";

    /// <summary>The hand it is written for; null for the piece's own.</summary>
    public Hand? Hand { get; set; }

    /// <summary>Whether pages are shown at the size of the paper.</summary>
    public bool TrueSize { get; set; }

    /// <summary>The size chosen, when the piece still has it.</summary>
    public Pleatwright.Cloth.Size? Chosen => desk.Piece.Sizes.FirstOrDefault(s => s.Name == Size);
}
