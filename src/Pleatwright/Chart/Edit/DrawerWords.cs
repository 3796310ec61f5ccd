using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Chart.Edit;

/// <summary>How a figure drawn for one gauge comes out in another: the same count of stitches is another size.</summary>
/// <param name="DrawnFor">The gauge it was drawn for.</param>
/// <param name="Here">The gauge of the piece.</param>
internal readonly record struct GaugeFit(Gauge DrawnFor, Gauge Here)
{
    /// <summary>How wide it comes out, to how wide it was drawn.</summary>
    public double Width => Here.Pitch.Millimetres / DrawnFor.Pitch.Millimetres;

    /// <summary>How high it comes out, to how high it was drawn.</summary>
    public double Height => RowOf(Here) / RowOf(DrawnFor);

    private static double RowOf(Gauge gauge) => gauge.RowSpacing.Millimetres / gauge.CableRowsPerSpace;
}

/// <summary>What of a figure cannot be worked where it lies.</summary>
/// <param name="Cables">Cables off the cloth, of all its copies.</param>
/// <param name="Halves">Half stitches that cannot be made.</param>
internal readonly record struct LeftOut(int Cables, int Halves)
{
    /// <summary>What of a figure is left out of a work.</summary>
    internal static LeftOut Of(Work work, string figure)
    {
        bool Is(int placement) => work.Piece.Placements[placement].Figure == figure;
        return new LeftOut(work.Strays.Where(s => Is(s.Placement)).Sum(s => s.To.Number - s.From.Number + 1), work.RefusedHalves.Count(h => Is(h.Placement)));
    }
}

/// <summary>What there is to say of figures that come from the drawer and go back to it; the one place where it is said.</summary>
internal static class DrawerWords
{
    private const double Noticed = 0.02; // less than a row or a pleat in fifty is not worth a word

    /// <summary>The question of a thread in doubt: "The boat has sail red, 4 strands. Which thread of this piece?"</summary>
    public static string Question(ThreadMatch match) => $"{Named(match.From)}, {Counting.Of(match.From.Strands, "strand")}";

    /// <summary>A thread that may be taken, as a choice: "brick red, a near colour", "sail red, the same colour, but 2 strands".</summary>
    public static string Choice(ThreadMatch match, ThreadChoice choice)
    {
        var likeness = choice.Likeness switch { Likeness.Same => "the same colour", Likeness.HardToTell => "hard to tell from it", _ => "a near colour" };
        var made = choice.MadeAlike ? "" : choice.Thread.Strands != match.From.Strands ? $", but {Counting.Of(choice.Thread.Strands, "strand")}" : ", but of another fineness";
        return $"{Named(choice.Thread)} ({choice.Thread.Key}): {likeness}{made}";
    }

    /// <summary>The choice to take none of them.</summary>
    public static string AsOwn(ThreadMatch match) => $"None of them: {Named(match.From)} comes along as a thread of its own";

    /// <summary>How it comes out in another gauge, as a sentence; empty where it is as it was drawn.</summary>
    public static string Of(GaugeFit fit)
    {
        var (wide, high) = (Changed(fit.Width, "wider", "narrower"), Changed(fit.Height, "higher", "lower"));
        if (wide.Length + high.Length == 0) return "";
        return string.Create(CultureInfo.InvariantCulture,
            $"It was drawn for {fit.DrawnFor.PleatsPerInch:0.#} pleats an inch and {Counting.Of(fit.DrawnFor.CableRowsPerSpace, "cable row")} in {fit.DrawnFor.RowSpacing}; here it comes out {string.Join(" and ", ((string[])[wide, high]).Where(w => w.Length > 0))}.");
    }

