using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Edit;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Tests.Files;
using Size = Pleatwright.Cloth.Size;

namespace Pleatwright.Tests.Chart;

/// <summary>What hangs on a panel of a bishop keeps its distance from where it hangs, whatever else is cut.</summary>
public class HangingLaws
{
    private static readonly Gen<double[]> Cuts = Gen.Double[4, 20].Array[5];

    // An even number of pleats each, so that the cloth is alike at both sides.
    private static readonly Gen<double[]> HalfInches = Gen.Int[8, 40].Select(halves => halves / 2.0).Array[3];

    private static Round Bishop(double[] cuts, double neck = 10) =>
        new(Length.FromInches(neck), Angle.FullTurn, [.. cuts.Select((c, i) => new RoundPanel($"panel {i}", Length.FromInches(c)))]);

    private static readonly Gen<(string? Panel, CountedFrom From, int Valleys)> Hangs =
        Gen.Select(Gen.Int[-1, 4], Gen.Enum<CountedFrom>(), Gen.Int[-12, 12]).Select(t => (t.Item1 < 0 ? null : $"panel {t.Item1}", t.Item2, t.Item3));

    // A bishop with figures, accents and bands, each hung somewhere.
    private static readonly Gen<Piece> Pieces =
        from cuts in Cuts
        from seam in Gen.Double[0, 0.6]
        from figure in PieceGen.Figures
        from hung in Hangs.Array[1, 4]
        from mark in Hangs
        from band in Gen.Int[0, 4]
        from mirror in Gen.Bool
        select new Piece("Hung", new ClothPlan(Bishop(cuts), Gauge.Common, 6) { Seam = Length.FromInches(seam) }, PieceGen.Threads, [figure],
            [.. hung.Select(h => new Placement(figure.Name, Centre.Hung(h.Panel, h.From, h.Valleys), new GatheringRow(2), 0) { Mirror = mirror })])
        {
            Accents = [new AccentMark("knot", Centre.Hung(mark.Panel, mark.From, mark.Valleys), new GatheringRow(3), PieceGen.Threads[0].Key)],
            Bands = [new Band("baby wave", new GatheringRow(4), PieceGen.Threads[1].Key) { Panel = $"panel {band}" }],
        };

    // Valleys from the centre of the panel, or from an edge.
    private static int Away(Centre centre, PleatingPlan plan)
    {
        var (first, last) = centre.Panel is { } name ? plan.Shares.Where(s => s.Name == name).Select(s => (s.First, s.Last)).Single() : (1, plan.Pleats);
        var valley = centre.On(plan).Number;
        return centre.From switch { CountedFrom.Left => valley - (first - 1), CountedFrom.Right => last - valley, _ => 2 * valley - (first + last - 1) };
    }

    [Fact]
    public void A_motif_on_a_panel_keeps_its_distance_from_that_panels_centre_in_every_size() => Gen.Select(Pieces, Cuts, Gen.Double[7, 14], Gen.Int[3, 9]).Sample((piece, cuts, neck, rows) =>
    {
        var own = Work.Lay(piece);
        var fitted = SizeTable.In(piece, new Size("other", Bishop(cuts, neck)) { GatheringRows = rows });
        var work = Work.Lay(fitted);
        Assert.Equal(piece.Placements.Select(p => Away(p.Centre, own.Pleating)), fitted.Placements.Select(p => p.Centre.IsHung
            ? Away(p.Centre, work.Pleating)
            : 2 * (p.Centre.On(work.Pleating).Number - work.Pleating.CentreValley))); // counted from the middle of the cloth and on it: by its number
        Assert.Equal(piece.Placements.Select(p => p.Centre.Panel), fitted.Placements.Select(p => p.Centre.Panel));
        foreach (var (was, now) in piece.Accents.Zip(fitted.Accents))
            if (was.Centre.Panel is not null) Assert.Equal(Away(was.Centre, own.Pleating), Away(now.Centre, work.Pleating));
        foreach (var band in work.Bands)
            Assert.Equal(work.Pleating.Shares.Where(s => s.Name == band.Band.Panel).Select(s => (s.First, s.Last)), [(band.Fit.First.Number, band.Fit.Last.Number)]);
        var line = SizeTable.Of(piece with { Sizes = [new Size("other", Bishop(cuts, neck)) { GatheringRows = rows }] })[1];
        Assert.Equal(PieceWriter.Write(fitted with { SizeName = "other" }), PieceWriter.Write(line.Piece!));
    });

