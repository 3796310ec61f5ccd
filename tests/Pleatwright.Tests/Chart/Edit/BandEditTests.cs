using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Edit;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Plate.Parts;
using Pleatwright.Tests.Chart.Stitches;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Chart.Edit;

public class BandEditTests
{
    private static readonly Gen<(Piece Piece, Band Band)> Offers = Gen.Select(BandGen.Bands, Gen.Int[2, 60], Gen.Int[0, 10], Gen.Bool)
        .Select((band, half, in1, span) => (Piece: BandGen.Alone(band, 2 * half), Band: span && in1 + 3 < 2 * half ? band with { From = new Pleat(in1 + 1), To = new Pleat(2 * half - 1) } : band));

    [Fact]
    public void What_has_no_fault_can_be_put_on_kept_in_a_file_and_laid() => Gen.Select(Offers, Gen.Int[-60, 60], Gen.Int[0, 25], Gen.Int[0, 9]).Sample((offer, offset, rows, gathering) =>
    {
        var band = offer.Band with { Offset = offset, Rows = rows, GatheringRow = new GatheringRow(gathering) };
        var bare = offer.Piece with { Bands = [] };
        if (Bands.Fault(bare, band) is { } fault)
        {
            Assert.EndsWith(".", fault, StringComparison.Ordinal);
            Assert.Equal(fault, Assert.Throws<ArgumentException>(() => Bands.Put(bare, band)).Message);
            return;
        }
        var put = Bands.Put(bare, band);
        Assert.Equal([band], PieceReader.Read(PieceWriter.Write(put)).Bands);
        Work.Lay(put);
        Assert.Same(put, Bands.Change(put, 0, band));
        Assert.Empty(Bands.TakeOff(put, band).Bands);
    });

    [Fact]
    public void Of_another_stitch_a_band_keeps_what_that_stitch_takes() => Gen.Select(BandGen.Bands, BandGen.Stitches).Sample((band, stitch) =>
    {
        var piece = BandGen.Alone(Bands.WithStitch(band, stitch), 40, 12);
        Assert.Equal(piece.Bands, PieceReader.Read(PieceWriter.Write(piece)).Bands);
    });

    [Fact]
    public void Every_fitting_choice_makes_the_repeats_come_out_or_leaves_the_ends_alike() => Offers.Sample(offer =>
    {
        var (cloth, band) = (offer.Piece.Cloth, offer.Band);
        var stitch = BandStitch.Named(band.Stitch)!;
        var fit = BandFit.Of(stitch, band, new PleatingPlan(cloth).Pleats);
        var choices = Fitting.Choices(cloth, band);
        if (stitch.OnLattice || fit.IsExact || fit.Repeat == 1) Assert.Empty(choices);
        else if (band.From is null && band.To is null) Assert.NotEmpty(choices);
        foreach (var choice in choices)
        {
            var then = BandFit.Of(stitch, choice.Band, new PleatingPlan(choice.Cloth).Pleats);
            Assert.True(then.IsExact || (then.EndsAlike && choice.Band.Ends != band.Ends), choice.Words);
            Assert.Null(Bands.Fault(offer.Piece with { Cloth = choice.Cloth }, choice.Band));
        }
        Assert.Equal(choices.Length, choices.Select(c => c.Words).Distinct().Count());
    });

    // By hand: a trellis of four steps repeats every ten valleys; 48 pleats hold four repeats and the closing stitch, 42, and six more.
    [Fact]
    public void A_trellis_on_48_pleats_is_offered_what_fits()
    {
        var band = BandGen.Band("trellis");
        var cloth = BandGen.Alone(band, 48).Cloth;
        Assert.Equal("One repeat is 10 valleys; 4 whole repeats take 42 of 48 pleats; it is cut off within a repeat, alike at both sides.", Fitting.Words(cloth, band));
        Assert.Equal(["3 pleats bare at each side", "Cloth of 42 pleats", "Cloth of 52 pleats"], Fitting.Choices(cloth, band).Select(c => c.Words));
        // of a part of the cloth, pleats 3 to 46, the ends move alike
        Assert.Equal(["2 steps from turn to turn", "6 steps from turn to turn", "20 steps from turn to turn", "1 pleat bare at each side", "Pleats 4 to 45"], [.. Fitting.Choices(BandGen.Alone(band, 48).Cloth, band with { From = new Pleat(3), To = new Pleat(46) }).Select(c => c.Words)]);
    }

