using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Picture;
using Pleatwright.Proof;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Tracing;

/// <summary>What is asked of a picture under the glass; every answer is held to its range, and traced.</summary>
public sealed class TraceDraft(Glass glass)
{
    /// <summary>The widest figure traced at the bench, in valleys: so many take a second or two.</summary>
    public const int MostWidth = 400;

    /// <summary>The most threads chosen at the bench; more cannot be told apart.</summary>
    public const int MostThreads = 24;

    /// <summary>The most percent of fidelity.</summary>
    public const int MostFidelity = 100;

    /// <summary>The most tolerance of the background: beyond it a picture's own colours go.</summary>
    public const int MostTolerance = 30;

    private const int KindsShown = 8;

    private Colour bare = new(0xff, 0xff, 0xff);

    /// <summary>Fidelity in percent.</summary>
    public int Fidelity => (int)Math.Round(glass.Options.Fidelity * MostFidelity);

    public int Tolerance => (int)Math.Round(glass.Options.Background.Tolerance);

    /// <summary>The colour left bare, as the maker chose it.</summary>
    public string BareColour => bare.ToString();

    /// <summary>The part traced; all of the picture when none is marked out.</summary>
    public Crop Part => glass.Options.Crop ?? new Crop(0, 0, glass.Picture?.Width ?? 0, glass.Picture?.Height ?? 0);

    /// <summary>What came of it, in numbers: valleys, cable rows, cables, runs; null while nothing did.</summary>
    public string? ProofWords => glass.Traced is null ? null : Counts.Of(glass.Findings).Say(withNone: true);

    /// <summary>What the proof says, one line a kind, and how many more like it there are.</summary>
    public IEnumerable<(Severity Severity, string Words)> Findings => glass.Findings.GroupBy(f => (f.Severity, f.Rule)).Take(KindsShown)
        .Select(kind => (kind.Key.Severity, kind.First().Message + (kind.Count() > 1 ? $" ({Words.Of(kind.Count() - 1)} more like it)" : "")));

    /// <summary>Whether there is something to put on the table.</summary>
    public bool IsReady => glass.Work is not null && glass.Progress.Length == 0;

    public void SetWidth(string? text) => Number(text, TracingOptions.LeastWidth, MostWidth, n => glass.Options with { Width = n });

    public void SetFidelity(string? text) => Number(text, 0, MostFidelity, n => glass.Options with { Fidelity = (double)n / MostFidelity });

    public void SetThreads(string? text) => Number(text, 1, MostThreads, n => glass.Options with { Threads = n });

    public void SetTolerance(string? text) => Number(text, 0, MostTolerance, n => glass.Options with { Background = glass.Options.Background with { Tolerance = n } });

    public void SetMirror(bool on) => glass.Set(glass.Options with { Mirror = on });

    public void SetHalfStitches(bool on) => glass.Set(glass.Options with { HalfStitches = on });

    public void SetEnclosed(bool on) => glass.Set(glass.Options with { Background = glass.Options.Background with { Enclosed = on } });

    public void SetBare(BackgroundKind kind) => glass.Set(glass.Options with { Background = glass.Options.Background with { Kind = kind, Colour = bare } });

    /// <summary>Chooses the colour that is left bare.</summary>
    public void SetBareColour(string? text)
    {
        if (!Colour.TryParse(text, out var colour)) return;
        bare = colour;
        SetBare(BackgroundKind.Colour);
    }

    public void SetLeft(string? text) => OfPart(text, 0, p => p.Width - 1, (part, n) => part with { X = n });

    public void SetTop(string? text) => OfPart(text, 0, p => p.Height - 1, (part, n) => part with { Y = n });

    public void SetPartWidth(string? text) => OfPart(text, 1, p => p.Width, (part, n) => part with { Width = n });

    public void SetPartHeight(string? text) => OfPart(text, 1, p => p.Height, (part, n) => part with { Height = n });

    /// <summary>A part marked out with the hand: "x,y,w,h".</summary>
    public void MarkOut(string part)
    {
        var numbers = part.Split(',');
        if (numbers.Length == 4 && numbers.All(n => int.TryParse(n, CultureInfo.InvariantCulture, out _)))
            SetPart(new Crop(Whole(numbers[0]), Whole(numbers[1]), Whole(numbers[2]), Whole(numbers[3])));
    }

    /// <summary>Traces the whole picture again.</summary>
    public void Whole() => glass.Set(glass.Options with { Crop = null });

    /// <summary>The traced piece under a title of its own; null while there is nothing.</summary>
    public Piece? AsPiece() => IsReady ? glass.Work!.Piece with { Title = TitleOf(glass.Name) } : null;

    private static string TitleOf(string name) => name.Trim().Capital() is { Length: > 0 } title ? title[..Math.Min(title.Length, Piece.LongestTitle)] : "Untitled";

    private static int Whole(string text) => int.Parse(text, CultureInfo.InvariantCulture);

    private void OfPart(string? text, int least, Func<Raster, int> most, Func<Crop, int, Crop> with)
    {
        if (glass.Picture is { } picture && Read(text, least, most(picture)) is { } n) SetPart(with(Part, n));
    }

    // A part that reaches past the picture is drawn in.
    private void SetPart(Crop part)
    {
        if (glass.Picture is not { } picture) return;
        int x = Math.Clamp(part.X, 0, picture.Width - 1), y = Math.Clamp(part.Y, 0, picture.Height - 1);
        glass.Set(glass.Options with { Crop = new Crop(x, y, Math.Clamp(part.Width, 1, picture.Width - x), Math.Clamp(part.Height, 1, picture.Height - y)) });
    }

    private void Number(string? text, int least, int most, Func<int, TracingOptions> with)
    {
        if (Read(text, least, most) is { } n) glass.Set(with(n));
    }

    private static int? Read(string? text, int least, int most) =>
        int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var n) ? Math.Clamp(n, least, most) : null;
}
