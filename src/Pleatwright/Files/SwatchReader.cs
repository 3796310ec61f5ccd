using System.Collections.Immutable;
using Pleatwright.Cloth;

namespace Pleatwright.Files;

/// <summary>Reads what was measured on swatches.</summary>
internal static class SwatchReader
{
    private const int MostSwatches = 200;
    private const int MostCounted = 100_000;

    public static ImmutableArray<Swatch> Read(JsonText text, KeyReader keys)
    {
        var list = keys.List("swatch");
        if (list.Count > MostSwatches) throw text.Error(list[MostSwatches].Offset, $"“swatch” holds more than {MostSwatches} entries.");
        return [.. list.Select(item => One(text, item))];
    }

    private static Swatch One(JsonText text, Located value)
    {
        var keys = new KeyReader(text, value, "a swatch");
        var swatch = new Swatch(keys.Whole("pleats", 1, MostCounted), keys.Length("width"))
        {
            Cloth = keys.OptionalLength("cloth"),
            Cables = keys.Whole("cables", 0, MostCounted, 0),
            Thread = keys.OptionalLength("thread"),
            Starts = keys.Whole("starts", 0, MostCounted, 1),
        };
        keys.NothingElse();
        if (swatch.Thread is not null != swatch.Cables > 0)
            throw text.Error(value.Offset, "a swatch gives “cables” and “thread” together or neither.");
        if (swatch.Cloth is { } cloth && cloth < swatch.Width)
            throw text.Error(keys.Optional("cloth")!.Offset, $"a swatch of {swatch.Width} cannot have been gathered from {cloth} of cloth.");
        return swatch;
    }
}
