using System.Text;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Measure;

namespace Pleatwright.Order;

/// <summary>Backsmocking, bands and accents in plain words, as the hands hold the work.</summary>
internal static class BandDirections
{
    /// <summary>What is cabled on the back, before all else.</summary>
    /// <param name="order">The order.</param>
    /// <param name="grouped">Whether rows that are cabled alike are told once.</param>
    public static IEnumerable<Direction> Back(WorkingOrder order, bool grouped)
    {
        var back = order.Backsmock;
        if (back.Rows.IsEmpty) yield break;
        yield return new Direction(DirectionKind.Heading, "First, on the back", null);
        yield return new Direction(DirectionKind.Remark,
            (order.Work.Piece.Back == Backsmocking.Gaps ? "Backsmocking holds the pleats where no stitching on the front does. " : "Backsmocking holds the pleats behind the picture. ") + "Turn the work over, wrong side up, top edge up, and cable along the gathering threads with "
            + $"{Counting.Of(Backsmock.Strands, "strand")} near the colour of the cloth. Take shallow bites, so that nothing shows on the front. "
            + "Pleats keep their numbers of the right side: seen from the back the highest lies at the left.", null);
        if (grouped && back.IsRightAcross && back.Rows.Length > 2)
        {
            yield return new Direction(DirectionKind.Step, AllText(back), null) { Back = back.Rows[0] };
            yield return new Direction(DirectionKind.Remark, "Turn the work over again, right side up, top edge up.", null);
            yield break;
        }
        var wasTurned = false;
        foreach (var row in back.Rows)
        {
            yield return new Direction(DirectionKind.Step, Phrases.Turning(row.Turned, wasTurned) + BackText(order, row), null) { Back = row };
            wasTurned = row.Turned;
        }
        yield return new Direction(DirectionKind.Remark, "Turn the work over again, right side up, top edge up.", null);
    }

    // Rows right across, told once.
    private static string AllText(Backsmock back)
    {
        var rows = back.Rows.Select(r => r.Row.Number).Order().ToList();
        var turned = back.Rows.Any(r => r.Turned);
        var first = back.Rows[0];
        return $"On the back, gathering rows {Ranges(rows)}, each from side to side: {Counting.Of(first.Cables, "cable")} a row, {Counting.Of(back.Cables, "cable")} in {Counting.Of(back.Needlefuls, "needleful")}. "
            + $"Begin each at pleat {first.Begin.Number} and go on to pleat {first.End.Number}"
            + (turned ? "; where the thread will reach, carry it a space along the pleat to the next row, turn the work bottom edge up and come back." : ".")
            + " Change the thread where it runs out, and tie off at the end of a row where it goes no further.";
    }

    // "1, 3 to 5 and 7"
    private static string Ranges(List<int> numbers)
    {
        var parts = new List<string>();
        for (var i = 0; i < numbers.Count;)
        {
            var end = i;
            while (end + 1 < numbers.Count && numbers[end + 1] == numbers[end] + 1) end++;
            if (end == i + 1) end = i; // two are named one by one
            parts.Add(end == i ? $"{numbers[i]}" : $"{numbers[i]} to {numbers[end]}");
            i = end + 1;
        }
        return parts.Count == 1 ? parts[0] : string.Join(", ", parts.Take(parts.Count - 1)) + " and " + parts[^1];
    }

    private static string BackText(WorkingOrder order, BackRow row)
    {
        var whole = row.From.Number == 1 && row.To.Number == order.Work.Pleating.Pleats;
        var carries = row.Carried > Length.Zero;
        return $"On the back, {row.Row}{(whole ? ", from side to side" : "")}{(row.Turned ? ", turned" : "")}: "
            + (carries ? $"the same thread{Phrases.Carried("1 space", row.CarriedPleats)}. From" : "from")
            + $" pleat {row.Begin.Number} to pleat {row.End.Number}, {Counting.Of(row.Cables, "cable")}"
            + (!carries ? $" in {Counting.Of(row.Needlefuls, "needleful")}. " : row.Needlefuls > 0 ? $", with {Counting.Of(row.Needlefuls, "needleful")} more. " : ". ")
            + (row.KeepsThread ? "Keep the thread for the next row." : "Tie off.");
    }

    /// <summary>The bands off the lattice.</summary>
    public static IEnumerable<Direction> Bands(WorkingOrder order, LevelWords words)
    {
        var work = order.Work;
        LaidBand? band = null;
        Pass? pass = null;
        foreach (var step in order.Bands.Steps)
        {
            if (step.Band != band)
            {
                band = step.Band;
                foreach (var paragraph in Opening(work, band, words)) yield return paragraph;
            }
            yield return new Direction(DirectionKind.Step, StepText(order, step, pass is { Turned: true }, words), null) { Band = step };
            if (!step.Continues && LevelCheck(work, step) is { } check) yield return new Direction(DirectionKind.LevelCheck, check, null);
            pass = step.Pass;
        }
        if (pass is { Turned: true }) yield return new Direction(DirectionKind.Remark, Phrases.TurnBack, null);
    }

