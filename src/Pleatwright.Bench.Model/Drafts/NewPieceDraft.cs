using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>A new piece: what it is for, its cloth, its first thread.</summary>
public sealed class NewPieceDraft
{
    private string fault = "";

    public NewPieceDraft() => Changed();

    public string Title { get; set; } = "";

    /// <summary>Its cloth as answered so far; <see cref="Changed"/> is to be told of every answer.</summary>
    public ClothDraft Cloth { get; } = ClothDraft.New();

    /// <summary>Colour of the first thread.</summary>
    public string ThreadColour { get; set; } = "#b3202c";

    /// <summary>Name of the first thread.</summary>
    public string ThreadName { get; set; } = "red";

    /// <summary>The cloth that the answers come to; null when they come to none.</summary>
    public ClothPlan? Plan { get; private set; }

    /// <summary>Why it cannot be laid on the table, as a sentence; empty when it can.</summary>
    public string Fault => fault.Length > 0 ? fault
        : !Colour.TryParse(ThreadColour, out _) ? Said.Colour
        : ThreadName.Trim().Length > Floss.LongestName || Title.Trim().Length > Piece.LongestTitle ? Said.TooLong
        : "";

    /// <summary>Its rows in short.</summary>
    public string RowWords => Plan is not { } cloth ? ""
        : $"{Words.Of(cloth.GatheringRows)} gathering, {Words.Of(cloth.HoldingRowsAbove + cloth.HoldingRowsBelow)} holding" + (cloth.Pleater is { } p ? $", pleater of {p.Rows}" : "");

    /// <summary>Its edges in short.</summary>
    public string EdgeWords => Plan is not { } cloth ? ""
        : $"{Words.Of(cloth.SeamPleats, "seam pleat")} at each side, cloth {Words.Of(cloth.FabricWidth)} wide" + (cloth.Ravelling > Length.Zero ? $", {Words.Of(cloth.Ravelling)} for ravelling" : "");

    /// <summary>An answer to the cloth was given.</summary>
    public void Changed() => Plan = Cloth.Plan(out fault);

    /// <summary>The piece; null when it cannot be laid, and <see cref="Fault"/> says why.</summary>
    public Piece? Make()
    {
        Changed();
        if (Plan is not { } cloth || Fault.Length > 0) return null;
        var floss = new Floss(new ThreadKey('r'), ThreadName.Trim(), Colour.Parse(ThreadColour), Floss.DefaultStrands);
        var piece = new Piece(Title.Trim().Length == 0 ? "Untitled" : Title.Trim(), cloth, [floss], [], []);
        return Cloth.GaugeFrom == GaugeFrom.Swatch ? (piece with { Swatches = SwatchDraft.Read(Cloth.Swatches, out _) }).Calibrated() : piece;
    }
}
