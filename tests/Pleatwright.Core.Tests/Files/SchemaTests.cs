using CsCheck;
using Pleatwright.Files;
using Pleatwright.Tests.Chart;
using static Pleatwright.Tests.Files.Schemas;

namespace Pleatwright.Tests.Files;

/// <summary>The published schema against the reader and the writer.</summary>
public class SchemaTests
{
    [Fact]
    public void Every_example_fits_the_schema() =>
        Assert.All(Repository.Examples, file => Assert.True(FitsPiece(File.ReadAllText(file)), file));

    [Fact]
    public void What_the_writer_writes_fits_the_schema() => PieceGen.Pieces.Sample(piece => FitsPiece(PieceWriter.Write(piece)), threads: 1);

    [Theory]
    [InlineData("\"title\"", "\"tilte\"")]
    [InlineData("\"11 in\"", "\"11\"")]
    [InlineData("\"#f4efe3\"", "\"white\"")]
    [InlineData("\"pleatwright\": 1", "\"pleatwright\": 2")]
    [InlineData("\"finishedWidth\"", "\"diameter\"")]
    [InlineData("\"the harbour class\"", "\"a\\nb\"")]
    [InlineData("\"© 2026", "\"© \\u2028 2026")]
    [InlineData("2026-05-31", "31 May 2026")]
    [InlineData("harbour-morning.jpg", "a/b.jpg")]
    [InlineData("harbour-morning.jpg", "a\\\\b.jpg")]
    [InlineData("harbour-morning.jpg", "..")]
    [InlineData("harbour-morning.jpg", " b.jpg")]
    public void What_the_reader_refuses_the_schema_refuses(string find, string put)
    {
        var sound = File.ReadAllText(Repository.Path("examples", "harbour-morning.piece.json"));
        var broken = sound.Replace(find, put, StringComparison.Ordinal);
        Assert.NotEqual(sound, broken);
        Assert.True(FitsPiece(sound));
        Assert.False(FitsPiece(broken));
        Assert.Throws<PieceFormatException>(() => PieceReader.Read(broken));
    }
}
