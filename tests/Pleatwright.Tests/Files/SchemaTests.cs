using System.Text.Json;
using CsCheck;
using Json.Schema;
using Pleatwright.Files;
using Pleatwright.Tests.Chart;

namespace Pleatwright.Tests.Files;

/// <summary>The published schema against the reader and the writer.</summary>
public class SchemaTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Repository.Path("src", "Pleatwright", "Files", "piece.schema.json")));

    private static bool Fits(string json)
    {
        using var document = JsonDocument.Parse(json);
        return Schema.Evaluate(document.RootElement).IsValid;
    }

    [Fact]
    public void Every_example_fits_the_schema() =>
        Assert.All(Repository.Examples, file => Assert.True(Fits(File.ReadAllText(file)), file));

    [Fact]
    public void What_the_writer_writes_fits_the_schema() => PieceGen.Pieces.Sample(piece => Fits(PieceWriter.Write(piece)), threads: 1);

    [Theory]
    [InlineData("\"title\"", "\"tilte\"")]
    [InlineData("\"11 in\"", "\"11\"")]
    [InlineData("\"#f4efe3\"", "\"white\"")]
    [InlineData("\"pleatwright\": 1", "\"pleatwright\": 2")]
    [InlineData("\"finishedWidth\"", "\"diameter\"")]
    public void What_the_reader_refuses_the_schema_refuses(string find, string put)
    {
        var sound = File.ReadAllText(Repository.Path("examples", "harbour-morning.piece.json"));
        var broken = sound.Replace(find, put, StringComparison.Ordinal);
        Assert.NotEqual(sound, broken);
        Assert.True(Fits(sound));
        Assert.False(Fits(broken));
        Assert.Throws<PieceFormatException>(() => PieceReader.Read(broken));
    }
}