    /// <summary>The accents.</summary>
    public static IEnumerable<Direction> Accents(WorkingOrder order)
    {
        var accents = order.Bands.Accents;
        if (accents.IsEmpty) yield break;
        var perSpace = order.Work.Pleating.Gauge.CableRowsPerSpace;
        yield return new Direction(DirectionKind.Heading, "Last, the accents", null);
        if (order.TurnsBackForAccents) yield return new Direction(DirectionKind.Remark, Phrases.TurnBack, null);
        foreach (var kind in accents.Select(a => a.Laid.Accent).Distinct())
            yield return new Direction(DirectionKind.Remark, $"{kind.Name.Capital()}: {kind.Manner}", null);
        foreach (var marks in accents.GroupBy(a => a.Laid.Index))
        {
            var laid = marks.First().Laid;
            var valleys = marks.Select(m => m.Laid.Valley.Number).ToArray();
            yield return new Direction(DirectionKind.Step,
                $"{laid.Accent.Name.Capital()} in {Phrases.Needleful(order.Work, laid.Mark.Thread)}, at {DepthWords.Of(laid.Depth, perSpace)}: "
                + (laid.Size > 0 ? $"{Counting.Of(laid.Size, "pleat")} long{(laid.Mark.Upright ? ", along the valley" : "")}, " : "")
                + (valleys.Length == 1 ? $"on valley {valleys[0]}." : $"{valleys.Length} of them, on valleys {List(valleys)}.")
                + " Begin and fasten each on the back by itself.", null) { Accents = [.. marks.Select(m => m.Laid)] };
        }
    }

    private static IEnumerable<Direction> Opening(Work work, LaidBand band, LevelWords words)
    {
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        var flat = band.Lowest - band.Highest < Stitch.Hair;
        yield return new Direction(DirectionKind.Heading,
            $"{band.Stitch.Name.Capital()}{(!flat ? ", from " : band.Highest % 1 < Stitch.Hair ? ", on " : ", ")}{DepthWords.Of(band.Highest, perSpace)}"
            + (flat ? "" : $" to {DepthWords.Of(band.Lowest, perSpace)}"), null);
        var text = new StringBuilder(band.Stitch.Manner);
        if (band.Fit.Repeat > 1)
        {
            text.Append($" One repeat is {Counting.Of(band.Fit.Repeat, "valley")}; {Counting.Of(band.Fit.Repeats, "whole repeat")} fit");
            text.Append(band.Fit.IsExact ? ", and both ends come out alike."
                : band.Band.Ends == BandEnds.Cut ? ", and at both ends a part of one, alike."
                : band.Fit.EndsAlike ? $", with {Counting.Of(band.Fit.Spare / 2, "pleat")} left bare at each side." : ".");
        }
        if (band.Stitch.Backward) text.Append($" It is worked the other way than cables, {Phrases.Way(work.Piece.Working.Hand == Hand.Left)} as you hold the work.");
        text.Append($" On the back it leaves {band.Stitch.Back}.");
        yield return new Direction(DirectionKind.Remark, text.ToString(), null);
    }

    private static string StepText(WorkingOrder order, BandStep step, bool wasTurned, LevelWords words)
    {
        var work = order.Work;
        var pass = step.Pass;
        var text = new StringBuilder();
        text.Append(Phrases.Turning(pass.Turned, wasTurned));
        var which = Which(step);
        if (which.Length > 0) text.Append(which.Capital()).Append(": ");
        var name = Phrases.Needleful(work, step.Band.Band.Thread);
        var centre = step.Band.Fit.Centre.Number;
        var needleful = step.Threads ? "a new needleful" : "what is left of an earlier needleful";
        var start = step.Thread switch
        {
            BandThread.NewWithTail => $"start at the centre, valley {centre}, with a new needleful of {name}; leave half of it hanging at the back. ",
            BandThread.Tail => "thread the half left hanging at the centre and go on from the centre stitch. ",
            BandThread.GoesOn => $"go on with {needleful} of {name}. ",
            BandThread.Carry => $"the same thread, {step.Band.Band.Thread}{Phrases.Carried(CarriedAlong(work, step), step.CarriedPleats)}. ",
            _ when step.Band.Stitch.StartOf(step.Band.Band) != WorkFrom.Centre => $"start {(step.Threads ? "" : "with ")}{needleful} of {name}. ",
            _ when pass.GoesOn => $"start {(step.Threads ? "" : "with ")}{needleful} of {name} and go on from the centre stitch. ",
            _ => $"start at the centre, valley {centre}, with {needleful} of {name}. ",
        };
        text.Append(which.Length > 0 ? start : start.Capital());
        text.Append($"From pleat {step.Begin.From.Pleat.Number} to pleat {step.End.To.Pleat.Number}");
        text.Append(pass.Turned ? ", as held: " : ": ").Append(Repeat(step, words)).Append(". ");
        text.Append(!step.TieOff ? "Keep the thread for the next row." : step.Continues ? "The thread is used up here: go down and tie off." : "Tie off.");
        return text.ToString();
    }

