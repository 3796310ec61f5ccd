using Pleatwright.Chart;
using Pleatwright.Plate;
using Pleatwright.Plate.Preparation;
using Pleatwright.Plate.Teaching;

namespace Pleatwright.Bench.Model.Printing;

/// <summary>What was last chosen to be printed, and how; it stays for the next plate.</summary>
public sealed class PrintChoice
{
    private readonly Desk desk;
    private bool forClass;

    public PrintChoice(Desk desk)
    {
        this.desk = desk;
        desk.Opened += () => Size = "";
    }

    /// <summary>How it is made.</summary>
    public PlateOptions Options { get; set; } = new();

    /// <summary>The sheet that prepares the cloth; null for the plate, or for the class pack.</summary>
    public PreparationKind? Sheet { get; set; }

    /// <summary>Whether the class pack is made in place of the plate; a sheet goes before it.</summary>
    public bool ForClass { get => Sheet is null && forClass; set => forClass = value; }

    /// <summary>Who the class pack is for.</summary>
    public ClassOptions Class { get; set; } = new(10);

    /// <summary>Name of the size it is made in; empty for the piece as it is.</summary>
    public string Size { get; set; } = "";

    /// <summary>The hand it is written for; null for the piece's own.</summary>
    public Hand? Hand { get; set; }

    /// <summary>Whether pages are shown at the size of the paper.</summary>
    public bool TrueSize { get; set; }

    /// <summary>The piece that was too dear to be printed unasked; null when none was.</summary>
    public Piece? Dear { get; internal set; }

    /// <summary>The piece that is printed all the same.</summary>
    public Piece? TakenOn { get; private set; }

    /// <summary>Prints what was too dear to be printed unasked.</summary>
    public void TakeOn() => (TakenOn, Dear) = (Dear, null);

    /// <summary>The size chosen, when the piece still has it.</summary>
    public Pleatwright.Cloth.Size? Chosen => desk.Piece.Sizes.FirstOrDefault(s => s.Name == Size);
}
