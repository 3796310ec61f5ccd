using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Teaching;

/// <summary>
/// All that a class needs of one piece: the teacher's sheet, the register, kit labels and the handout as pages, and the
/// student's page for a phone. Pure: the same plate and options always make the same pack.
/// </summary>
internal sealed class ClassPack
{
    private readonly Lazy<ImmutableArray<Sheet>> teacher, labels, handout, all;
    private readonly Lazy<WorkingOrder> otherHand;

    private ClassPack(PlateDocument plate, ClassOptions options, ClassCutting cutting, WorkingOrder? otherHand)
    {
        Plate = plate;
        Options = options;
        Cutting = cutting;
        this.otherHand = new(() => otherHand ?? Planner.Plan(OtherHand(plate), plate.Order.Effort));
        teacher = new(() => Number(TeacherPages()));
        labels = new(() => Number(KitLabels.Of(this)));
        handout = new(() => Number(Teaching.Handout.Of(this)));
        all = new(() => Number([.. TeacherPages(), .. KitLabels.Of(this), .. Teaching.Handout.Of(this)]));
    }

    /// <summary>The plate taught.</summary>
    public PlateDocument Plate { get; }

    /// <summary>Who it is for.</summary>
    public ClassOptions Options { get; }

    /// <summary>Thread to buy and cut, backsmocking thread last.</summary>
    public ClassCutting Cutting { get; }

    /// <summary>The teacher's sheet and the register.</summary>
    public ImmutableArray<Sheet> TeacherSheets => teacher.Value;

    /// <summary>A label for every kit, to be cut apart.</summary>
    public ImmutableArray<Sheet> LabelSheets => labels.Value;

    /// <summary>The basics of stacked cables for this plate, for either hand.</summary>
    public ImmutableArray<Sheet> HandoutSheets => handout.Value;

    /// <summary>All pages in one numbering.</summary>
    public ImmutableArray<Sheet> Sheets => all.Value;

    /// <summary>Its title.</summary>
    public string Title => $"{Plate.Title}, for a class";

    /// <summary>Makes the pack of a plate.</summary>
    /// <param name="plate">The plate taught.</param>
    /// <param name="options">How many it is for, and how.</param>
    /// <param name="otherHand">The order of <see cref="OtherHand"/>, where it has been planned; else it is planned when first asked for.</param>
    /// <exception cref="ArgumentException">The options have a fault, or a skein of some thread is shorter than one needleful; the message says which.</exception>
    public static ClassPack Make(PlateDocument plate, ClassOptions options, WorkingOrder? otherHand = null)
    {
        if (options.Fault is { } fault) throw new ArgumentException(fault);
        var uses = plate.Order.ThreadUses();
        if (!plate.Order.Backsmock.Rows.IsEmpty) uses = uses.Add(plate.Order.Backsmock.Use);
        return new ClassPack(plate, options,
            ClassCutting.Of(uses, plate.Work.Piece.Working.WorkingLength, options.Students, options.SpareKits, options.ExtraLengths), otherHand);
    }

    /// <summary>The hand that the plate is written for.</summary>
    public Hand Hand => Plate.Work.Piece.Working.Hand;

    /// <summary>The working order for a hand: a class has both.</summary>
    public WorkingOrder OrderOf(Hand hand) => hand == Hand ? Plate.Order : otherHand.Value;

    /// <summary>Needles in a kit: as many as are threaded at once.</summary>
    public int Needles => Math.Max(1, Plate.Order.Needles);

    /// <summary>Whether a thread is the one for the back: it has no letter on the chart.</summary>
    internal bool IsForTheBack(Floss thread) => thread == Plate.Order.Backsmock.Thread;

    /// <summary>The work of a plate as the other hand goes about it.</summary>
    public static Work OtherHand(PlateDocument plate) => Work.Lay(ForOtherHand(plate.Work.Piece));

    internal static Piece ForOtherHand(Piece piece) =>
        piece with { Working = piece.Working with { Hand = piece.Working.Hand == Hand.Left ? Hand.Right : Hand.Left } };

    private List<Page> TeacherPages() => [.. TeacherSheet.Of(this), .. Register.Of(this)];

    private ImmutableArray<Sheet> Number(List<Page> pages) =>
        [.. pages.Select((page, i) => page.Finish(Plate.Title, i + 1, pages.Count))];
}