    private static string CarriedAlong(Work work, BandStep step) =>
        Math.Abs(step.CarriedSpaces) > Stitch.Hair ? DepthWords.Distance(Math.Abs(step.CarriedSpaces), work.Pleating.Gauge.CableRowsPerSpace) : "";

    // Which row and journey of the band, where it has several.
    private static string Which(BandStep step)
    {
        var journeys = step.Band.Passes.Max(p => p.Journey) + 1;
        List<string> parts = [];
        if (step.Band.Band.Rows > 1) parts.Add($"row {step.Pass.Row + 1} of {step.Band.Band.Rows}");
        if (journeys > 1) parts.Add($"{(step.Pass.Journey == 0 ? "first" : "second")} journey");
        return string.Join(", ", parts);
    }

    // The stitches of one repeat from where the step begins, as held, like stitches next to each other told together.
    private static string Repeat(BandStep step, LevelWords words)
    {
        var stitches = step.Pass.Stitches.AsSpan(step.First, step.Count);
        var told = new List<string>();
        var crossed = 0;
        var repeat = Math.Max(step.Band.Fit.Repeat, 1);
        var all = true;
        for (var i = 0; i < stitches.Length;)
        {
            if (crossed >= repeat && told.Count > 1) { all = false; break; }
            var like = i + 1;
            while (like < stitches.Length && SameAs(stitches[i], stitches[like]) && (repeat == 1 || crossed + like - i < repeat)) like++;
            told.Add(Words(stitches[i], like - i, step, words));
            crossed += stitches[i].From.Pleat != stitches[i].To.Pleat ? like - i : 0;
            i = like;
        }
        return string.Join("; ", told) + (all ? "" : "; and so on");
    }

    private static bool SameAs(Stitch a, Stitch b) =>
        (a.Kind, a.Level, a.IsLevel, a.Rises) == (b.Kind, b.Level, b.IsLevel, b.Rises);

    private static string Words(Stitch stitch, int count, BandStep step, LevelWords words)
    {
        var turned = step.Pass.Turned;
        var held = turned ? stitch.Level.Opposite() : stitch.Level;
        // turned, the band's bottom is at the top
        var way = Phrases.Level(stitch.Rises != turned ? Level.Up : Level.Down, words);
        var end = Phrases.Level(held, words);
        return stitch.Kind switch
        {
            StitchKind.Over when stitch.IsLevel && count > 1 => $"{Counting.Of(count, "stitch", "stitches")}, {Phrases.Thread(held, words)}",
            StitchKind.Over when stitch.IsLevel => $"{Phrases.A(end)} cable",
            StitchKind.Over => $"{Counting.Of(count, "step")} {way}, {Phrases.Thread(held, words)}",
            StitchKind.Catch => $"catch two pleats at the {(held == Level.Up ? "top" : "bottom")}",
            StitchKind.Bar => $"straight {way} on the surface, {Phrases.Thread(held, words)}",
            StitchKind.Slip => $"slip {way} inside the fold",
            _ => $"{Counting.Of(count, "loop")} slanting {way}",
        };
    }

    // The gathering rows that the step's bites lie on.
    private static string? LevelCheck(Work work, BandStep step)
    {
        var rows = new SortedSet<int>();
        foreach (var stitch in step.Pass.Stitches)
            if (Math.Abs(stitch.From.Depth - Math.Round(stitch.From.Depth)) < Stitch.Hair && stitch.IsLevel) rows.Add((int)Math.Round(stitch.From.Depth) + 1);
        rows.RemoveWhere(r => r < 1 || r > work.Piece.Cloth.GatheringRows);
        return rows.Count == 0 ? null
            : $"Level check: it lies on gathering {(rows.Count == 1 ? "row" : "rows")} {string.Join(" and ", rows)}; keep a thread's width from the gathering thread all along.";
    }

    private static string List(int[] numbers) => string.Join(", ", numbers[..^1]) + " and " + numbers[^1];
}
