using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Picture;
using Pleatwright.Stitched;
using Pleatwright.Tests.Chart;
using Pleatwright.Tests.Endurance;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Stitched;

/// <summary>What holds of every picture of a stitched piece.</summary>
public class StitchedLaws
{
    [Fact]
    public void As_much_cloth_is_seen_in_a_filled_area_as_the_coverage_formula_says()
    {
        for (var strands = 2; strands <= 6; strands++)
            for (var rows = 3; rows <= 7; rows++)
            {
                var close = strands == 4 || rows == 5; // from close by it takes seven times as long
                var piece = new StitchedPiece(StitchedWorks.Filled("#b3202c", strands, rows));
                var said = Math.Max(0, 1 - Coverage.OfLine(piece.Work.Piece.Threads[0], piece.Work.Pleating.Gauge.LineHeight));
                foreach (var scale in close || Long.IsWhole ? (ReadOnlySpan<double>)[6, 16] : [6])
                {
                    var seen = StitchedWorks.ClothSeen(piece, StitchedWorks.Inside(piece), scale);
                    Assert.True(Math.Abs(seen - said) <= 0.03, $"{strands} strands, {rows} rows, {scale} pixels to a millimetre: {seen:0.000} of cloth seen, {said:0.000} by the formula");
                }
            }
    }

    [Theory]
    [InlineData("#b3202c"), InlineData("#1f4e79"), InlineData("#3f7f78"), InlineData("#ffffff"), InlineData("#f5d020"), InlineData("#808080"), InlineData("#202020"), InlineData("#101018"), InlineData("#e08020"), InlineData("#f0c8d0"), InlineData("#5a3a20"), InlineData("#000000")]
    public void A_filled_area_has_its_threads_own_colour(string colour)
    {
        // So that no cloth is seen; where some is, it is of the cloth's colour by right.
        foreach (var (strands, rows, perInch) in (ReadOnlySpan<(int, int, double)>)[(6, 5, 12), (5, 6, 12), (4, 6, 18)])
            foreach (var scale in rows == 5 || Long.IsWhole ? (ReadOnlySpan<double>)[2, 6, 16] : [2, 6])
            {
                var piece = new StitchedPiece(StitchedWorks.Filled(colour, strands, rows, perInch));
                var inside = StitchedWorks.Inside(piece);
                var mean = StitchedWorks.Mean(StitchedWorks.Paint(piece, (int)(inside.Width * scale), inside));
                var off = ColourDifference.Between(Lab.From(mean), Lab.From(Colour.Parse(colour)));
                Assert.True(off <= 3, $"{colour}, {strands} strands, {rows} rows, {scale} pixels to a millimetre: off by {off:0.0}, {mean.ToColour()}");
            }
    }

    [Fact]
    public void The_brighter_the_light_the_brighter_the_picture_everywhere()
    {
        var piece = new StitchedPiece(StitchedWorks.Example("harbour-wall"));
        Raster? before = null;
        foreach (var strength in (ReadOnlySpan<float>)[0, 0.3f, 0.6f, 0.8f, 1, 1.3f])
        {
            var picture = StitchedWorks.Paint(piece, 240, light: Light.UpperLeft with { Strength = strength });
            if (strength == 0) Assert.True(StitchedWorks.Mean(picture).Luminance < 1e-6);
            if (before is not null)
            {
                Assert.True(StitchedWorks.Mean(picture).Luminance > StitchedWorks.Mean(before).Luminance * 1.04);
                for (var i = 0; i < picture.Rgba.Length; i++) Assert.True(picture.Rgba[i] >= before.Rgba[i]);
            }
            before = picture;
        }
    }

    [Fact]
    public void No_place_of_the_cloth_gives_back_more_light_than_falls_on_it()
    {
        // A white cloth under the usual light: no more than white on the whole, and the valleys much less.
        var work = StitchedWorks.Example("harbour-morning");
        work = Smocking.Lay(work.Piece with { Cloth = work.Piece.Cloth with { Colour = Colour.White }, Placements = [], Bands = [] });
        var mean = StitchedWorks.Mean(StitchedWorks.Paint(work, 700)).Luminance;
        Assert.InRange(mean, 0.5, 0.95);
    }

