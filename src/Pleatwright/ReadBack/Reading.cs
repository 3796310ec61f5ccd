using System.Collections.Immutable;

namespace Pleatwright.ReadBack;

/// <summary>One cable, half stitch or stitch of a band as it comes to lie on the chart by the words alone.</summary>
/// <param name="Row">Cable row.</param>
/// <param name="Pleat">The left pleat it covers, on the chart.</param>
/// <param name="Half">Whether it is a half stitch, over that pleat alone.</param>
/// <param name="Thread">Its thread's letter.</param>
/// <param name="Up">Whether it lies on its row's upper line.</param>
internal readonly record struct ReadCable(int Row, int Pleat, bool Half, char Thread, bool Up);

/// <summary>A stitch of a band, from one bite to another, heights in spaces below gathering row 1.</summary>
internal readonly record struct ReadStitch(string Band, char Thread, string Kind, int FromPleat, double FromDepth, int ToPleat, double ToDepth, bool? Above, bool Turned);

/// <summary>An accent.</summary>
internal readonly record struct ReadAccent(string Name, char Thread, int Valley, double Depth, int Size, bool Upright);

/// <summary>A row of the back, its pleats in the order worked.</summary>
internal readonly record struct ReadBackRow(int Row, int From, int To);

/// <summary>What one who knows the craft and nothing of the piece understands from directions.</summary>
internal sealed class Reading
{
    /// <summary>What could not be understood or does not agree with what was said before.</summary>
    public List<string> Faults { get; } = [];

    /// <summary>Whether any of it was read.</summary>
    public bool IsEmpty { get; set; } = true;

    /// <summary>Pleats, the left pleat of the centre valley, cable rows in a space.</summary>
    public int Pleats { get; set; }

    /// <summary>The left pleat of the centre valley.</summary>
    public int Centre { get; set; }

    /// <summary>Cable rows in a space.</summary>
    public int PerSpace { get; set; } = 1;

    /// <summary>How long a length is cut, where that is told.</summary>
    public string? Length { get; set; }

    /// <summary>Whether the hand goes from the chart's left to its right.</summary>
    public bool RightHanded { get; set; }

    /// <summary>Cables and half stitches, in the order worked.</summary>
    public List<ReadCable> Cables { get; } = [];

    /// <summary>Stitches of bands.</summary>
    public List<ReadStitch> Stitches { get; } = [];

    /// <summary>Accents.</summary>
    public List<ReadAccent> Accents { get; } = [];

    /// <summary>Rows of the back.</summary>
    public List<ReadBackRow> Back { get; } = [];

    /// <summary>Needlefuls of the back, and of the accents.</summary>
    public (int Back, int Accents) Needlefuls { get; set; }

    /// <summary>Steps whose run has to be squeezed between finished rows.</summary>
    public List<int> Squeezed { get; } = [];

    /// <summary>The steps, as far as threads are concerned.</summary>
    public List<ReadThread> Threads { get; } = [];

    /// <summary>Names and strands told of threads.</summary>
    public List<(char Letter, string Name, int Strands)> Named { get; } = [];

    /// <summary>Repeats told of bands: name, valleys to a repeat, whole repeats, pleats bare at a side.</summary>
    public List<(string Band, int Repeat, int Repeats, int? Bare)> Repeats { get; } = [];

    /// <summary>What steps of bands are said to be: name, which time of how many, which journey of how many, all 0 where that is not said, between which heights, and in how many stitches from one to the other.</summary>
    public List<(string Band, int Time, int Times, int Journey, int Journeys, double High, double Low, int Slope)> Parts { get; } = [];

    /// <summary>By the number of a band's step, that from which it takes what was left.</summary>
    public Dictionary<int, int> BandRests { get; } = [];

    /// <summary>Pins that are told not to be kept: row, valley, place.</summary>
    public List<(int Row, int Valley, int Place)> Unkept { get; } = [];

    /// <summary>Notes a fault.</summary>
    public void Fault(string words) => Faults.Add(words);
}

/// <summary>What is told of a step's thread.</summary>
/// <param name="Step">The step's number.</param>
/// <param name="RestOf">The step whose rest it takes, or 0.</param>
/// <param name="Longer">How much longer its length is cut, as printed; empty for not.</param>
/// <param name="Left">How much is left where it runs out, as printed; empty where that is not told.</param>
internal readonly record struct ReadThread(int Step, int RestOf, string Longer, string Left);

/// <summary>What the order holds beside the chart, as plain values, for what is read to be compared with.</summary>
internal sealed record Expected
{
    /// <summary>Rows of the back, pleats in the order worked.</summary>
    public ImmutableArray<ReadBackRow> Back { get; init; } = [];

    /// <summary>How long a length is cut, as printed.</summary>
    public string Length { get; init; } = "";

    /// <summary>Needlefuls of the back, and of the accents.</summary>
    public (int Back, int Accents) Needlefuls { get; init; }

    /// <summary>By step number: the step whose rest it takes, how much longer it is cut, what is left where it runs out.</summary>
    public ImmutableArray<ReadThread> Threads { get; init; } = [];

    /// <summary>By the number of a band's step, that from which it takes what was left.</summary>
    public ImmutableDictionary<int, int> BandRests { get; init; } = ImmutableDictionary<int, int>.Empty;
}
