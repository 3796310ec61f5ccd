using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Order;

namespace Pleatwright.Plate.Teaching;

/// <summary>Something that goes wrong at the first try, and what to do about it. All common practice, no source.</summary>
/// <param name="Seen">What is seen.</param>
/// <param name="Remedy">Why, and what to do.</param>
internal sealed record Fault(string Seen, string Remedy)
{
    /// <summary>The faults that this plate invites.</summary>
    /// <param name="order">Its working order.</param>
    /// <param name="words">Words for the levels.</param>
    public static ImmutableArray<Fault> Of(WorkingOrder order, LevelWords words)
    {
        var work = order.Work;
        var faults = ImmutableArray.CreateBuilder<Fault>();
        if (!order.Steps.IsEmpty)
        {
            var strands = string.Join(" or ", work.Piece.Threads.Select(t => t.Strands).Distinct().Order());
            faults.Add(new("Two neighbours in a row lie alike",
                "The thread lay on the wrong side of the needle once. Every cable is the other way from the last: take the stitches back to the odd one."));
            faults.Add(new("A row will not close up to the row before",
                "Its first cable is on the wrong level, so all of them are. Hold it to the mirror picture on the handout, take it out, and begin it the other way."));
            faults.Add(new("Cloth shows between two rows",
                $"The needle went in too low. Each row lies a thread’s width from the last; the needle may touch it. Look too whether {strands} strands are in the needle, stripped and laid flat."));
            faults.Add(new("A row ends on the wrong pleat",
                "A pleat was left out, or two were taken for one. Count from the centre valley outward, take out to the fault, and pick up every pleat at the same depth."));
            faults.Add(new("The pleats draw in and the picture narrows",
                $"The thread is pulled too tight. Lay each stitch down with the thumb and stop when it lies flat. Carry a thread past no more than {Counting.Of(work.Piece.Working.CarryPleats, "pleat")} on the back."));
            faults.Add(new("Stitches stand up or loop",
                "The thread is too loose, or it is twisted. Let the needle hang until the thread has unwound, and draw every stitch down square to the pleats."));
            faults.Add(new("A row climbs or sinks",
                "It has left its gathering row. Ease it back over the next few rows, a little in each; never in one stitch."));
            faults.Add(new("A gathering thread will not come out",
                "The needle went through it. Work a thread’s width beside it; snip the gathering thread there and draw it from both ends."));
            if (order.Steps.Any(s => s.HalfStitches > 0))
                faults.Add(new("A straight edge looks notched",
                    "The half stitch at the row’s end is missing. It lies over the last pleat alone, opposite the end cable."));
            if (order.Turns > 0)
                faults.Add(new("Every stitch of a turned row is the wrong way",
                    $"It was worked as the chart shows it and not as it is held. With the bottom edge up, every {Phrases.Level(Level.Up, words)} cable of the chart is {Phrases.A(Phrases.Level(Level.Down, words))} cable in the hand, and the directions tell it as held."));
            if (order.Steps.Any(s => s.Parks))
                faults.Add(new("A waiting thread is caught at the back",
                    "Threads left hanging are in the way of the needle. Pin or park them to the side that is already worked."));
        }
        if (!order.Backsmock.Rows.IsEmpty)
            faults.Add(new("The backsmocking shows in front", "The bites are too deep. They take the back of each pleat and no more; two strands near the colour of the cloth."));
        faults.Add(new("The thread frays or knots", "The needleful is too long or is worn out. Tie off and begin a new one; it costs less than a bad row."));
        return faults.ToImmutable();
    }
}
