using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>
/// A change to the piece while it is being answered in a form: what is wrong with it so far, and how the piece would lie. Nothing on
/// the table changes until it is kept.
/// </summary>
public abstract class PieceDraft
{
    private Piece? of; // the piece that the answers were last tried on
    private Work? laid;
    private string fault = "";

    private protected PieceDraft(Desk desk) => Desk = desk;

    private protected Desk Desk { get; }

    private protected Unread Unread { get; } = new();

    /// <summary>Raised after every answer, for what shows the piece as it would be.</summary>
    public event Action? AnswersChanged;

    /// <summary>Why it cannot be kept, as a sentence; empty when it can.</summary>
    public string Fault
    {
        get
        {
            Try();
            return fault;
        }
    }

    /// <summary>The piece with it, laid out; null when it cannot be kept.</summary>
    public Work? Laid
    {
        get
        {
            Try();
            return laid;
        }
    }

    /// <summary>Keeps it.</summary>
    /// <returns>False when it cannot be; <see cref="Fault"/> says why.</returns>
    public bool Keep()
    {
        Try();
        if (laid is null) return false;
        var piece = laid.Piece;
        if (piece != Desk.Piece) Desk.Edit(Edit, _ => piece, IsAnew);
        return true;
    }

    /// <summary>What the edit is called.</summary>
    private protected abstract string Edit { get; }

    /// <summary>Whether the piece with it is other cloth to stitch, so that no tick holds.</summary>
    private protected virtual bool IsAnew => false;

    /// <summary>What the core does not find wrong by itself, as a sentence; null when nothing is.</summary>
    private protected virtual string? Wrong(Piece piece) => null;

    /// <summary>The piece with it.</summary>
    /// <exception cref="ArgumentException">It cannot be; the message says why.</exception>
    private protected abstract Piece With(Piece piece);

    /// <summary>To be called after every answer.</summary>
    private protected void Answered()
    {
        of = null;
        AnswersChanged?.Invoke();
    }

    private void Try()
    {
        if (ReferenceEquals(of, Desk.Piece)) return;
        of = Desk.Piece;
        laid = null;
        if ((Unread.Fault ?? Wrong(of)) is { } wrong) { fault = wrong; return; }
        try
        {
            laid = Smocking.Lay(With(of));
            fault = "";
        }
        catch (ArgumentException e) { fault = Sentences.Of(e.Why()); }
    }
}
