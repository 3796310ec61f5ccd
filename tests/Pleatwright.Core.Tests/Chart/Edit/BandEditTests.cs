using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Plate.Writers;
using Pleatwright.Tests.Chart.Stitches;

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
