using CsCheck;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Tests.Cloth;

public class FormTests
{
    private static readonly Gen<Gauge> Gauges =
        from perInch in Gen.Double[6, 20]
        from fullness in Gen.Double[1.5, 6]
        from rows in Gen.Double[0.25, 0.75]
        select Gauge.FromPleatsPerInch(perInch, Length.FromInches(fullness / perInch), Length.FromInches(rows), 5);

    private static readonly Gen<ClothPlan> Panels =
        from gauge in Gauges
        from width in Gen.Double[1, 60]
        select new ClothPlan(new Panel(Length.FromInches(width)), gauge, 9);

    private static readonly Gen<ClothPlan> Rounds =
        from gauge in Gauges
        from neck in Gen.Double[6, 20]
        from sweep in Gen.Double[60, 360]
        from cuts in Gen.Double[8, 44].Array[1, 6]
        from seam in Gen.Double[0, 0.6]
        from seamPleats in Gen.Int[0, 5]
        from rows in Gen.Int[2, 20]
        select new ClothPlan(
            new Round(Length.FromInches(neck), Angle.FromDegrees(sweep), [.. cuts.Select((c, i) => new RoundPanel($"panel {i}", Length.FromInches(c)))]),
            gauge, rows)
        { Seam = Length.FromInches(seam), SeamPleats = seamPleats };

    private static readonly Gen<ClothPlan> Balls =
        from gauge in Gauges
        from diameter in Gen.Double[1.5, 8]
        from share in Gen.Double[0.1, 1]
        let most = (int)(Math.PI / 2 * diameter / gauge.RowSpacing.Inches)
        select new ClothPlan(new Ball(Length.FromInches(diameter)), gauge, Math.Max(2, (int)(share * most)));

    [Fact]
    public void Finished_width_to_pleats_and_back_is_within_one_pitch() => Panels.Sample(cloth =>
    {
        var plan = new PleatingPlan(cloth);
        var asked = ((Panel)cloth.Form).Width;
        Assert.Equal(0, plan.Pleats % 2);
        Assert.True(Math.Abs((plan.FinishedWidth - asked) / cloth.Gauge.Pitch) <= 1 + 1e-6);
        Assert.Equal(plan.Pleats, new PleatingPlan(cloth with { Form = new Panel(plan.FinishedWidth) }).Pleats);
    });

    [Fact]
    public void A_wider_panel_never_has_fewer_pleats_nor_takes_less_cloth() =>
        Gen.Select(Panels, Gen.Double[0, 5]).Sample((cloth, more) =>
        {
            var wider = cloth with { Form = new Panel(((Panel)cloth.Form).Width + Length.FromInches(more)) };
            Assert.True(new PleatingPlan(wider).Pleats >= new PleatingPlan(cloth).Pleats);
            Assert.True(new PleatingPlan(wider).CutWidth >= new PleatingPlan(cloth).CutWidth);
        });

    [Fact]
    public void The_common_panel_of_eleven_inches()
    {
        // 11 in at 12 an inch: 132 pleats; with 3 seam pleats at each side 138 quarter inches: 34 1/2 in.
        var plan = new PleatingPlan(new ClothPlan(new Panel(Length.FromInches(11)), Gauge.Common, 9));
        Assert.Equal(132, plan.Pleats);
        Assert.Equal(34.5, plan.CutWidth.Inches, 9);
        Assert.Equal(3, plan.Fullness, 9);
        Assert.Equal([new PanelShare("panel", plan.CutWidth, 1, 132)], plan.Shares);
    }

    [Fact]
    public void A_bishop_worked_by_hand()
    {
        // Four panels of 30, 12, 12 and 30 in with 3/8 in seams: 84 in less six allowances, 81.75 in: 327 quarter inches.
        // Three seam pleats at each side leave 321, and an even count 320.
        var cloth = new ClothPlan(
            new Round(Length.FromInches(11), Angle.FullTurn,
            [
                new("left back", Length.FromInches(30)), new("sleeve", Length.FromInches(12)),
                new("sleeve", Length.FromInches(12)), new("right back", Length.FromInches(30)),
            ]),
            Gauge.Common, 6)
        { Seam = Length.FromInches(0.375) };
        var plan = new PleatingPlan(cloth);
        Assert.Equal(320, plan.Pleats);
        Assert.Equal(84, plan.CutWidth.Inches, 9);
        // Joins at 29.625, 40.875 and 52.125 in: quarter inches 118.5, 163.5 and 208.5, less 3 seam pleats; each to the nearest even count.
        Assert.Equal([(1, 116), (117, 160), (161, 206), (207, 320)], plan.Shares.Select(s => (s.First, s.Last)));
        Assert.Equal(11.0 / 320, plan.PitchAt(0).Inches, 12);
        Assert.Equal((11 + 2 * Math.PI * 5 * 0.375) / 320, plan.PitchAt(25).Inches, 12);
    }

