using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Proof;

namespace Pleatwright.Tests.Proof;

/// <summary>Each rule on its least fault and on its nearest miss. Three cable rows to the space, unless told otherwise.</summary>
public class RuleTests
{
    private static ImmutableArray<Finding> Found(string rule, Piece piece) => [.. Proofreading.Read(Work.Lay(piece)).Where(f => f.Rule == rule)];

    private static ImmutableArray<Finding> Found(string rule, params string[] rows) => Found(rule, Drawn.Piece(3, rows));

    private static Finding One(string rule, Severity severity, (int Top, int Bottom, int From, int To) place, ImmutableArray<Finding> found)
    {
        var finding = Assert.Single(found);
        Assert.Equal((rule, severity), (finding.Rule, finding.Severity));
        Assert.Equal(place, (finding.Row.Index, finding.LastRow.Index, finding.From.Number, finding.To.Number));
        return finding;
    }

    private static Piece Moved(int valleys, int gatheringRow, string row = "aaa", int seam = 3)
    {
        var piece = Drawn.Piece(3, ".........", ".........");
        return piece with
        {
            Cloth = piece.Cloth with { SeamPleats = seam },
            Figures = [new Figure("tag", [row])],
            Placements = [new Placement("tag", Centre.At(new Valley(5 + valleys)), new GatheringRow(gatheringRow), 0)],
        };
    }

    [Fact]
    public void Off_cloth()
    {
        Assert.Empty(Found("off-cloth", Moved(3, 1)));
        var seam = One("off-cloth", Severity.Error, (0, 0, 9, 9), Found("off-cloth", Moved(4, 1)));
        Assert.Contains("1 pleat into the seam pleats at the right edge", seam.Message);
        Assert.Empty(Found("off-cloth", seam.Mend!.Apply(Moved(4, 1))));
        Assert.Contains("3 pleats into the seam pleats", Found("off-cloth", Moved(6, 1))[0].Message);
        Assert.Contains("through the 3 seam pleats and 1 pleat off the cloth past the right edge", Found("off-cloth", Moved(7, 1))[0].Message);
        Assert.Contains("1 pleat past the right edge", Found("off-cloth", Moved(4, 1, seam: 0))[0].Message);
        One("off-cloth", Severity.Error, (3, 3, 4, 6), Found("off-cloth", Moved(0, 3)));
        Assert.Empty(Found("off-cloth", Moved(0, 2)));
    }

    [Theory]
    [InlineData(3, 0, true)]  // side by side
    [InlineData(4, 0, false)] // one valley bare between
    [InlineData(2, 1, true)]  // one over the other
    [InlineData(3, 1, false)] // corner to corner
    public void Unlike_phases(int across, int down, bool touch)
    {
        var piece = Moved(-3, 1) with { Figures = [new Figure("tag", ["aaa"]), new Figure("low", ["aaa", "..."])] };
        piece = piece with
        {
            Placements = [.. piece.Placements, new Placement("low", Centre.At(new Valley(2 + across)), new GatheringRow(1 + down), down) { FlipPhase = true }],
        };
        // Row 1 is reached from gathering row 2 by a figure two rows lower.
        if (down == 1) piece = piece with { Figures = [piece.Figures[0], new Figure("low", ["aaa", "...", "..."])], Placements = [piece.Placements[0], piece.Placements[1] with { FigureRow = 2 }] };
        var found = Found("unlike-phases", piece);
        Assert.Equal(touch, found.Length == 1);
        if (!touch) return;
        Assert.Equal(Severity.Error, found[0].Severity);
        Assert.Empty(Found("unlike-phases", found[0].Mend!.Apply(piece)));
        Assert.Empty(Found("unlike-phases", piece with { Placements = [.. piece.Placements.Select(p => p with { FlipPhase = true })] }));
    }

    [Fact]
    public void Half_stitch()
    {
        Piece With(params HalfMark[] halves)
        {
            var piece = Drawn.Piece(3, ".aaabb.", ".......");
            return piece with { Figures = [piece.Figures[0] with { Halves = [.. halves] }] };
        }
        Assert.Empty(Found("half-stitch", With(new HalfMark(0, RunEnd.Left), new HalfMark(0, RunEnd.Right))));
        var bare = One("half-stitch", Severity.Error, (1, 1, 4, 4), Found("half-stitch", With(new HalfMark(1, RunEnd.Left))));
        Assert.Empty(Found("half-stitch", bare.Mend!.Apply(With(new HalfMark(1, RunEnd.Left)))));
    }

    [Fact]
    public void Lone_cable_and_short_run()
    {
        One("lone-cable", Severity.Warning, (0, 0, 4, 4), Found("lone-cable", "...a..."));
        One("lone-cable", Severity.Warning, (0, 2, 4, 4), Found("lone-cable", "...a...", "...a...", "...a..."));
        One("short-run", Severity.Warning, (0, 0, 4, 5), Found("short-run", "...aa.."));
        Assert.Empty(Found("lone-cable", "...aa.."));
        Assert.Empty(Found("short-run", "...aaa."));
        var eye = One("lone-cable", Severity.Warning, (0, 0, 4, 4), Found("lone-cable", "aaabaaa"));
        Assert.Equal("aaaaaaa", eye.Mend!.Apply(Drawn.Piece(3, "aaabaaa")).Figures[0].Rows[0]);
        // Taking a cable out from between two others would leave the upper one standing on nothing.
        Assert.Null(Found("lone-cable", "..aaa..", "...a...", "..aaa..")[0].Mend);
    }

