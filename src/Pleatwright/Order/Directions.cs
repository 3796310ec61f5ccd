using System.Collections.Immutable;
using System.Text;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Measure;

namespace Pleatwright.Order;

/// <summary>Which words name the levels.</summary>
public enum LevelWords
{
    /// <summary>Up and down: the work held upright.</summary>
    UpDown,

    /// <summary>Left and right: the work held sideways (left cable = up, right cable = down).</summary>
    LeftRight,
}

/// <summary>What a paragraph of the directions is.</summary>
public enum DirectionKind
{
    /// <summary>A heading, such as a base row or a change of way.</summary>
    Heading,

    /// <summary>One step of the order.</summary>
    Step,

    /// <summary>A whole copy of the steps before it, to be worked the same elsewhere; its step is the first of them.</summary>
    Copy,

    /// <summary>A check that the row meets its gathering row.</summary>
    LevelCheck,

    /// <summary>Anything else the maker must know here.</summary>
    Remark,
}

/// <summary>One paragraph of the directions.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Text">Its words, plain text. A step's number is not in them; see <see cref="Order.Step.Number"/>.</param>
/// <param name="Step">The step it belongs to, or null.</param>
public sealed record Direction(DirectionKind Kind, string Text, Step? Step)
{
    /// <summary>The step of a band it tells, or null.</summary>
    public BandStep? Band { get; init; }

    /// <summary>The row of backsmocking it tells, or null.</summary>
    public BackRow? Back { get; init; }

    /// <summary>The accents it tells, in the order worked.</summary>
    public ImmutableArray<LaidAccent> Accents { get; init; } = [];
}

/// <summary>The working order in plain words, row by row, as the hands hold the work.</summary>
internal static class Directions
{
    /// <summary>
    /// Writes the directions of an order: backsmocking first, then the bands, the runs, and last the accents; none when
    /// nothing is worked.
    /// </summary>
    /// <param name="order">The order.</param>
    /// <param name="words">Words for the levels.</param>
    /// <param name="grouped">
    /// Whether what is worked again and again on copies of a figure is said once, with where the copies lie; else every step
    /// has a paragraph of its own.
    /// </param>
    public static ImmutableArray<Direction> Write(WorkingOrder order, LevelWords words, bool grouped = false)
    {
        var runs = order.Steps.IsEmpty ? [] : new Writer(order, words, grouped ? Copies.Of(order) : []).Write();
        if (runs.IsEmpty && order.Bands.Steps.IsEmpty && order.Bands.Accents.IsEmpty && order.Backsmock.Rows.IsEmpty) return [];
        return [Opening(order, words), .. BandDirections.Back(order, grouped), .. BandDirections.Bands(order, words), .. runs, .. BandDirections.Accents(order)];
    }

    private static Direction Opening(WorkingOrder order, LevelWords words)
    {
        var work = order.Work;
        var centre = work.Pleating.CentreValley;
        var way = Phrases.Way(work.Piece.Working.Hand == Hand.Right);
        return new Direction(DirectionKind.Remark,
            $"Pleats are numbered from the left of the right side, top edge up; valley {centre}, between pleats {centre} and {centre + 1}, is the centre. "
            + $"You stitch {way} as you hold the work. "
            + (order.Turns > 0 || order.Backsmock.Turns > 0 || order.Bands.Steps.Any(s => s.Pass.Turned)
                ? "Where it says turned, hold the work with its bottom edge up: pleats keep their numbers, and levels are given as you then hold it. "
                : "")
            + (words == LevelWords.LeftRight
                ? "The work is held sideways: a left cable is an up cable, a right cable a down cable."
                : "For an up cable the thread is held above the needle, for a down cable below it."), null);
    }

    private sealed class Writer(WorkingOrder order, LevelWords words, ImmutableArray<Repeated> repeats)
    {
        private readonly Work work = order.Work;
        private readonly Outward outward = order.Outward;
        private readonly int perSpace = order.Work.Pleating.Gauge.CableRowsPerSpace;
        private readonly int centre = order.Work.Pleating.CentreValley;
        private readonly ImmutableArray<Direction>.Builder paragraphs = ImmutableArray.CreateBuilder<Direction>();
        private int cables;
        private int needlefuls;

