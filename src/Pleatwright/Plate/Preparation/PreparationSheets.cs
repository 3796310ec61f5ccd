using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Plate.Parts;

namespace Pleatwright.Plate.Preparation;

/// <summary>Which sheet to prepare the cloth by.</summary>
public enum PreparationKind
{
    /// <summary>Rows and dots at true size, for gathering by hand.</summary>
    Dots,

    /// <summary>The guide the gathered cloth is blocked to, at true size.</summary>
    Blocking,

    /// <summary>Every number on one page.</summary>
    Card,
}

/// <summary>The printed sheets that prepare the cloth. Pure: the same piece and options always make the same sheets.</summary>
internal static class PreparationSheets
{
    /// <summary>One of the sheets, ready for any writer.</summary>
    /// <param name="piece">The piece whose cloth is prepared.</param>
    /// <param name="kind">Which sheet.</param>
    /// <param name="options">Paper, units and size of print.</param>
    /// <exception cref="PlateTooLargeException">At true size it takes more pages than can be printed; the message says how many.</exception>
    public static ImmutableArray<Sheet> Make(Piece piece, PreparationKind kind, PlateOptions options) => kind switch
    {
        PreparationKind.Dots => Dots(piece, options),
        PreparationKind.Blocking => Blocking(piece, options),
        PreparationKind.Card => Card(piece, options),
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    /// <summary>The dot sheet: how it is used, and the wrong side of the cloth with two dots a pleat, filled on gathering rows and open on holding rows.</summary>
    /// <inheritdoc cref="Make" path="/exception"/>
    public static ImmutableArray<Sheet> Dots(Piece piece, PlateOptions options)
    {
        var plan = new PleatingPlan(piece.Cloth);
        var lead = $"wrong side, top edge up; dots {(plan.Gauge.TakeUp / 2).Say(options)} apart, rows {plan.Gauge.RowSpacing.Say(options)}";
        var directions = DotDirections.Of(piece, plan, options);
        return Finish(piece, [.. directions, .. TruePages.Of("Dot sheet", lead, new DotDrawing(plan), options, directions.Count + 1)]);
    }

    /// <summary>The blocking guide: straight for a panel, arcs for a bishop, a strip from pole to pole for a ball.</summary>
    /// <inheritdoc cref="Make" path="/exception"/>
    public static ImmutableArray<Sheet> Blocking(Piece piece, PlateOptions options)
    {
        var plan = new PleatingPlan(piece.Cloth);
        var guide = plan.Cloth.Form.SurfaceOf(plan.Cloth).Drawn(new Guides(plan));
        return Finish(piece, TruePages.Of("Blocking guide", guide.Lead, guide.Drawing, options, 1));
    }

    /// <summary>The pleating card.</summary>
    public static ImmutableArray<Sheet> Card(Piece piece, PlateOptions options) => Finish(piece, PleatingCard.Of(piece, options));

    private static ImmutableArray<Sheet> Finish(Piece piece, List<Page> pages) =>
        [.. pages.Select((page, i) => page.Finish(TitleOf(piece), i + 1, pages.Count))];

    /// <summary>The title the sheets carry, on one line.</summary>
    public static string TitleOf(Piece piece) => Tidy.Line(piece.Title) is { Length: > 0 } title ? title : "Untitled";

    private static string Say(this Measure.Length length, PlateOptions options) => Measure.LengthWords.Say(length, options.Units);

    private sealed class Guides(PleatingPlan plan) : ISurfaceDrawings<(string Lead, TrueDrawing Drawing)>
    {
        public (string, TrueDrawing) Of(FlatSurface flat) => ("pin the rows to the lines", new BlockingPanel(plan));

        public (string, TrueDrawing) Of(FanSurface fan) => ("pin the rows to the arcs", new BlockingRound(plan, fan));

        public (string, TrueDrawing) Of(GlobeSurface globe) => ("an eighth of the ball from pole to pole", new BlockingBall(plan, globe));
    }
}
