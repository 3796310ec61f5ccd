using CsCheck;
using Pleatwright.Bench.Model;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Proof;
using Pleatwright.Tests.Chart;
using Pleatwright.Tests.Chart.Edit;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Table;

/// <summary>The proof at the table: quiet while the hand draws, faults before notes, one fault told once however often it lies there.</summary>
public class MarginTests
{
    private sealed class Cloth : ICloth
    {
        public Pane? Free => null;

        public (Valley, CableRow)? Seen { get; private set; }

        public Sight? Sight => null;

        public void Zoom(double factor) { }

        public void ZoomAt(double factor, double x, double y) { }

        public void Pan(double x, double y) { }

        public void Fit() { }

        public void Reveal(Valley valley, CableRow row, bool inMiddle) => Seen = (valley, row);
    }

    // A figure with one lone cable above it, in seven copies.
    private static readonly Piece Seven = new("Seven", new ClothPlan(new Panel(Length.FromInches(12)), Gauge.Common, 5), PieceGen.Threads,
        [new Figure("buoy", ["....a....", ".........", ".aaaaaaa.", "aaaaaaaaa", "aaaaaaaaa"])],
        [new Placement("buoy", Centre.Middle, new GatheringRow(3), 3) { Repeat = new Repeat(7, 18) }]) { Back = Backsmocking.None };

    private static (OneThread Thread, Desk Desk, Margin Margin) Set(Piece piece)
    {
        var thread = new OneThread();
        Desk desk = null!;
        Margin margin = null!;
        thread.Do(() =>
        {
            desk = new Desk(thread.Time);
            desk.Open(piece);
            margin = new Margin(desk, new Needle(desk));
        });
        return (thread, desk, margin);
    }

    private static void Wait(OneThread thread, double seconds) => thread.Do(() => Task.Delay(TimeSpan.FromSeconds(seconds), thread.Time));

    [Fact]
    public void The_same_fault_in_seven_copies_is_one_with_seven_places_that_one_button_goes_through()
    {
        var (thread, desk, margin) = Set(Seven);
        var at = margin.Notes.Select((n, i) => (n, i)).Single(n => n.n.Finding.Rule == "lone-cable").i;
        Assert.Equal(7, margin.Notes[at].Places.Length);
        Assert.EndsWith(" The same in 6 more copies of buoy.", margin.Notes[at].Message);
        Assert.Equal(1, margin.Counts.Warnings - margin.Notes.Count(n => n.Finding.Severity == Severity.Warning && n.Finding.Rule != "lone-cable"));
        var cloth = new Cloth();
        var seen = new List<(Valley, CableRow)?>();
        thread.Do(() =>
        {
            for (var i = 0; i < 7; i++)
            {
                margin.Point(at, cloth);
                Assert.Equal((at, i), (margin.Chosen, margin.ChosenPlace));
                // The ring that is chosen is the place the hand was led to.
                var place = margin.Notes[at].Places[i];
                Assert.Equal(place.From.Number, margin.Rings()[margin.ChosenRing * 5 + 2]);
                seen.Add(cloth.Seen);
            }
            Assert.Equal(7, seen.Distinct().Count());
            margin.Point(at, cloth);
        });
        Assert.Equal((-1, -1), (margin.Chosen, margin.ChosenRing));
        thread.Do(() => margin.Mend(at)); // drawn in all copies alike, so mended in all
        Assert.DoesNotContain(desk.Findings, f => f.Rule == "lone-cable");
        Assert.DoesNotContain(margin.Notes, n => n.Finding.Rule == "lone-cable");
    }

    [Fact]
    public void It_is_quiet_until_the_hand_rests()
    {
        var (thread, desk, margin) = Set(Seven with { Placements = [], Figures = [] });
        var told = 0;
        margin.Changed += () => told++;
        var before = margin.Count;
        for (var i = 0; i < 20; i++)
        {
            thread.Do(() => desk.Edit("a stitch", p => Draw.Cables(p, [(new Valley(10 + 4 * i), new CableRow(2 + i % 9))], new ThreadKey('a')).Piece));
            Wait(thread, 0.3);
            Assert.Equal((0, before), (told, margin.Count));
        }
        Assert.NotEmpty(desk.Findings);
        Wait(thread, 0.7);
        Assert.Equal(1, told);
        Assert.NotEqual(before, margin.Count);
    }

    [Fact]
    public void A_remedy_pressed_before_the_hand_has_rested_is_that_of_the_piece_as_it_is()
    {
        var (thread, desk, margin) = Set(Seven);
        var at = margin.Notes.Select((n, i) => (n, i)).Single(n => n.n.Finding.Rule == "lone-cable").i;
        thread.Do(() =>
        {
            desk.Edit("cleared", p => p with { Figures = [], Placements = [] });
            margin.Mend(at); // it is gone: nothing is done
        });
        Assert.Equal("cleared", desk.History.Now.Edit);
        Assert.DoesNotContain(margin.Notes, n => n.Finding.Rule == "lone-cable");
    }

    [Fact]
    public void Notes_never_crowd_out_faults_and_no_fault_is_lost() => AnyPiece.Pieces.Sample(piece =>
    {
        var (_, desk, margin) = Set(piece);
        var kinds = margin.Notes.Select(n => n.Finding.Severity).ToArray();
        Assert.Equal(kinds.Order(), kinds);
        Assert.All(kinds.Take(margin.Faults), k => Assert.NotEqual(Severity.Note, k));
        Assert.All(kinds.Skip(margin.Faults), k => Assert.Equal(Severity.Note, k));
        var c = margin.Counts;
        Assert.Equal((c.Errors + c.Warnings, c.Notes), (margin.Faults + margin.More.Faults, margin.Notes.Length - margin.Faults + margin.More.Notes));
        Assert.Equal(margin.Notes.Length, margin.Notes.Select(n => n.Key).Distinct().Count());
        Assert.Equal(0, margin.Rings().Length % 5);
        if (margin.More is (0, 0)) Assert.Equal(desk.Findings.Length, margin.Notes.Sum(n => n.Places.Length));
    }, iter: 60);

    [Fact]
    public void Two_bands_that_lie_alike_are_told_apart()
    {
        var band = new Band("trellis", new GatheringRow(5), Drafts.Tables.Full.Threads[0].Key) { Rows = 4 };
        var (_, _, margin) = Set(Drafts.Tables.Full with { Bands = [band, band, band] });
        Assert.NotEmpty(margin.Notes);
        Assert.Equal(margin.Notes.Length, margin.Notes.Select(n => n.Key).Distinct().Count());
        margin.Dispose();
    }

    [Fact]
    public void Counts_are_said_with_what_there_is()
    {
        Assert.Equal("1 error, 2 notes", new Counts(1, 0, 2).Say());
        Assert.Equal("1 error, 0 warnings, 2 notes", new Counts(1, 0, 2).Say(withNone: true));
    }
}