    [Theory]
    [InlineData("harbour-wall"), InlineData("net-float"), InlineData("quay-bishop")]
    public void The_same_piece_gives_the_same_picture_every_time_and_in_every_part(string example)
    {
        var wide = Long.Of(200, 300);
        var first = StitchedWorks.Paint(StitchedWorks.Example(example), wide);
        Assert.True(first.Rgba.SequenceEqual(StitchedWorks.Paint(StitchedWorks.Example(example), wide).Rgba));
        // One thread at a time, as in the browser, from the last band up.
        var piece = new StitchedPiece(StitchedWorks.Example(example));
        var painter = new Painter(piece, piece.Whole, wide);
        var rgba = new byte[4 * painter.Wide * painter.High];
        var relief = painter.NewRelief();
        for (var band = painter.Bands - 1; band >= 0; band--) painter.PaintBand(band, relief, rgba);
        Assert.True(first.Rgba.SequenceEqual(rgba));
    }

    [Fact]
    public void Any_piece_at_any_width_is_painted_and_every_figure_is_framed_whole()
    {
        Gen.Select(AnyWorks, Gen.Int[1, 260]).Sample((work, wide) =>
        {
            var piece = new StitchedPiece(work);
            var whole = piece.Whole;
            foreach (var thing in Framing.Things(piece)) Assert.True(whole.Holds(thing.Box), $"{thing} is cut by {whole}");
            if (whole.PixelsHigh(wide) <= 2000) Assert.Equal(wide, StitchedWorks.Paint(piece, wide).Width);
            var frame = Framing.Of(piece, "figure");
            var seen = Framing.Things(piece).Where(t => t.Figure == "figure").ToList();
            Assert.Equal(seen.Count > 0, frame is not null);
            if (frame is not { } f) return;
            Assert.True(whole.Holds(f));
            Assert.Contains(seen, t => f.Holds(t.Box));
            foreach (var thing in Framing.Things(piece)) Assert.True(Framing.Shows(f, thing), $"{thing} is cut by {f}");
            if (f.PixelsHigh(wide) <= 2000) StitchedWorks.Paint(piece, wide, f);
        }, iter: Long.Of(20, 200));
    }

    [Fact]
    public void A_figure_stays_on_the_pleats_it_is_worked_over_however_they_are_drawn_together()
    {
        AnyWorks.Sample(work =>
        {
            var piece = new StitchedPiece(work);
            // There and back again: what lies at a place of the cloth is found there in the picture.
            foreach (var stitch in piece.Stitches.Span[..Math.Min(40, piece.Stitches.Length)])
            {
                if (!piece.IsSeen(stitch)) continue;
                float across = (stitch.Across + stitch.ToAcross) / 2, down = (stitch.Down + stitch.ToDown) / 2;
                var at = piece.Field.Place(across, down);
                var back = piece.Field.Locate(at.X, at.Y);
                Assert.NotNull(back);
                Assert.InRange(back.Value.Across, across - 0.05f, across + 0.05f);
                Assert.InRange(back.Value.Down, down - 0.05f, down + 0.05f);
            }
            // Pleats keep their order.
            for (var down = piece.Field.Top; down < 2 * work.CableRows; down += 3)
                for (var p = 1; p <= work.Pleating.Pleats; p++)
                    Assert.True(p + piece.Field.ShiftAt(p, down) > p - 1 + piece.Field.ShiftAt(p - 1, down) + 0.5f);
        }, iter: 60);
    }

    [Fact]
    public void A_ball_and_a_bishop_are_seen_whole_in_their_own_shape()
    {
        foreach (var name in (string[])["net-float", "quay-bishop"])
        {
            var piece = new StitchedPiece(StitchedWorks.Example(name));
            var whole = piece.Whole;
            var relief = new Painter(piece, whole, 120).NewRelief();
            // A margin of what it lies on all round, and cloth on every side within it.
            double across = whole.X + whole.Width / 2, down = whole.Y + whole.Height / 2;
            for (var i = 0; i <= 40; i++)
            {
                double x = whole.X + whole.Width * i / 40, y = whole.Y + whole.Height * i / 40;
                foreach (var (px, py) in (ReadOnlySpan<(double, double)>)[(x, whole.Y + 0.1), (x, whole.Bottom - 0.1), (whole.X + 0.1, y), (whole.Right - 0.1, y)])
                    Assert.False(relief.HasCloth(new((float)px, (float)py)), $"{name} reaches the edge of its picture");
            }
            foreach (var (px, py) in (ReadOnlySpan<(double, double)>)[(across, whole.Y + 0.08 * whole.Height), (across, whole.Bottom - 0.08 * whole.Height), (whole.X + 0.08 * whole.Width, down), (whole.Right - 0.08 * whole.Width, down)])
                Assert.True(relief.HasCloth(new((float)px, (float)py)), $"{name} lies not in the middle of its picture");
        }
    }

