using System.Collections.Immutable;
using Pleatwright.Cloth;

namespace Pleatwright.Files;

/// <summary>Reads the sizes of a piece: what the form is measured by, and whatever else changes with it.</summary>
internal static class SizeReader
{
    private const int MostSizes = 200;

    public static ImmutableArray<Size> Read(JsonText text, KeyReader keys, ClothPlan cloth)
    {
        var list = keys.List("sizes");
        if (list.Count > MostSizes) throw text.Error(list[MostSizes].Offset, $"“sizes” holds more than {MostSizes} entries.");
        var sizes = ImmutableArray.CreateBuilder<Size>(list.Count);
        foreach (var item in list)
        {
            var size = One(text, item, cloth);
            if (size.Name.Length == 0 || sizes.Any(s => s.Name == size.Name))
                throw text.Error(item.Offset, $"a size is called {JsonText.Quote(size.Name)}; give each size a name of its own.");
            sizes.Add(size);
        }
        return sizes.MoveToImmutable();
    }

    private static Size One(JsonText text, Located value, ClothPlan cloth)
    {
        var keys = new KeyReader(text, value, "a size");
        var size = new Size(keys.String("name"), FormReader.Resized(text, keys, cloth.Form))
        {
            GatheringRows = keys.Optional("gatheringRows") is { } rows
                ? keys.AsWhole(rows, "gatheringRows", 2, PleatingPlan.MostCableRows + 1)
                : null,
        };
        keys.NothingElse();
        return size;
    }
}