        public ImmutableArray<Direction> Write()
        {
            Opening();
            UnkeptPlaces();
            (int Part, int Way)? section = null;
            var repeat = 0;
            var steps = order.Steps;
            var rowCables = 0;
            var rowParts = 0;
            for (var i = 0; i < steps.Length; i++)
            {
                var step = steps[i];
                var here = (order.Parts.Of(step.RunIndex), outward.WayOf(step.RunIndex));
                if (section != here) Add(DirectionKind.Heading, Heading(here.Item1, here.Item2));
                section = here;
                cables += step.Cables;
                rowCables += step.Cables;
                rowParts++;
                if (step.Threads) needlefuls++;
                Add(DirectionKind.Step, StepText(step, i > 0 && steps[i - 1].Turned, i + 1 < steps.Length ? steps[i + 1] : null), step);
                if (i + 1 < steps.Length && steps[i + 1].Row == step.Row
                    && order.Parts.Of(steps[i + 1].RunIndex) == here.Item1) continue;
                if (rowParts > 1) Add(DirectionKind.Remark, $"That is {Counting.Of(rowCables, "cable")} of this row, in {rowParts} parts.", step);
                if (step.Row.Index % perSpace == 0) Add(DirectionKind.LevelCheck, LevelCheck(step, here.Item2), step);
                (rowCables, rowParts) = (0, 0);
                if (repeat == repeats.Length || step.Number != repeats[repeat].Last) continue;
                Again(repeats[repeat]);
                i = repeats[repeat++].End - 1;
                section = (order.Parts.Of(steps[i].RunIndex), outward.WayOf(steps[i].RunIndex));
            }
            Add(DirectionKind.Remark,
                $"Done: {Counting.Of(cables, "cable")}{Halves()}, {Counting.Of(needlefuls, "needleful")}, {Counting.Of(order.Turns, "turn")} of the work.");
            return paragraphs.ToImmutable();
        }

        // The copies of the steps just said, a paragraph each.
        private void Again(Repeated repeated)
        {
            Add(DirectionKind.Heading, repeated.Again.Length switch { 1 => "The same once more", 2 => "The same twice more", var n => $"The same {n} times more" });
            Add(DirectionKind.Remark, $"Work as steps {repeated.First} to {repeated.Last}, each with its pleats moved as told; rows, threads, turns, carries and level checks are the same. "
                + (order.Steps[repeated.First - 1].Turned ? "" : "Begin each with the top edge up, and use what is left of a thread where it is long enough. ")
                + "Tick a copy off when all of it is worked.");
            foreach (var copy in repeated.Again)
            {
                var steps = order.Steps.Slice(copy.First - 1, repeated.Length);
                int own = steps.Sum(s => s.Cables), starts = steps.Count(s => s.Threads);
                cables += own;
                needlefuls += starts;
                int from = steps.Min(s => Math.Min(s.From.Number, s.To.Number)), to = steps.Max(s => Math.Max(s.From.Number, s.To.Number)) + 1;
                var middle = (to - from) % 2 == 1 ? $"valley {(from + to - 1) / 2}" : $"pleat {(from + to) / 2}";
                Add(DirectionKind.Copy,
                    $"To step {copy.First + repeated.Length - 1}: every pleat {Math.Abs(copy.Shift)} further {(copy.Shift > 0 ? "right" : "left")}, "
                    + $"from {PleatText(new Pleat(from))} to {PleatText(new Pleat(to))}, centred on {middle}. "
                    + (copy.Swapped ? $"Here {Word(Level.Up)} and {Word(Level.Down)} change places throughout. " : "")
                    + $"{Counting.Of(own, "cable")} with {(starts == 0 ? "no new needleful" : Counting.Of(starts, "new needleful"))}. So far {Counting.Of(cables, "cable")}, {Counting.Of(needlefuls, "needleful")}.",
                    steps[0]);
            }
        }

        private void Add(DirectionKind kind, string text, Step? step = null) => paragraphs.Add(new Direction(kind, text, step));

        private string Halves()
        {
            var halves = order.Steps.Sum(s => s.HalfStitches);
            return halves == 0 ? "" : $" and {Counting.Of(halves, "half stitch", "half stitches")}";
        }

        private void Opening()
        {
            Add(DirectionKind.Remark,
                "Every run is worked alike. Come up from the back in the valley between its first two pleats, take the needle back through "
                + "the first pleat so that the thread leaves its outer side, cable to the last pleat, and go down in the valley before the last pleat. "
                + "To tie off, cable one or two stitches on the back.");
        }

        private void UnkeptPlaces()
        {
            foreach (var pin in order.UnkeptPlaces)
                Add(DirectionKind.Remark, $"The run over valley {pin.Valley.Number}, {Place(pin.Row, 0)}, was to be run {pin.Place} of the order. "
                    + "That cannot be kept: no run lies there, another has the place, or the order has fewer runs.");
        }

        private string Heading(int index, int way)
        {
            var part = order.Parts.InOrder[index];
            var area = part.Area;
            var where = work.Areas.All[area].Base;
            var text = way switch
            {
                0 => $"Base row, {Place(where, 0)}",
                < 0 => $"Upward from the base row, {Place(where, 0)}",
                _ => $"Downward from the base row, {Place(where, 0)}",
            };
            if (order.Parts.InOrder.Length == 1) return text;
            var (from, to) = (part.From, part.To);
            return $"Pleats {from.LeftPleat.Number} to {to.RightPleat.Number}: {char.ToLowerInvariant(text[0])}{text[1..]}";
        }

