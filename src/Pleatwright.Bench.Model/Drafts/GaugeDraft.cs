using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Recutting;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>Another gauge for the piece on the table: what it keeps, and all that changes by it.</summary>
public sealed class GaugeDraft : PieceDraft
{
    private readonly Gauge old;
    private RecutKeep keep = RecutKeep.Size;
    private RecutPiece? recut;

    /// <summary>The gauge of the piece, to be changed.</summary>
    public GaugeDraft(Desk desk) : base(desk)
    {
        old = desk.Piece.Cloth.Gauge;
        (PleatsPerInch, TakeUp, RowSpacing, PerSpace) = (old.PleatsPerInch, old.TakeUp, old.RowSpacing, old.CableRowsPerSpace);
    }

    /// <summary>What the piece may keep: the word for each, what it is called, and what it means.</summary>
    public static ImmutableArray<(string Way, string Name, string Meaning)> Ways { get; } =
        [.. Enum.GetValues<RecutKeep>().Select(k => (k.ToString().ToLowerInvariant(), RecutWords.Of(k).Capital(), RecutWords.Meaning(k)))];

    /// <summary>What it keeps, of <see cref="Ways"/>.</summary>
    public string Way => keep.ToString().ToLowerInvariant();

    /// <summary>Finished pleats in an inch.</summary>
    public double PleatsPerInch { get; private set; }

    /// <summary>Flat cloth to a pleat.</summary>
    public Length TakeUp { get; private set; }

    /// <summary>From one gathering row to the next.</summary>
    public Length RowSpacing { get; private set; }

    /// <summary>Cable rows in a space.</summary>
    public int PerSpace { get; private set; }

    /// <summary>All that changes, a sentence each; empty while nothing does.</summary>
    public ImmutableArray<string> Changes => Told(loss: false);

    /// <summary>What is lost by it or asks to be looked at, a sentence each.</summary>
    public ImmutableArray<string> Losses => Told(loss: true);

    /// <summary>The fullness it comes to, in words.</summary>
    public string FullnessWords => PleatsPerInch > 0 ? $"{Words.Of(TakeUp.Inches * PleatsPerInch)} to 1" : "";

    public void SetWay(string? way)
    {
        if (Enum.TryParse<RecutKeep>(way, ignoreCase: true, out var read) && Enum.IsDefined(read)) keep = read;
        Answered();
    }

    public void SetPleatsPerInch(double pleats)
    {
        PleatsPerInch = pleats;
        Answered();
    }

    public void SetTakeUp(Length takeUp)
    {
        TakeUp = takeUp;
        Answered();
    }

    public void SetRowSpacing(Length spacing)
    {
        RowSpacing = spacing;
        Answered();
    }

    public void SetPerSpace(int rows)
    {
        PerSpace = rows;
        Answered();
    }

    /// <summary>Packed pleats, as pictures want them.</summary>
    public void PackForPictures()
    {
        var packed = Practice.Packed(TakeUp);
        (PleatsPerInch, TakeUp) = (packed.PleatsPerInch, packed.TakeUp);
        Answered();
    }

    private protected override string Edit => "another gauge";

    private protected override bool IsAnew => recut?.Changes.Any(c => c is RecutChange.StitchesMoved) ?? false;

    private protected override Piece With(Piece piece)
    {
        recut = null;
        // A count of pleats that was not touched keeps the very pitch it stood for.
        var pitch = PleatsPerInch == old.PleatsPerInch ? old.Pitch : PleatsPerInch > 0 ? Length.FromInches(1 / PleatsPerInch) : Length.Zero;
        recut = Recutter.Recut(piece, new Gauge(pitch, TakeUp, RowSpacing, PerSpace) { PleatThickness = piece.Cloth.Gauge.PleatThickness }, keep);
        return recut.Piece;
    }

    private ImmutableArray<string> Told(bool loss) => Laid is null || recut is null ? []
        : [.. recut.Changes.Where(c => c.IsLoss == loss).Select(c => RecutWords.Of(c, Words.Units(Desk.Piece))).Distinct()];
}
