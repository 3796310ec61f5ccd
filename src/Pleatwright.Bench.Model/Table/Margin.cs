using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Proof;

namespace Pleatwright.Bench.Model.Table;

/// <summary>The proof as notes in the margin of the table: which are shown, which is chosen, what is ringed on the cloth.</summary>
public sealed class Margin : IDisposable
{
    private const int Most = 40;

    private readonly Desk desk;
    private readonly Needle needle;
    private ImmutableArray<Finding> all;

    /// <summary>Reads the proof of the piece on the table, and keeps to it.</summary>
    public Margin(Desk desk, Needle needle)
    {
        (this.desk, this.needle) = (desk, needle);
        Take(desk.Findings);
        desk.Changed += OnChanged;
    }

    /// <summary>Raised when other notes stand there, or another is chosen.</summary>
    public event Action? Changed;

    /// <summary>A note, and a mark of its own among all that stand there.</summary>
    public readonly record struct Note(Finding Finding, (string Rule, Place Place, string Message, int Alike) Key)
    {
        /// <summary>"error", "warning" or "note".</summary>
        public string Kind => Finding.Severity.Word();
    }

    /// <summary>The notes shown, gravest first as the proof has them.</summary>
    public ImmutableArray<Note> Notes { get; private set; } = [];

    /// <summary>How many are not shown.</summary>
    public int More => all.Length - Notes.Length;

    /// <summary>The note chosen; -1 for none.</summary>
    public int Chosen { get; private set; } = -1;

    /// <summary>How many of each kind, as a sentence.</summary>
    public string Count => all.IsEmpty ? "Nothing to mend." : Counts.Of(all).Say() + ".";

    /// <summary>What to ring, five numbers a note: top row, bottom row, from, to, severity.</summary>
    public int[] Rings()
    {
        var rings = new int[Notes.Length * 5];
        for (var i = 0; i < Notes.Length; i++)
        {
            var f = Notes[i].Finding;
            ((ReadOnlySpan<int>)[f.Row.Index, f.LastRow.Index, f.From.Number, f.To.Number, (int)f.Severity]).CopyTo(rings.AsSpan(i * 5));
        }
        return rings;
    }

    /// <summary>Chooses a note and takes the hand to its place, or lets it go.</summary>
    /// <param name="at">Which note.</param>
    /// <param name="cloth">The cloth, to bring its place into sight; null while there is none.</param>
    public void Point(int at, ICloth? cloth)
    {
        if (at < 0 || at >= Notes.Length) return;
        Chosen = Chosen == at ? -1 : at;
        if (Chosen >= 0 && cloth is not null)
        {
            var f = Notes[at].Finding;
            var middle = new Valley((f.From.Number + f.To.Number) / 2);
            needle.GoTo(middle, f.Row);
            cloth.Reveal(middle, new CableRow((f.Row.Index + f.LastRow.Index) / 2), true);
        }
        Changed?.Invoke();
    }

    /// <summary>Mends what a note points to, where one press is safe.</summary>
    public void Mend(int at)
    {
        if (at < 0 || at >= Notes.Length || Notes[at].Finding.Mend is not { } mend) return;
        var before = desk.Piece;
        desk.Edit(mend.Words, mend.Apply);
        if (!ReferenceEquals(before, desk.Piece)) desk.Say($"Mended: {mend.Words}.");
    }

    /// <inheritdoc/>
    public void Dispose() => desk.Changed -= OnChanged;

    private void OnChanged()
    {
        var now = desk.Findings;
        var same = now.Length == all.Length;
        for (var i = 0; same && i < now.Length; i++)
            same = now[i].Place == all[i].Place && now[i].Severity == all[i].Severity && now[i].Message == all[i].Message;
        Take(now);
        if (same) return;
        Chosen = -1;
        Changed?.Invoke();
    }

    // Two bands that lie alike are told of in the same words at the same place: how many came before tells such notes apart.
    private void Take(ImmutableArray<Finding> findings)
    {
        all = findings;
        var notes = ImmutableArray.CreateBuilder<Note>(Math.Min(findings.Length, Most));
        var seen = new Dictionary<(string, Place, string), int>();
        for (var i = 0; i < findings.Length && i < Most; i++)
        {
            var f = findings[i];
            var alike = seen[(f.Rule, f.Place, f.Message)] = seen.GetValueOrDefault((f.Rule, f.Place, f.Message)) + 1;
            notes.Add(new Note(f, (f.Rule, f.Place, f.Message, alike)));
        }
        Notes = notes.ToImmutable();
    }
}
