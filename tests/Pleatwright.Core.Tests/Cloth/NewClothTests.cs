using CsCheck;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Tests.Cloth;

public class NewClothTests
{
    private static readonly Gen<NewCloth> Answers =
        from form in Gen.Int[0, FormKind.All.Length - 1].Select(i => FormKind.All[i])
        from kind in Gen.Enum<ClothKind>()
        from width in Gen.Double[2, 20]
        from eighths in Gen.Int[2, 6]
        from depth in Gen.Double[0.5, 8]
        from says in Gen.Bool
        select new NewCloth(form, Length.FromInches(width))
        {
            Kind = kind,
            RowSpacing = Length.FromInches(eighths / 8.0),
            Depth = says ? Length.FromInches(depth) : null,
        };

    [Fact]
    public void Any_answers_give_a_cloth_that_can_be_made() => Answers.Sample(answers =>
    {
        var plan = new PleatingPlan(answers.Plan());
        Assert.Equal(0, plan.Pleats % 2);
        Assert.True(plan.Cloth.GatheringRows >= 2);
        Assert.Equal(plan.Pleats, plan.Shares.Sum(s => s.Pleats));
        // Every form begins with the pleats the width holds at the gauge: a bishop's neck, a ball's equator too.
        var round = answers.Form == BallKind.One ? answers.Width * Math.PI : answers.Width;
        Assert.InRange(plan.Pleats - round / plan.Gauge.Pitch, -1 - 1e-6, 1 + 1e-6);
    });

    [Fact]
    public void Panels_shared_out_hold_the_pleats_of_the_neck_whatever_the_edges() =>
        (from answers in Answers
         from seam in Gen.Int[0, 8]
         from ravelling in Gen.Int[0, 8]
         from selvedges in Gen.Int[0, 8]
         from pleats in Gen.Int[0, 6]
         select (answers: answers with { Form = RoundKind.One }, seam, ravelling, selvedges, pleats)).Sample(t =>
        {
            var cloth = t.answers.Plan(c => c with
            {
                Seam = Length.FromInches(t.seam / 16.0), Ravelling = Length.FromInches(t.ravelling / 8.0),
                Selvedges = Length.FromInches(t.selvedges / 8.0), SeamPleats = t.pleats,
            });
            Assert.Equal(Form.RoundToEven(t.answers.Width / cloth.Gauge.Pitch + 1e-9), new PleatingPlan(cloth).Pleats);
            // Joins fall so that both sides are alike.
            var shares = new PleatingPlan(cloth).Shares;
            Assert.Equal(shares.Select(s => s.Pleats), shares.Reverse().Select(s => s.Pleats));
        });

    [Fact]
    public void What_is_settled_besides_stays()
    {
        var gauge = Gauge.FromPleatsPerInch(11, Length.FromInches(0.25), Length.FromInches(0.5), 4);
        var cloth = new NewCloth(BallKind.One, Length.FromInches(3)) { Gauge = gauge, Rows = 5 }.Plan(c => c with { SeamPleats = 1, HoldingRowsAbove = 0, Pleater = new Pleater(4, 1) });
        Assert.Equal((gauge, 5, 1, 0, new Pleater(4, 1)), (cloth.Gauge, cloth.GatheringRows, cloth.SeamPleats, cloth.HoldingRowsAbove, cloth.Pleater));
        Assert.IsType<Ball>(cloth.Form);
        Assert.Throws<ArgumentOutOfRangeException>(() => new NewCloth(BallKind.One, Length.FromInches(3)) { Gauge = gauge, Rows = 100 }.Plan());
    }

    [Fact]
    public void A_ball_is_gathered_as_far_as_its_pleats_have_room() => Answers.Where(a => a.Form == BallKind.One && a.Depth is null).Sample(answers =>
    {
        var cloth = answers.Plan();
        if (cloth.GatheringRows == 2) return;
        Assert.True(new PleatingPlan(cloth).PitchAt(0) >= cloth.Gauge.PleatThickness);
        var more = cloth with { GatheringRows = cloth.GatheringRows + 1 };
        Assert.True(cloth.Form.Fault(more) is not null || new PleatingPlan(more).PitchAt(0) < cloth.Gauge.PleatThickness);
    });