    [Fact]
    public void What_hangs_is_read_and_written_and_fits_the_schema() => Pieces.Sample(piece =>
    {
        var written = PieceWriter.Write(piece);
        Assert.Equal(written, PieceWriter.Write(PieceReader.Read(written)));
        Assert.True(Schemas.FitsPiece(written));
    }, iter: 30);

    [Fact]
    public void A_panel_that_is_too_narrow_is_refused_by_figure_and_panel_with_the_pleats_it_needs()
    {
        var refused = 0;
        Gen.Select(Gen.Int[1, 23], Gen.Int[-8, 8], Gen.Int[2, 30], Gen.Enum<CountedFrom>(), Gen.Int[1, 9]).Sample((width, away, half, from, edge) =>
        {
            double[] wide = [20, 20, 20], cuts = [20, half * 0.5, 20];
            var piece = new Piece("One", new ClothPlan(Bishop(wide), Gauge.Common, 6) { SeamPleats = 2 }, PieceGen.Threads, [new Figure("bar", [new string('a', width)])],
                [new Placement("bar", Centre.Hung("panel 1", from, from == CountedFrom.Centre ? away : edge + width), new GatheringRow(2), 0)]);
            Assert.True(SizeTable.Of(piece)[0].Fits, string.Join(" ", SizeTable.Of(piece)[0].Troubles));
            SizeLine In(int pleats) => SizeTable.Of(piece with { Sizes = [new Size("s", Bishop([20, pleats * 0.25, 20]))] })[1];
            var line = In(2 * half);
            Assert.Equal(2 * half, line.Pleating!.Panel("panel 1")!.Value.Pleats);
            if (line.Fits) return;
            refused++;
            var told = Assert.Single(line.Refusals, r => r.Kind == RefusalKind.OffPanel);
            Assert.Equal(("bar", "panel 1", 2 * half), (told.What, told.Panel, told.Has));
            // What it says is needed is enough, and two pleats fewer are not.
            Assert.True(In(told.Needs).Fits);
            Assert.False(In(told.Needs - 2).Fits);
        });
        Assert.True(refused > 10);
    }

    // Figures left of the middle were held at valley 1 in a narrow size, and drawn at another distance from the middle.
    [Theory]
    [InlineData(40)]
    [InlineData(50)]
    public void What_a_narrow_size_needs_is_told_alike_by_every_size(int pleats)
    {
        var piece = new Piece("Left", new ClothPlan(new Panel(Length.FromInches(11)), Gauge.Common, 3), PieceGen.Threads, [new Figure("bar", ["aaaaa"])],
            [new Placement("bar", Centre.At(new Valley(40)), new GatheringRow(2), 0)]) { Sizes = [new Size("narrow", new Panel(Length.FromInches(pleats / 12.0)))] };
        var line = SizeTable.Of(piece)[1];
        Assert.Equal(pleats, line.Pleating!.Pleats);
        Assert.Equal(-26, line.Piece!.Placements[0].Centre.On(line.Pleating).Number - line.Pleating.CentreValley);
        Assert.Equal($"“bar” runs {(58 - pleats) / 2} valleys off the side: it needs 58 pleats and this size has {pleats}.", Assert.Single(line.Troubles));
        Assert.True(SizeTable.Of(piece with { Sizes = [new Size("enough", new Panel(Length.FromInches(58 / 12.0)))] })[1].Fits);
        // Other cloth and back is the same piece.
        Assert.Equal(piece.Placements, OtherCloth.To(line.Piece with { Sizes = [] }, piece.Cloth).Placements);
    }

