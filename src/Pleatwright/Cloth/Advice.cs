using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Cloth;

/// <summary>A kind of cloth that suits a gauge.</summary>
/// <param name="Kind">The kind.</param>
/// <param name="Least">The least fullness it is gathered to for pictures.</param>
/// <param name="Most">The most.</param>
/// <param name="Holds">Whether the gauge's fullness lies between them; else it is the nearest kind there is.</param>
internal readonly record struct ClothSuggestion(ClothKind Kind, double Least, double Most, bool Holds);

/// <summary>Embroidery needles that take a thread.</summary>
/// <param name="Strands">Strands in the needle.</param>
/// <param name="Finest">The finest size that takes them; a higher number is a finer needle.</param>
/// <param name="Coarsest">The coarsest that is common for them.</param>
internal readonly record struct NeedleSuggestion(int Strands, int Finest, int Coarsest);

/// <summary>Cloth and needles that suit a piece: common practice, no source, and overruled by a swatch.</summary>
internal static class Advice
{
    /// <summary>
    /// Kinds of cloth whose fullness for pictures holds this one, the finest first; where none does, the one kind that comes nearest. Check
    /// cloth is not among them: its own squares settle its gauge.
    /// </summary>
    /// <param name="fullness">Flat width over gathered width that the gauge is made for, at least 1; what a bishop's neck draws up is another matter.</param>
    public static ImmutableArray<ClothSuggestion> Cloths(double fullness)
    {
        ClothKind[] kinds = [ClothKind.Batiste, ClothKind.Broadcloth, ClothKind.Corduroy];
        var away = kinds.Select(k => Practice.FullnessRange(k)).Select(r => Math.Max(0, Math.Max(r.Least - fullness, fullness - r.Most))).ToArray();
        var holds = away.Any(a => a <= Hair);
        var nearest = Array.IndexOf(away, away.Min());
        return [.. kinds.Where((_, i) => holds ? away[i] <= Hair : i == nearest).Select(k => new ClothSuggestion(k, Practice.FullnessRange(k).Least, Practice.FullnessRange(k).Most, holds))];
    }

    /// <summary>
    /// The embroidery needle that takes a thread, by how thick its strands are together: of common floss sizes 9 to 10 for one or two strands, 8 for
    /// three, 7 for four, 5 to 6 for five or six, 3 to 4 for more (common practice, no source; from memory).
    /// </summary>
    /// <param name="strands">Strands in the needle, at least 1.</param>
    /// <param name="texPerStrand">Fineness of one strand in tex, grams a kilometre.</param>
    public static NeedleSuggestion Needle(int strands, double texPerStrand)
    {
        var alike = strands * texPerStrand / CommonTex; // strands of common floss as thick
        var (finest, coarsest) = alike switch { <= 2 + Hair => (10, 9), <= 3 + Hair => (8, 8), <= 4 + Hair => (7, 7), <= 6 + Hair => (6, 5), _ => (4, 3) };
        return new NeedleSuggestion(strands, finest, coarsest);
    }

    /// <summary>The needles of some threads, each once, the coarsest first; see <see cref="Needle"/>.</summary>
    public static ImmutableArray<NeedleSuggestion> Needles(IEnumerable<Floss> threads) =>
        [.. threads.Select(t => Needle(t.Strands, t.TexPerStrand)).Distinct().OrderBy(n => n.Coarsest).ThenByDescending(n => n.Strands)];

    private const double CommonTex = 35; // see Floss: 1.7 g over 48 m of one strand, from memory
    private const double Hair = 1e-6;
}

/// <summary>The advice in words.</summary>
internal static class AdviceWords
{
    /// <summary>"broadcloth, fine poplin or gingham".</summary>
    public static string Of(ClothKind kind) => kind switch
    {
        ClothKind.Batiste => "batiste, lawn or voile",
        ClothKind.Broadcloth => "broadcloth, fine poplin or gingham",
        ClothKind.CoarseCheck => "coarse check cloth",
        ClothKind.Corduroy => "fine-wale corduroy or flannel",
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    /// <summary>"Broadcloth, fine poplin or gingham, which take a fullness of 3 to 4 (common practice)".</summary>
    public static string Of(ClothSuggestion cloth) => string.Create(CultureInfo.InvariantCulture,
        $"{Of(cloth.Kind).Capital()}, commonly gathered {cloth.Least:0.#}{(cloth.Most > cloth.Least ? string.Create(CultureInfo.InvariantCulture, $" to {cloth.Most:0.#}") : "")} to 1{(cloth.Holds ? "" : ": the nearest kind to this fullness")}.");

    /// <summary>"size 7 for 4 strands, size 9 or 10 for 2 strands".</summary>
    public static string Of(IEnumerable<NeedleSuggestion> needles) => string.Join(", ", needles.Select(n => string.Create(CultureInfo.InvariantCulture,
        $"size {n.Coarsest}{(n.Finest > n.Coarsest ? string.Create(CultureInfo.InvariantCulture, $" or {n.Finest}") : "")} for {Counting.Of(n.Strands, "strand")}")));
}
