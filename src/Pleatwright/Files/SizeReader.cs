using System.Collections.Immutable;
using Pleatwright.Cloth;

namespace Pleatwright.Files;

/// <summary>Reads the sizes of a piece: what the form is measured by, and whatever else changes with it.</summary>
internal static class SizeReader
{
    public static ImmutableArray<Size> Read(JsonText text, KeyReader keys, ClothPlan cloth)
    {
        var names = new HashSet<string> { "" };
        return keys.Many("sizes", Size.Most, item => One(text, item, cloth, names));
    }

    private static Size One(JsonText text, Located value, ClothPlan cloth, HashSet<string> names)
    {
        var keys = new KeyReader(text, value, "a size");
        var nameAt = keys.Required("name");
        var name = keys.AsString(nameAt, "name");
        if (!names.Add(name)) throw text.Error(nameAt.Offset, $"a size is called {JsonText.Quote(name)}; give each size a name of its own.");
        var size = new Size(name, FormReader.Resized(text, keys, cloth.Form))
        {
            GatheringRows = keys.Optional("gatheringRows") is { } rows
                ? keys.AsWhole(rows, "gatheringRows", ClothPlan.LeastGatheringRows, ClothPlan.MostGatheringRows)
                : null,
        };
        keys.NothingElse();
        return size;
    }
}