    [Fact]
    public void Every_panel_has_an_even_number_of_pleats_and_its_join_at_most_a_pleat_away() =>
        Gen.Select(Gen.Double[3, 44].Array[1, 7], Gen.Double[0, 0.6], Gen.Int[0, 5]).Sample((cuts, seam, seams) =>
        {
            var cloth = new ClothPlan(Bishop(cuts), Gauge.Common, 6) { Seam = Length.FromInches(seam), SeamPleats = seams };
            var plan = new PleatingPlan(cloth);
            Assert.Equal(plan.Pleats, plan.Shares.Sum(s => s.Pleats));
            Assert.All(plan.Shares, s => Assert.Equal(0, s.Pleats & 1));
            var flat = 0.0;
            for (var i = 0; i < cuts.Length - 1; i++)
            {
                flat += cuts[i] - seam * (i > 0 ? 2 : 1);
                var at = flat / 0.25 - seams;
                if (at >= 0 && at <= plan.Pleats && (i == 0 || plan.Shares[i].Pleats > 0)) Assert.InRange(plan.Shares[i].Last - at, -1 - 1e-6, 1 + 1e-6);
            }
        });

    [Fact]
    public void A_panel_renamed_takes_what_hangs_on_it_along_and_one_that_is_gone_lets_it_lie()
    {
        double[] cuts = [10, 12, 10];
        var piece = new Piece("One", new ClothPlan(Bishop(cuts), Gauge.Common, 6), PieceGen.Threads, [new Figure("bar", ["aaa"])],
            [new Placement("bar", Centre.Hung("panel 1", CountedFrom.Centre, 2), new GatheringRow(2), 0)])
        {
            Bands = [new Band("wave", new GatheringRow(4), PieceGen.Threads[0].Key) { Panel = "panel 1", From = new Pleat(3), To = new Pleat(12) }],
            Working = new Working { Places = [new FixedPlace(new CableRow(5), Centre.Hung("panel 1", CountedFrom.Centre, 2).On(new PleatingPlan(new ClothPlan(Bishop(cuts), Gauge.Common, 6))), 1)] },
        };
        var own = new PleatingPlan(piece.Cloth);
        var front = OtherCloth.To(piece, piece.Cloth with { Form = new Round(Length.FromInches(10), Angle.FullTurn, [new("panel 0", Length.FromInches(20)), new("front", Length.FromInches(12)), new("panel 2", Length.FromInches(10))]) });
        Assert.Equal(("front", 2), (front.Placements[0].Centre.Panel, front.Placements[0].Centre.Valleys));
        Assert.Equal(("front", 3), (front.Bands[0].Panel, front.Bands[0].From!.Value.Number));
        Assert.Equal(piece.Working.Places[0].Valley.Number + 40, front.Working.Places[0].Valley.Number);
        var panel = OtherCloth.To(piece, piece.Cloth with { Form = new Panel(Length.FromInches(10)) });
        Assert.False(panel.Placements[0].Centre.IsHung && panel.Placements[0].Centre.Panel is not null);
        Assert.Equal(piece.Placements[0].Centre.On(own).Number - own.CentreValley, panel.Placements[0].Centre.On(new PleatingPlan(panel.Cloth)).Number - new PleatingPlan(panel.Cloth).CentreValley);
        Assert.Null(panel.Bands[0].Panel);
        _ = Work.Lay(panel);
        var none = SizeTable.Of(piece with { Sizes = [new Size("other", new Round(Length.FromInches(10), Angle.FullTurn, [new("all", Length.FromInches(40))]))] })[1];
        Assert.Contains(none.Refusals, r => r is { Kind: RefusalKind.NoPanel, What: "bar", Panel: "panel 1" });
        Assert.Contains("“wave” hangs on “panel 1”, which this size has not.", none.Troubles);
    }

