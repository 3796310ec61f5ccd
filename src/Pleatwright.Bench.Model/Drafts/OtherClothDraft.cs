using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Cloth;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>Other cloth for the piece on the table.</summary>
public sealed class OtherClothDraft(Desk desk) : PieceDraft(desk)
{
    private string why = "";

    /// <summary>The cloth as answered so far; <see cref="Changed"/> is to be told of every answer.</summary>
    public ClothDraft Cloth { get; } = ClothDraft.Of(desk.Piece.Cloth);

    /// <summary>The cloth the answers come to; null when they come to none that the piece could lie on.</summary>
    public ClothPlan? Plan => Laid?.Piece.Cloth;

    /// <summary>Whether sizes of the piece go with the form they were measured for.</summary>
    public bool LosesSizes => Plan is { } cloth && !Desk.Piece.Sizes.IsEmpty && cloth.Form.Kind != Desk.Piece.Cloth.Form.Kind;

    /// <summary>An answer was given.</summary>
    public void Changed() => Answered();

    private protected override string Edit => "other cloth";

    private protected override string? Wrong(Piece piece) => Cloth.Plan(out why) is null ? why : null;

    private protected override Piece With(Piece piece) => OtherCloth.To(piece, Cloth.Plan(out why)!);
}
