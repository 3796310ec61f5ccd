using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>
/// A kind of form before it has a measure: its word in the piece file, the keys it brings, and how a form is made of what they are given.
/// Reader, writer, schema, the questions of the bench and the sizes all go by <see cref="Keys"/>.
/// </summary>
internal abstract class FormKind
{
    /// <summary>Every kind there is, in the order they are offered. A new one is a file in this folder and a word here.</summary>
    public static ImmutableArray<FormKind> All => Every.Kind;

    // Apart, so that a kind that is asked for first is whole before it is counted among all.
    private static class Every
    {
        public static readonly ImmutableArray<FormKind> Kind = [PanelKind.One, RoundKind.One, BallKind.One, CuffKind.One];
    }

    /// <summary>The word for it in the piece file.</summary>
    public abstract string Name { get; }

    /// <summary>What it is, as it is offered for a new piece.</summary>
    public abstract string Offer { get; }

    /// <summary>The keys it brings; the first is the one measurement that makes its size.</summary>
    public abstract ImmutableArray<FormKey> Keys { get; }

    /// <summary>What a size is measured by, as the head of a column.</summary>
    public abstract string Measured { get; }

    /// <summary>Whether a new piece is asked how deep it is; else the form itself says how many rows there is room for.</summary>
    public virtual bool AsksDepth => true;

    /// <summary>What settles the rows where the maker does not count them and no depth is asked; empty otherwise.</summary>
    public virtual string RowsElse => "";

    /// <summary>The key of its own measure.</summary>
    public LengthKey Measure => (LengthKey)Keys[0];

    /// <summary>The key of the pieces of cloth it is sewn of, when it is sewn of several by design.</summary>
    public PiecesKey? Pieces => Keys.OfType<PiecesKey>().FirstOrDefault();

    /// <summary>The form of these values; what is left out is as usual.</summary>
    public abstract Form Make(FormValues values);

    /// <summary>A new cloth in this form; see <see cref="NewCloth"/>.</summary>
    /// <param name="cloth">The cloth but for its form, with as many rows as the maker counts or the depth gives.</param>
    /// <param name="values">What the form is measured by.</param>
    /// <param name="counted">Whether the maker counts the rows.</param>
    /// <param name="deep">Whether the maker gives the depth.</param>
    /// <exception cref="ArgumentOutOfRangeException">Nothing can be made of them; the message says why.</exception>
    public virtual ClothPlan Begin(ClothPlan cloth, FormValues values, bool counted, bool deep) => cloth with { Form = Make(values) };

    /// <summary>The kind of a name, or null.</summary>
    public static FormKind? Named(string name) => All.FirstOrDefault(k => k.Name == name);

    /// <summary>
    /// A size's form after the piece's own has changed: what was the piece's own follows it, the size's own measure stays; null when the piece
    /// has another kind of form now and no use for these measurements.
    /// </summary>
    public static Form? Follow(Form size, Form before, Form after)
    {
        if (size.Kind != after.Kind) return null;
        if (before.Kind != after.Kind) return size;
        var (values, was, now) = (size.Values, before.Values, after.Values);
        foreach (var key in size.Kind.Keys.Skip(1))
            if (key.Same(values, was)) values = values.With(key, now);
        return size.Kind.Make(values);
    }
}

/// <summary>A key that a form brings to the piece file: a value of one sort, and how the bench asks for it.</summary>
/// <param name="Name">Its name in the file.</param>
/// <param name="Question">What the bench asks.</param>
internal abstract record FormKey(string Name, string Question)
{
    /// <summary>Whether the file may leave it out.</summary>
    public abstract bool IsOptional { get; }

    /// <summary>Whether both give it the same value.</summary>
    public abstract bool Same(FormValues one, FormValues other);
}

