using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>A thread as the plate tells of it.</summary>
/// <param name="Thread">The thread.</param>
/// <param name="Name">Its name on one line.</param>
/// <param name="Note">The maker's word on it, on one line, or empty.</param>
/// <param name="Use">What is used of it.</param>
/// <param name="Skeins">Skeins to buy; null when a skein is shorter than one needleful.</param>
public sealed record ThreadEntry(Floss Thread, string Name, string Note, ThreadUse Use, int? Skeins)
{
    /// <summary>Its letter.</summary>
    public string Letter => Thread.Key.ToString();

    /// <summary>"4 strands", "1 strand".</summary>
    public string Strands => Counting.Of(Thread.Strands, "strand");

    /// <summary>"312 cables and 4 half stitches"; "bands and accents" where it has no cables.</summary>
    public string Stitches
    {
        get
        {
            List<string> parts = [];
            if (Use.Cables > 0) parts.Add(Counting.Of(Use.Cables, "cable"));
            if (Use.HalfStitches > 0) parts.Add(Counting.Of(Use.HalfStitches, "half stitch", "half stitches"));
            if (Use.BandStitches > 0) parts.Add($"{Counting.Of(Use.BandStitches, "stitch", "stitches")} of bands");
            if (Use.Accents > 0) parts.Add(Counting.Of(Use.Accents, "accent"));
            return parts.Count == 0 ? "none" : parts.Count == 1 ? parts[0] : $"{string.Join(", ", parts[..^1])} and {parts[^1]}";
        }
    }

    /// <summary>Whether any is needed.</summary>
    public bool IsUsed => Use.Needlefuls > 0;

    /// <summary>"9 needlefuls".</summary>
    public string Needlefuls => Counting.Of(Use.Needlefuls, "needleful");

    /// <summary>"2 skeins", or why not.</summary>
    public string SkeinWords => Skeins is { } skeins ? Counting.Of(skeins, "skein") : "a skein is too short for one needleful";

    /// <summary>The thread it takes in all.</summary>
    public string Length(UnitSystem units) => Use.Length.Say(units);
}

/// <summary>A sign on the chart.</summary>
public enum Sign
{
    /// <summary>A cable on its row's upper line.</summary>
    UpCable,

    /// <summary>A cable on its row's lower line.</summary>
    DownCable,

    /// <summary>A half stitch.</summary>
    HalfStitch,

    /// <summary>A gathering row.</summary>
    GatheringRow,

    /// <summary>A holding row.</summary>
    HoldingRow,

    /// <summary>The centre valley.</summary>
    CentreValley,

    /// <summary>Seam pleats.</summary>
    SeamPleats,

    /// <summary>A geometric stitch or an accent, drawn as it is on the chart.</summary>
    Sample,

    /// <summary>What is written beside a run: its step, its count and its way.</summary>
    Run,

    /// <summary>The same of a run that is worked with the work turned.</summary>
    TurnedRun,

    /// <summary>Where a thread starts.</summary>
    ThreadStarts,

    /// <summary>Where a thread is tied off.</summary>
    ThreadEnds,

    /// <summary>Where a thread is left hanging.</summary>
    ThreadWaits,

    /// <summary>Where a thread that was left hanging is taken up again.</summary>
    ThreadTakenUp,

    /// <summary>A thread carried far across the back.</summary>
    Crossing,

    /// <summary>Step and count written on a run itself, for want of room beside it.</summary>
    RunWithin,

    /// <summary>What is written beside a step of a band.</summary>
    BandRun,

    /// <summary>Where a figure is begun.</summary>
    FigureStarts,

    /// <summary>The centre line of a figure.</summary>
    FigureCentre,

    /// <summary>Every tenth pleat from the centre.</summary>
    TenthPleat,
}

/// <summary>A sign on the chart and what it stands for.</summary>
/// <param name="Sign">The sign.</param>
/// <param name="Words">What it stands for.</param>
/// <param name="Sample">The drawing of a sample; else null.</param>
public sealed record SignEntry(Sign Sign, string Words, Drawing? Sample = null)
{
    /// <summary>Whether the work goes from right to left, as a left hand takes it.</summary>
    public bool Leftward { get; init; }

    /// <summary>Whether it is marked on a number's tag, too, where there is no room beside the stitches.</summary>
    internal bool OnTag { get; init; }
}

