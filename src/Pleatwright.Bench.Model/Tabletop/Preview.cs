using Pleatwright.Bench.Model.Drafts;
using Pleatwright.Chart;

namespace Pleatwright.Bench.Model.Tabletop;

/// <summary>
/// What is shown on the cloth while a form is answered: the piece as it would be. The piece on the table stays what it is; with the
/// form put away nothing of it is left.
/// </summary>
public sealed class Preview(Desk desk)
{
    private PieceDraft? draft;

    /// <summary>Raised when something else is to be shown.</summary>
    public event Action? Changed;

    /// <summary>What is shown: with the form's answers, where they come to a piece, else the piece as it is.</summary>
    public Work Work => draft?.Laid ?? desk.Work;

    /// <summary>Whether other cloth is shown than lies on the table: nothing can be drawn on it yet.</summary>
    public bool IsOtherCloth => draft?.Laid is { } laid && laid.Piece.Cloth != desk.Piece.Cloth;

    /// <summary>Why nothing can be drawn on other cloth.</summary>
    public const string KeepFirst = "This is how the cloth would be: keep it, or put the form away, before you draw on it.";

    /// <summary>Shows a draft until another is shown, or none.</summary>
    public void Show(PieceDraft? shown)
    {
        if (ReferenceEquals(shown, draft)) return;
        if (draft is not null) draft.AnswersChanged -= OnAnswered;
        draft = shown;
        if (draft is not null) draft.AnswersChanged += OnAnswered;
        Changed?.Invoke();
    }

    /// <summary>Shows it no longer, unless another is shown meanwhile.</summary>
    public void Drop(PieceDraft? shown)
    {
        if (ReferenceEquals(shown, draft)) Show(null);
    }

    private void OnAnswered() => Changed?.Invoke();
}