    [Fact]
    public void Panels_add_up_to_the_pleats_of_a_bishop() => Rounds.Where(c => c.Form.Fault(c) is null).Sample(cloth =>
    {
        var plan = new PleatingPlan(cloth);
        Assert.Equal(0, plan.Pleats % 2);
        Assert.Equal(plan.Pleats, plan.Shares.Sum(s => s.Pleats));
        Assert.Equal(1, plan.Shares[0].First);
        Assert.Equal(plan.Pleats, plan.Shares[^1].Last);
        Assert.All(plan.Shares.Zip(plan.Shares.Skip(1)), p => Assert.Equal(p.First.Last + 1, p.Second.First));
        // Never more pleats than the cloth holds, and no more than one pair of pleats left over.
        var held = ((Round)cloth.Form).JoinedWidth(cloth) / cloth.Gauge.TakeUp;
        Assert.InRange(held - plan.PleatsToGather, -1e-6, 2);
    });

    [Fact]
    public void Joins_fall_within_a_pleat_of_the_seam_in_the_flat_cloth() => Rounds.Where(c => c.Form.Fault(c) is null).Sample(cloth =>
    {
        var round = (Round)cloth.Form;
        var shares = new PleatingPlan(cloth).Shares;
        var flat = 0.0;
        for (var i = 0; i < shares.Length - 1; i++)
        {
            flat += (round.Panels[i].Cut - cloth.Seam * (i == 0 ? 1 : 2)) / cloth.Gauge.TakeUp;
            var meant = Math.Clamp(flat - cloth.SeamPleats, shares[i].First - 1, shares[^1].Last);
            Assert.InRange(Math.Abs(shares[i].Last - meant), 0, 1 + 1e-6);
        }
    });

    // The blocked yoke is a sector of an annulus, or rolled up the frustum of a cone: its area by the pitch of the pleats
    // must be that of the closed form, (r1 + r2)/2 × sweep × slant (mensuration of the frustum of a cone).
    [Fact]
    public void The_pleats_of_a_bishop_fill_a_sector_of_an_annulus() => Rounds.Where(c => c.Form.Fault(c) is null).Sample(cloth =>
    {
        var round = (Round)cloth.Form;
        var plan = new PleatingPlan(cloth);
        double inner = round.Neck.Millimetres / round.Sweep.Radians, slant = plan.Depth.Millimetres;
        var closed = (inner + inner + slant) / 2 * round.Sweep.Radians * slant;
        Assert.Equal(1, Area(plan) / closed, 6);
    });

    // Archimedes, On the Sphere and Cylinder I: a zone of a sphere has the area of the cylinder about it, πD × height.
    [Fact]
    public void The_pleats_of_a_ball_fill_a_zone_of_a_sphere() => Balls.Sample(cloth =>
    {
        var ball = (Ball)cloth.Form;
        var plan = new PleatingPlan(cloth);
        double d = ball.Diameter.Millimetres, half = plan.Depth.Millimetres / 2;
        var height = d * Math.Sin(half / (d / 2));
        Assert.Equal(1, Area(plan) / (Math.PI * d * height), 4);
    });

    [Fact]
    public void A_ball_of_three_inches()
    {
        // πD = 9.4248 in at 12 an inch: 113.1, so 114 pleats; 5 rows 3/8 in apart about the equator.
        var cloth = new ClothPlan(new Ball(Length.FromInches(3)), Gauge.Common, 5);
        var plan = new PleatingPlan(cloth);
        Assert.Equal(114, plan.Pleats);
        Assert.Equal(Math.PI * 3 / 114, plan.PitchAt(10).Inches, 12); // row 3 lies on the equator
        Assert.Equal(90, ((Ball)cloth.Form).PolarAngleAt(cloth, plan.Depth / 2).Degrees, 9);
        Assert.Equal(Math.PI * 3 * Math.Cos(0.75 / 1.5) / 114, plan.PitchAt(0).Inches, 12);
        Assert.Equal(plan.PitchAt(0).Inches, plan.PitchAt(20).Inches, 12);
    }