        // Rows are counted from the gathering row last met on the way out, so they are named in the order they are
        // worked; before one is met, from the next to come; the base row from the nearest.
        private string Place(CableRow row, int way, CableRow? baseRow = null)
        {
            var over = row.Index % perSpace;
            var above = row.Index / perSpace + 1; // the gathering row on it or above it
            if (over == 0) return $"on gathering row {above}";
            var fromBelow = way switch
            {
                < 0 => above * perSpace <= baseRow?.Index,
                0 => over * 2 > perSpace,
                _ => (above - 1) * perSpace < baseRow?.Index,
            };
            return fromBelow
                ? $"{Counting.Of(perSpace - over, "row")} above gathering row {above + 1}"
                : $"{Counting.Of(over, "row")} below gathering row {above}";
        }

        private string PlaceOf(Step step) =>
            Place(step.Row, outward.WayOf(step.RunIndex), work.Areas.All[work.Areas.AreaOf(step.RunIndex)].Base);

        private string StepText(Step step, bool wasTurned, Step? next)
        {
            var text = new StringBuilder();
            text.Append(Phrases.Turning(step.Turned, wasTurned));
            text.Append(PlaceOf(step).Capital()).Append(step.Turned ? ", turned: " : ": ");
            text.Append(ThreadText(step)).Append(' ');
            var rightward = order.TravelsRight(step);
            Pleat first = rightward ? step.From.LeftPleat : step.From.RightPleat, last = rightward ? step.To.RightPleat : step.To.LeftPleat;
            text.Append($"From {PleatText(first)} to {PleatText(last)}: ");
            if (step.HalfAtBegin) text.Append($"{Phrases.A(Word(step.HeldBegin.Opposite()))} half stitch over pleat {first.Number} alone, then ");
            text.Append(Counting.Of(step.Cables, "cable")).Append(step.Cables == 1 ? ", " : ", the first ").Append(LevelText(step.HeldBegin, step));
            if (step.Cables > 1) text.Append($", the last {Word(step.HeldEnd)}");
            if (step.HalfAtEnd) text.Append($", then {Phrases.A(Word(step.HeldEnd.Opposite()))} half stitch over pleat {last.Number} alone");
            text.Append(". ").Append(EndText(step, next));
            text.Append($" So far {Counting.Of(cables, "cable")}, {Counting.Of(needlefuls, "needleful")}.");
            return text.ToString();
        }

        private string ThreadText(Step step)
        {
            var name = Phrases.Needleful(work, step.Thread);
            if (step.RestFrom > 0)
                return step.Continues
                    ? $"go on in the same run with what was left of {name} after step {step.RestFrom}."
                    : $"start with what was left of {name} after step {step.RestFrom}.";
            if (step.Continues) return $"go on in the same run with a new needleful of {name}.";
            if (step.Starts == StartKind.New) return $"start a new needleful of {name}.";
            var how = Phrases.Carried(step.CarriedRows == 0 ? "" : Counting.Of(Math.Abs(step.CarriedRows), "row"), step.CarriedPleats);
            return order.Steps[step.Number - 2].Needleful == step.Needleful
                ? $"the same thread, {step.Thread}{how}."
                : $"take up the thread {name} left hanging after step {order.LastStepOf(step)}{how}.";
        }

        private string EndText(Step step, Step? next)
        {
            if (step.GoesOn) return $"Here about {Phrases.Roughly(step.Left, work.Piece.Working.WorkingLength.Unit)} of the thread is left: go down and tie off.";
            if (step.TieOff) return "Tie off.";
            if (step.Parks) return "Leave the thread hanging at the back.";
            return next?.CarriedRows == 0 ? "Keep the thread for the next run." : "Keep the thread for the next row.";
        }

        private string PleatText(Pleat pleat) =>
            pleat.Number <= centre
                ? $"pleat {pleat.Number} ({centre - pleat.Number + 1} left of the centre)"
                : $"pleat {pleat.Number} ({pleat.Number - centre} right of the centre)";

        private string LevelText(Level held, Step step) =>
            step.Turned ? $"{Word(held)} as held ({Word(held.Opposite())} on the chart)" : Word(held);

        private string Word(Level level) => Phrases.Level(level, words);

        private string LevelCheck(Step step, int way)
        {
            var row = step.Row.Index / perSpace + 1;
            return way == 0
                ? $"This row lies along gathering row {row}: keep it level with that thread, a thread's width away from it all along."
                : $"Level check: this row meets gathering row {row}. If it drifts, ease it back over the next few rows.";
        }
    }
}
