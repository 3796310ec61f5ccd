using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Order;

/// <summary>How a step gets its thread.</summary>
public enum StartKind
{
    /// <summary>A new needleful, started at the back.</summary>
    New,

    /// <summary>The same thread, carried on the back from the step that last used it.</summary>
    Carry,
}

/// <summary>
/// One step of the working order: a run, or the part of a long run that one needleful reaches. Valleys are in the order
/// of travel on the chart, so a turned step of a right-handed maker runs from a higher valley to a lower.
/// </summary>
public sealed record Step
{
    /// <summary>Its place in the order, from 1.</summary>
    public required int Number { get; init; }

    /// <summary>Index in the work's runs of the run it belongs to.</summary>
    public required int RunIndex { get; init; }

    /// <summary>Its thread.</summary>
    public required ThreadKey Thread { get; init; }

    /// <summary>
    /// Which needleful it is worked with, from 1 over the whole piece: a length as cut. What is left of one after a tie-off is used
    /// again, so one needleful may be started several times.
    /// </summary>
    public required int Needleful { get; init; }

    /// <summary>Whether a needle is threaded for it with a length newly cut; else its start, if it has one, is made with a rest.</summary>
    public bool Threads { get; init; }

    /// <summary>Where it starts with what is left of an earlier needleful: number of the step after which that was tied off; else 0.</summary>
    public int RestFrom { get; init; }

    /// <summary>Thread left in the needle when its last stitch is made, what a tie-off takes included.</summary>
    public Length Left { get; init; }

    /// <summary>Its cable row.</summary>
    public required CableRow Row { get; init; }

    /// <summary>Valley of the first cable worked.</summary>
    public required Valley From { get; init; }

    /// <summary>Valley of the last cable worked.</summary>
    public required Valley To { get; init; }

    /// <summary>Chart level of the first cable worked.</summary>
    public required Level Begin { get; init; }

    /// <summary>Chart level of the last cable worked.</summary>
    public required Level End { get; init; }

    /// <summary>Whether the work is turned top to bottom for this step.</summary>
    public required bool Turned { get; init; }

    /// <summary>How its thread comes.</summary>
    public required StartKind Starts { get; init; }

    /// <summary>Thread carried on the back to reach it; nothing on a new start.</summary>
    public Length Carried { get; init; }

    /// <summary>Pleats passed sideways by the carry, toward the right on the chart when positive; 0 on a new start.</summary>
    public int CarriedPleats { get; init; }

    /// <summary>Cable rows passed by the carry, downward on the chart when positive; 0 on a new start.</summary>
    public int CarriedRows { get; init; }

    /// <summary>Whether this step takes up the run where a thread ran out, in the step before it.</summary>
    public bool Continues { get; init; }

    /// <summary>Whether the run goes on, with a new thread, in the next step.</summary>
    public bool GoesOn { get; init; }

    /// <summary>Whether the thread is left hanging at the back after it, to be taken up later.</summary>
    public bool Parks { get; init; }

    /// <summary>Whether the thread is tied off after it.</summary>
    public required bool TieOff { get; init; }

    /// <summary>Whether a half stitch squares the end where it begins.</summary>
    public bool HalfAtBegin { get; init; }

    /// <summary>Whether a half stitch squares the end where it ends.</summary>
    public bool HalfAtEnd { get; init; }

    /// <summary>The first cable's level as the hands hold it: swapped when the work is turned.</summary>
    public Level HeldBegin => Turned ? Begin.Opposite() : Begin;

    /// <summary>The last cable's level as the hands hold it.</summary>
    public Level HeldEnd => Turned ? End.Opposite() : End;

    /// <summary>Cables in it.</summary>
    public int Cables => Math.Abs(To.Number - From.Number) + 1;

    /// <summary>Half stitches in it.</summary>
    public int HalfStitches => (HalfAtBegin ? 1 : 0) + (HalfAtEnd ? 1 : 0);
}