/// <summary>The key: every thread with its brick, and every sign on the chart.</summary>
internal static class KeyPart
{
    /// <summary>The threads in the order of the piece.</summary>
    public static ImmutableArray<ThreadEntry> Threads(Work work, WorkingOrder order)
    {
        var length = work.Piece.Working.WorkingLength;
        return
        [
            .. order.ThreadUses().Select(use => new ThreadEntry(use.Thread, Tidy.Line(use.Thread.Name), Tidy.Line(use.Thread.Note), use,
                Cutting.StrandsPerSkein(use.Thread, length) > 0 ? Cutting.Amount(use, length).Skeins : null)),
        ];
    }

    /// <summary>The signs this chart uses, and no others.</summary>
    public static ImmutableArray<SignEntry> Signs(WorkingOrder order, PlateOptions options)
    {
        var work = order.Work;
        var levels = options.Levels;
        var (up, down) = levels == LevelWords.UpDown ? ("Up", "Down") : ("Left", "Right");
        var drawn = ChartPages.Signs(order, options);
        if (work.Runs.Length > 0) drawn.UnionWith([Sign.UpCable, Sign.DownCable]);
        if (HasHalves(work)) drawn.Add(Sign.HalfStitch);
        IEnumerable<(Sign Sign, string Words)> all =
        [
            (Sign.UpCable, $"{up} cable, on its row’s upper line"),
            (Sign.DownCable, $"{down} cable, on the lower line"),
            (Sign.HalfStitch, "Half stitch, to square an end"),
            (Sign.Run, "Step, cables, the way it goes"),
            (Sign.RunWithin, "Step on its first cable, cables on the last"),
            (Sign.TurnedRun, drawn.Contains(Sign.Run) ? "The same, the work turned" : "Step, cables, the way it goes, the work turned"),
            (Sign.BandRun, "Step of a band, its stitches"),
            (Sign.FigureStarts, "A figure is begun here"),
            (Sign.ThreadStarts, "A thread starts"),
            (Sign.ThreadEnds, "It is tied off"),
            (Sign.ThreadWaits, "It waits"),
            (Sign.ThreadTakenUp, "It is taken up again"),
            (Sign.Crossing, "It crosses on the back"),
            (Sign.GatheringRow, "Gathering row"),
            (Sign.HoldingRow, "Holding row, not smocked"),
            (Sign.CentreValley, string.Create(CultureInfo.InvariantCulture, $"Centre valley, {work.Pleating.CentreValley}")),
            (Sign.FigureCentre, "Centre of a figure"),
            (Sign.TenthPleat, "Every tenth pleat from the centre"),
            (Sign.SeamPleats, "Seam pleats, undone later"),
        ];
        return [.. all.Where(s => drawn.Contains(s.Sign)).Select(s => new SignEntry(s.Sign, s.Words) { Leftward = work.Piece.Working.Hand == Hand.Left, OnTag = options.Edition == Edition.Learner || drawn.Contains(Sign.RunWithin) }), .. StitchSamples.Of(work, levels)];
    }

    private static bool HasHalves(Work work)
    {
        foreach (var run in work.Runs) if (run.HalfStitches > 0) return true;
        return false;
    }

    /// <summary>A thread's brick with its letter.</summary>
    public static ImmutableArray<Mark> Swatch(Floss thread, Box box, Look look)
    {
        var style = new TypeStyle(Face.TextBold, Math.Round(Typeface.PointsOfCap(box.Height * 0.62), 2), thread.Colour.LetterOn);
        return
        [
            new Shape(Outline.Rounded(box, box.Height * 0.28), thread.Colour, new Pen(Look.Mix(thread.Colour, look.Ink, 0.45), 0.14)),
            new Lettering(new Spot(box.Centre.X, box.Centre.Y + Typeface.CapHeight(style) / 2), thread.Key.ToString(), style, Anchor.Middle),
        ];
    }

