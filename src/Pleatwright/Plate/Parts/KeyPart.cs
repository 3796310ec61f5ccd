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
}

/// <summary>A sign on the chart and what it stands for.</summary>
/// <param name="Sign">The sign.</param>
/// <param name="Words">What it stands for.</param>
/// <param name="Sample">The drawing of a sample; else null.</param>
public sealed record SignEntry(Sign Sign, string Words, Drawing? Sample = null);

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

    /// <summary>The signs this chart uses.</summary>
    public static ImmutableArray<SignEntry> Signs(Work work, LevelWords levels)
    {
        var (up, down) = levels == LevelWords.UpDown ? ("Up", "Down") : ("Left", "Right");
        var cloth = work.Pleating.Cloth;
        var signs = ImmutableArray.CreateBuilder<SignEntry>();
        signs.Add(new(Sign.UpCable, $"{up} cable: over two pleats, on the row’s upper line"));
        signs.Add(new(Sign.DownCable, $"{down} cable: over two pleats, on the row’s lower line"));
        if (HasHalves(work)) signs.Add(new(Sign.HalfStitch, "Half stitch: over the end pleat once more, to square the end"));
        signs.Add(new(Sign.GatheringRow, "Gathering row, numbered from the top"));
        if (cloth.HoldingRowsAbove + cloth.HoldingRowsBelow > 0) signs.Add(new(Sign.HoldingRow, "Holding row: gathered, not smocked"));
        signs.Add(new(Sign.CentreValley, string.Create(CultureInfo.InvariantCulture, $"Centre valley, {work.Pleating.CentreValley}")));
        if (cloth.SeamPleats > 0) signs.Add(new(Sign.SeamPleats, "Seam pleats, undone into the seam"));
        signs.AddRange(StitchSamples.Of(work));
        return signs.ToImmutable();
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
        for (var p = 0; p < 4; p++) pleats.Rectangle(new Box(box.X + p * pitch + pitch * 0.08, box.Y, pitch * 0.84, box.Height));
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
            case Sign.CentreValley:
                marks.Add(new Shape(Outline.Line(box.Centre.X, box.Y, box.Centre.X, box.Bottom), null, new Pen(look.Ink, 0.3) { Dashes = (1.6, 0.8) }));
                break;
        }
        return [new Inset(marks.ToImmutable(), default, box)];

        void Line(Pen pen) => marks.Add(new Shape(Outline.Line(box.X, box.Centre.Y, box.Right, box.Centre.Y), null, pen));

        void Brick(int pleat, int onLine, int pleatsWide, bool strong)
        {
            var brick = new Box(box.X + pleat * pitch, box.Y + onLine * line, pleatsWide * pitch, line).Grown(-0.1);
            marks.Add(new Shape(Outline.Rounded(brick, line * 0.28), strong ? look.Accent : Look.Lighter(look.Accent, 0.75), new Pen(look.Accent, 0.14)));
        }
    }

    public static void Lay(PlateDocument document, Flow flow)
    {
        var look = flow.Look;
        double wide = look.Large ? 20 : 13, high = look.Large ? 8 : 5;
        if (document.Threads.Length > 0) flow.Subheading("Threads");
        foreach (var thread in document.Threads)
        {
            var words = Wrapping.Lines(thread.Name, look.Strong, flow.Width - wide - 4);
            var notes = Wrapping.Lines(thread.Strands + (thread.IsUsed ? $", {thread.Stitches}" : "") + (thread.Note.Length > 0 ? $". {thread.Note}" : ""), look.Note, flow.Width - wide - 4);
            var note = look.Note.Points * 0.46;
            flow.Add(words.Count * look.Leading + notes.Count * note + 2.2, (page, x, y) =>
            {
                page.Put(Swatch(thread.Thread, new Box(x, y + 0.4, wide, high), look));
                for (var i = 0; i < words.Count; i++) page.Text(x + wide + 4, y + look.Leading * (i + 0.75), words[i], look.Strong);
                for (var i = 0; i < notes.Count; i++) page.Text(x + wide + 4, y + words.Count * look.Leading + note * (i + 0.75), notes[i], look.Note);
            });
        }
        flow.Subheading("On the chart");
        foreach (var entry in document.Signs)
        {
            var lines = Wrapping.Lines(entry.Words, look.Body, flow.Width - wide - 4);
            var box = look.Large ? 10.0 : 6.4;
            flow.Add(Math.Max(box, lines.Count * look.Leading) + 1.8, (page, x, y) =>
            {
                page.Put(Draw(entry, new Box(x, y, wide, box), look));
                var first = lines.Count == 1 ? y + box / 2 + Typeface.CapHeight(look.Body) / 2 : y + look.Leading * 0.75;
                for (var i = 0; i < lines.Count; i++) page.Text(x + wide + 4, first + look.Leading * i, lines[i], look.Body);
            });
        }
    }
}
