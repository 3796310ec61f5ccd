using CsCheck;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Shopping;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Shopping;

/// <summary>Stashes of every kind, with names that a list must quote and a spreadsheet must not run.</summary>
internal static class StashGen
{
    public static readonly Gen<Colour> Colours = Gen.Select(Gen.Byte, Gen.Byte, Gen.Byte).Select((r, g, b) => new Colour(r, g, b));

    public static readonly Gen<string> Names = Gen.OneOf(
        Gen.OneOf("sail red", "hull, blue", "“foam”", "tide \"low\"", "=1+1", "'=cmd", "''+2", "-3", "@home", "＝1", "lampe à pétrole", "海の青", "a;b", ";=1", "a,=b"),
        Gen.Char['!', '~'].Array[1, 12].Select(letters => new string(letters)));

    public static readonly Gen<string> Notes = Gen.OneOf(Gen.Const(""), Names);

    public static readonly Gen<Length> Lengths = Gen.OneOf(Gen.Int[1, 900].Select(n => Length.FromCentimetres(n)), Gen.Int[1, 600].Select(n => Length.FromInches(n / 8.0)),
        Gen.Int[1, 40].Select(n => Length.FromMetres(n / 4.0)), Gen.Int[1, 5000].Select(n => Length.FromMillimetres(n / 10.0)));

    public static readonly Gen<StashThread> Threads = Gen.Select(Names, Colours, Gen.OneOf(Gen.Int[0, 40].Select(n => n / 4.0), Gen.Double[0, 100]), Lengths, Gen.Select(Gen.Int[1, 24], Gen.Int[1, 1000]), Notes)
        .Select((name, colour, skeins, skein, make, note) => new StashThread(name, colour, skeins) { SkeinLength = skein, StrandsInSkein = make.Item1, TexPerStrand = make.Item2, Note = note });

    public static readonly Gen<StashCloth> Cloths = Gen.Select(Names, Colours, Lengths, Gen.OneOf(Lengths, Gen.Const(Length.FromMetres(0))), Notes)
        .Select((name, colour, width, left, note) => new StashCloth(name, colour, width, left) { Note = note });

    public static readonly Gen<Rates> Rates = Gen.Select(Gen.OneOf("", "crowns", "€"), Money, Money, Lengths, Money)
        .Select((money, skein, cloth, per, hour) => new Rates { Money = money, Skein = skein, Cloth = cloth, ClothPer = per, Hour = hour });

    public static readonly Gen<Pace> Paces = Gen.Select(
        Gen.Select(Gen.Int[1, 900], Gen.Int[1, 600]).Select((cables, quarters) => new Sitting(cables, quarters / 4.0)).Array[0, 4],
        Gen.Select(Gen.Int[1, 300], Gen.Int[0, 200]).Nullable(), Gen.Int[0, 40])
        .Select((sittings, said, besides) => new Pace
        {
            Sittings = [.. sittings],
            Said = said is { } s ? (s.Item1, s.Item1 + s.Item2) : null,
            Besides = new Between(besides / 4m, besides / 2m),
        });

    public static readonly Gen<Stash> Stashes = Gen.Select(Threads.Array[0, 6], Cloths.Array[0, 3], Rates, Paces)
        .Select((threads, cloths, rates, pace) => new Stash { Threads = [.. threads], Cloths = [.. cloths], Rates = rates, Pace = pace });

    private static Gen<decimal?> Money => Gen.Int[0, 100_000].Select(cents => cents < 20_000 ? (decimal?)null : cents / 100m);
}
