using System.Globalization;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Plate.Parts;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Teaching;

/// <summary>What the teacher needs at hand: materials for all, where to stop and count, what goes wrong, and when.</summary>
internal static class TeacherSheet
{
    private const string Heading = "Teacher’s sheet";

    public static List<Page> Of(ClassPack pack)
    {
        var plate = pack.Plate;
        List<Page> pages = [];
        var flow = new Flow(plate.Options, pages, Heading, ForWhom(pack.Cutting), 2);
        flow.Paragraph($"{plate.Title}. {plate.Summary}.", flow.Look.Body, after: 2);
        if (plate.Verdict is { Errors: > 0 } verdict)
            flow.Paragraph($"{verdict.Counts} Mend the piece and make this pack again before anything is cut.", flow.Look.Strong with { Colour = flow.Look.Alarm }, after: 2);
        Thread(pack, flow);
        List(flow, "Cloth and tools", Tools(pack));
        List(flow, "Before the class", Before(pack));
        Checkpoints(pack, flow);
        if (pack.Options.Sessions is { } sessions) Sessions(pack, flow, sessions);
        Faults(pack, flow);
        CautionsPart.Lay(flow);
        return pages;
    }

    public static string ForWhom(ClassCutting cutting) =>
        Counting.Of(cutting.Students, "student") + (cutting.SpareKits > 0 ? $" and {Counting.Of(cutting.SpareKits, "spare kit")}" : "");

    private static void Thread(ClassPack pack, Flow flow)
    {
        var look = flow.Look;
        flow.Subheading("Thread for the class", bookmark: true);
        foreach (var floss in pack.Cutting.Flosses)
        {
            var right = Counting.Of(floss.Skeins, "skein");
            var left = $"{KitLabels.Letters(pack, floss)}  {KitLabels.Name(pack, floss)}".Trim();
            var under = Wrapping.Lines($"{Counting.Of(floss.LengthsInKit, "length")} in each kit, {floss.Lengths.ToString("#,0", CultureInfo.InvariantCulture)} in all"
                + (floss.LengthsLeft > 0 ? $"; {floss.LengthsLeft} left on the last skein" : "; none left over"), look.Note, flow.Width);
            var note = look.Note.Points * 0.46;
            var height = look.Leading * 1.05 + under.Count * note + 1.6;
            flow.Add(height, (page, x, y) =>
            {
                page.Text(x, y + look.Leading * 0.8, Wrapping.Shorten(left, look.Strong, flow.Width - Typeface.Width(right, look.Body) - 4), look.Strong);
                page.Text(x + flow.Width, y + look.Leading * 0.8, right, look.Body, Anchor.End);
                for (var i = 0; i < under.Count; i++) page.Text(x, y + look.Leading * 1.05 + note * (i + 0.8), under[i], look.Note);
                page.Rule(x, y + height - 0.4, x + flow.Width, y + height - 0.4, look.Fine);
            });
        }
        if (pack.Cutting.Flosses.IsEmpty) flow.Paragraph("Nothing is stitched, so no thread is needed.", look.Body);
        else
            flow.Paragraph($"{Counting.Of(pack.Cutting.Skeins, "skein")} in all, cut to lengths of {pack.Cutting.WorkingLength.Say(pack.Plate.Options.Units)}. "
                + string.Join(" ", pack.Cutting.Flosses.Select(f => (f.LengthsPerSkein, f.Threads[0].StrandsInSkein, Skein: f.Threads[0].SkeinLength)).Distinct()
                    .Select(s => $"A skein of {s.Skein.Say(pack.Plate.Options.Units)} gives {Counting.Of(s.LengthsPerSkein, "length")} of {Counting.Of(s.StrandsInSkein, "strand")}."))
                + " Every kit is cut whole: no length is shared by two.", look.Note, after: 1.6);
    }

    private static IEnumerable<string> Tools(ClassPack pack)
    {
        var plan = pack.Plate.Work.Pleating;
        var units = pack.Plate.Options.Units;
        var kits = pack.Cutting.Kits;
        yield return $"{Counting.Of(kits, "cut of cloth", "cuts of cloth")}, each {plan.CutWidth.Say(units)} wide"
            + (plan.FabricWidths > 1 ? $", joined from {plan.FabricWidths} widths" : "")
            + $", with room for {plan.RowsToGather} rows, which take {(plan.Gauge.RowSpacing * (plan.RowsToGather - 1)).Say(units)}, and what the pattern asks beyond.";
        yield return $"{Counting.Of(kits * pack.Needles, "embroidery needle")} whose eye takes the strands{(pack.Needles > 1 ? $", {pack.Needles} to a kit ({KitLabels.Waiting(pack)})" : "")}, and some to spare; small scissors; strong gathering thread in a colour that shows; pins to block with.";
        yield return $"Printed: {Counting.Of(kits, "label")}, and a handout for each student, both sides of one sheet, in the hand they stitch with. The students’ page goes to their phones as one file.";
    }