    [Fact]
    public void Rows_that_span_the_meridian_begin_and_end_at_the_poles()
    {
        var spacing = Length.FromInches(Math.PI * 3 / 2 / 12);
        var cloth = new ClothPlan(new Ball(Length.FromInches(3)), new Gauge(Gauge.Common.Pitch, Gauge.Common.TakeUp, spacing, 5), 13);
        var plan = new PleatingPlan(cloth);
        Assert.Equal(0, plan.PitchAt(0).Millimetres, 9);
        Assert.Equal(0, plan.PitchAt(60).Millimetres, 9);
        Assert.NotNull(cloth.Form.Fault(cloth with { GatheringRows = 14 }));
    }

    // Clothing-construction textbook for home economics, c. 1916, section "Smocking": dots 1/8 to 3/8 in apart, rows 3/8
    // to 3/4 in, cloth drawn up to about one fourth; and 3:1 at 12 an inch is common practice.
    [Fact]
    public void The_common_gauge_lies_within_the_textbook()
    {
        Assert.InRange(Gauge.Common.TakeUp.Inches / 2, 1.0 / 8 - 1e-9, 3.0 / 8);
        Assert.InRange(Gauge.Common.RowSpacing.Inches, 3.0 / 8 - 1e-9, 3.0 / 4);
        Assert.Equal(3, Gauge.Common.Fullness, 9);
    }

    // From less than an atom to the way to the moon: a cloth is refused in words or can be reckoned with to the end.
    private static readonly Gen<Length> AnyLength = Gen.Select(Gen.Double[-13, 12], Gen.Bool).Select((power, inches) =>
        inches ? Length.FromInches(Math.Pow(10, power)) : Length.FromMillimetres(Math.Pow(10, power)));

    private static readonly Gen<ClothPlan> AnyCloth =
        from lengths in AnyLength.Array[9]
        from form in Gen.Int[0, 2]
        from sweep in Gen.Double[-6, 2.55]
        from counts in Gen.Select(Gen.Int[1, 20], Gen.Int[2, 5001], Gen.Int[0, 101], Gen.Int[0, 21])
        from usual in Gen.Bool.Array[6] // else nearly all of them would be refused
        let pitch = usual[0] ? Gauge.Common.Pitch : lengths[0]
        let takeUp = usual[1] ? pitch * 3 : pitch + lengths[1]
        where pitch > Length.Zero && lengths[2] > Length.Zero && lengths[3] > Length.Zero
        select new ClothPlan(
            form switch
            {
                0 => new Panel(lengths[3]),
                1 => new Ball(lengths[3]),
                _ => new Round(lengths[3], Angle.FromDegrees(Math.Pow(10, sweep)), [new("one", lengths[4]), new("two", lengths[5])]),
            },
            new Gauge(pitch, takeUp, usual[2] ? Gauge.Common.RowSpacing : lengths[2], counts.Item1), usual[3] ? 3 : counts.Item2)
        {
            SeamPleats = usual[4] ? 3 : counts.Item3, HoldingRowsAbove = usual[5] ? 1 : counts.Item4,
            FabricWidth = usual[0] ? Length.FromInches(44) : lengths[6], Seam = usual[1] ? Length.Zero : lengths[7], Selvedges = usual[2] ? Length.Zero : lengths[8],
        };

    [Fact]
    public void However_great_or_small_a_cloth_is_refused_in_words_or_can_be_reckoned_with() => AnyCloth.Sample(cloth =>
    {
        if (PleatingPlan.Fault(cloth) is { } fault)
        {
            Assert.False(char.IsUpper(fault.Words[0]) || fault.Words.EndsWith('.'), fault.Words);
            return;
        }
        var plan = new PleatingPlan(cloth);
        Assert.Equal(plan.Pleats, plan.Shares.Sum(s => s.Pleats));
        Assert.InRange(plan.FabricWidths, 1, PleatingPlan.MostWidths);
        Assert.All(plan.Joins, j => Assert.NotEmpty(ClothWords.ValleyWords(j.Valley, plan)));
        Assert.NotEmpty(ClothWords.Of(plan, UnitSystem.Both));
        Assert.NotNull(Practice.Remarks(cloth, UnitSystem.Both).ToString());
    }, iter: 5000);

    private static double Area(PleatingPlan plan)
    {
        const int steps = 400;
        var step = plan.Depth.Millimetres / steps;
        var area = 0.0;
        for (var i = 0; i < steps; i++)
            area += plan.Pleats * plan.Cloth.Form.PitchAt(plan.Cloth, Length.FromMillimetres((i + 0.5) * step)).Millimetres * step;
        return area;
    }
}
