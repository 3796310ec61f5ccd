using System.Text;
using Pleatwright.Plate.Playing;
using SkiaSharp;

namespace Pleatwright.Tests.Commands;

/// <summary>The command show: films opened and counted frame by frame, and what is refused.</summary>
public sealed class ShowCommandTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pleatwright-");

    public void Dispose() => folder.Delete(recursive: true);

    private string In(string name) => Path.Combine(folder.FullName, name);

    // As an independent decoder reads it: libwebp, through the library that reads pictures for tracing; the container is ours.
    private static (int Frames, int Milliseconds, List<byte[]> Pixels) DecodeWebp(byte[] file)
    {
        using var data = SKData.CreateCopy(file);
        using var codec = SKCodec.Create(data);
        Assert.Equal(SKEncodedImageFormat.Webp, codec.EncodedFormat);
        var info = new SKImageInfo(codec.Info.Width, codec.Info.Height, SKColorType.Rgba8888, SKAlphaType.Premul);
        var pixels = new List<byte[]>();
        for (var i = 0; i < codec.FrameCount; i++)
        {
            using var bitmap = new SKBitmap(info);
            Assert.Equal(SKCodecResult.Success, codec.GetPixels(info, bitmap.GetPixels(), new SKCodecOptions(i)));
            pixels.Add(bitmap.Bytes);
        }
        return (codec.FrameCount, codec.FrameInfo.Sum(f => f.Duration), pixels);
    }

    [Fact]
    public void An_animated_webp_has_every_frame_and_lasts_as_long_as_the_film()
    {
        var ran = Program.Run("show", "--move", "up cable", "-o", In("up.webp"), "--frames", "6", "--width", "200");
        Assert.Equal(0, ran.Exit);
        var film = Lesson.Named("up cable")!.Film(Chart.Hand.Right, Order.LevelWords.UpDown).Film;
        var frames = (int)Math.Ceiling(film.Seconds * 6);
        var (count, lasts, pixels) = DecodeWebp(File.ReadAllBytes(In("up.webp")));
        Assert.Equal(frames, count);
        Assert.Contains($"{frames} frames", ran.Out, StringComparison.Ordinal);
        Assert.Equal(frames * 1000 / 6, lasts);
        Assert.True(pixels.Zip(pixels.Skip(1)).Count(p => !p.First.SequenceEqual(p.Second)) > frames / 2); // it moves
    }

    // PNG Specification, third edition: the chunks of an animation in their order, numbered without a gap; each frame is then put back together as a picture of its own and decoded by a
    // library that knows nothing of animations.
    [Fact]
    public void An_animated_png_holds_frames_that_decode_each_by_itself()
    {
        var ran = Program.Run("show", "--move", "half stitch", "-o", In("half.png"), "--frames", "5", "--width", "200", "--left-handed", "--levels", "left-right");
        Assert.Equal(0, ran.Exit);
        var chunks = Chunks(File.ReadAllBytes(In("half.png"))).ToList();
        var film = Lesson.Named("half stitch")!.Film(Chart.Hand.Left, Order.LevelWords.LeftRight).Film;
        var frames = (int)Math.Ceiling(film.Seconds * 5);
        Assert.Equal(frames, Big(chunks.Single(c => c.Kind == "acTL").Data, 0));
        Assert.Equal(frames, chunks.Count(c => c.Kind == "fcTL"));
        Assert.Equal(Enumerable.Range(0, chunks.Count(c => c.Kind is "fcTL" or "fdAT")), chunks.Where(c => c.Kind is "fcTL" or "fdAT").Select(c => Big(c.Data, 0)));
        Assert.Equal(["IHDR", "sRGB", "tEXt", "acTL", "fcTL", "IDAT"], chunks.Take(6).Select(c => c.Kind));
        var header = chunks[0].Data;
        byte[] control = [];
        List<byte[]> parts = [];
        var decoded = 0;
        foreach (var (kind, data) in chunks.Skip(3).Append(("end", [])))
        {
            if (kind is "fcTL" or "IEND" or "end" && parts.Count > 0)
            {
                byte[] own = [.. control.AsSpan(4, 8), .. header.AsSpan(8)];
                using var bitmap = SKBitmap.Decode(Png(own, parts));
                Assert.Equal((Big(control, 4), Big(control, 8)), (bitmap.Width, bitmap.Height));
                Assert.InRange(Big(control, 12) + bitmap.Width, 1, Big(header, 0));
                Assert.InRange(Big(control, 16) + bitmap.Height, 1, Big(header, 4));
                parts.Clear();
                decoded++;
            }
            if (kind == "fcTL") control = data;
            if (kind == "IDAT") parts.Add(data);
            if (kind == "fdAT") parts.Add(data[4..]);
        }
        Assert.Equal(frames, decoded);
    }

    [Theory, InlineData(".svg", "<svg"), InlineData(".pdf", "%PDF"), InlineData(".html", "filmPlayer")]
    public void A_step_of_a_piece_is_written_in_every_format(string ending, string holds)
    {
        var ran = Program.Run("show", Program.Example("first-pennant"), "--step", "1", "-o", In($"step{ending}"));
        Assert.True(ran.Exit == 0, ran.Error);
        Assert.Contains(holds, Encoding.Latin1.GetString(File.ReadAllBytes(In($"step{ending}"))), StringComparison.Ordinal);
        // what the command made it may make again, without being told to
        Assert.Equal(0, (Program.Run("show", Program.Example("first-pennant"), "--step", "2", "-o", In($"step{ending}"))).Exit);
    }

    [Fact]
    public void An_animation_may_be_made_again_and_nothing_else_is_written_over()
    {
        foreach (var ending in (string[])[".png", ".webp"])
        {
            for (var time = 0; time < 2; time++) Assert.Equal(0, (Program.Run("show", "--move", "knot", "-o", In($"knot{ending}"), "--frames", "2", "--width", "160")).Exit);
            File.WriteAllText(In($"mine{ending}"), "mine");
            Assert.Equal(2, (Program.Run("show", "--move", "knot", "-o", In($"mine{ending}"), "--frames", "2")).Exit);
            Assert.Equal("mine", File.ReadAllText(In($"mine{ending}")));
        }
    }

    [Theory]
    [InlineData("show takes a piece", "-o", "out.png")]
    [InlineData("there is no such move", "--move", "knit", "-o", "out.png")]
    [InlineData("one of --step", "PIECE", "-o", "out.png")]
    [InlineData("--move shows a move of the craft by itself", "PIECE", "--move", "knot", "-o", "out.png")]
    [InlineData("this piece has step 1 to", "PIECE", "--step", "9999", "-o", "out.png")]
    [InlineData("end the name with one of them", "PIECE", "--step", "1", "-o", "out.gif")]
    [InlineData("--speed takes", "PIECE", "--step", "1", "--speed", "9", "-o", "out.png")]
    public void What_cannot_be_shown_is_refused_in_one_line(string says, params string[] args)
    {
        var ran = Program.Run(["show", .. args.Select(a => a == "PIECE" ? Program.Example("first-pennant") : a.StartsWith("out.", StringComparison.Ordinal) ? In(a) : a)]);
        Assert.Equal(2, ran.Exit);
        Assert.Contains(says, ran.Complaint, StringComparison.Ordinal);
        Assert.Empty(folder.GetFiles());
    }

    [Fact]
    public async Task An_interrupt_while_frames_are_painted_leaves_nothing_behind()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() || OperatingSystem.IsMacOS(), "Interrupts are sent by kill.");
        var cancel = TestContext.Current.CancellationToken;
        using var process = Program.Start("show", Program.Example("harbour-morning"), "--step", "2", "--frames", "30", "--width", "1920", "-o", In("long.png"));
        string? said;
        do said = await process.StandardError.ReadLineAsync(cancel);
        while (said is not null && !said.StartsWith("painting the frames", StringComparison.Ordinal));
        Assert.NotNull(said);
        using (var kill = System.Diagnostics.Process.Start("kill", ["-INT", process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)])) await kill.WaitForExitAsync(cancel);
        var error = await process.StandardError.ReadToEndAsync(cancel);
        await process.WaitForExitAsync(cancel);
        Assert.True(process.ExitCode == 130, $"exit {process.ExitCode}: {said}\n{error}");
        Assert.Empty(folder.GetFiles());
    }

    private static int Big(byte[] data, int at) => System.Buffers.Binary.BinaryPrimitives.ReadInt32BigEndian(data.AsSpan(at));

    private static IEnumerable<(string Kind, byte[] Data)> Chunks(byte[] png)
    {
        for (var at = 8; at < png.Length;)
        {
            var length = Big(png, at);
            yield return (Encoding.ASCII.GetString(png, at + 4, 4), png[(at + 8)..(at + 8 + length)]);
            at += 12 + length;
        }
    }

    private static byte[] Png(byte[] header, List<byte[]> parts)
    {
        using var file = new MemoryStream();
        file.Write([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
        void Chunk(string kind, byte[] data)
        {
            byte[] body = [.. Encoding.ASCII.GetBytes(kind), .. data];
            var number = new byte[4];
            System.Buffers.Binary.BinaryPrimitives.WriteInt32BigEndian(number, data.Length);
            file.Write(number);
            file.Write(body);
            System.Buffers.Binary.BinaryPrimitives.WriteUInt32BigEndian(number, Crc(body));
            file.Write(number);
        }
        Chunk("IHDR", header);
        foreach (var part in parts) Chunk("IDAT", part);
        Chunk("IEND", []);
        return file.ToArray();
    }

    // Bit by bit, after annex D.
    private static uint Crc(byte[] data)
    {
        var crc = uint.MaxValue;
        foreach (var octet in data)
        {
            crc ^= octet;
            for (var bit = 0; bit < 8; bit++) crc = (crc >> 1) ^ (0xedb88320 & (uint)-(int)(crc & 1));
        }
        return ~crc;
    }
}
