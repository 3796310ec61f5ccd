using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Cloth;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>The maker's swatches of a piece, what they say, and the way to take it over.</summary>
public sealed class SwatchesDraft : PieceDraft
{
    private bool over;

    /// <summary>The swatches of the piece, to be changed; an empty one where there are none.</summary>
    public SwatchesDraft(Desk desk) : base(desk) => Swatches = desk.Piece.Swatches.IsEmpty ? [new()] : [.. desk.Piece.Swatches.Select(SwatchDraft.Of)];

    /// <summary>The swatches as answered so far; <see cref="Changed"/> is to be told of every answer.</summary>
    public List<SwatchDraft> Swatches { get; }

    /// <summary>What they say; null when nothing was measured, or it cannot be right.</summary>
    public Calibration? Found => SwatchDraft.Read(Swatches, out _) is { IsDefault: false } read ? (Desk.Piece with { Swatches = read }).Calibration : null;

    /// <summary>Whether the piece is to be planned by them, not only to remember them.</summary>
    public bool PlanBy
    {
        get => over;
        set
        {
            over = value;
            Answered();
        }
    }

    /// <summary>Whether the piece could be planned by them.</summary>
    public bool MayPlanBy => Found is not null;

    /// <summary>An answer was given.</summary>
    public void Changed() => Answered();

    private protected override string Edit => PlanBy ? "planned by the swatches" : "swatches";

    private protected override string? Wrong(Piece piece) => SwatchDraft.Read(Swatches, out var fault).IsDefault ? fault : null;

    private protected override Piece With(Piece piece)
    {
        var read = SwatchDraft.Read(Swatches, out _);
        if (!read.SequenceEqual(piece.Swatches)) piece = piece with { Swatches = read };
        if (!PlanBy) return piece;
        var calibrated = piece.Calibrated();
        return OtherCloth.To(piece, calibrated.Cloth) with { Working = calibrated.Working };
    }
}
