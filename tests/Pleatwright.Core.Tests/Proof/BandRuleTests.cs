using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Proof;
using Pleatwright.Tests.Chart.Stitches;
using Pleatwright.Tests.Endurance;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Proof;

public class BandRuleTests
{
    private static readonly ThreadKey Thread = new('a');

    private static Finding[] Of(Piece piece, string rule) => [.. Proofreading.Read(Work.Lay(piece)).Where(f => f.Rule == rule)];

    private static Piece With(Piece piece, Figure figure, int valley, int row) => piece with
    {
        Figures = [figure],
        Placements = [new Placement(figure.Name, Centre.At(new Valley(valley)), new GatheringRow(row), 0)],
    };

    [Fact]
    public void A_band_below_the_last_row_is_off_the_cloth()
    {
        Assert.Empty(Of(BandGen.Alone(BandGen.Band("wave"), 42, 3), "band-off-cloth"));
        var finding = Assert.Single(Of(BandGen.Alone(BandGen.Band("wave") with { Offset = 2 }, 42, 3), "band-off-cloth"));
        Assert.Equal(Severity.Error, finding.Severity);
        Assert.Contains("half a space below gathering row 3", finding.Message, StringComparison.Ordinal);
        Assert.Contains("above gathering row 1", Assert.Single(Of(BandGen.Alone(BandGen.Band("wave") with { Offset = -6 }, 42, 3), "band-off-cloth")).Message, StringComparison.Ordinal);
        Assert.Contains("goes to pleat 50", Assert.Single(Of(BandGen.Alone(BandGen.Band("wave") with { To = new Pleat(50) }, 42, 3), "band-off-cloth")).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_band_over_a_figure_is_an_error_where_they_meet_and_not_beside_it()
    {
        var bar = new Figure("bar", ["aaaaa"]);
        var piece = BandGen.Alone(BandGen.Band("trellis"), 42);
        // row 2's turns lie on the figure, a row between turns does not
        var finding = Assert.Single(Of(With(piece, bar, 21, 2), "band-over-figure"));
        Assert.Equal(Severity.Error, finding.Severity);
        Assert.InRange(finding.From.Number, 18, 24);
        Assert.InRange(finding.To.Number, 18, 24);
        Assert.Empty(Of(With(piece, bar, 21, 4), "band-over-figure"));
        Assert.Empty(Of(With(piece with { Bands = [BandGen.Band("trellis") with { To = new Pleat(18) }, BandGen.Band("trellis") with { From = new Pleat(25) }] }, bar, 21, 2), "band-over-figure"));
    }

    [Fact]
    public void Bands_over_each_other_are_told_and_bands_side_by_side_are_not()
    {
        var wave = BandGen.Band("wave");
        Piece Two(Band other) => BandGen.Alone(wave, 42) with { Bands = [wave, other] };
        Assert.Equal(Severity.Warning, Assert.Single(Of(Two(wave with { UpsideDown = true }), "bands-cross")).Severity);
        Assert.Single(Of(Two(BandGen.Band("outline") with { Offset = 2 }), "bands-cross"));
        Assert.Empty(Of(Two(wave with { Drop = 1 }), "bands-cross"));
        Assert.Empty(Of(Two(wave with { GatheringRow = new GatheringRow(4) }), "bands-cross"));
        Assert.Empty(Of(BandGen.Alone(BandGen.Band("crossed trellis"), 42), "bands-cross"));
    }

    // A wave lies over itself, wherever it is put and however it is worked.
    [Fact]
    public void The_same_band_twice_lies_over_itself() => Gen.Select(BandGen.Bands, Gen.Int[3, 40]).Sample((band, half) =>
    {
        if (band.Stitch == "cable") return;
        var piece = BandGen.Alone(band with { Ends = BandEnds.Cut }, 2 * half, 20);
        Assert.NotEmpty(Of(piece with { Bands = [piece.Bands[0], piece.Bands[0]] }, "bands-cross"));
    });

    [Fact]
    public void Repeats_that_do_not_fit_are_told_with_what_would_fit_and_the_mend_fits()
    {
        var piece = BandGen.Alone(BandGen.Band("trellis"), 38);
        var finding = Assert.Single(Of(piece, "band-repeats"));
        Assert.Equal(Severity.Note, finding.Severity);
        Assert.Contains("3 whole repeats of 10 valleys use 32 of 38 pleats", finding.Message, StringComparison.Ordinal);
        Assert.Contains("6 pleats fewer (32), 4 pleats more (42), 5 steps", finding.Remedy, StringComparison.Ordinal);
        Assert.Empty(Of(finding.Mend!.Apply(piece), "band-repeats"));
        Assert.Empty(Of(BandGen.Alone(BandGen.Band("trellis"), 42), "band-repeats"));
    }

    [Fact]
    public void Every_mend_of_repeats_mends_them() => Gen.Select(BandGen.Bands, Gen.Int[3, 60]).Sample((band, half) =>
    {
        var piece = BandGen.Alone(band, 2 * half);
        foreach (var finding in Of(piece, "band-repeats"))
            if (finding.Mend is { } mend) Assert.Empty(Of(mend.Apply(piece), "band-repeats"));
    });

    [Fact]
    public void An_accent_past_the_edge_is_an_error()
    {
        var mark = new AccentMark("bullion", Centre.At(new Valley(41)), new GatheringRow(2), Thread);
        // four pleats long on valley 41: pleats 40 to 43, one past the last, so valleys 40 to 42, the last of them off the cloth
        var finding = Assert.Single(Of(BandGen.Alone(BandGen.Band("outline"), 42) with { Accents = [mark] }, "accent-off-cloth"));
        Assert.Equal((40, 41), (finding.From.Number, finding.To.Number));
        Assert.Empty(Of(BandGen.Alone(BandGen.Band("outline"), 42) with { Accents = [mark with { Centre = Centre.At(new Valley(40)) }] }, "accent-off-cloth"));
    }

    [Fact]
    public void An_upside_down_row_of_cables_is_of_the_other_phase_and_may_not_touch_a_figure()
    {
        var bar = new Figure("bar", ["aaaaa"]);
        Piece Beside(bool upsideDown, int row) => With(BandGen.Alone(BandGen.Band("cable") with { UpsideDown = upsideDown, Drop = row }, 42), bar, 21, 2);
        Assert.Empty(Of(Beside(false, 1), "unlike-phases"));
        Assert.Empty(Of(Beside(true, 2), "unlike-phases")); // a bare row between
        var finding = Assert.Single(Of(Beside(true, 1), "unlike-phases"));
        Assert.Equal((Severity.Error, 5, 6, 19, 23), (finding.Severity, finding.Row.Index, finding.LastRow.Index, finding.From.Number, finding.To.Number));
        Assert.Empty(Of(finding.Mend!.Apply(Beside(true, 1)), "unlike-phases"));
    }

    // Whatever lies on the cloth, bands high and low of their gathering rows too.
    [Fact]
    public void A_mend_moves_nothing_onto_a_band() => BandGen.Pieces.Sample(piece =>
    {
        var before = Proofreading.Read(Work.Lay(piece));
        foreach (var finding in before.Where(f => f.Mend is not null))
        {
            var after = Proofreading.Read(Work.Lay(finding.Mend!.Apply(piece)));
            Assert.True(Counts.Of(after).Errors <= Counts.Of(before).Errors, $"{finding.Message} {finding.Mend.Words}: "
                + string.Join("; ", after.Where(f => f.Severity == Severity.Error).Select(f => f.Message).Except(before.Select(f => f.Message))));
        }
    }, iter: Long.Of(200, 1000));

    [Fact]
    public void A_band_where_no_needle_gets_between_the_pleats_is_an_error()
    {
        // by hand, as in RuleTests: row 2 of 3-row spaces on a ball of 90 pleats, 60 mm across, nine gathering rows
        Piece On(double offThickness, int row)
        {
            var piece = Drawn.Piece(3, new string('.', 89));
            var cloth = piece.Cloth with { Form = new Pleatwright.Cloth.Ball(Pleatwright.Measure.Length.FromMillimetres(60)), GatheringRows = 9 };
            var pitch = Math.PI * 60 * Math.Sin(Math.PI / 2 + (3.0 * row - 3 * 4) * cloth.Gauge.CableRowHeight.Millimetres / 30) / 90;
            var gauge = new Pleatwright.Cloth.Gauge(cloth.Gauge.Pitch, cloth.Gauge.TakeUp, cloth.Gauge.RowSpacing, 3) { PleatThickness = Pleatwright.Measure.Length.FromMillimetres(pitch + offThickness) };
            return piece with { Cloth = cloth with { Gauge = gauge }, Bands = [new Band("outline", new GatheringRow(row + 1), Thread)] };
        }

        Assert.Empty(Of(On(-1e-9, 1), "crowded-pleats"));
        var finding = Assert.Single(Of(On(1e-6, 1), "crowded-pleats"));
        Assert.Equal((Severity.Error, 3, 3, 1, 89), (finding.Severity, finding.Row.Index, finding.LastRow.Index, finding.From.Number, finding.To.Number));
        // and what cannot be stitched is not said to be backsmocked: rows 1 and 9 crowd more, row 2's like is row 8
        var unheld = Of(On(1e-6, 1) with { Bands = [] }, "unheld-row");
        Assert.Equal((6, 18), (Assert.Single(unheld).Row.Index, unheld[0].LastRow.Index));
        Assert.Equal([3, 4, 5, 6, 7], Pleatwright.Order.Planner.Plan(Work.Lay(On(1e-6, 1))).Backsmock.Rows.Select(r => r.Row.Number));
    }

    [Fact]
    public void A_band_or_an_accent_in_a_thread_like_the_cloth_hardly_shows()
    {
        var piece = BandGen.Alone(BandGen.Band("wave"), 42);
        piece = piece with { Cloth = piece.Cloth with { Colour = piece.Threads[0].Colour } };
        var band = Assert.Single(Of(piece, "thread-like-cloth"));
        Assert.Equal((5, 10, 1, 41), (band.Row.Index, band.LastRow.Index, band.From.Number, band.To.Number));
        var accent = Assert.Single(Of(piece with { Bands = [], Accents = [new AccentMark("knot", Centre.At(new Valley(9)), new GatheringRow(2), Thread)] }, "thread-like-cloth"));
        Assert.Equal((5, 9, 9), (accent.Row.Index, accent.From.Number, accent.To.Number));
        Assert.Empty(Of(piece with { Bands = [BandGen.Band("wave") with { Thread = new ThreadKey('b') }] }, "thread-like-cloth"));
    }

    [Fact]
    public void Any_piece_with_bands_is_proofed_without_fail() => BandGen.Pieces.Sample(piece =>
    {
        foreach (var finding in Proofreading.Read(Work.Lay(piece)))
        {
            Assert.InRange(finding.From.Number, 1, finding.To.Number);
            Assert.InRange(finding.Row.Index, 0, finding.LastRow.Index);
        }
    });
}
