using System.Collections.Immutable;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>A swatch as far as the maker has written it down; nothing is a length of 0.</summary>
public sealed class SwatchDraft
{
    public int Pleats { get; set; }

    public Length Width { get; set; }

    public Length Cloth { get; set; }

    public int Cables { get; set; }

    public Length Thread { get; set; }

    public int Starts { get; set; } = 1;

    /// <summary>A swatch of the piece, to be changed.</summary>
    public static SwatchDraft Of(Swatch swatch) => new()
    {
        Pleats = swatch.Pleats, Width = swatch.Width, Cloth = swatch.Cloth ?? default, Cables = swatch.Cables, Thread = swatch.Thread ?? default, Starts = swatch.Starts,
    };

    /// <summary>The swatches written down, those with nothing on them left out; default and why when one cannot be right.</summary>
    public static ImmutableArray<Swatch> Read(IEnumerable<SwatchDraft> drafts, out string fault)
    {
        var read = ImmutableArray.CreateBuilder<Swatch>();
        foreach (var draft in drafts)
        {
            if (draft is { Pleats: 0, Cables: 0 } && draft.Width == Length.Zero && draft.Cloth == Length.Zero && draft.Thread == Length.Zero) continue;
            var swatch = new Swatch(draft.Pleats, draft.Width)
            {
                Cloth = draft.Cloth > Length.Zero ? draft.Cloth : null, Cables = draft.Cables,
                Thread = draft.Thread > Length.Zero ? draft.Thread : null, Starts = draft.Starts,
            };
            if (swatch.Fault is { } wrong) { fault = Sentences.Of(wrong.Words); return default; }
            read.Add(swatch);
        }
        fault = "";
        return read.ToImmutable();
    }
}
