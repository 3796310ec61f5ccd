using System.Collections.Immutable;
using Pleatwright.Cloth;

namespace Pleatwright.Files;

/// <summary>Reads what was measured on swatches.</summary>
internal static class SwatchReader
{
    public static ImmutableArray<Swatch> Read(JsonText text, KeyReader keys) => keys.Many("swatch", Swatch.Most, item => One(text, item));

    private static Swatch One(JsonText text, Located value)
    {
        var keys = new KeyReader(text, value, "a swatch");
        var swatch = new Swatch(keys.Whole("pleats", 1, Swatch.MostCounted), keys.Length("width"))
        {
            Cloth = keys.OptionalLength("cloth"),
            Cables = keys.Whole("cables", 0, Swatch.MostCounted, 0),
            Thread = keys.OptionalLength("thread"),
            Starts = keys.Whole("starts", 0, Swatch.MostCounted, 1),
        };
        keys.NothingElse();
        return swatch.Fault is { } fault
            ? throw text.Error((keys.Optional(fault.Key) ?? value).Offset, fault.Words + ".")
            : swatch;
    }
}