    [Fact]
    public void What_is_moved_goes_on_hanging_where_it_hung() => Gen.Select(Pieces, Gen.Int[-9, 9]).Sample((piece, by) =>
    {
        var plan = new PleatingPlan(piece.Cloth);
        var was = piece.Placements[0].Centre;
        var moved = Placing.By(piece, 0, by, 0).Placements[0].Centre;
        Assert.Equal((was.Panel, was.From), (moved.Panel, moved.From));
        Assert.Equal(Math.Clamp(was.On(plan).Number + by, 1, plan.Valleys), by == 0 ? Math.Clamp(moved.On(plan).Number, 1, plan.Valleys) : moved.On(plan).Number);
        foreach (var from in Enum.GetValues<CountedFrom>())
        {
            var hung = Placing.Hang(piece, 0, "panel 2", from);
            Assert.Equal(was.On(plan), hung.Placements[0].Centre.On(plan));
            Assert.Equal(was.On(plan), Placing.Hang(hung, 0, null, from).Placements[0].Centre.On(plan));
        }
    });

    [Fact]
    public void The_image_of_what_hangs_on_a_panel_hangs_on_the_panel_it_lies_on_and_follows_it() => Gen.Select(HalfInches, HalfInches, Gen.Enum<CountedFrom>(), Gen.Int[1, 5]).Sample((cuts, others, from, away) =>
    {
        Piece Of(double[] five) => new("Hung", new ClothPlan(Bishop([five[0], five[1], five[2], five[1], five[0]]), Gauge.Common, 6), PieceGen.Threads, [], []); // alike at both sides
        var piece = Of(cuts);
        foreach (var (panel, twin) in new[] { ("panel 1", "panel 3"), ("panel 2", "panel 2"), ("panel 4", "panel 0") })
        {
            var mark = new AccentMark("knot", Centre.Hung(panel, from, away), new GatheringRow(3), PieceGen.Threads[0].Key);
            var with = Mirror.Put(piece, mark, new Valley(new PleatingPlan(piece.Cloth).CentreValley));
            var image = with.Accents[1].Centre;
            Assert.Equal(twin, image.Panel);
            foreach (var plan in new[] { new PleatingPlan(piece.Cloth), new PleatingPlan(Of(others).Cloth) })
                Assert.Equal(2 * plan.CentreValley, mark.Centre.On(plan).Number + image.On(plan).Number);
        }
    });

    [Theory]
    [InlineData("\"centre\": { \"panel\": \"hem\" }", "no panel is called “hem”; there are “back”, “front”.")]
    [InlineData("\"centre\": { \"panel\": \"front\", \"from\": \"top\" }", "“from” must be “centre”, “left” or “right”")]
    [InlineData("\"centre\": { \"panel\": \"front\", \"from\": \"left\" }", "lacks the key “valleys”")]
    [InlineData("\"centre\": { \"panel\": \"front\", \"valleys\": 9999 }", "a whole number from -5000 to 5000")]
    [InlineData("\"centre\": \"left\"", "or what it hangs on, such as { \"panel\": \"front\" }")]
    public void A_bad_hook_is_an_error_that_says_so(string centre, string words)
    {
        var text = $$"""
            { "pleatwright": 1, "cloth": { "form": "round", "neck": "10 in", "panels": [ { "name": "back", "cut": "20 in" }, { "name": "front", "cut": "20 in" } ], "gatheringRows": 4 },
              "threads": { "r": { "colour": "#b3202c" } }, "figures": { "f": { "rows": [ "rrr" ] } },
              "place": [ { "figure": "f", {{centre}}, "gatheringRow": 2 } ] }
            """;
        Assert.Contains(words, Assert.Throws<PieceFormatException>(() => PieceReader.Read(text)).Message, StringComparison.Ordinal);
    }
}