    private static IEnumerable<string> Before(ClassPack pack)
    {
        var plan = pack.Plate.Work.Pleating;
        yield return $"Gather every cloth ({plan.PleatsToGather} pleats, {plan.RowsToGather} rows), draw it up to {plan.FinishedWidth.Say(pack.Plate.Options.Units)} and tie the gathering threads off in pairs. Mark valley {plan.CentreValley}, the centre, with a stitch in a bright thread.";
        var back = pack.Plate.Order.Backsmock;
        if (!back.Rows.IsEmpty)
        {
            var lengths = pack.Cutting.Flosses.First(f => f.Threads.Any(pack.IsForTheBack)).LengthsInKit;
            yield return $"Backsmock every cloth, or send the kits out early so that everyone comes with it done: {Counting.Of(back.Rows.Select(r => r.Row).Distinct().Count(), "gathering row")}, "
                + $"{Counting.Of(back.Cables, "cable")} in all, {Counting.Of(lengths, "length")} of the thread for the back to each. It is plain work and no lesson, so no session counts it.";
        }
        yield return "Cut the lengths and fill the kits by their labels. Stitch the first rows yourself, so that there is one to hold up.";
        yield return "Have everyone open the page once before the class; afterwards it needs no network.";
    }

    private static void List(Flow flow, string heading, IEnumerable<string> lines)
    {
        flow.Subheading(heading, bookmark: true);
        foreach (var line in lines) flow.Paragraph(line, flow.Look.Body);
    }

    private static void Checkpoints(ClassPack pack, Flow flow)
    {
        flow.Subheading("Stop and count", bookmark: true, keep: 6);
        flow.Paragraph("Nobody goes on before the count is right. A fault found here costs a row; found later it costs an evening.", flow.Look.Note, after: 1.6);
        foreach (var point in Checkpoint.Of(pack.Plate)) Ticked(flow, point.Where, point.Count);
    }

    // A box to tick, what it is about, and under it the words.
    private static void Ticked(Flow flow, string heading, string words)
    {
        var look = flow.Look;
        var indent = look.Leading * 0.62 + 2.6;
        var box = look.Leading * 0.62;
        var heads = Wrapping.Lines(heading, look.Strong, flow.Width - indent);
        var lines = Wrapping.Lines(words, look.Body, flow.Width - indent);
        flow.Add((heads.Count + lines.Count) * look.Leading + 1.8, (page, x, y) =>
        {
            page.Put(new Shape(Outline.Rounded(new Box(x, y + look.Leading * 0.16, box, box), 0.4), null, new Pen(look.Quiet, look.Large ? 0.35 : 0.2)));
            for (var i = 0; i < heads.Count; i++) page.Text(x + indent, y + look.Leading * (i + 0.75), heads[i], look.Strong);
            for (var i = 0; i < lines.Count; i++) page.Text(x + indent, y + look.Leading * (heads.Count + i + 0.75), lines[i], look.Body);
        });
    }

    private static void Sessions(ClassPack pack, Flow flow, int sessions)
    {
        var shared = Session.Share([.. ClassItem.Of(pack.Plate.Order, Directions.Write(pack.Plate.Order, pack.Plate.Options.Levels)).Where(i => !i.IsBefore)], sessions);
        if (shared.IsEmpty) return;
        flow.Subheading($"The work in {Counting.Of(shared.Length, "session")}", bookmark: true);
        for (var i = 0; i < shared.Length; i++)
        {
            var session = shared[i];
            Ticked(flow, $"Session {i + 1}: {(session.First == session.Last ? session.First : $"{session.First} to {char.ToLowerInvariant(session.Last[0])}{session.Last[1..]}")}",
                Counting.Of(session.Stitches, "stitch", "stitches")
                + (i == shared.Length - 1 ? "; then block it." : session.EndsChecked ? "; it ends at a level check." : session.EndsTied ? "; it ends with the thread tied off." : "; the thread waits at the back until next time."));
        }
    }

    private static void Faults(ClassPack pack, Flow flow)
    {
        flow.Subheading("What goes wrong, and what to do", bookmark: true, keep: 5);
        foreach (var fault in Fault.Of(pack.Plate.Order, pack.Plate.Options.Levels))
        {
            var lines = Wrapping.Lines(fault.Seen, flow.Look.Strong, flow.Width);
            var remedy = Math.Min(6, Wrapping.Lines(fault.Remedy, flow.Look.Body, flow.Width).Count); // a paragraph of no more is not broken
            var seen = new Tag(Role.Paragraph);
            foreach (var (i, line) in lines.Index())
                flow.Add(flow.Look.Leading, (page, x, y) => page.Text(x, y + flow.Look.Leading * 0.75, line, flow.Look.Strong), keep: flow.Look.Leading * (lines.Count - i - 1 + remedy), seen);
            flow.Paragraph(fault.Remedy, flow.Look.Body, after: 2);
        }
    }
}