    [Fact]
    public void The_band_a_cell_shows_is_found() => BandGen.Pieces.Sample(piece =>
    {
        var work = Work.Lay(piece);
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        foreach (var laid in work.Bands)
            foreach (var stitch in laid.Passes.SelectMany(p => p.Stitches).Where(s => s.From.Pleat != s.To.Pleat).Take(40))
            {
                var row = new CableRow((int)Math.Round((stitch.From.Depth + stitch.To.Depth) / 2 * perSpace));
                if (!work.OnCloth(stitch.Valley, row) || work.IsWorked(stitch.Valley, row)) continue;
                Assert.NotNull(Bands.IndexAt(work, stitch.Valley, row));
                Assert.DoesNotContain("Bare", Where.What(work, stitch.Valley, row), StringComparison.Ordinal);
            }
        for (var v = 1; v <= work.Valleys; v++)
            if (Bands.IndexAt(work, new Valley(v), new CableRow(0)) is { } index) Assert.InRange(index, 0, piece.Bands.Length - 1);
    }, iter: 60);

    [Fact]
    public void A_band_of_cables_is_found_where_no_figure_lies_over_it()
    {
        var piece = BandGen.Alone(BandGen.Band("cable"), 20) with { Figures = [new Figure("f", ["aaa"])], Placements = [new Placement("f", Centre.At(new Valley(10)), new GatheringRow(2), 0)] };
        var work = Work.Lay(piece);
        Assert.Equal(0, Bands.IndexAt(work, new Valley(3), new CableRow(5)));
        Assert.Null(Bands.IndexAt(work, new Valley(10), new CableRow(5)));
        Assert.Null(Bands.IndexAt(work, new Valley(3), new CableRow(6)));
    }

    [Fact]
    public void A_glimpse_is_drawn_of_any_band() => BandGen.Pieces.Sample(piece =>
    {
        var work = Work.Lay(piece);
        foreach (var band in piece.Bands.Where(b => Bands.Fault(piece, b) is null))
            Assert.StartsWith("<svg", Glimpse.Draw(work, Glimpse.Of(work, band), "g", "t", Where.Of(band, 5)), StringComparison.Ordinal);
        for (var i = 0; i < piece.Accents.Length; i++)
            Assert.StartsWith("<svg", Glimpse.Draw(work, Glimpse.OfAccent(work, i), "g", "t", Where.Of(piece.Accents[i], work.Pleating)), StringComparison.Ordinal);
    }, iter: 30);
}

public class AccentEditTests
{
    private static readonly ThreadKey A = new('a'), B = new('b');

    private static readonly Piece Bare = BandGen.Alone(BandGen.Band("outline"), 40) with { Bands = [] };

    private static readonly Gen<(string Name, int Valley, int Row)> Spots =
        Gen.Select(Gen.Int[0, Accent.All.Length - 1].Select(i => Accent.All[i].Name), Gen.Int[1, 39], Gen.Int[0, 25]);

    [Fact]
    public void An_accent_lies_where_it_was_put_and_is_found_there() => Spots.Sample((name, valley, row) =>
    {
        var piece = Accenting.Put(Bare, name, new Valley(valley), new CableRow(row), A);
        var work = Work.Lay(piece);
        var laid = Assert.Single(work.Accents);
        Assert.Equal((valley, row), (laid.Valley.Number, Accenting.RowOf(work, laid).Index));
        Assert.Equal(laid, Accenting.At(work, new Valley(valley), new CableRow(row)));
        Assert.Null(Accenting.At(work, new Valley(valley), new CableRow(row + 12)));
        Assert.Equal(piece.Accents, PieceReader.Read(PieceWriter.Write(piece)).Accents);
        Assert.StartsWith(char.ToUpperInvariant(name[0]) + name[1..], Where.What(work, new Valley(valley), new CableRow(row)), StringComparison.Ordinal);
    });