    [Fact]
    public void Hole()
    {
        var hole = One("hole", Severity.Warning, (1, 1, 4, 4), Found("hole", "..aaa..", "..a.a..", "..aaa.."));
        Assert.Equal("..aaa..", hole.Mend!.Apply(Drawn.Piece(3, "..aaa..", "..a.a..", "..aaa..")).Figures[0].Rows[1]);
        Assert.Empty(Found("hole", "..aaa..", "..a.a..", "..a.a.."));
        Assert.Empty(Found("hole", "..aaa..", "..a....", "..aaa.."));
        Assert.Empty(Found("hole", "aaa", "a.a", "a.a", "a.a")); // open to the last row
        var side = "aaa" + new string('.', 9) + "aaa";
        One("hole", Severity.Note, (1, 3, 4, 12), Found("hole", new string('a', 15), side, side, side, new string('a', 15)));
    }

    [Fact]
    public void Nothing_beside()
    {
        var run = One("nothing-beside", Severity.Warning, (1, 1, 3, 5), Found("nothing-beside", ".......", "..aaa.."));
        Assert.Empty(Found("nothing-beside", "..aaa.."));
        Assert.Empty(Found("nothing-beside", ".......", "..aaa..", "..aaa.."));
        Assert.Single(Found("nothing-beside", "aaa....", "...aaa.")); // corner to corner is not over it
        Assert.Equal(0, Work.Lay(run.Mend!.Apply(Drawn.Piece(3, ".......", "..aaa.."))).Runs[0].Row.Index);
    }

    [Fact]
    public void Overhang()
    {
        Assert.Empty(Found("overhang", "..aaaaa..", ".aaa.aaa.", "aaaaaaaaa"));
        // The base is the top row; below it a row that reaches two pleats past on the left, one on the right.
        var piece = Drawn.Piece(3, "...aaaaaa....", ".aaaaa.......");
        One("overhang", Severity.Warning, (1, 1, 2, 3), Found("overhang", piece));
        Assert.Empty(Found("overhang", "...aaaaaa....", "..aaaa......."));
        // Steps of three pleats a row are one place, told with the worst.
        var stair = One("overhang", Severity.Warning, (1, 2, 2, 7), Found("overhang", ".......aaaaa.", "....aaaa.....", ".aaaaa......."));
        Assert.Contains("up to 3 pleats", stair.Message);
    }

    [Fact]
    public void Coverage()
    {
        var thin = One("coverage", Severity.Warning, (0, 1, 3, 5), Found("coverage", "..ccc..", "..ccc.."));
        Assert.Contains("3 strands of thread c (c) cover 0.70", thin.Message);
        Assert.Empty(Found("coverage", "..aaa..", "..aaa.."));
        Assert.Empty(Found("coverage", "ccccccc"));
        // A band that a figure merely touches is not stacked.
        Assert.Empty(Found("coverage", "ccccccc", "..aaa..", "..aaa.."));
        Assert.Empty(Found("coverage", thin.Mend!.Apply(Drawn.Piece(3, "..ccc..", "..ccc.."))));
    }

    [Fact]
    public void Unheld_row()
    {
        var piece = Drawn.Piece(3, ".......", ".......", ".......", "aaaaaaa");
        One("unheld-row", Severity.Note, (0, 0, 1, 7), Found("unheld-row", piece));
        var unplanned = One("unheld-row", Severity.Warning, (0, 0, 1, 7), Found("unheld-row", piece with { Back = Backsmocking.None }));
        Assert.Equal(Backsmocking.Auto, unplanned.Mend!.Apply(piece).Back);
        // Eleven valleys bare between two runs leave ten pleats loose; thirteen are more than an inch.
        string Row(int gap) => "aaa" + new string('.', gap) + "aaa";
        Assert.Empty(Found("unheld-row", [Row(13), Row(13), Row(13), Row(13)]));
        Assert.Single(Found("unheld-row", [Row(15), Row(15), Row(15), Row(15)]));
    }

    [Fact]
    public void Threads_alike_and_thread_like_cloth()
    {
        Piece With(string b, params string[] rows) => Drawn.Piece(3, rows) with { Threads = [Some.Floss('a', "#b3202c"), Some.Floss('b', b)] };
        One("threads-alike", Severity.Warning, (0, 0, 3, 4), Found("threads-alike", With("#b5222e", "aaabbb.")));
        One("threads-alike", Severity.Warning, (0, 1, 3, 3), Found("threads-alike", With("#b5222e", "aaa....", "..bbb..")));
        Assert.Empty(Found("threads-alike", With("#b5222e", "aaa.bbb")));
        Assert.Empty(Found("threads-alike", With("#1f4e79", "aaabbb.")));
        One("thread-like-cloth", Severity.Warning, (0, 0, 4, 6), Found("thread-like-cloth", With("#f2ede0", "aaabbb.")));
        Assert.Empty(Found("thread-like-cloth", With("#f2ede0", "aaa....")));
        Assert.Empty(Found("thread-like-cloth", With("#1f4e79", "aaabbb.")));
    }

