using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Shelf;

namespace Pleatwright.Plate;

/// <summary>For whom a plate is written.</summary>
public enum Edition
{
    /// <summary>For those who know the craft: directions in a table, a line a run, a figure that comes again told once.</summary>
    Plate,

    /// <summary>For learners and screen readers: directions in sentences, every copy in full.</summary>
    Learner,
}

/// <summary>How a plate is made. The hand it is written for is the piece's own; see the piece's working.</summary>
public sealed record PlateOptions
{
    /// <summary>Paper it is laid out on. Default A4.</summary>
    public Paper Paper { get; init; } = Paper.A4;

    /// <summary>Units lengths are given in. Default both.</summary>
    public UnitSystem Units { get; init; } = UnitSystem.Both;

    /// <summary>Words for the levels. Default up and down.</summary>
    public LevelWords Levels { get; init; } = LevelWords.UpDown;

    /// <summary>What the directions are told in. Default the plate's table.</summary>
    public Edition Edition { get; init; } = Edition.Plate;

    /// <summary>Larger type and bricks, and stronger contrast. Default no.</summary>
    public bool LargePrint { get; init; }

    /// <summary>Whether a chart at the size of the finished work follows the working chart, to lay beside the pleats. Default no.</summary>
    public bool TrueScaleChart { get; init; }

    /// <summary>Whether the very piece is put into it, for a shelf to take in; a designer who sells plates may want it left out. Default yes.</summary>
    public bool CarriesPiece { get; init; } = true;

    /// <summary>What the piece file that it carries is called: as the file it was made of. Default the nearest name to the title.</summary>
    public PieceName? Name { get; init; }

    /// <summary>How its pages are dressed.</summary>
    internal Look Look => LargePrint ? Look.LargePrint : Look.Booklet;
}
