using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>Whose design the piece is, and what else a published plate says of it; every field may stay empty.</summary>
public sealed class CreditDraft : PieceDraft
{
    private readonly Credit old;
    private readonly string oldSize;

    /// <summary>What the piece says, to be changed.</summary>
    public CreditDraft(Desk desk) : base(desk)
    {
        (old, oldSize) = (desk.Piece.Credit, desk.Piece.SizeName);
        (Designer, Copyright, DateText, Photograph, SizeName) = (old.Designer, old.Copyright, old.Date is { } date ? Credit.Written(date) : "", old.Photograph, oldSize);
    }

    public string Designer { get; private set; }

    public string Copyright { get; private set; }

    /// <summary>The date as year, month and day: "2026-05-31".</summary>
    public string DateText { get; private set; }

    /// <summary>The name of a photograph's file.</summary>
    public string Photograph { get; private set; }

    /// <summary>What the maker calls the size of the piece.</summary>
    public string SizeName { get; private set; }

    public void SetDesigner(string? text) => Set(() => Designer = text ?? "");

    public void SetCopyright(string? text) => Set(() => Copyright = text ?? "");

    public void SetDate(string? text) => Set(() => DateText = text ?? "");

    public void SetPhotograph(string? text) => Set(() => Photograph = text ?? "");

    public void SetSizeName(string? text) => Set(() => SizeName = text ?? "");

    private protected override string Edit => "the credit of the design";

    private protected override string? Wrong(Piece piece) =>
        Of("The designer’s name", Credit.FaultOfDesigner(Said.Trimmed(Designer, old.Designer)))
        ?? Of("The copyright line", Credit.FaultOfCopyright(Said.Trimmed(Copyright, old.Copyright)))
        ?? (DateText.Trim().Length == 0 || Credit.TryDate(DateText.Trim(), out _) ? null : "Write the date as year, month and day, as in “2026-05-31”.")
        ?? Of("The photograph", Credit.FaultOfPhotograph(Said.Trimmed(Photograph, old.Photograph)))
        ?? (SizeName != oldSize && SizeName.Trim().Length > Size.LongestName ? $"A size's name has at most {Size.LongestName} characters." : null);

    private protected override Piece With(Piece piece)
    {
        var credit = new Credit
        {
            Designer = Said.Trimmed(Designer, old.Designer),
            Copyright = Said.Trimmed(Copyright, old.Copyright),
            Date = Credit.TryDate(DateText.Trim(), out var date) ? date : null,
            Photograph = Said.Trimmed(Photograph, old.Photograph),
        };
        var size = Said.Trimmed(SizeName, oldSize);
        return credit == piece.Credit && size == piece.SizeName ? piece : piece with { Credit = credit, SizeName = size };
    }

    private static string? Of(string what, string? wanted) => wanted is null ? null : Sentences.Of($"{what} must be {wanted}");

    private void Set(Action change)
    {
        change();
        Answered();
    }
}
