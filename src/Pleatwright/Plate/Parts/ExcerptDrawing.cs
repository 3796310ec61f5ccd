using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Order.Telling;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>
/// A excerpt of the chart as it is printed: its stitches with every step marked, pleats counted both ways from its centre, gathering rows at
/// the left and cable rows at the right by the numbers of the directions.
/// </summary>
internal sealed class ExcerptDrawing
{
    private readonly ChartGeometry geometry;
    private readonly Excerpt excerpt;
    private readonly Look look;
    private readonly Vocabulary words;
    private readonly StepMarks steps;
    private readonly ChartWindow window;
    private readonly double left, right; // bare paper kept at the sides for labels

    /// <summary>Finds how large it will be.</summary>
    /// <param name="geometry">The size it is drawn at.</param>
    /// <param name="order">The working order.</param>
    /// <param name="excerpt">What it shows.</param>
    /// <param name="look">How it is dressed.</param>
    /// <param name="levels">How the work is held, for the words.</param>
    public ExcerptDrawing(ChartGeometry geometry, WorkingOrder order, Excerpt excerpt, Look look, LevelWords levels)
    {
        words = new Vocabulary(levels);
        (this.geometry, this.excerpt, this.look) = (geometry, excerpt, look);
        steps = new StepMarks(geometry, order, excerpt.Steps, excerpt.Window, look) { Bands = excerpt.Bands };
        // room for what is written beside the stitches: on the cloth where there is any, else on bare paper
        var (wantLeft, wantRight) = steps.Beyond(excerpt.Window);
        int moreLeft = Math.Min((int)Math.Ceiling(wantLeft / geometry.Pitch), excerpt.Window.FirstPleat - 1), moreRight = Math.Min((int)Math.Ceiling(wantRight / geometry.Pitch), geometry.Work.Pleating.Pleats - excerpt.Window.LastPleat);
        window = excerpt.Window with { FirstPleat = excerpt.Window.FirstPleat - Math.Max(0, moreLeft), LastPleat = excerpt.Window.LastPleat + Math.Max(0, moreRight) };
        window = WithoutOthers(window, order);
        (left, right) = steps.Beyond(window);
        var box = geometry.BoxOf(window);
        Title = TitleOf(order);
        Lines = Wrapping.Lines(Title, TitleStyle, Math.Max(40, box.Width + left + right + LeftRuler + RightRuler));
        Top = Lines.Count * TitleLeading + RulerHeight;
        View = new Box(box.X - left - LeftRuler, box.Y - Top, box.Width + left + right + LeftRuler + RightRuler, box.Height + Top + Foot);
    }

    // No half of a stitch of what is charted elsewhere stands at its sides: there is bare paper for the labels, too.
    private ChartWindow WithoutOthers(ChartWindow wide, WorkingOrder order)
    {
        if (excerpt.Title.Length > 0 || excerpt.Steps.IsEmpty) return wide; // what is shown from the beginning goes on at the right
        var own = Excerpts.BoxOf(excerpt.Steps);
        for (var before = default(ChartWindow); before != wide;)
        {
            before = wide; // what is left out for one run may cut another
            for (var y = Math.Max(0, wide.FirstRow); y <= Math.Min(wide.LastRow, order.Work.CableRows - 1); y++)
                foreach (var run in order.Work.RunsIn(new CableRow(y)))
                {
                    if (run.FirstPleat.Number > own.LastPleat && run.FirstPleat.Number <= wide.LastPleat && run.LastPleat.Number > wide.LastPleat) wide = wide with { LastPleat = run.FirstPleat.Number - 1 };
                    if (run.LastPleat.Number < own.FirstPleat && run.LastPleat.Number >= wide.FirstPleat && run.FirstPleat.Number < wide.FirstPleat) wide = wide with { FirstPleat = run.LastPleat.Number + 1 };
                }
        }
        return wide;
    }

    /// <summary>The part of the chart it shows, labels' room and all.</summary>
    public ChartWindow Shown => window;

    /// <summary>What it takes, rulers and title and all, in the chart's own millimetres.</summary>
    public Box View { get; }

    /// <summary>What it shows, in a line.</summary>
    public string Title { get; }

    private IReadOnlyList<string> Lines { get; }

    private double Top { get; }

    private TypeStyle TitleStyle => look.Note with { Face = Face.TextBold, Colour = look.Ink };

    private double TitleLeading => look.Note.Points * 0.46;

    private double RulerHeight => look.Large ? 10 : 6.5;

    private double LeftRuler => ChartRulers.LeftOf(geometry, window, look);

    private double RightRuler => ChartRulers.IsStraight(geometry.Work) ? look.Large ? 11 : 7
        : 3.5 + Typeface.Width("0000", look.Ruler with { Face = Face.TextBold }) + Typeface.Width("pleat mm", ChartRulers.Caption(look));

