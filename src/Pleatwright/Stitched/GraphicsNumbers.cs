using System.Globalization;
using System.Text;

namespace Pleatwright.Stitched;

/// <summary>
/// The numbers that light and form need on a graphics card, as constants of its language (OpenGL ES Shading Language 3.00), made of those that <see cref="Relief"/> and
/// <see cref="Shading"/> reckon with. What those keep to themselves is said again here, and <c>GraphicsNumbersTests</c> holds it against them.
/// </summary>
internal static class GraphicsNumbers
{
    /// <summary>What other types keep to themselves: its type and name, and its value.</summary>
    internal static readonly (Type Of, string Name, float Value)[] Said =
    [
        (typeof(Shading), "Lamp", 0.62f),
        (typeof(Shading), "Around", 0.52f),
        (typeof(Shading), "ThreadMean", 1.06f),
        (typeof(Shading), "Glow", 1.0f),
        (typeof(Shading), "Sheen", 2.6f),
        (typeof(Shading), "Warp", 0.21f),
        (typeof(Shading), "Weft", 0.24f),
        (typeof(Relief), "Tuck", 0.24f),
        (typeof(Relief), "ContactReach", 0.17f),
    ];

    /// <summary>The shares of the reach of shadows at which <see cref="Shading"/> looks towards the lamp.</summary>
    internal static readonly float[] ShadowSteps = [0.07f, 0.15f, 0.26f, 0.42f, 0.66f, 1];

    /// <summary>Samples to a millimetre, at least, and below how many to a strand's width strands are drawn as one.</summary>
    public const float LeastSamples = 5.2f, StrandsMerge = 1.5f;

    /// <summary>The constants of a piece, a line each.</summary>
    public static string Of(StitchedPiece piece)
    {
        var text = new StringBuilder();
        foreach (var (_, name, value) in Said) Add(name, value);
        var field = piece.Field;
        var lamp = Light.UpperLeft.Toward;
        text.Append(CultureInfo.InvariantCulture, $"const vec3 Toward = vec3({Real(lamp.X)}, {Real(lamp.Y)}, {Real(lamp.Z)});\n");
        text.Append(CultureInfo.InvariantCulture, $"const float ShadowSteps[{ShadowSteps.Length}] = float[{ShadowSteps.Length}]({string.Join(", ", ShadowSteps.Select(Real))});\n");
        text.Append(CultureInfo.InvariantCulture, $"const int ShadowCount = {ShadowSteps.Length};\n");
        Add("Strength", Light.UpperLeft.Strength);
        Add("Pitch", (float)field.Pitch);
        Add("Line", (float)field.LineHeight);
        Add("Depth", Strands.ValleyDepth(field.Pitch));
        Add("Reach", Relief.ShadowReach(field));
        Add("Margin", Relief.Reach(field));
        Add("PerSpace", 2 * piece.Work.Pleating.Gauge.CableRowsPerSpace);
        Add("Finest", (float)piece.Work.Piece.Threads.Select(t => t.Fineness.Diameter.Millimetres).DefaultIfEmpty(1).Min());
        Add("LeastSamples", LeastSamples);
        Add("StrandsMerge", StrandsMerge);
        Add("Top", field.Top);
        Add("NodeLines", 2 * field.RowsApart);
        return text.ToString();

        void Add(string name, float value) => text.Append(CultureInfo.InvariantCulture, $"const float {name} = {Real(value)};\n");
    }

    private static string Real(float value) => value.ToString("0.0######", CultureInfo.InvariantCulture);
}