    // Batiste 4 to 5, broadcloth 3 to 4, corduroy 2.5: common practice, no source. Coarse check 4 to 4 1/2: The Priscilla
    // Smocking Book, 1916.
    [Theory]
    [InlineData(ClothKind.Batiste, 4, 5)]
    [InlineData(ClothKind.Broadcloth, 3, 4)]
    [InlineData(ClothKind.CoarseCheck, 4, 4.5)]
    [InlineData(ClothKind.Corduroy, 2.5, 2.5)]
    public void A_new_panel_has_the_fullness_of_its_cloth(ClothKind kind, double least, double most)
    {
        var cloth = new NewCloth(PanelKind.One, Length.FromInches(11)) { Kind = kind }.Plan();
        Assert.InRange(new PleatingPlan(cloth).Fullness, least - 1e-9, most + 1e-9);
        Assert.Empty(Practice.Remarks(cloth, UnitSystem.Inches));
        Assert.Equal(9, cloth.GatheringRows);
        cloth = new NewCloth(PanelKind.One, Length.FromInches(11)) { Kind = kind, Coming = Coming.GeometricRows }.Plan();
        Assert.InRange(new PleatingPlan(cloth).Fullness, least - 1e-9, most + 1e-9);
        Assert.Empty(Practice.Remarks(cloth, UnitSystem.Inches));
    }

    // Packed pleats, 16 to 20 an inch, gathered about 4 to 1, for pictures; 12 an inch of 1/4 in for geometric rows (common practice, no source).
    [Fact]
    public void A_new_panel_begins_from_what_will_be_stitched()
    {
        var pictures = new NewCloth(PanelKind.One, Length.FromInches(11)).Plan();
        Assert.InRange(pictures.Gauge.PleatsPerInch, 16, 20);
        Assert.Equal(4, pictures.Gauge.Fullness, 6);
        Assert.Equal(Length.FromInches(0.2), pictures.Gauge.TakeUp);
        var rows = new NewCloth(PanelKind.One, Length.FromInches(11)) { Coming = Coming.GeometricRows }.Plan();
        Assert.Equal((12, 3), (Math.Round(rows.Gauge.PleatsPerInch, 6), Math.Round(rows.Gauge.Fullness, 6)));
        Assert.Equal(Length.FromInches(0.25), rows.Gauge.TakeUp);
    }

    // Clothing-construction textbook for home economics, c. 1916, section "Smocking": dots 1/8 to 3/8 in, rows 3/8 to
    // 3/4 in, about one fourth. Educational Needlecraft, 1911, "Smocking": gauging rows 1/2 to 3/4 in, so within it.
    [Fact]
    public void What_lies_outside_the_books_is_remarked_on()
    {
        ClothPlan With(double pitch, double takeUp, double rows) => new(new Panel(Length.FromInches(11)),
            new Gauge(Length.FromInches(pitch), Length.FromInches(takeUp), Length.FromInches(rows), 5), 5);

        Assert.Empty(Practice.Remarks(With(1 / 16.0, 1 / 4.0, 3 / 8.0), UnitSystem.Inches)); // one fourth
        Assert.Empty(Practice.Remarks(With(3 / 16.0, 3 / 4.0, 3 / 4.0), UnitSystem.Inches));
        Assert.Empty(Practice.Remarks(With(1 / 16.0, 1 / 4.0, 1 / 2.0), UnitSystem.Inches));
        Assert.Equal(["Dots 1/16 in apart are out of the common run of 1/8 in to 3/8 in."], Practice.Remarks(With(1 / 24.0, 1 / 8.0, 3 / 8.0), UnitSystem.Inches));
        Assert.Equal(["Gathering rows 1 in apart are out of the common run of 3/8 in to 3/4 in."], Practice.Remarks(With(1 / 16.0, 1 / 4.0, 1), UnitSystem.Inches));
        Assert.Equal(["A fullness of 2.0 is out of the common run of 2.5 for corduroy to 5 for batiste."], Practice.Remarks(With(1 / 8.0, 1 / 4.0, 3 / 8.0), UnitSystem.Inches));
    }

    [Fact]
    public void Answers_out_of_range_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new NewCloth(PanelKind.One, Length.Zero).Plan());
        Assert.Throws<ArgumentOutOfRangeException>(() => new NewCloth(PanelKind.One, Length.FromInches(5)) { Depth = Length.Zero }.Plan());
        Assert.Throws<ArgumentOutOfRangeException>(() => new NewCloth(PanelKind.One, Length.FromInches(5)) { RowSpacing = Length.Zero }.Plan());
        Assert.Throws<ArgumentOutOfRangeException>(() => new NewCloth(BallKind.One, Length.FromInches(0.2)).Plan());
        Assert.Throws<ArgumentOutOfRangeException>(() => new NewCloth(PanelKind.One, Length.FromMetres(100)).Plan());
    }
}
