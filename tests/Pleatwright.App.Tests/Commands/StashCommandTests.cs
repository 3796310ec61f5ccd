namespace Pleatwright.Tests.Commands;

public sealed class StashCommandTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pleatwright-");

    private static string Harbour => Repository.Path("examples", "harbour.stash.json");

    public void Dispose() => folder.Delete(recursive: true);

    private string In(string name) => Path.Combine(folder.FullName, name);

    [Fact]
    public void Lists_go_out_and_come_in_and_the_stash_is_listed()
    {
        var written = Program.Run("stash", Harbour, "--export", In("list.csv"), "--json");
        Assert.Equal((0, 7), (written.Exit, written.Json.GetProperty("threads").GetArrayLength()));
        var taken = Program.Run("stash", In("mine.json"), "--import", In("list.csv"), "--json"); // made anew
        Assert.Equal(written.Json.GetProperty("threads").GetRawText(), taken.Json.GetProperty("threads").GetRawText());
        File.WriteAllText(In("more.csv"), "name,colour,skeins\nSail red,#b3202c,4\nnew rope,#8a6d3b,1\n");
        var more = Program.Run("stash", In("mine.json"), "--import", In("more.csv"));
        Assert.Contains("Threads   8", more.Out, StringComparison.Ordinal);
        Assert.Contains("4 skeins", more.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void A_piece_is_held_against_the_stash_and_several_are_shopped_for()
    {
        var piece = Program.Example("harbour-morning");
        var held = Program.Run("stash", Harbour, "--for", piece);
        Assert.Equal(0, held.Exit);
        Assert.Contains("or weed green: near", held.Out, StringComparison.Ordinal);
        foreach (var far in (string[])["or deep harbour", "clearly different", "#"]) Assert.DoesNotContain(far, held.Out, StringComparison.Ordinal); // no blue for a green, and colours in words
        var alone = Program.Run("shop", piece, "--json").Json;
        var both = Program.Run("shop", piece, piece, "--json").Json;
        Assert.Equal("Harbour morning (2)", both.GetProperty("pieces")[1].GetProperty("title").GetString());
        Assert.Equal(alone.GetProperty("skeinsToBuy").GetInt32(), both.GetProperty("skeinsToBuy").GetInt32()); // half-used skeins are shared
        Assert.Equal(2 * alone.GetProperty("clothToBuyMm").GetDouble(), both.GetProperty("clothToBuyMm").GetDouble(), 3);
        var with = Program.Run("shop", piece, "--stash", Harbour, "--json").Json;
        Assert.Equal(2, with.GetProperty("skeinsToBuy").GetInt32());
        Assert.True(with.GetProperty("cost").GetProperty("total").GetProperty("low").GetDouble() > 0);
        Assert.Contains("cables an hour", Program.Run("shop", piece, "--stash", Harbour).Out, StringComparison.Ordinal);
    }

    [Fact]
    public void A_picture_is_traced_in_the_threads_of_the_stash()
    {
        var raster = Picture.TestPictures.All["boat"]();
        using (var bitmap = new SkiaSharp.SKBitmap(new SkiaSharp.SKImageInfo(raster.Width, raster.Height, SkiaSharp.SKColorType.Rgba8888, SkiaSharp.SKAlphaType.Unpremul)))
        {
            System.Runtime.InteropServices.Marshal.Copy(raster.Rgba.ToArray(), 0, bitmap.GetPixels(), raster.Rgba.Length);
            using var png = bitmap.Encode(SkiaSharp.SKEncodedImageFormat.Png, 90);
            File.WriteAllBytes(In("boat.png"), png.ToArray());
        }
        var run = Program.Run("trace", In("boat.png"), "-o", In("boat.piece.json"), "--stash", Harbour, "--width", "41", "--threads", "3", "--json");
        Assert.Equal(0, run.Exit);
        var stash = Files(Harbour);
        Assert.All(run.Json.GetProperty("threads").EnumerateArray(), t => Assert.Contains(t.GetProperty("name").GetString(), stash));
    }

    private static string[] Files(string stash) => [.. Pleatwright.Files.StashReader.Read(File.ReadAllBytes(stash)).Threads.Select(t => t.Name)];

    [Theory]
    [InlineData("nowhere.json", null, "there is no such file")]
    [InlineData("bad.json", "{ \"stash\": 1,\n \"threads\": 3 }", ":2:13: “threads” must be a list")]
    [InlineData("bad.json", "{ \"stash\": 9 }", "newer than this program reads")]
    public void Bad_input_is_one_clear_line_and_exit_2(string name, string? text, string words)
    {
        if (text is not null) File.WriteAllText(In(name), text);
        foreach (var run in new[] { Program.Run("stash", In(name)), Program.Run("shop", Program.Example("first-pennant"), "--stash", In(name)) })
        {
            Assert.Equal(2, run.Exit);
            Assert.Contains(words, run.Complaint, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_broken_list_is_refused_with_its_place_and_the_stash_is_untouched()
    {
        File.Copy(Harbour, In("mine.json"));
        File.WriteAllText(In("bad.csv"), "name,colour\nrope,brown\n");
        var run = Program.Run("stash", In("mine.json"), "--import", In("bad.csv"));
        Assert.Equal(2, run.Exit);
        Assert.Contains("bad.csv:2:6: “colour” must be", run.Error, StringComparison.Ordinal);
        Assert.Equal(File.ReadAllText(Harbour), File.ReadAllText(In("mine.json")));
        Assert.Equal(2, Program.Run("shop").Exit);
    }
}