    /// <summary>A sign, drawn in a box as on the chart.</summary>
    public static ImmutableArray<Mark> Draw(SignEntry entry, Box box, Look look)
    {
        if (entry.Sample is { } sample)
            return [new Inset(sample.Marks, new Spot(box.Centre.X - sample.View.Centre.X, box.Centre.Y - sample.View.Centre.Y), box)];
        var sign = entry.Sign;
        var pitch = box.Width / 4;
        var line = box.Height / 4;
        var marks = ImmutableArray.CreateBuilder<Mark>();
        var pleats = new OutlineBuilder();
        for (var p = 0; p < 4; p++)
            if (sign != Sign.TenthPleat || p != 2) pleats.Rectangle(new Box(box.X + p * pitch + pitch * 0.08, box.Y, pitch * 0.84, box.Height));
        marks.Add(sign == Sign.SeamPleats
            ? new Shape(pleats.Build(), null, new Pen(look.Quiet, 0.15) { Dashes = (0.6, 0.6) })
            : new Shape(pleats.Build(), look.Pleat));
        switch (sign)
        {
            case Sign.UpCable:
                Brick(1, 1, 2, strong: true);
                Brick(-1, 2, 2, strong: false);
                Brick(3, 2, 1, strong: false);
                break;
            case Sign.DownCable:
                Brick(1, 2, 2, strong: true);
                Brick(0, 1, 1, strong: false);
                Brick(2, 1, 2, strong: false);
                break;
            case Sign.HalfStitch:
                Brick(1, 1, 2, strong: false);
                Brick(0, 2, 2, strong: false);
                Brick(2, 2, 1, strong: true);
                break;
            case Sign.GatheringRow:
                Line(new Pen(look.Accent, 0.3));
                break;
            case Sign.HoldingRow:
                Line(new Pen(look.Quiet, 0.3) { Dashes = (0.9, 0.9) });
                break;
            case Sign.Run or Sign.TurnedRun:
                var turned = sign == Sign.TurnedRun;
                var homeward = turned != entry.Leftward; // on the way back over the cloth
                var number = look.Ruler with { Points = Math.Min(look.Ruler.Points, Typeface.PointsOfCap(box.Height * 0.32)), Face = Face.TextBold, Colour = look.Ink };
                double middle = box.Centre.Y, cap = Typeface.CapHeight(number), tip = homeward ? box.X + pitch + 0.5 : box.Right - pitch - 0.5, back = homeward ? tip + 1.4 : tip - 1.4;
                marks.Clear();
                for (var n = 0; n < 2; n++) Brick(homeward ? -1 : 3, n + 1, 2, strong: true);
                marks.Add(new Shape(Outline.Polygon(new(tip, middle), new(back, middle - cap * 0.55), new(back, middle + cap * 0.55)), turned ? Colour.White : look.Ink, new Pen(look.Ink, 0.2)));
                marks.Add(new Lettering(new Spot(homeward ? back + 0.7 : box.X, middle + cap / 2), "7", number));
                marks.Add(new Lettering(new Spot((homeward ? back + 0.7 : box.X) + Typeface.Width("7 ", number), middle + cap / 2), "12", number with { Face = turned ? Face.TextItalic : Face.Text }));
                break;
            case Sign.BandRun:
                var banded = look.Ruler with { Points = Math.Min(look.Ruler.Points, Typeface.PointsOfCap(box.Height * 0.32)), Face = Face.TextBold, Colour = look.Ink };
                var (across, height) = (box.Centre.Y, Typeface.CapHeight(banded));
                marks.Clear();
                var begins = entry.Leftward ? box.X + 2.1 : box.X;
                marks.Add(new Lettering(new Spot(begins, across + height / 2), "B3", banded));
                marks.Add(new Lettering(new Spot(begins + Typeface.Width("B3 ", banded), across + height / 2), "24", banded with { Face = Face.Text }));
                var (onward, tail) = entry.Leftward ? (box.X, 1.4) : (box.X + Typeface.Width("B3 24 ", banded) + 1.9, -1.4);
                marks.Add(new Shape(Outline.Polygon(new(onward, across), new(onward + tail, across - height * 0.55), new(onward + tail, across + height * 0.55)), look.Ink, new Pen(look.Ink, 0.2)));
                break;
            case Sign.RunWithin:
                Brick(0, 1, 2, strong: true);
                Brick(2, 1, 2, strong: true);
                Brick(1, 2, 2, strong: true);
                Tagged(entry.Leftward ? 3 : 1, "7", Face.TextBold, true, Colour.White, look.Ink);
                Tagged(entry.Leftward ? 1 : 3, "12", Face.Text, false, Colour.White, look.Ink);
                break;
            case Sign.FigureStarts:
                marks.Clear();
                var begun = look.Ruler with { Face = Face.TextItalic, Colour = look.Accent };
                marks.Add(new Lettering(new Spot(box.X, box.Centre.Y + Typeface.CapHeight(begun) / 2), StepMarks.StartWord, begun));
                if (entry.OnTag) Tagged(3.2, "7", Face.TextBold, true, look.Accent, look.Accent.LetterOn);
                break;
            case Sign.FigureCentre:
                marks.Add(new Shape(Outline.Line(box.Centre.X, box.Y, box.Centre.X, box.Bottom), null, new Pen(look.Ink, 0.25) { Dashes = (2.4, 0.7) }));
                break;
            case Sign.TenthPleat:
                marks.Add(new Shape(Outline.Rectangle(new Box(box.X + 2 * pitch + pitch * 0.08, box.Y, pitch * 0.84, box.Height)), Look.Darker(look.Pleat, 0.075)));
                break;
            case Sign.ThreadStarts or Sign.ThreadEnds or Sign.ThreadWaits or Sign.ThreadTakenUp:
                Brick(1, 1, 2, strong: false);
                var (at, r) = (new Spot(box.X + ((sign is Sign.ThreadStarts or Sign.ThreadTakenUp) != entry.Leftward ? 1 : 3) * pitch, box.Y + 1.5 * line), Math.Min(0.7, line * 0.5));
                marks.AddRange(StepMarks.End(sign, at, r, look));
                break;
            case Sign.Crossing:
                marks.AddRange(StepMarks.Crossing(Outline.Line(box.X + pitch, box.Y + line, box.Right - pitch, box.Bottom - line), look));
                break;
            case Sign.CentreValley:
                marks.Add(new Shape(Outline.Line(box.Centre.X, box.Y, box.Centre.X, box.Bottom), null, new Pen(look.Ink, 0.3) { Dashes = (1.6, 0.8) }));
                break;
        }
        return [new Inset(marks.ToImmutable(), default, box)];

        // as StepMarks has them
        void Tagged(double pleats, string words, Face face, bool isStep, Colour fill, Colour ink)
        {
            var type = new TypeStyle(face, Math.Min(look.Ruler.Points, Typeface.PointsOfCap(line * 0.95)), ink);
            var (centre, cap) = (new Spot(box.X + pleats * pitch, box.Centre.Y), Typeface.CapHeight(type));
            var (half, point) = (Typeface.Width(words, type) / 2 + 0.35, isStep ? cap * 0.55 : 0);
            marks.Add(new Shape(StepMarks.Shaped(new Box(centre.X - half - (entry.Leftward ? point : 0), centre.Y - cap * 0.85, 2 * half + point, cap * 1.7), point, !entry.Leftward), fill, new Pen(look.Ink, 0.18)));
            marks.Add(new Lettering(centre with { Y = centre.Y + cap / 2 }, words, type, Anchor.Middle));
        }

        void Line(Pen pen) => marks.Add(new Shape(Outline.Line(box.X, box.Centre.Y, box.Right, box.Centre.Y), null, pen));

        void Brick(int pleat, int onLine, int pleatsWide, bool strong)
        {
            var brick = new Box(box.X + pleat * pitch, box.Y + onLine * line, pleatsWide * pitch, line).Grown(-0.1);
            marks.Add(new Shape(Outline.Rounded(brick, line * 0.28), strong ? look.Accent : Look.Lighter(look.Accent, 0.75), new Pen(look.Accent, 0.14)));
        }
    }

