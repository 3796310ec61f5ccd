using System.Collections.Immutable;
using Pleatwright.Cloth;

namespace Pleatwright.Recutting;

/// <summary>One thing that a recut changes: a fact; <see cref="RecutWords"/> tells it.</summary>
internal abstract record RecutChange
{
    /// <summary>Whether something of the piece is lost by it, or asks to be looked at.</summary>
    public virtual bool IsLoss => false;

    /// <summary>The gauge is another.</summary>
    public sealed record OtherGauge(Gauge From, Gauge To) : RecutChange;

    /// <summary>The cloth comes to other numbers.</summary>
    public sealed record OtherCloth(PleatingPlan From, PleatingPlan To) : RecutChange;

    /// <summary>A figure is drawn again, in other numbers of valleys and cable rows.</summary>
    public sealed record Redrawn(string Figure, int FromWidth, int FromHeight, int ToWidth, int ToHeight) : RecutChange;

    /// <summary>Half stitches asked for one by one are others in number.</summary>
    public sealed record Halves(string Figure, int From, int To) : RecutChange;

    /// <summary>A placed figure, a band or an accent comes to lie on another gathering row.</summary>
    public sealed record OtherRow(RecutThing Thing, string Name, int From, int To) : RecutChange;

    /// <summary>A placed figure or an accent comes to lie on another valley.</summary>
    public sealed record OtherValley(RecutThing Thing, string Name, int From, int To) : RecutChange;

    /// <summary>Copies come to lie otherwise.</summary>
    public sealed record Respaced(RecutThing Thing, string Name, int FromCount, int FromEvery, int ToCount, int ToEvery) : RecutChange;

    /// <summary>A band comes to end on other pleats; nothing for the side of the cloth.</summary>
    public sealed record OtherEnds(string Stitch, int? FromFirst, int? FromLast, int? ToFirst, int? ToLast) : RecutChange;

    /// <summary>An accent, or a band, lies otherwise below its gathering row, or is otherwise long.</summary>
    public sealed record OtherDepth(RecutThing Thing, string Name) : RecutChange;

    /// <summary>The cables of the whole piece.</summary>
    public sealed record CableCount(int From, int To) : RecutChange;

    /// <summary>The piece's phase turned, so that every cable keeps its level.</summary>
    public sealed record PhaseTurned : RecutChange;

    /// <summary>The pinned base row is another.</summary>
    public sealed record OtherBaseRow(int From, int To) : RecutChange;

    /// <summary>Further sizes were recut alike.</summary>
    public sealed record SizesRecut(int Count) : RecutChange;

    /// <summary>Ticks kept for the piece are of its stitches as they were: of one figure, or of all of it.</summary>
    public sealed record StitchesMoved(string? Figure) : RecutChange;

    /// <summary>Swatches were measured at the gauge that was.</summary>
    public sealed record SwatchesOfOldGauge(int Count) : RecutChange;

    /// <summary>Stitches of a figure that going back to the old gauge would not give again.</summary>
    public sealed record DetailLost(string Figure, int Stitches, int Of) : RecutChange
    {
        /// <inheritdoc/>
        public override bool IsLoss => true;
    }

    /// <summary>A figure that going back would give in other numbers of valleys or rows, by a rounding.</summary>
    public sealed record SizeLost(string Figure) : RecutChange
    {
        /// <inheritdoc/>
        public override bool IsLoss => true;
    }

    /// <summary>What going back to the old gauge would not bring to where it lay.</summary>
    public sealed record PlaceLost(RecutThing Thing, string Name) : RecutChange
    {
        /// <inheritdoc/>
        public override bool IsLoss => true;
    }

    /// <summary>The cloth itself, its rows or its sizes, that going back would not give again.</summary>
    public sealed record ClothLost : RecutChange
    {
        /// <inheritdoc/>
        public override bool IsLoss => true;
    }

    /// <summary>Cables of a figure that now fall off the cloth and did not before.</summary>
    public sealed record FallsOff(string Figure, int Cables) : RecutChange
    {
        /// <inheritdoc/>
        public override bool IsLoss => true;
    }

    /// <summary>Two figures, or copies of one, that run into each other and did not before.</summary>
    public sealed record RunsInto(string Figure, string Other) : RecutChange
    {
        /// <inheritdoc/>
        public override bool IsLoss => true;
    }

    /// <summary>Half stitches asked for that can no longer be made.</summary>
    public sealed record HalvesRefused(int Count) : RecutChange
    {
        /// <inheritdoc/>
        public override bool IsLoss => true;
    }

    /// <summary>Runs fixed to places in the order, and figures named in it, that are let go.</summary>
    public sealed record OrderLetGo(int Runs, int Figures) : RecutChange
    {
        /// <inheritdoc/>
        public override bool IsLoss => true;
    }
}

/// <summary>What lies on the cloth.</summary>
internal enum RecutThing
{
    /// <summary>A placed figure.</summary>
    Figure,

    /// <summary>A band.</summary>
    Band,

    /// <summary>An accent.</summary>
    Accent,
}

/// <summary>A piece recut, and all that it changed.</summary>
/// <param name="Piece">The piece as it is then.</param>
/// <param name="Changes">What changed, what is lost last; empty when nothing did.</param>
internal sealed record RecutPiece(Chart.Piece Piece, ImmutableArray<RecutChange> Changes)
{
    /// <summary>Whether something is lost, or asks to be looked at.</summary>
    public bool Loses => Changes.Any(c => c.IsLoss);
}
