using Pleatwright.Chart;
using SkiaSharp;

namespace Pleatwright.Tests.Commands;

/// <summary>A piece that would cost much is refused with its place before anything is begun, unless it is taken on.</summary>
public sealed class LargeTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("large");

    public void Dispose() => folder.Delete(recursive: true);

    private string Speckled(int rows, int across, int copies, string rest = "")
    {
        var path = Path.Combine(folder.FullName, "speckles.piece.json");
        var row = $"\"{string.Concat(Enumerable.Repeat("a.", across))}\"";
        File.WriteAllText(path, $$"""
            { "pleatwright": 1, "cloth": { "form": "panel", "finishedWidth": "{{across / 6 + 2}} in", "gatheringRows": {{rows / 5 + 2}} },
              "threads": { "a": { "colour": "#b3202c" } },
              "figures": { "f": { "rows": [ {{string.Join(',', Enumerable.Repeat(row, rows))}} ] } },
              "place": [
                { "figure": "f", "centre": "middle", "gatheringRow": 1, "repeat": { "count": {{copies}}, "every": 1 } } ]{{rest}} }
            """);
        return path;
    }

    [Theory]
    [InlineData("plan")]
    [InlineData("proof")]
    [InlineData("order")]
    [InlineData("figure")]
    [InlineData("shop")]
    [InlineData("plate -o OUT.pdf")]
    [InlineData("class --students 3 -o OUT.pdf")]
    [InlineData("picture -o OUT.png --width 200")]
    [InlineData("recut --keep count -o OUT.piece.json")]
    public void It_is_refused_with_its_place(string command)
    {
        var piece = Speckled(8, 10, 2500);
        var words = command.Replace("OUT", Path.Combine(folder.FullName, "out"), StringComparison.Ordinal).Split(' ');
        var outcome = Program.Run([words[0], piece, .. words[1..]]);
        Assert.Equal(2, outcome.Exit);
        Assert.StartsWith($"pleatwright: {piece}:5:5: up to here the piece comes to 200,000 stretches of thread, where ", outcome.Complaint, StringComparison.Ordinal);
        Assert.EndsWith("; --large takes it on.", outcome.Complaint, StringComparison.Ordinal);
        Assert.Single(folder.GetFiles());
    }

    [Fact]
    public void Taken_on_it_is_done()
    {
        var piece = Speckled(8, 10, 520);
        Assert.Equal(2, Program.Run("proof", piece).Exit);
        Assert.NotEqual(2, Program.Run("proof", piece, "--large").Exit);
    }

    [Fact]
    public void What_opens_at_once_may_be_too_much_to_print_at_once()
    {
        var piece = Speckled(40, 40, 1);
        var plate = Path.Combine(folder.FullName, "plate.txt");
        Assert.NotEqual(2, Program.Run("proof", piece).Exit);
        Assert.Contains("are printed at once", Program.Run("plate", piece, "-o", plate).Complaint, StringComparison.Ordinal);
        Assert.Equal(0, Program.Run("plate", piece, "-o", Path.ChangeExtension(plate, ".svg"), "--sheet", "card").Exit); // the cloth is small enough
    }

    [Fact]
    public async Task The_dearest_piece_taken_unasked_takes_less_than_half_a_gigabyte_in_all() =>
        Assert.InRange(await PeakOf("plan", Speckled(Outlay.MostStretches / 200, 200, 1)), 1, 512 * 1024);

    [Fact]
    public async Task The_largest_picture_takes_less_than_half_a_gigabyte_in_all()
    {
        var path = Path.Combine(folder.FullName, "wide.png");
        using (var bitmap = new SKBitmap(new SKImageInfo(7000, 7000, SKColorType.Gray8))) // less than fifty million pixels, in some kilobytes
        using (var file = File.Create(path))
            bitmap.Encode(file, SKEncodedImageFormat.Png, 100);
        Assert.InRange(await PeakOf("trace", path, "--width", "60", "--threads", "2", "-o", Path.ChangeExtension(path, ".piece.json")), 1, 512 * 1024);
    }

    // All memory in kB, native too, as the system counts it.
    private static async Task<long> PeakOf(params string[] arguments)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Only Linux tells how much a program has taken at the most.");
        using var program = Program.Start(arguments);
        var (heard, said, peak) = (program.StandardOutput.ReadToEndAsync(), program.StandardError.ReadToEndAsync(), 0L);
        for (; !program.HasExited; await Task.Delay(20))
        {
            try
            {
                foreach (var line in await File.ReadAllLinesAsync($"/proc/{program.Id}/status"))
                    if (line.StartsWith("VmHWM:", StringComparison.Ordinal)) peak = Math.Max(peak, long.Parse(line.Split((char[])[' ', '\t'], StringSplitOptions.RemoveEmptyEntries)[1], System.Globalization.CultureInfo.InvariantCulture));
            }
            catch (IOException) { } // it is over
        }
        Assert.True(program.ExitCode is 0 or 1, await said);
        Assert.NotEmpty(await heard);
        return peak;
    }
}
