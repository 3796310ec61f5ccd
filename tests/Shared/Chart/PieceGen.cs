using System.Collections.Immutable;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Chart;

/// <summary>Random pieces, for laws.</summary>
internal static class PieceGen
{
    public static readonly ImmutableArray<Floss> Threads =
    [
        new(new ThreadKey('a'), "sail red", new Colour(0xb3, 0x20, 0x2c), 4),
        new(new ThreadKey('b'), "hull blue", new Colour(0x1f, 0x4e, 0x79), 4),
        new(new ThreadKey('c'), "rope", new Colour(0xc9, 0x9a, 0x4b), 3),
    ];

    public static readonly Gen<Figure> Figures = Gen.Select(Gen.Int[1, 12], Gen.Int[1, 8]).SelectMany((width, height) =>
        Gen.Select(Gen.OneOf('.', '.', 'a', 'a', 'b', 'c').Array[width * height], Gen.Bool).Select((cells, square) =>
            new Figure("figure", [.. Enumerable.Range(0, height).Select(r => new string(cells, r * width, width))]) { Square = square }));

    public static readonly Gen<Gauge> Gauges = Gen.Select(Gen.Int[5, 20], Gen.Int[2, 8], Gen.Int[1, 8]).Select((perInch, eighths, rows) =>
        Gauge.FromPleatsPerInch(perInch, Length.FromInches(3.0 / perInch), Length.FromInches(eighths / 8.0), rows));

    private static readonly Gen<string> Words = Gen.OneOf("", "", "the harbour class", "Für die Möwen ⛵ 2026", "“quay” & <kite>, \\ or not");

    public static readonly Gen<Credit> Credits = Gen.Select(Words, Words, Gen.Int[0, 4000], Gen.OneOf("", "boats.jpg", "the lighthouse, evening.png")).Select((designer, copyright, day, photograph) => new Credit
    {
        Designer = designer,
        Copyright = copyright,
        Date = day % 3 == 0 ? null : new DateOnly(2026, 1, 1).AddDays(day),
        Photograph = photograph,
    });

    public static readonly Gen<Piece> Pieces = Gen.Select(Figures, Gauges, Gen.Int[1, 30], Gen.Int[2, 9], Gen.Select(Credits, Words))
        .SelectMany((figure, gauge, width, rows, said) =>
            Gen.Select(Gen.Int[1, 60], Gen.Int[1, rows], Gen.Int[0, figure.Height - 1], Gen.Select(Gen.Bool, Gen.Bool, Gen.Bool), Gen.Int[1, 4], Gen.Int[1, 20])
                .Select((centre, row, figureRow, flags, count, every) => new Piece(
                    "Random",
                    new ClothPlan(new Panel(Length.FromInches(width / 4.0)), gauge, rows),
                    Threads,
                    [figure],
                    [
                        new Placement("figure", flags.Item1 ? Centre.Middle : Centre.At(new Valley(centre)), new GatheringRow(row), figureRow)
                        {
                            Mirror = flags.Item2,
                            Repeat = new Repeat(count, every),
                        },
                    ])
                {
                    Credit = said.Item1,
                    SizeName = said.Item2,
                    Bands = flags.Item3 ? [new Band("cable", new GatheringRow(1), new ThreadKey('b'))] : [],
                }));
}
