using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Proof;
using Pleatwright.Proof.Rules;
using Pleatwright.Tests.Chart;
using Pleatwright.Tests.Plate;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Proof;

public class ColourWaysTests
{
    private static readonly Gen<Colour> Colours = Gen.Select(Gen.Byte, Gen.Byte, Gen.Byte).Select((r, g, b) => new Colour(r, g, b));

    private static readonly Gen<Piece> Pieces = Gen.Select(PieceGen.Pieces, Colours.Array[4]).Select((piece, colours) => piece with
    {
        Cloth = piece.Cloth with { Colour = colours[3] },
        Threads = [.. piece.Threads.Select((t, i) => t with { Colour = colours[i] })],
    });

    [Fact]
    public void The_proof_finds_no_more_in_another_colour_way() => Pieces.Sample(piece =>
    {
        var work = Work.Lay(piece);
        var before = Proofreading.Read(work).Select(f => (f.Rule, f.Severity, f.Place)).ToHashSet();
        Assert.All(ColourWays.Of(work), way =>
            Assert.Subset(before, Proofreading.Read(Work.Lay(way.Of(piece))).Select(f => (f.Rule, f.Severity, f.Place)).ToHashSet()));
    }, iter: 100);

    [Fact]
    public void Colours_that_touch_keep_their_contrast() => Pieces.Sample(piece =>
    {
        var work = Work.Lay(piece);
        foreach (var way in ColourWays.Of(work))
        {
            var now = way.Of(piece);
            Colour Of(Piece p, int run) => p.Thread(work.Runs[run].Thread)!.Colour;
            foreach (var c in Contacts.Of(work))
                Keeps(Of(piece, c.First), Of(piece, c.Second), Of(now, c.First), Of(now, c.Second), ThreadsAlike.LeastDifference);
            for (var r = 0; r < work.Runs.Length; r++)
                Keeps(Of(piece, r), piece.Cloth.Colour, Of(now, r), now.Cloth.Colour, ThreadLikeCloth.LeastDifference);
        }

        static void Keeps(Colour a, Colour b, Colour aNow, Colour bNow, double least)
        {
            Assert.True(Math.Abs(Lab.From(aNow).L - Lab.From(bNow).L) > Math.Abs(Lab.From(a).L - Lab.From(b).L) - 1 - 1e-9);
            Assert.True(ColourDifference.Between(aNow, bNow) >= Math.Min(ColourDifference.Between(a, b), 2 * least) - 1e-5);
        }
    }, iter: 100);

    [Fact]
    public void Ways_are_unlike_the_piece_and_each_other_and_always_the_same() => Pieces.Sample(piece =>
    {
        var work = Work.Lay(piece);
        var ways = ColourWays.Of(work);
        Assert.InRange(ways.Length, 0, ColourWays.Most);
        Assert.Equal(ways.Length, ways.Select(w => w.Name).Distinct().Count());
        Assert.Equal(ways, ColourWays.Of(Work.Lay(piece)));
        Assert.All(ways, way =>
        {
            Assert.Equal(piece.Threads.Select(t => t.Key), way.Threads.Select(t => t.Key));
            Assert.All(way.Threads, t => Assert.Equal(ColourWords.For(t.Colour), t.Word));
            Assert.True(ColourDifference.Between(piece.Cloth.Colour, way.Cloth) >= 15
                || piece.Threads.Zip(way.Threads).Any(p => work.Runs.ToArray().Any(r => r.Thread == p.First.Key) && ColourDifference.Between(p.First.Colour, p.Second.Colour) >= 15));
        });
    }, iter: 100);

    // Hue and lightness of CIELAB by their definition (CIE 15), where a screen can show the colour.
    [Fact]
    public void Turning_keeps_lightness_and_turns_hue() => Gen.Select(Colours, Gen.Int[1, 23]).Sample((colour, i) =>
    {
        var degrees = i * 15.0;
        var turned = ColourWays.Turned(colour, degrees);
        if (Oklab.From(colour).Chroma < Oklab.Grey) { Assert.Equal(colour, turned); return; }
        Lab was = Lab.From(colour), now = Lab.From(turned);
        Assert.InRange(now.L, was.L - 0.6, was.L + 0.6);
        double Chroma(Lab lab) => Math.Sqrt(lab.A * lab.A + lab.B * lab.B);
        Assert.True(Chroma(now) < Chroma(was) + 1.5);
        if (Chroma(now) < 12) return; // too near a grey for eight bits to hold a hue
        var hue = (Math.Atan2(now.B, now.A) - Math.Atan2(was.B, was.A)) * 180 / Math.PI - degrees;
        Assert.InRange(Math.Abs(hue - 360 * Math.Round(hue / 360)), 0, 4);
    });

    [Fact]
    public void A_pair_keeps_what_it_must_or_nothing()
    {
        Colour red = Colour.Parse("#b3202c"), blue = Colour.Parse("#1f4e79"), dark = Colour.Parse("#202020"), pale = Colour.Parse("#f4efe3");
        Assert.Equal(1, ColourWays.Kept(red, pale, red, pale, 10));
        Assert.Equal(0, ColourWays.Kept(red, pale, dark, blue, 10)); // as unlike, but no longer light and dark
        Assert.Equal(0, ColourWays.Kept(red, blue, red, red, 5));
    }

    [Theory]
    [InlineData("harbour-morning", 3)]
    [InlineData("first-pennant", 3)]
    [InlineData("quay-yoke", 3)]
    [InlineData("harbour-wall", 3)]
    [InlineData("gulls-turning", 3)]
    public void Of_the_examples(string example, int ways) => Assert.Equal(ways, ColourWays.Of(Plates.Example(example)).Length);

    [Fact]
    public void No_way_is_called_as_another_or_as_the_piece_is() => Colours.Sample(colour =>
    {
        var piece = Plates.Example("first-pennant").Piece;
        piece = piece with { Threads = [piece.Threads[0] with { Colour = colour }] };
        var names = ColourWays.Of(Work.Lay(piece)).Select(w => w.Name).Append(ColourWords.For(colour)).ToList();
        Assert.Equal(names.Distinct(), names);
    }, iter: 200);

    // Just so much colour as to be no grey.
    [Fact]
    public void A_change_that_is_hardly_seen_is_no_other_way() => Gen.Select(Gen.Int[60, 180], Gen.Int[-16, 16], Gen.Int[-16, 16]).Select((grey, green, blue) => new Colour((byte)grey, (byte)(grey + green), (byte)(grey + blue)))
        .Where(dull => Oklab.From(dull).Chroma is >= Oklab.Grey and < 0.05).Sample(dull =>
        {
            var piece = Plates.Example("first-pennant").Piece;
            var ways = ColourWays.Of(Work.Lay(piece with { Cloth = piece.Cloth with { Colour = Colour.White }, Threads = [piece.Threads[0] with { Colour = dull }] }));
            Assert.All(ways, w => Assert.True(ColourDifference.Between(w.Threads[0].Colour, dull) >= 15));
        }, iter: 60);

    [Fact]
    public void Greys_have_no_other_way_and_nothing_stitched_has_none()
    {
        var work = Plates.Example("first-pennant");
        var grey = work.Piece with { Cloth = work.Piece.Cloth with { Colour = Colour.White }, Threads = [.. work.Piece.Threads.Select(t => t with { Colour = Colour.Parse("#404040") })] };
        Assert.Empty(ColourWays.Of(Work.Lay(grey)));
        Assert.Empty(ColourWays.Of(Work.Lay(work.Piece with { Placements = [], Bands = [] })));
    }
}
