using Pleatwright.Chart;
using Pleatwright.Files;

namespace Pleatwright.Tests;

public class ExampleTests
{
    [Fact]
    public void Every_example_reads_and_writes_back_the_same()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder!.FullName, "Pleatwright.slnx"))) folder = folder.Parent;
        foreach (var file in Directory.GetFiles(Path.Combine(folder.FullName, "examples"), "*.piece.json"))
        {
            var piece = PieceReader.Read(File.ReadAllBytes(file));
            var written = PieceWriter.Write(piece);
            Assert.Equal(written, PieceWriter.Write(PieceReader.Read(written)));
            Assert.True(Work.Lay(piece).Cables > 0);
        }
    }
}