    [Theory]
    [InlineData(0, false)]
    [InlineData(1, true)]
    [InlineData(-6, true)]
    [InlineData(7, false)] // so far out is meant
    public void Off_centre(int out_, bool told)
    {
        var piece = Drawn.Piece(3, new string('.', 31)) with { Figures = [new Figure("tag", ["aaaaa"])] };
        piece = piece with { Placements = [new Placement("tag", Centre.At(new Valley(16 + out_)), new GatheringRow(1), 0)] };
        var found = Found("off-centre", piece);
        Assert.Equal(told, found.Length == 1);
        if (!told) return;
        One("off-centre", Severity.Note, (0, 0, 14 + out_, 18 + out_), found);
        Assert.Contains(out_ == 1 ? " is 1 pleat right of centre" : " is 6 pleats left of centre", found[0].Message);
        Assert.True(found[0].Mend!.Apply(piece).Placements[0].Centre.IsMiddle);
    }

    [Fact]
    public void Off_centre_minds_half_a_pleat_only_where_it_can_be_helped() =>
        Assert.Empty(Found("off-centre", Drawn.Piece(3, ".......") with
        {
            Figures = [new Figure("tag", ["aaaa"])],
            Placements = [new Placement("tag", Centre.Middle, new GatheringRow(1), 0)],
        }));

    [Fact]
    public void Base_row()
    {
        var low = One("base-row", Severity.Warning, (1, 1, 2, 6), Found("base-row", "..aaa..", ".aaaaa."));
        Assert.Contains("not on a gathering row", low.Message);
        Assert.Empty(Found("base-row", ".aaaaa.", "..aaa.."));
        Assert.Empty(Found("base-row", "..aaa..", "..aaa.."));
        // Nearly as wide on a gathering row: begun there, and only a note.
        Assert.Equal(Severity.Note, Assert.Single(Found("base-row", ".aaaaaaaaaaaaaa", "aaaaaaaaaaaaaaa")).Severity);
        // Pinned, it is begun where the maker will have it, however wide that row is.
        var pinned = Drawn.Piece(3, "..aaa..", ".aaaaa.");
        pinned = pinned with { Working = pinned.Working with { BaseRow = new CableRow(0) } };
        var begun = Assert.Single(Found("base-row", pinned));
        Assert.Equal(Severity.Note, begun.Severity);
        Assert.Contains("it is begun on row 0 (gathering row 1), as pinned", begun.Message);
        // With room to move in it is put right.
        var piece = Drawn.Piece(3, ".......", ".......", ".......", "..aaa..", ".aaaaa.", ".......", ".......");
        piece = piece with { Figures = [new Figure("hull", ["..aaa..", ".aaaaa."])], Placements = [new Placement("hull", Centre.Middle, new GatheringRow(2), 0)] };
        Assert.Empty(Found("base-row", Found("base-row", piece)[0].Mend!.Apply(piece)));
    }

    // On a ball 60 mm across of 90 pleats, whose row y lies at polar angle φ, the pleats are π·60·sin φ / 90 mm apart.
    [Theory]
    [InlineData(0, false)]
    [InlineData(1e-6, true)]
    public void Crowded_pleats(double thicker, bool told)
    {
        var piece = Drawn.Piece(3, new string('.', 89), new string('.', 89), "." + new string('a', 7) + new string('.', 81));
        var cloth = piece.Cloth with { Form = new Pleatwright.Cloth.Ball(Pleatwright.Measure.Length.FromMillimetres(60)), GatheringRows = 9 };
        var polar = Math.PI / 2 + (2.0 - 3 * 4) * cloth.Gauge.CableRowHeight.Millimetres / 30; // row 4·3 lies on the equator
        var pitch = Math.PI * 60 * Math.Sin(polar) / 90;
        piece = piece with
        {
            Cloth = cloth with
            {
                Gauge = new Pleatwright.Cloth.Gauge(cloth.Gauge.Pitch, cloth.Gauge.TakeUp, cloth.Gauge.RowSpacing, 3) { PleatThickness = Pleatwright.Measure.Length.FromMillimetres(pitch + (told ? thicker : -1e-9)) },
            },
        };
        Assert.Equal(90, Work.Lay(piece).Pleating.Pleats);
        if (told) One("crowded-pleats", Severity.Error, (2, 2, 2, 8), Found("crowded-pleats", piece));
        else Assert.Empty(Found("crowded-pleats", piece));
        // Rows nearer the pole crowd more, but nothing is stitched there.
        Assert.True(Work.Lay(piece).Pleating.PitchAt(1).Millimetres < pitch - 1e-3);
    }
}