    private const double Foot = 1.5;

    private string TitleOf(WorkingOrder order)
    {
        var names = excerpt.Steps.Select(s => order.Parts.PlacementOf(s.RunIndex)).OfType<int>().Distinct().Select(p => geometry.Work.Piece.Placements[p].Figure).Distinct().ToList();
        var what = excerpt.Title == Excerpts.BandTitle ? string.Join(", ", [.. excerpt.Steps.IsEmpty ? [] : (string[])["cable"], .. excerpt.Bands.Select(b => b.Step.Band.Stitch.Name).Distinct(), excerpt.Title]).Capital()
            : excerpt.Title.Length > 0 ? excerpt.Title.Capital() : names.Count == 0 ? "The stitches" : string.Join(", ", names.Take(3)).Capital() + (names.Count > 3 ? " and more" : "");
        var wide = Excerpts.BoxOf(excerpt.Steps);
        var words = what;
        if (excerpt.OwnCentre && excerpt.Times > 1) words += FormattableString.Invariant($", {excerpt.Times} times");
        if (excerpt.OwnCentre) words += FormattableString.Invariant($": {wide.Pleats} pleats, counted from its own centre");
        if (!excerpt.Steps.IsEmpty) words += $"; {Numbers(excerpt.Steps)}";
        // all the steps of its bands, those too that go on from one of them
        var bands = excerpt.Bands.Select(b => b.Step.Band).ToHashSet();
        var numbers = order.Bands.Steps.Index().Where(s => bands.Contains(s.Item.Band)).Select(s => s.Index + 1).ToList();
        if (numbers.Count > 0) words += "; " + Vocabulary.Ranges(numbers, "B");
        foreach (var again in excerpt.Again) words += FormattableString.Invariant($"; {Numbers(again)} alike along G{again[0].Row.Index / geometry.RowsPerSpace + 1}");
        foreach (var copy in excerpt.Elsewhere.Take(MostElsewhere))
            words += FormattableString.Invariant($"; steps {copy.First} to {copy.Last} {Counting.Of(Math.Abs(copy.Lower) * geometry.RowsPerSpace, "row")} {(copy.Lower > 0 ? "lower" : "higher")}");
        return Tidy.Line(words);
    }

    private const int MostElsewhere = 3; // the directions name all

    private static string Numbers(ImmutableArray<Order.Step> steps) =>
        steps.Length == 1 ? FormattableString.Invariant($"step {steps[0].Number}") : FormattableString.Invariant($"steps {steps.Min(s => s.Number)} to {steps.Max(s => s.Number)}");

    // On which side of the centre all of it lies.
    private string OffSide => $"{words.Beside(CentreX <= geometry.BoxOf(window).X ? Flank.Right : Flank.Left)} the centre";

    /// <summary>What of it the key explains beside its stitches.</summary>
    public IEnumerable<Sign> Signs() =>
        ((IEnumerable<Mark>)[.. ChartCloth.Draw(geometry, window, look, excerpt.Middle), .. ChartCloth.DrawCentre(geometry, window, look), .. CentreLine(geometry.BoxOf(window)), .. steps.Crossings(window), .. steps.Draw(window)])
        .Select(m => m.Means).OfType<Sign>();

    /// <summary>Draws it.</summary>
    public ImmutableArray<Mark> Draw()
    {
        var box = geometry.BoxOf(window);
        var outer = new Box(box.X - left, box.Y, box.Width + left + right, box.Height);
        var marks = ImmutableArray.CreateBuilder<Mark>();
        for (var i = 0; i < Lines.Count; i++)
            marks.Add(new Lettering(new Spot(View.X, View.Y + i * TitleLeading + Typeface.CapHeight(TitleStyle)), Lines[i], TitleStyle));
        marks.Add(new Inset(ChartField.Draw(geometry, window, look, excerpt.Middle, CentreLine(box), steps), default, box));
        // gathering rows go on over the bare paper to their numbers
        var rows = new OutlineBuilder();
        for (var g = 1; g <= geometry.Work.Pleating.Cloth.GatheringRows; g++)
            if (geometry.Down(new GatheringRow(g)) is var y && y >= box.Y && y <= box.Bottom)
                rows.Line(outer.X, y, box.X, y).Line(box.Right, y, outer.Right, y);
        if (!rows.IsEmpty && (left > 0 || right > 0)) marks.Add(new Shape(rows.Build(), null, new Pen(look.Accent, 0.2)));
        marks.Add(new Shape(Outline.Rectangle(box), null, new Pen(look.Quiet, look.Large ? 0.3 : 0.15)));
        Ruler(box, marks);
        ChartRulers.GatheringRows(geometry, look, outer, marks);
        ChartRulers.CableRows(geometry, window, look, outer, marks);
        marks.AddRange(steps.Draw(window));
        return marks.ToImmutable();
    }

