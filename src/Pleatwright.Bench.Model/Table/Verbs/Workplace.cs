namespace Pleatwright.Bench.Model.Table.Verbs;

/// <summary>All that a verb works on: the piece, the hand, the cloth as it is shown.</summary>
public sealed class Workplace(Desk desk, Needle needle)
{
    public Desk Desk { get; } = desk;

    public Needle Needle { get; } = needle;

    /// <summary>The cloth as it is shown; <see cref="NoCloth"/> while it is not.</summary>
    public ICloth Cloth { get; set; } = NoCloth.Instance;

    /// <summary>All that a verb may change, to tell whether it did.</summary>
    internal object State => (
        (Desk.Piece, Desk.History, Desk.Sayings),
        (Needle.Thread, Needle.Doing, Needle.Accent, Needle.Look, Needle.Place, Needle.Mirror),
        (Needle.Lifted, Needle.LiftedElsewhere, Needle.Questions),
        Cloth.Sight);
}