    [Fact]
    public void Where_a_bishop_closes_no_line_is_seen()
    {
        // Along the closing valley it is as light as along the valleys of the other pleats.
        var work = StitchedWorks.Example("quay-bishop");
        work = Smocking.Lay(work.Piece with { Placements = [], Bands = [], Accents = [] });
        var piece = new StitchedPiece(work);
        Assert.True(piece.Field.Surface.Closes);
        const double scale = 6;
        var frame = piece.Whole;
        var picture = StitchedWorks.Paint(piece, (int)(frame.Width * scale / 4), frame with { X = frame.X + frame.Width * 3 / 8, Width = frame.Width / 4, Height = frame.Height / 4 });
        var shown = frame with { X = frame.X + frame.Width * 3 / 8, Width = frame.Width / 4, Height = frame.Height / 4 };
        var of = Enumerable.Range(-6, 13).Select(AlongValley).ToList();
        var others = of.Where((_, i) => i != 6).ToList();
        Assert.InRange(of[6], others.Min() * 0.93, others.Max() * 1.07);

        // The mean light along a valley so many from where it closes, across two thirds of a pleat.
        double AlongValley(int valley)
        {
            double sum = 0;
            var n = 0;
            for (var down = 20f; down < 2 * work.CableRows; down += 0.5f)
                for (var beside = -0.3f; beside <= 0.3f; beside += 0.1f)
                {
                    var at = piece.Field.Place((valley + beside + piece.Field.Pleats) % piece.Field.Pleats, down);
                    int x = (int)((at.X - shown.X) * picture.Width / shown.Width), y = (int)((at.Y - shown.Y) * picture.Height / shown.Height);
                    if (x < 0 || y < 0 || x >= picture.Width || y >= picture.Height) continue;
                    var p = picture.Row(y).Slice(4 * x, 3);
                    sum += LinearRgb.From(new Colour(p[0], p[1], p[2])).Luminance;
                    n++;
                }
            Assert.True(n > 200);
            return sum / n;
        }
    }

    private static readonly Gen<Work> AnyWorks = Gen.Select(PieceGen.Pieces, Gen.Int[0, 4], Gen.Int[0, BandStitch.All.Length - 1], Gen.Int[0, Accent.All.Length - 1]).Select((piece, form, stitch, accent) =>
    {
        if (form == 3 && new Ball(Length.FromInches(4)).MostRows(piece.Cloth.Gauge) is var most && most >= 2)
            piece = piece with { Cloth = piece.Cloth with { Form = new Ball(Length.FromInches(4)), GatheringRows = Math.Min(piece.Cloth.GatheringRows, most) } };
        if (form == 4) piece = piece with { Cloth = piece.Cloth with { Form = new Round(Length.FromInches(6), Angle.FromDegrees(piece.Placements[0].Mirror ? 360 : 200), [new RoundPanel("front", piece.Cloth.Gauge.TakeUp * 60), new RoundPanel("back", piece.Cloth.Gauge.TakeUp * 60)]) } };
        var row = new GatheringRow(Math.Min(2, piece.Cloth.GatheringRows));
        piece = piece with { Bands = [.. piece.Bands, new Band(BandStitch.All[stitch].Name, row, new ThreadKey('c'))], Accents = [new AccentMark(Accent.All[accent].Name, Centre.Middle, row, new ThreadKey('a')) { Repeat = new Repeat(2, 9) }] };
        return PleatingPlan.Fault(piece.Cloth) is null ? Smocking.Lay(piece) : null;
    }).Where(w => w is not null).Select(w => w!);
}
