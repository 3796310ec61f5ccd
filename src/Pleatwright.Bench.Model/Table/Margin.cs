using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Proof;

namespace Pleatwright.Bench.Model.Table;

/// <summary>
/// The proof as it is told at the table: which faults are shown, which is chosen, what is ringed on the cloth. It is quiet while the hand
/// draws: it is read anew once the hand rests.
/// </summary>
public sealed class Margin : IDisposable
{
    private const int Most = 40;
    private const int MostRings = 400;

    private readonly Desk desk;
    private readonly Needle needle;
    private ImmutableArray<Finding> read = [];
    private Piece of = null!; // the piece it was read of
    private int place; // of the chosen fault

    /// <summary>Reads the proof of the piece on the table, and keeps to it.</summary>
    public Margin(Desk desk, Needle needle)
    {
        (this.desk, this.needle) = (desk, needle);
        Take();
        desk.Rested += Read;
        desk.Opened += OnOpened;
    }

    /// <summary>Raised when other faults stand there, or another is chosen.</summary>
    public event Action? Changed;

    /// <summary>A fault, and a mark of its own among all that stand there.</summary>
    /// <param name="Finding">The finding that tells of it.</param>
    /// <param name="Places">Every place of it.</param>
    /// <param name="Message">What is wrong, with how often it lies there.</param>
    /// <param name="Key">Its mark.</param>
    public readonly record struct Note(Finding Finding, ImmutableArray<Place> Places, string Message, (string Rule, Place Place, string Message, int Alike) Key)
    {
        /// <summary>"error", "warning" or "note".</summary>
        public string Kind => Finding.Severity.Word();
    }

    /// <summary>The faults shown, gravest first as the proof has them: errors and warnings, and last what is only worth knowing.</summary>
    public ImmutableArray<Note> Notes { get; private set; } = [];

    /// <summary>How many of <see cref="Notes"/> are faults: they are shown whatever there is to note.</summary>
    public int Faults { get; private set; }

    /// <summary>How many faults, and how many notes, are not shown.</summary>
    public (int Faults, int Notes) More { get; private set; }

    /// <summary>How many notes there are, of what is only worth knowing.</summary>
    public int Worth => Counts.Notes;

    /// <summary>How many there are of each kind, each counted once however many its places.</summary>
    internal Counts Counts { get; private set; }

    /// <summary>The fault chosen; -1 for none.</summary>
    public int Chosen { get; private set; } = -1;

    /// <summary>Which of its places the hand was led to, from 0.</summary>
    public int ChosenPlace => place;

    /// <summary>How many of each kind, as a sentence.</summary>
    public string Count => read.IsEmpty ? "Nothing to mend." : Counts.Say() + ".";

    /// <summary>How many of each kind, in the fewest words: faults, else notes.</summary>
    public string ShortCount => Counts switch
    {
        { Errors: > 0 } or { Warnings: > 0 } => Words.Of(Counts.Errors + Counts.Warnings),
        { Notes: > 0 } => Words.Of(Counts.Notes),
        _ => "0",
    };

    /// <summary>The gravest kind there is: "error", "warning", "note"; "none" when nothing is to mend.</summary>
    public string Gravest => read.IsEmpty ? "none" : read[0].Severity.Word();

    /// <summary>What to ring, five numbers a place: top row, bottom row, from, to, severity.</summary>
    public int[] Rings()
    {
        var rings = new List<int>();
        foreach (var (p, severity, _) in Ringed()) rings.AddRange([p.Top.Index, p.Bottom.Index, p.From.Number, p.To.Number, (int)severity]);
        return [.. rings];
    }

    /// <summary>Which ring is chosen; -1 for none.</summary>
    public int ChosenRing => Chosen < 0 ? -1 : Ringed().TakeWhile(r => r.Note < Chosen).Count() + place;

    private IEnumerable<(Place Place, Severity Severity, int Note)> Ringed() =>
        Notes.SelectMany((n, i) => n.Places.Select(p => (p, n.Finding.Severity, i))).Take(MostRings);

    /// <summary>
    /// Chooses a fault and takes the hand to its place; pressed again, to its next place, and after the last lets it go.
    /// </summary>
    /// <param name="at">Which note.</param>
    /// <param name="cloth">The cloth, to bring its place into sight; null while there is none.</param>
    public void Point(int at, ICloth? cloth)
    {
        if (at < 0 || at >= Notes.Length) return;
        place = Chosen == at ? place + 1 : 0;
        Chosen = at;
        if (place >= Notes[at].Places.Length) (Chosen, place) = (-1, 0);
        if (Chosen >= 0 && cloth is not null)
        {
            var p = Notes[at].Places[place].On(desk.Work);
            var middle = new Valley((p.From.Number + p.To.Number) / 2);
            needle.GoTo(middle, p.Top);
            cloth.Reveal(middle, new CableRow((p.Top.Index + p.Bottom.Index) / 2), true);
        }
        Changed?.Invoke();
    }

    /// <summary>Mends what a note points to, where one press is safe.</summary>
    public void Mend(int at)
    {
        if (at < 0 || at >= Notes.Length) return;
        var key = Notes[at].Key;
        if (!ReferenceEquals(of, desk.Piece)) Read(); // drawn on since: what was read may be mended already
        if (Notes.FirstOrDefault(n => n.Key == key) is not { Finding: not null } note || note.Finding.Mend is not { } mend) return;
        var before = desk.Piece;
        desk.Edit(mend.Words, mend.Apply);
        if (ReferenceEquals(before, desk.Piece)) return;
        Read();
        desk.Say($"Mended: {mend.Words}.");
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        desk.Rested -= Read;
        desk.Opened -= OnOpened;
    }

    private void OnOpened()
    {
        Take();
        (Chosen, place) = (-1, 0);
        Changed?.Invoke();
    }

    private void Read()
    {
        var before = read;
        var now = desk.Findings;
        var same = now.Length == before.Length;
        for (var i = 0; same && i < now.Length; i++)
            same = now[i].Place == before[i].Place && now[i].Severity == before[i].Severity && now[i].Message == before[i].Message;
        Take();
        if (same) return;
        (Chosen, place) = (-1, 0);
        Changed?.Invoke();
    }

    // Two bands that lie alike are told of in the same words at the same place: how many came before tells such notes apart.
    private void Take()
    {
        (of, read) = (desk.Piece, desk.Findings);
        var all = Grouping.Faults(desk.Work, read);
        Counts = Counts.Of(all.Select(f => f.First));
        var (faults, worth) = (all.Count(f => f.First.Severity != Severity.Note), all.Count(f => f.First.Severity == Severity.Note));
        Faults = Math.Min(faults, Most);
        More = (faults - Faults, Math.Max(0, worth - Most));
        var notes = ImmutableArray.CreateBuilder<Note>();
        var seen = new Dictionary<(string, Place, string), int>();
        foreach (var fault in all.Take(faults).Take(Most).Concat(all.Skip(faults).Take(Most)))
        {
            var f = fault.First;
            var alike = seen[(f.Rule, f.Place, f.Message)] = seen.GetValueOrDefault((f.Rule, f.Place, f.Message)) + 1;
            notes.Add(new Note(f, fault.Places, fault.Message, (f.Rule, f.Place, f.Message, alike)));
        }
        Notes = notes.ToImmutable();
    }
}