    private double CentreX => At(excerpt.Middle);

    // The centre of a figure there is one of, where it is not the piece's.
    private Middle? ItsCentre
    {
        get
        {
            if (excerpt.OwnCentre || excerpt.Title.Length > 0 || excerpt.Steps.IsEmpty) return null;
            var box = Excerpts.BoxOf(excerpt.Steps);
            var its = Middle.Of(box.FirstPleat, box.LastPleat);
            return its == excerpt.Middle ? null : its;
        }
    }

    private double At(Middle middle) => middle.Twice / 2.0 * geometry.Pitch - geometry.Pitch / 2;

    // A figure's own centre line, behind its stitches.
    private IEnumerable<Mark> CentreLine(Box box)
    {
        if (!excerpt.OwnCentre && ItsCentre is null) yield break;
        var x = ItsCentre is { } its ? At(its) : CentreX;
        yield return new Shape(Outline.Line(x, box.Y, x, box.Bottom), null, new Pen(look.Ink, look.Large ? 0.3 : 0.2) { Dashes = (2.4, 0.7) }) { Means = Sign.FigureCentre };
    }

    // Pleats counted from the centre both ways, as the directions name them.
    private void Ruler(Box box, ImmutableArray<Mark>.Builder marks)
    {
        var every = ChartRulers.Every(geometry.Pitch, look);
        var ticks = new OutlineBuilder();
        var cap = Typeface.CapHeight(look.Ruler);
        for (var p = Math.Max(1, window.FirstPleat); p <= Math.Min(geometry.Work.Pleating.Pleats, window.LastPleat); p++)
        {
            var away = excerpt.Middle.To(new Pleat(p), false).Count;
            var x = geometry.LeftOf(new Pleat(p)) + geometry.Pitch / 2;
            var numbered = away > 0 && away % every == 0;
            if (numbered || geometry.Pitch >= 1.2) ticks.Line(x, box.Y - (numbered ? 1.5 : 0.7), x, box.Y);
            if (numbered && x - 3 > box.X - left && x + 3 < box.Right + right)
                marks.Add(new Lettering(new Spot(x, box.Y - 2), away.ToString(CultureInfo.InvariantCulture), look.Ruler, Anchor.Middle));
        }
        if (!ticks.IsEmpty) marks.Add(new Shape(ticks.Build(), null, new Pen(look.Quiet, 0.15)));
        var style = ChartRulers.Caption(look);
        if (ItsCentre is { } own && At(own) is var x0 && x0 > box.X + 12 && x0 < box.Right - 12)
        {
            marks.Add(new Shape(Outline.Polygon(new(x0 - 1, box.Y - 2.1), new(x0 + 1, box.Y - 2.1), new(x0, box.Y - 0.4)), Colour.White, new Pen(look.Ink, 0.2)));
            var (left, right) = (excerpt.Middle.To(new Pleat(own.Twice / 2), false), excerpt.Middle.To(new Pleat((own.Twice + 1) / 2), false));
            var told = own.IsValley ? FormattableString.Invariant($"its centre {left.Count}|{right.Count}") : FormattableString.Invariant($"its centre {left.Count}");
            // beside what is said of the side, where both have room
            var far = CentreX <= box.X ? x0 - box.X : box.Right - x0;
            if ((CentreX <= box.X || CentreX >= box.Right) && far > Typeface.Width(OffSide, style) + Typeface.Width(told, style) / 2 + 1.5)
                marks.Add(new Lettering(new Spot(x0, box.Y - 2.6 - cap), told, style, Anchor.Middle));
        }
        if (CentreX > box.X && CentreX < box.Right)
        {
            var tip = box.Y - 0.4;
            marks.Add(new Shape(Outline.Polygon(new(CentreX - 1.1, tip - 1.8), new(CentreX + 1.1, tip - 1.8), new(CentreX, tip)), look.Ink));
            if (CentreX - box.X > 9 && box.Right - CentreX > 9 && box.Width > 55)
            {
                marks.Add(new Lettering(new Spot(box.X, box.Y - 2.4 - cap), words.Side(Flank.Left), style));
                marks.Add(new Lettering(new Spot(box.Right, box.Y - 2.4 - cap), words.Side(Flank.Right), style, Anchor.End));
                marks.Add(new Lettering(new Spot(CentreX, box.Y - 2.6 - cap), excerpt.OwnCentre ? "its centre" : "centre", style, Anchor.Middle));
            }
        }
        else marks.Add(new Lettering(new Spot(CentreX <= box.X ? box.X : box.Right, box.Y - 2.4 - cap),
            OffSide, style, CentreX <= box.X ? Anchor.Start : Anchor.End));
    }
}
