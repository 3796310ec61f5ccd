using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>What drawings show, for those who cannot see them.</summary>
internal static class FigureWords
{
    /// <summary>The working chart, or a part of it.</summary>
    public const string Chart =
        "Every run with its step, its count of cables and its way, on pleats counted from the centre and numbered gathering rows. The directions tell the same in words.";

    /// <summary>The chart at the size of the finished work.</summary>
    public const string TrueChart = "The chart at the size of the finished work, to lay beside the pleats. The directions tell the same in words.";

    /// <summary>The whole at a glance.</summary>
    public const string Strip = "The whole at a glance: where every figure lies, its centre line, and the pleats from centre to centre. The directions tell the same in words.";

    /// <summary>A sign of the chart; its meaning stands beside it.</summary>
    public const string Sign = "The sign on the chart.";

    /// <summary>The stitched piece.</summary>
    public static string Picture(PlateDocument plate) => $"How the finished piece will look. {plate.Summary}.";

    /// <summary>The middle of the stitched piece.</summary>
    public const string Closer = "The middle of the finished piece from close by.";

    /// <summary>The stitched piece in other colours.</summary>
    public static string Way(string name) => $"The finished piece in {name}.";

    /// <summary>A thread's brick.</summary>
    public static string Thread(ThreadKey letter) => $"A brick of the chart with the letter {letter}.";

    /// <summary>How a stitch is worked; its words stand beside it.</summary>
    public static string Stitch(string name) => $"{name}, drawn with the needle’s way.";

    /// <summary>A drawing of what is said beside it.</summary>
    public const string Beside = "A drawing of what is told beside it.";

    /// <summary>A drawing at true size, or a part of it.</summary>
    public static string True(string what, string lead) => $"{what}, at true size: {lead}.";
}