/// <summary>A key whose value is a length.</summary>
/// <param name="Name">Its name in the file.</param>
/// <param name="Question">What the bench asks.</param>
/// <param name="Begin">Where a new piece begins.</param>
internal sealed record LengthKey(string Name, string Question, Length Begin) : FormKey(Name, Question)
{
    /// <summary>What is meant when it is left out; null where it is required.</summary>
    public Length? Usual { get; init; }

    /// <summary>What the bench asks of a size, where that is shorter.</summary>
    public string InSize { get; init; } = Question;

    /// <inheritdoc/>
    public override bool IsOptional => Usual is not null;

    /// <inheritdoc/>
    public override bool Same(FormValues one, FormValues other) => one.Length(this) == other.Length(this);
}

/// <summary>A key whose value is an angle in degrees, more than 0 and at most a full turn, which is usual.</summary>
/// <param name="Name">Its name in the file.</param>
/// <param name="Question">What the bench asks.</param>
internal sealed record AngleKey(string Name, string Question) : FormKey(Name, Question)
{
    /// <summary>What the bench asks of a size, where that is shorter.</summary>
    public string InSize { get; init; } = Question;

    /// <inheritdoc/>
    public override bool IsOptional => true;

    /// <inheritdoc/>
    public override bool Same(FormValues one, FormValues other) => one.Angle(this) == other.Angle(this);
}

/// <summary>A key whose value is a list of pieces of cloth, each with its name and its cut width.</summary>
/// <param name="Name">Its name in the file.</param>
/// <param name="Question">What the bench asks.</param>
/// <param name="Most">The most there may be; at least one.</param>
internal sealed record PiecesKey(string Name, string Question, int Most) : FormKey(Name, Question)
{
    /// <summary>The form as an error names it: "a round form has 1 to 100".</summary>
    public string Of { get; init; } = "such a form";

    /// <inheritdoc/>
    public override bool IsOptional => false;

    /// <inheritdoc/>
    public override bool Same(FormValues one, FormValues other) => one.Pieces(this).SequenceEqual(other.Pieces(this));
}

/// <summary>What the keys of a form are given. Never changed; what is not given reads as usual.</summary>
internal sealed class FormValues
{
    private readonly ImmutableDictionary<string, object> given;

    private FormValues(ImmutableDictionary<string, object> given) => this.given = given;

    /// <summary>Nothing given.</summary>
    public static FormValues None { get; } = new(ImmutableDictionary<string, object>.Empty);

    /// <summary>Where a new piece begins, for every key of every kind.</summary>
    public static FormValues Begun { get; } = FormKind.All.SelectMany(k => k.Keys).OfType<LengthKey>().DistinctBy(k => k.Name).Aggregate(None, (values, key) => values.With(key, key.Begin));

    /// <summary>The length given, else the usual one, else nothing at all.</summary>
    public Length Length(LengthKey key) => given.TryGetValue(key.Name, out var value) ? (Length)value : key.Usual ?? Measure.Length.Zero;

    /// <summary>The angle given, else a full turn.</summary>
    public Angle Angle(AngleKey key) => given.TryGetValue(key.Name, out var value) ? (Angle)value : Measure.Angle.FullTurn;

    /// <summary>The pieces given, else none.</summary>
    public ImmutableArray<RoundPanel> Pieces(PiecesKey key) => given.TryGetValue(key.Name, out var value) ? (ImmutableArray<RoundPanel>)value : [];

    public FormValues With(LengthKey key, Length value) => new(given.SetItem(key.Name, value));

    public FormValues With(AngleKey key, Angle value) => new(given.SetItem(key.Name, value));

    public FormValues With(PiecesKey key, ImmutableArray<RoundPanel> value) => new(given.SetItem(key.Name, value));

    /// <summary>These, but one key's value as in another.</summary>
    public FormValues With(FormKey key, FormValues other) => other.given.TryGetValue(key.Name, out var value) ? new(given.SetItem(key.Name, value)) : new(given.Remove(key.Name));

    /// <summary>These, and what another gives over them.</summary>
    public FormValues With(FormValues other) => new(given.SetItems(other.given));
}
