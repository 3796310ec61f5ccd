using CsCheck;
using Pleatwright.Bench.Model;
using Pleatwright.Bench.Model.Tracing;
using Pleatwright.Chart;
using Pleatwright.Model.Tests.Table;
using Pleatwright.Picture;
using Pleatwright.Proof;

namespace Pleatwright.Model.Tests.Tracing;

/// <summary>A traced figure added to a piece.</summary>
public class AddingLaws
{
    /// <summary>A disc of one colour with a stripe of another.</summary>
    internal static Traced Disc(int width, int stripe)
    {
        const int Side = 60;
        var rgba = new byte[Side * Side * 4];
        for (var y = 0; y < Side; y++)
            for (var x = 0; x < Side; x++)
                if ((x - 29.5) * (x - 29.5) + (y - 29.5) * (y - 29.5) < 28 * 28)
                    (y % 20 < stripe ? new byte[] { 40, 60, 140, 255 } : [200, 30, 40, 255]).CopyTo(rgba, (y * Side + x) * 4);
        return Tracer.Trace(new Raster(Side, Side, rgba), new TracingOptions { Width = width, Threads = 2, Background = Background.Auto, Name = "buoy" });
    }

    private static int Errors(Piece piece) => Counts.Of(Proofreading.Read(Work.Lay(piece))).Errors;

    private static readonly Gen<Traced> AnyTrace = Gen.Select(Gen.Int[8, 40], Gen.Int[0, 12], Disc);

    private static readonly Gen<Piece> AnyPiece =
        from piece in AtTable.Pick([Pieces.Empty, .. Examples.Names.Select(Examples.Read)])
        from phase in Gen.Enum<Phase>()
        select piece with { Phase = phase };

    /// <summary>It adds no error that was not there, or it is asked first; and what lies free touches nothing.</summary>
    [Fact]
    public void A_figure_added_adds_no_error_or_is_asked_about()
    {
        var (added, asked) = (0, 0);
        Gen.Select(AnyPiece, AnyTrace).Sample((piece, traced) =>
        {
            var at = new AtTable(piece);
            var before = Errors(piece);
            var work = at.Desk.Work;
            if (Adding.To(at.Desk, traced, false) is { } question)
            {
                asked++;
                Assert.Same(piece, at.Piece);
                Assert.Contains("buoy", question, StringComparison.Ordinal);
                Assert.Null(Adding.To(at.Desk, traced, true));
                Assert.NotSame(piece, at.Piece);
            }
            else
            {
                added++;
                Assert.True(Errors(at.Piece) <= before, "errors came with it");
                // What was there before is there still.
                Assert.Empty(AtTable.Worked(work).Except(AtTable.Worked(at.Desk.Work)));
                Assert.Equal(work.Cables + traced.Cables, at.Desk.Work.Cables);
                // In the phase it was traced for.
                var seat = Seat.Of(at.Piece.Placements[^1], at.Piece.Figures[^1], at.Desk.Work.Pleating, 0);
                var phase = at.Piece.Placements[^1].FlipPhase ? at.Piece.Phase.Opposite() : at.Piece.Phase;
                Assert.Equal(Lattice.LevelAt(new Valley(0), new CableRow(0), traced.Phase), Lattice.LevelAt(new Valley(seat.Left), new CableRow(seat.Top), phase));
            }
            at.Key("Ctrl+z");
            Assert.Same(piece, at.Piece);
        }, iter: 80, threads: 1);
        Assert.True(added > 0 && asked > 0, $"{added} added, {asked} asked");
    }

    [Fact]
    public void Where_there_is_no_room_it_is_said_what_it_would_lie_over()
    {
        var at = new AtTable(Pieces.Full);
        var question = Adding.To(at.Desk, Disc(100, 4), false);
        Assert.NotNull(question);
        Assert.Contains("no room", question, StringComparison.Ordinal);
        Assert.Contains("boat", question, StringComparison.Ordinal);
    }
}
