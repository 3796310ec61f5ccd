using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>One design in many sizes: the measurements each is made from, and a table of what they come to.</summary>
public sealed class SizesDraft : PieceDraft
{
    private static readonly TimeSpan Rest = TimeSpan.FromMilliseconds(150); // every size is laid out whole, so it waits until the typing rests

    private readonly TimeProvider time;
    private readonly List<Row> rows = [];
    private int keys, turn;

    /// <summary>A size, and a number that stays with it while others come and go.</summary>
    public readonly record struct Row(int Key, Size Size);

    /// <summary>The sizes of the piece, to be changed.</summary>
    public SizesDraft(Desk desk, TimeProvider time) : base(desk)
    {
        this.time = time;
        foreach (var size in desk.Piece.Sizes) rows.Add(new Row(keys++, size));
        Reckon(desk.Piece);
    }

    /// <summary>Raised when <see cref="Table"/> is written anew.</summary>
    public event Action? Reckoned;

    /// <summary>The sizes as answered so far.</summary>
    public IReadOnlyList<Row> Sizes => rows;

    /// <summary>What each size comes to, the piece as it is first; of the last sizes that could be made while they cannot.</summary>
    public ImmutableArray<SizeLine> Table { get; private set; } = [];

    /// <summary>Whether <see cref="Table"/> is about to be written anew.</summary>
    public bool IsStale { get; private set; }

    /// <summary>Whether there may be one more.</summary>
    public bool MayAdd => rows.Count < Size.Most;

    /// <summary>The units the maker thinks in.</summary>
    public UnitSystem Units => Desk.Piece.Cloth.Form.Measure.Units();

    /// <summary>What a size of this piece is measured by, in a word or two.</summary>
    public string Measured => Desk.Piece.Cloth.Form.Kind.Measured;

    /// <summary>How large a size comes out, of what it is measured by.</summary>
    public string Finished(SizeLine line) => line.Pleating is { } plan ? plan.Cloth.Form.ComesTo(plan).Say(Units) : "";

    /// <summary>A size as a heading names it, by its place while it has no name.</summary>
    public string NameOf(int at) => rows[at].Size.Name.Length > 0 ? rows[at].Size.Name : $"Size {at + 1}";

    /// <summary>What a size of the table is called; the piece's own by its name, where it has one.</summary>
    public string NameOf(SizeLine line) => line.Name.Length > 0 ? line.Name : OwnName(Desk.Piece);

    /// <summary>What the size that a piece is drawn in is called among its sizes.</summary>
    public static string OwnName(Piece piece) => piece.SizeName.Length > 0 ? piece.SizeName : "as it is";

    /// <summary>Whether what a key of a size's form is given is as in the piece.</summary>
    internal bool IsOwn(Form size, FormKey key) => Desk.Piece.Cloth.Form is { } own && own.Kind == size.Kind && key.Same(size.Values, own.Values);

    /// <summary>One more size, measured like the last.</summary>
    public void Add()
    {
        if (!MayAdd) return;
        var number = rows.Count + 1;
        while (rows.Any(s => s.Size.Name == $"size {number}")) number++;
        rows.Add(new Row(keys++, new Size($"size {number}", rows.Count > 0 ? rows[^1].Size.Form : Desk.Piece.Cloth.Form)));
        Changed();
    }

    public void LeaveOut(int at)
    {
        rows.RemoveAt(at);
        Changed();
    }

    public void SetName(int at, string? name) => Change(at, rows[at].Size with { Name = name ?? "" });

    /// <summary>What the form is measured by: width, diameter or neck.</summary>
    public void SetMeasure(int at, Length length) => Set(at, rows[at].Size.Form.Kind.Measure, length);

    /// <summary>A length that the form of a size is measured by.</summary>
    internal void Set(int at, LengthKey key, Length length) => Change(at, values => values.With(key, length));

    /// <summary>An angle, in degrees.</summary>
    internal void Set(int at, AngleKey key, double degrees)
    {
        if (double.IsFinite(degrees)) Change(at, values => values.With(key, Angle.FromDegrees(degrees)));
    }

    /// <summary>Gathering rows of its own; fewer than there can be stands for those of the piece.</summary>
    public void SetRows(int at, int count) => Change(at, rows[at].Size with { GatheringRows = count < ClothPlan.LeastGatheringRows ? null : count });

    /// <summary>The cut width of one of the pieces a size is sewn of.</summary>
    internal void SetPanel(int at, PiecesKey key, int panel, Length cut)
    {
        var pieces = rows[at].Size.Form.Values.Pieces(key);
        if (panel >= 0 && panel < pieces.Length) Change(at, values => values.With(key, pieces.SetItem(panel, pieces[panel] with { Cut = cut })));
    }

    /// <summary>Shares the cloth out by the measure of a size.</summary>
    internal void ShareOut(int at, PiecesKey key)
    {
        var form = rows[at].Size.Form;
        if (form.Measure > Length.Zero) Change(at, values => values.With(key, Practice.SharedPanels(Desk.Piece.Cloth, form.Measure)));
    }

    private protected override string Edit => "sizes";

    private protected override string? Wrong(Piece piece) =>
        rows.Any(s => s.Size.Name.Trim().Length == 0) ? "Give each size a name."
        : rows.Any(s => s.Size.Name.Trim().Length > Size.LongestName) ? $"A size's name has at most {Size.LongestName} characters."
        : rows.GroupBy(s => s.Size.Name.Trim()).FirstOrDefault(g => g.Count() > 1) is { } twice ? $"Two sizes are called {twice.Key}; give each a name of its own."
        : rows.Select(s => s.Size.Form.MeasureFault).FirstOrDefault(f => f is not null) is { } fault ? Sentences.Of(fault.Words)
        : rows.Any(s => s.Size.GatheringRows > ClothPlan.MostGatheringRows) ? FormattableString.Invariant($"There are at most {ClothPlan.MostGatheringRows:#,0} gathering rows.")
        : rows.Any(s => s.Size.Form.Kind != piece.Cloth.Form.Kind) ? "The cloth has another form meanwhile; these measurements are of no use to it."
        : null;

    private protected override Piece With(Piece piece)
    {
        // A name that was not touched stays to the letter.
        ImmutableArray<Size> sizes = [.. rows.Select(s => piece.Sizes.Any(o => o.Name == s.Size.Name) ? s.Size : s.Size with { Name = s.Size.Name.Trim() })];
        return sizes.SequenceEqual(piece.Sizes) ? piece : piece with { Sizes = sizes };
    }

    private void Change(int at, Func<FormValues, FormValues> change) =>
        Change(at, rows[at].Size with { Form = rows[at].Size.Form.Kind.Make(change(rows[at].Size.Form.Values)) });

    private void Change(int at, Size size)
    {
        rows[at] = rows[at] with { Size = size };
        Changed();
    }

    private async void Changed()
    {
        Answered();
        var mine = ++turn;
        IsStale = true;
        await Task.Delay(Rest, time);
        if (mine != turn) return;
        if (Laid is { } work) Reckon(work.Piece);
        IsStale = false;
        Reckoned?.Invoke();
    }

    private void Reckon(Piece piece)
    {
        try { Table = SizeTable.Of(piece); }
        catch (ArgumentException) { Table = []; } // a size in which the accents lie in too many places
    }
}
