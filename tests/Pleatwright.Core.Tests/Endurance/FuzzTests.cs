using System.Text;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Order;
using Pleatwright.Plate.Writers;
using Pleatwright.Proof;
using Pleatwright.Tests.Files;
using Pleatwright.Tests.Plate;

namespace Pleatwright.Tests.Endurance;

/// <summary>
/// Whatever file comes in is read or refused: no other exception, no input over a second, none that takes memory without bound.
/// </summary>
public class FuzzTests
{
    [Fact]
    public void Pieces_are_read_or_refused_and_what_is_read_can_be_laid_proofed_and_ordered()
    {
        var examples = Directory.GetFiles(Repository.Path("examples"), "*.piece.json").Select(File.ReadAllBytes).ToArray();
        var laid = 0;
        Mutations.Try(examples, Long.Of(6_000, 600_000), bytes =>
        {
            Piece piece;
            try { piece = PieceReader.Read(bytes); }
            catch (PieceFormatException e) { Located(e.Line, e.Column, e.Message); return; }
            if (laid++ % 16 != 0) return;
            try
            {
                var work = Work.Lay(piece);
                if (work.Cables > 20_000) return; // large, not wrong
                Proofreading.Read(work);
                Planner.Plan(work, Effort.Drawing);
            }
            catch (ArgumentException e) when (e.Message.Length > 0) { } // more than is laid, refused in words
            Assert.Equal(piece.Title, PieceReader.Read(PieceWriter.Write(piece)).Title);
        });
    }

    [Fact]
    public void Stashes_are_read_or_refused() =>
        Mutations.Try([File.ReadAllBytes(Repository.Path("examples", "harbour.stash.json"))], Long.Of(6_000, 200_000), bytes =>
        {
            try { StashReader.Read(bytes); }
            catch (PieceFormatException e) { Located(e.Line, e.Column, e.Message); }
        });

    [Fact]
    public void Figures_are_read_or_refused()
    {
        var harbour = PieceReader.Read(File.ReadAllBytes(Repository.Path("examples", "harbour-morning.piece.json")));
        Mutations.Try([FigureWriter.WriteUtf8(Pleatwright.Chart.Edit.Drawer.Take(harbour, "boat"))], Long.Of(6_000, 200_000), bytes =>
        {
            KeptFigure kept;
            try { kept = FigureReader.Read(bytes); }
            catch (PieceFormatException e) { Located(e.Line, e.Column, e.Message); return; }
            Assert.True(kept.Same(FigureReader.Read(FigureWriter.Write(kept))));
        });
    }

    [Fact]
    public void Lists_are_read_or_refused()
    {
        var list = StashCsv.Write(StashReader.Read(File.ReadAllBytes(Repository.Path("examples", "harbour.stash.json"))));
        Mutations.Try([list, Encoding.UTF8.GetBytes("name;colour;skeins\n\"a\"\"b\";#123456;1,5\n")], Long.Of(6_000, 200_000), bytes =>
        {
            try { StashCsv.Read(bytes); }
            catch (PieceFormatException e) { Located(e.Line, e.Column, e.Message); }
        });
    }

    [Fact]
    public void Plates_are_read_or_refused()
    {
        var piece = File.ReadAllBytes(Repository.Path("examples", "first-pennant.piece.json"));
        var plate = Plates.OfExample("first-pennant");
        byte[][] small = [new MadePdf().With("a.piece.json", piece).Plain(), new MadePdf().With("a.piece.json", piece).Packed(12), new MadePdf().With("a.piece.json", piece).Packed(1)];
        Mutations.Try(small, Long.Of(3_000, 200_000), Read);
        Mutations.Try([.. PlateFormat.All.Select(f => f.Write(plate))], Long.Of(200, 20_000), Read);

        static void Read(byte[] bytes)
        {
            try { PieceFinder.Read(bytes); }
            catch (PieceFormatException e) { Located(e.Line, e.Column, e.Message); }
        }
    }

    private static void Located(int line, int column, string words) => Assert.True(line >= 1 && column >= 1 && words.Length > 0);
}
