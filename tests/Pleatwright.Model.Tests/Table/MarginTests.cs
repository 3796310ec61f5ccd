using CsCheck;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;
using Pleatwright.Proof;
using Pleatwright.Tests.Drafts;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Table;

/// <summary>The notes in the margin: which are shown, chosen, ringed and mended.</summary>
public class MarginTests
{
    private sealed class Cloth : ICloth
    {
        public (Valley, CableRow)? Seen { get; private set; }

        public Sight? Sight => null;

        public void Zoom(double factor) { }

        public void ZoomAt(double factor, double x, double y) { }

        public void Pan(double x, double y) { }

        public void Fit() { }

        public void Reveal(Valley valley, CableRow row, bool inMiddle) => Seen = (valley, row);
    }

    [Fact]
    public void Whatever_is_pressed_and_edited_notes_have_keys_of_their_own_and_rings_are_theirs() =>
        Gen.Select(Gen.Int[0, 3], Gen.Select(Gen.Int[0, 3], Gen.Int[-1, 45]).Array[1, 12]).Sample((at, acts) =>
        {
            var (desk, needle) = Tables.Set(Tables.All[at]);
            using var margin = new Margin(desk, needle);
            foreach (var (act, number) in acts)
            {
                switch (act)
                {
                    case 0: margin.Point(number, number % 2 == 0 ? new Cloth() : null); break;
                    case 1: margin.Mend(number); break;
                    case 2: Tables.Meanwhile(desk, Math.Abs(number) % Tables.Others); break;
                    default: desk.Edit("a knot more", p => p.Threads.IsEmpty ? p : p with { Accents = p.Accents.Add(new("knot", Centre.At(new Valley(Math.Abs(number) + 1)), new GatheringRow(2), p.Threads[0].Key)) }); break;
                }
                Assert.Equal(desk.Findings.Length, margin.Notes.Length + margin.More);
                Assert.Equal(margin.Notes.Length, margin.Notes.Select(n => n.Key).Distinct().Count());
                Assert.Equal(margin.Notes.Length * 5, margin.Rings().Length);
                Assert.InRange(margin.Chosen, -1, margin.Notes.Length - 1);
                Assert.Equal(desk.Findings.Length == 0, margin.Count == "Nothing to mend.");
                Tables.Holds(desk.Piece);
            }
        }, iter: 200, threads: 1);

    [Fact]
    public void Two_bands_that_lie_alike_are_told_apart()
    {
        var band = new Band("trellis", new GatheringRow(5), new ThreadKey('b')) { Rows = 4 };
        var (desk, needle) = Tables.Set(Tables.Full with { Bands = [band, band, band] });
        using var margin = new Margin(desk, needle);
        Assert.NotEmpty(margin.Notes);
        Assert.Equal(margin.Notes.Length, margin.Notes.Select(n => n.Key).Distinct().Count());
    }

    [Fact]
    public void A_note_pressed_takes_the_hand_to_its_place_and_pressed_again_is_let_go()
    {
        var (desk, needle) = Tables.Set(Tables.Full with { Bands = [], Placements = [new Placement("left over", Centre.At(new Valley(30)), new GatheringRow(2), 0)] });
        using var margin = new Margin(desk, needle);
        var cloth = new Cloth();
        margin.Point(0, cloth);
        var finding = margin.Notes[0].Finding;
        Assert.Equal(0, margin.Chosen);
        Assert.Equal(finding.Row, needle.Row);
        Assert.InRange(needle.Valley.Number, finding.From.Number, finding.To.Number);
        Assert.NotNull(cloth.Seen);
        margin.Point(0, cloth);
        Assert.Equal(-1, margin.Chosen);
    }

    [Fact]
    public void Counts_are_said_with_what_there_is()
    {
        Assert.Equal("1 error, 2 notes", new Counts(1, 0, 2).Say());
        Assert.Equal("1 error, 0 warnings, 2 notes", new Counts(1, 0, 2).Say(withNone: true));
    }
}