    private static (double Wide, double High) SwatchSize(Look look) => look.Large ? (20, 8) : (11, 4.4);

    /// <summary>Sets a thread: its brick, its name, and what of it there is.</summary>
    public static void Lay(ThreadEntry thread, string said, Flow flow)
    {
        var look = flow.Look;
        var (wide, high) = SwatchSize(look);
        var words = Wrapping.Lines(thread.Name, look.Strong, flow.Width - wide - 3);
        var notes = Wrapping.Lines(said, look.Note, flow.Width - wide - 3);
        var note = look.Note.Points * 0.46;
        flow.Add(words.Count * look.Leading + notes.Count * note + 1.8, (page, x, y) =>
        {
            page.Figure(FigureWords.Thread(thread.Thread.Key), Swatch(thread.Thread, new Box(x, y + 0.4, wide, high), look));
            for (var i = 0; i < words.Count; i++) page.Text(x + wide + 3, y + look.Leading * (i + 0.75), words[i], look.Strong);
            for (var i = 0; i < notes.Count; i++) page.Text(x + wide + 3, y + words.Count * look.Leading + note * (i + 0.75), notes[i], look.Note);
        });
    }

    /// <summary>Sets a sign of the chart.</summary>
    public static void Lay(SignEntry entry, Flow flow)
    {
        var look = flow.Look;
        var wide = SwatchSize(look).Wide;
        var style = look.Large ? look.Body : look.Note with { Colour = look.Ink };
        var leading = look.Leading * style.Points / look.Body.Points;
        var lines = Wrapping.Lines(entry.Words, style, flow.Width - wide - 3);
        var box = look.Large ? 10.0 : 5.4 * look.Tight;
        flow.Add(Math.Max(box, lines.Count * leading) + 1.4 * look.Tight, (page, x, y) =>
        {
            page.Figure(FigureWords.Sign, Draw(entry, new Box(x, y, wide, box), look));
            var first = lines.Count == 1 ? y + box / 2 + Typeface.CapHeight(style) / 2 : y + leading * 0.75;
            for (var i = 0; i < lines.Count; i++) page.Text(x + wide + 3, first + leading * i, lines[i], style);
        });
    }
}