    [Fact]
    public void It_moves_by_valleys_and_rows_and_back_again() => Gen.Select(Spots, Gen.Int[-39, 39], Gen.Int[-25, 25]).Sample((spot, valleys, rows) =>
    {
        var piece = Accenting.Put(Bare, spot.Name, new Valley(spot.Valley), new CableRow(spot.Row), A);
        if (spot.Valley + valleys is < 1 or > 39 || spot.Row + rows is < 0 or > 25)
        {
            Assert.Throws<ArgumentException>(() => Accenting.By(piece, 0, valleys, rows));
            return;
        }
        var moved = Accenting.By(piece, 0, valleys, rows);
        Assert.Equal(Accenting.Put(Bare, spot.Name, new Valley(spot.Valley + valleys), new CableRow(spot.Row + rows), A).Accents, moved.Accents);
        Assert.Equal(piece.Accents, Accenting.By(moved, 0, -valleys, -rows).Accents);
    });

    [Fact]
    public void It_is_recoloured_changed_and_taken_off()
    {
        var piece = Accenting.Put(Accenting.Put(Bare, "knot", new Valley(10), new CableRow(5), A), "bullion", new Valley(20), new CableRow(7), A);
        Assert.Equal([A, B], Accenting.Recolour(piece, 1, B).Accents.Select(a => a.Thread));
        Assert.Equal(["bullion"], Accenting.TakeOff(piece, 0).Accents.Select(a => a.Accent));
        Assert.Equal(["knot"], Accenting.TakeOff(Work.Lay(piece), Area.Between(new Valley(15), new CableRow(7), new Valley(25), new CableRow(9))).Accents.Select(a => a.Accent));
        Assert.Throws<ArgumentException>(() => Accenting.Change(piece, 0, piece.Accents[0] with { Size = 3 }));
        Assert.Throws<ArgumentException>(() => Accenting.Change(piece, 1, piece.Accents[1] with { Size = 13 }));
        Assert.Throws<ArgumentException>(() => Accenting.Put(Bare, "bow", new Valley(10), new CableRow(5), A));
        Assert.Throws<ArgumentException>(() => Accenting.Recolour(piece, 0, new ThreadKey('Z')));
    }

    [Fact]
    public void Of_two_accents_on_one_cell_the_nearest_and_topmost_is_found()
    {
        var piece = Accenting.Put(Accenting.Put(Bare, "bullion", new Valley(10), new CableRow(5), A), "knot", new Valley(11), new CableRow(5), A);
        var work = Work.Lay(piece);
        Assert.Equal("bullion", Accenting.At(work, new Valley(9), new CableRow(5))!.Value.Accent.Name);
        Assert.Equal("knot", Accenting.At(work, new Valley(11), new CableRow(5))!.Value.Accent.Name);
    }
}

public class PinningTests
{
    [Fact]
    public void A_run_is_fixed_moved_and_let_go()
    {
        var piece = new Piece("", new ClothPlan(new Panel(Gauge.Common.Pitch * 40), Gauge.Common, 4), PieceGen.Threads, [new Figure("f", ["aaaaaaa", ".aaaaa.", "..aaa.."])],
            [new Placement("f", Centre.Middle, new GatheringRow(2), 0)]);
        var work = Work.Lay(piece);
        Run first = work.Runs[0], second = work.Runs[1];
        var pinned = Pinning.Fix(Pinning.Fix(piece, first, 2), second, 3);
        Assert.Equal((2, 3), (Pinning.PlaceOf(pinned, first), Pinning.PlaceOf(pinned, second)));
        var moved = Pinning.Fix(pinned, first, 3); // takes the place of the other
        Assert.Equal((3, null), (Pinning.PlaceOf(moved, first), Pinning.PlaceOf(moved, second)));
        Assert.Empty(Pinning.Free(moved, first).Working.Places);
        Assert.Throws<ArgumentOutOfRangeException>(() => Pinning.Fix(piece, first, 0));
        var order = Pleatwright.Order.Planner.Plan(Work.Lay(Pinning.Fix(piece, work.Runs[2], 1)));
        Assert.Equal((first.Row.Index + 2, 1), (order.Steps[0].Row.Index, order.PlaceOf(order.Steps[0])));
    }
}