    /// <summary>What cannot be worked, as a sentence; empty where all can.</summary>
    public static string Of(LeftOut left)
    {
        string[] parts =
        [
            left.Cables > 0 ? $"{Counting.Of(left.Cables, "cable")} {(left.Cables == 1 ? "lies" : "lie")} off the cloth" : "",
            left.Halves > 0 ? $"{Counting.Of(left.Halves, "half stitch", "half stitches")} cannot be made" : "",
        ];
        return string.Join(", and ", parts.Where(p => p.Length > 0)) is { Length: > 0 } words ? $"{words}." : "";
    }

    /// <summary>All that there is to say of a figure just put in.</summary>
    public static string Of(DrawnIn drawn, GaugeFit fit, LeftOut left) =>
        string.Join(' ', ((string[])[BroughtWords.Of(drawn.Threads.Where(t => t.Added || t.From.Name != t.To.Name).ToImmutableArray()), Of(fit), Of(left)]).Where(w => w.Length > 0));

    /// <summary>What changes where a figure is to be put on the cloth, a sentence each.</summary>
    public static ImmutableArray<string> Before(DrawnIn drawn, GaugeFit fit)
    {
        var placed = drawn.Piece.Placements[^1];
        var valley = placed.Centre.On(new PleatingPlan(drawn.Piece.Cloth));
        return Told($"{drawn.Figure}, {Size(drawn.Piece.Figure(drawn.Figure)!)}, lies about valley {valley.Number}, on gathering row {placed.GatheringRow.Number}.", BroughtWords.Of(drawn.Threads, before: true), Of(fit));
    }

    /// <summary>What changes where a figure is to become what the drawer has of it, a sentence each.</summary>
    public static ImmutableArray<string> Before(Work was, Work then, string figure, DrawnIn drawn)
    {
        Figure old = was.Piece.Figure(figure)!, renewed = then.Piece.Figure(figure)!;
        var alike = (old.Width, old.Height) == (renewed.Width, renewed.Height);
        var changed = alike ? old.Rows.Zip(renewed.Rows).Sum(r => r.First.Zip(r.Second).Count(c => c.First != c.Second)) : 0;
        var copies = then.Piece.Placements.Where(p => p.Figure == figure).Sum(p => p.Repeat.Count);
        var rows = was.Piece.Placements.Zip(then.Piece.Placements).Where(p => p.First.Figure == figure && p.First.FigureRow != p.Second.FigureRow).Select(p => (Old: p.First.FigureRow, New: p.Second.FigureRow)).ToList();
        return Told(
            alike ? changed > 0 ? $"{Counting.Of(changed, "stitch", "stitches")} of {figure} {(changed == 1 ? "changes" : "change")}." : "" : $"{figure} becomes {Size(renewed)}; here it is {Size(old)}.",
            old.Square == renewed.Square ? "" : renewed.Square ? "Its ends are squared off with half stitches." : "Its ends are squared off no longer.",
            old.Halves.SequenceEqual(renewed.Halves) ? "" : "Other ends have half stitches.",
            rows.Count > 0 ? $"Its row {rows[0].New + 1} from the top lies on the gathering row, so far its row {rows[0].Old + 1}." : "",
            copies > 1 ? $"Its {copies} copies change alike." : "",
            was.Cables != then.Cables ? $"{Counting.Of(was.Cables, "cable")} in the piece {(was.Cables == 1 ? "becomes" : "become")} {then.Cables}." : "",
            BroughtWords.Of(drawn.Threads, before: true));
    }

    private static ImmutableArray<string> Told(params string[] sentences) => [.. sentences.Where(s => s.Length > 0)];

    /// <summary>A figure's size: "24 valleys wide, 18 rows high".</summary>
    public static string Size(Figure figure) => $"{Counting.Of(figure.Width, "valley")} wide, {Counting.Of(figure.Height, "row")} high";

    private static string Named(Floss thread) => thread.Name.Length > 0 ? thread.Name : ColourWords.For(thread.Colour);

    private static string Changed(double ratio, string more, string less) => Math.Abs(ratio - 1) < Noticed ? ""
        : string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(ratio - 1) * 100:0} % {(ratio > 1 ? more : less)}");
}
