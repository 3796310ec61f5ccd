using System.Buffers.Binary;
using System.IO.Compression;
using System.Runtime.InteropServices;
using Pleatwright.App.Commands;
using Pleatwright.App.Images;
using Pleatwright.Files;
using Pleatwright.Picture;
using Pleatwright.Tests.Picture;
using SkiaSharp;

namespace Pleatwright.Tests.Commands;

/// <summary>The command trace, and the pictures it takes in and refuses.</summary>
public sealed class TraceCommandTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pleatwright-");

    public void Dispose() => folder.Delete(recursive: true);

    private string In(string name) => Path.Combine(folder.FullName, name);

    private string Picture(string name, SKEncodedImageFormat format = SKEncodedImageFormat.Png)
    {
        var path = In($"{name.Replace(' ', '-')}.{format.ToString().ToLowerInvariant()}");
        File.WriteAllBytes(path, Encoded(TestPictures.All[name](), format));
        return path;
    }

    private static byte[] Encoded(Raster raster, SKEncodedImageFormat format)
    {
        using var bitmap = new SKBitmap(new SKImageInfo(raster.Width, raster.Height, SKColorType.Rgba8888, SKAlphaType.Unpremul));
        Marshal.Copy(raster.Rgba.ToArray(), 0, bitmap.GetPixels(), raster.Rgba.Length);
        using var data = bitmap.Encode(format, 95);
        return data.ToArray();
    }

    [Fact]
    public void A_picture_becomes_a_piece_that_proves_without_errors()
    {
        var target = In("boat.piece.json");
        var traced = Program.Run("trace", Picture("boat"), "--width", "61", "--threads", "4", "-o", target, "--json");
        Assert.Equal(0, traced.Exit);
        Assert.Equal(0, traced.Json.GetProperty("counts").GetProperty("error").GetInt32());
        Assert.Equal(61, traced.Json.GetProperty("width").GetInt32());
        Assert.InRange(traced.Json.GetProperty("threads").GetArrayLength(), 3, 4);
        Assert.Equal(0, Program.Run("proof", target).Exit);
        Assert.Equal("Boat", PieceReader.Read(File.ReadAllBytes(target)).Title);
        Assert.Equal(2, folder.GetFiles().Length); // the picture and the piece, nothing else
    }

    [Fact]
    public void The_same_command_writes_the_same_bytes()
    {
        var picture = Picture("dusk");
        foreach (var name in new[] { "one", "two" }) Assert.Equal(0, Program.Run("trace", picture, "--title", "Dusk", "-o", In(name)).Exit);
        Assert.Equal(File.ReadAllBytes(In("one")), File.ReadAllBytes(In("two")));
    }

    [Fact]
    public void Every_option_is_taken()
    {
        File.WriteAllText(In("stash.csv"), "name,colour\nlamp red,#b3202c\nsail gold,#d9a441\nhull blue,#1f4e79\n\"mast, old\",#5b3a21\n");
        var target = In("all.json");
        var run = Program.Run("trace", Picture("boat"), "-o", target, "--width", "41", "--threads", "4", "--stash", In("stash.csv"), "--fidelity", "0.3",
            "--background", "#ffffff", "--tolerance", "3", "--enclosed", "--crop", "10,10,300,240", "--turn", "90", "--mirror", "--no-half-stitches",
            "--title", "A boat on its side", "--cloth", "#dfe8ee", "--margin", "12", "--pleats-per-inch", "15", "--take-up", "7 mm", "--row-spacing", "1 cm", "--cable-rows", "6");
        Assert.True(run.Exit == 0, run.Error);
        var piece = PieceReader.Read(File.ReadAllBytes(target));
        Assert.Equal("A boat on its side", piece.Title);
        Assert.Equal("#dfe8ee", piece.Cloth.Colour.ToString());
        Assert.Equal((15, 6), (piece.Cloth.Gauge.PleatsPerInch, piece.Cloth.Gauge.CableRowsPerSpace));
        Assert.Equal(41, piece.Figures[0].Width);
        Assert.Equal(piece.Figures[0].Rows, piece.Figures[0].Mirrored().Rows);
        Assert.Empty(piece.Figures[0].Halves);
        Assert.All(piece.Threads, t => Assert.Contains(t.Name, new[] { "lamp red", "sail gold", "hull blue", "mast, old" }));
    }

    [Theory]
    [InlineData("--width", "2", "valleys wide")]
    [InlineData("--width", "5000", "valleys wide")]
    [InlineData("--threads", "0", "threads")]
    [InlineData("--fidelity", "1.5", "fidelity")]
    [InlineData("--fidelity", "much", "number")]
    [InlineData("--tolerance", "101", "tolerance")]
    [InlineData("--background", "red", "#rrggbb")]
    [InlineData("--crop", "1,2,3", "x,y,w,h")]
    [InlineData("--crop", "300,0,100,10", "past the picture")]
    [InlineData("--turn", "45", "0, 90, 180 or 270")]
    [InlineData("--margin", "-1", "--margin")]
    [InlineData("--margin", "2490", "pleats")]
    [InlineData("--threads", "many", "whole number")]
    [InlineData("--take-up", "1/32 in", "take up")]
    [InlineData("--cable-rows", "0", "Cable rows")]
    [InlineData("--stash", "nowhere.csv", "no such file")]
    public void Bad_usage_is_one_line_exit_2_and_no_file(string option, string value, string word)
    {
        var target = In("out.piece.json");
        var run = Program.Run("trace", Picture("boat"), "-o", target, option, value);
        Assert.Equal(2, run.Exit);
        var line = run.Error.Trim().Split('\n')[^1];
        Assert.StartsWith("pleatwright: ", line);
        Assert.Contains(word, line);
        Assert.Single(folder.GetFiles());
    }

    [Fact]
    public void Broken_and_hostile_pictures_are_refused_in_one_line()
    {
        var png = Encoded(TestPictures.All["pebbles"](), SKEncodedImageFormat.Png);
        var jpeg = Encoded(TestPictures.All["pebbles"](), SKEncodedImageFormat.Jpeg);
        foreach (var (name, bytes, word) in new (string, byte[], string)[]
        {
            ("empty.png", [], "no picture"),
            ("words.png", "This is no picture at all."u8.ToArray(), "no picture"),
            ("page.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>"u8.ToArray(), "no picture"),
            ("short.png", png[..(png.Length / 2)], "broken"),
            ("head.png", png[..40], "broken"),
            ("short.jpg", jpeg[..(jpeg.Length / 3)], "broken"),
            ("bent.png", [.. png[..60], .. new byte[400], .. png[460..]], "broken"),
            ("wide.png", Header(2_000_000_000, 1), "no picture"), // past what the format itself allows a reader
            ("bomb.png", Header(60_000, 60_000), "60000 × 60000"),
            ("null.png", Header(0, 10), "broken"),
        })
        {
            File.WriteAllBytes(In(name), bytes);
            var run = Program.Run("trace", In(name), "-o", In("out.json"));
            Assert.True(run.Exit == 2, $"{name}: exit {run.Exit}");
            var line = run.Error.Trim().Split('\n')[^1];
            Assert.True(line.Contains(word), $"{name}: {line}");
            Assert.False(File.Exists(In("out.json")));
        }
    }

    [Fact]
    public void A_bomb_is_refused_without_unpacking_it()
    {
        // A true picture of 12,000 × 12,000 black pixels packs into a few hundred kilobytes.
        File.WriteAllBytes(In("bomb.png"), Header(12_000, 12_000, new byte[12_000 * 12_000 / 8 + 12_000]));
        var before = GC.GetTotalAllocatedBytes();
        var refused = Assert.Throws<UsageException>(() => ImageFile.Read(In("bomb.png")));
        Assert.Contains("12000 × 12000", refused.Message);
        Assert.True(GC.GetTotalAllocatedBytes() - before < 20_000_000);
    }

    [Fact]
    public void A_file_past_the_size_cap_is_refused_unread()
    {
        using (var file = File.Create(In("huge.png"))) file.SetLength(ImageFile.MostBytes + 1);
        Assert.Contains("larger than 64 MB", Assert.Throws<UsageException>(() => ImageFile.Read(In("huge.png"))).Message);
        Assert.Contains("folder", Assert.Throws<UsageException>(() => ImageFile.Read(folder.FullName)).Message);
        Assert.Contains("no such file", Assert.Throws<UsageException>(() => ImageFile.Read(In("none.png"))).Message);
        if (OperatingSystem.IsLinux()) Assert.Contains("larger than 1 MB", Assert.Throws<UsageException>(() => InputFile.Read("/dev/zero", "a file", 1 << 20)).Message); // never ends
    }

    [Theory]
    [InlineData(SKEncodedImageFormat.Png, 0)]
    [InlineData(SKEncodedImageFormat.Webp, 12)]
    [InlineData(SKEncodedImageFormat.Jpeg, 12)]
    public void Each_format_comes_in_as_it_was(SKEncodedImageFormat format, int most)
    {
        var drawn = TestPictures.All["dusk"]();
        var read = ImageFile.Decode("a picture", Encoded(drawn, format));
        Assert.Equal((drawn.Width, drawn.Height), (read.Width, read.Height));
        Assert.True(Apart(drawn, read) <= most, $"{Apart(drawn, read)}");
    }

    [Fact]
    public void Alpha_is_kept_straight()
    {
        var drawn = TestPictures.All["half clear"]();
        var read = ImageFile.Decode("a picture", Encoded(drawn, SKEncodedImageFormat.Png));
        for (var i = 3; i < drawn.Rgba.Length; i += 4) Assert.Equal(drawn.Rgba[i], read.Rgba[i]);
        for (var i = 0; i < drawn.Rgba.Length; i += 4)
            if (drawn.Rgba[i + 3] > 100) Assert.InRange(read.Rgba[i] - drawn.Rgba[i], -2, 2);
    }

    [Fact]
    public void The_first_frame_of_a_gif_is_read()
    {
        // Two frames of 2 × 1: red and blue, then all blue (GIF89a, written out by hand).
        byte[] gif =
        [
            .. "GIF89a"u8, 2, 0, 1, 0, 0x80, 0, 0, 200, 30, 40, 20, 60, 160,
            0x2c, 0, 0, 0, 0, 2, 0, 1, 0, 0, 2, 2, 0x44, 0x0a, 0,
            0x2c, 0, 0, 0, 0, 2, 0, 1, 0, 0, 2, 2, 0x4c, 0x0a, 0,
            0x3b,
        ];
        var read = ImageFile.Decode("a picture", gif);
        Assert.Equal((2, 1), (read.Width, read.Height));
        Assert.Equal([200, 30, 40, 255, 20, 60, 160, 255], read.Rgba.ToArray());
    }

    [Fact]
    public void A_photo_is_turned_as_its_camera_says()
    {
        // Orientation 6: what is stored on the left belongs at the top (Exif 2.3, tag 0x0112).
        var jpeg = Encoded(TestPictures.All["gradient"](), SKEncodedImageFormat.Jpeg);
        var stored = ImageFile.Decode("a photo", jpeg);
        for (ushort orientation = 1; orientation <= 8; orientation++)
        {
            byte[] exif = [.. "Exif\0\0MM"u8, 0, 42, 0, 0, 0, 8, 0, 1, 1, 0x12, 0, 3, 0, 0, 0, 1, 0, (byte)orientation, 0, 0, 0, 0, 0, 0];
            byte[] turned = [0xff, 0xd8, 0xff, 0xe1, 0, (byte)(exif.Length + 2), .. exif, .. jpeg[2..]];
            var read = ImageFile.Decode("a photo", turned);
            var expected = orientation switch
            {
                1 => stored,
                2 => stored.Flipped(),
                3 => stored.Turned(Turn.Half),
                4 => stored.Turned(Turn.Half).Flipped(),
                5 => stored.Turned(Turn.Quarter).Flipped(),
                6 => stored.Turned(Turn.Quarter),
                7 => stored.Turned(Turn.ThreeQuarters).Flipped(),
                _ => stored.Turned(Turn.ThreeQuarters),
            };
            Assert.Equal((expected.Width, expected.Height), (read.Width, read.Height));
            Assert.Equal(0, Apart(expected, read));
        }
    }

    [Theory]
    [InlineData("MM")]
    [InlineData("II")]
    public void A_scan_is_turned_as_its_file_says(string order)
    {
        var png = Encoded(TestPictures.All["gradient"](), SKEncodedImageFormat.Png);
        var stored = ImageFile.Decode("a scan", png);
        byte[] exif = order == "MM" ? [.. "MM"u8, 0, 42, 0, 0, 0, 8, 0, 1, 1, 0x12, 0, 3, 0, 0, 0, 1, 0, 6, 0, 0, 0, 0, 0, 0]
            : [.. "II"u8, 42, 0, 8, 0, 0, 0, 1, 0, 0x12, 1, 3, 0, 1, 0, 0, 0, 6, 0, 0, 0, 0, 0, 0, 0];
        byte[] Chunk(byte[] said) => [0, 0, 0, (byte)said.Length, .. "eXIf"u8, .. said, .. CheckOf([.. "eXIf"u8, .. said])];
        const int Header = 8 + 12 + 13; // the signature and the first chunk
        var read = ImageFile.Decode("a scan", [.. png[..Header], .. Chunk(exif), .. png[Header..]]);
        Assert.Equal(0, Apart(stored.Turned(Turn.Quarter), read));
        foreach (var broken in (byte[][])[exif[..9], [.. exif[..4], 255, 255, 255, 255, .. exif[8..]], []])
            Assert.Equal(0, Apart(stored, ImageFile.Decode("a scan", [.. png[..Header], .. Chunk(broken), .. png[Header..]])));

        static byte[] CheckOf(byte[] bytes)
        {
            var check = new byte[4];
            System.Buffers.Binary.BinaryPrimitives.WriteUInt32BigEndian(check, Crc32(bytes));
            return check;
        }

        static uint Crc32(byte[] bytes) // PNG, annex D
        {
            var crc = 0xffffffffu;
            foreach (var b in bytes)
            {
                crc ^= b;
                for (var i = 0; i < 8; i++) crc = (crc & 1) == 1 ? 0xedb88320u ^ (crc >> 1) : crc >> 1;
            }
            return ~crc;
        }
    }

    [Theory]
    [InlineData("none")]
    [InlineData("plane")] // progressive
    public void A_photo_that_breaks_off_is_refused_however_it_is_laid_out(string interlace)
    {
        var folder = Directory.CreateTempSubdirectory("photo");
        var (png, jpeg) = (Path.Combine(folder.FullName, "it.png"), Path.Combine(folder.FullName, "it.jpg"));
        File.WriteAllBytes(png, Encoded(TestPictures.All["gradient"](), SKEncodedImageFormat.Png));
        using (var made = System.Diagnostics.Process.Start("convert", [png, "-interlace", interlace, jpeg])) made.WaitForExit();
        var whole = File.ReadAllBytes(jpeg);
        Assert.NotNull(ImageFile.Decode("a photo", whole));
        foreach (var part in (double[])[0.5, 0.8, 0.97])
            Assert.Contains("broken", Assert.Throws<UsageException>(() => ImageFile.Decode("a photo", whole[..(int)(part * whole.Length)])).Message, StringComparison.Ordinal);
        folder.Delete(recursive: true);
    }

    private static int Apart(Raster one, Raster other)
    {
        long sum = 0;
        for (var i = 0; i < one.Rgba.Length; i++) sum += Math.Abs(one.Rgba[i] - other.Rgba[i]);
        return (int)(sum / one.Rgba.Length);
    }

    // A PNG of one-bit grey whose header says this size (ISO/IEC 15948).
    private static byte[] Header(uint width, uint height, byte[]? rows = null)
    {
        var header = new byte[13];
        BinaryPrimitives.WriteUInt32BigEndian(header, width);
        BinaryPrimitives.WriteUInt32BigEndian(header.AsSpan(4), height);
        header[8] = 1;
        using var packed = new MemoryStream();
        using (var zlib = new ZLibStream(packed, CompressionLevel.Fastest, leaveOpen: true)) zlib.Write(rows ?? [0, 0]);
        return [0x89, .. "PNG\r\n\x1a\n"u8, .. Chunk("IHDR"u8, header), .. Chunk("IDAT"u8, packed.ToArray()), .. Chunk("IEND"u8, [])];
    }

    private static byte[] Chunk(ReadOnlySpan<byte> type, byte[] data)
    {
        var chunk = new byte[12 + data.Length];
        BinaryPrimitives.WriteInt32BigEndian(chunk, data.Length);
        type.CopyTo(chunk.AsSpan(4));
        data.CopyTo(chunk, 8);
        BinaryPrimitives.WriteUInt32BigEndian(chunk.AsSpan(8 + data.Length), Crc(chunk.AsSpan(4, 4 + data.Length)));
        return chunk;
    }

    private static uint Crc(ReadOnlySpan<byte> bytes)
    {
        var crc = ~0u;
        foreach (var b in bytes)
        {
            crc ^= b;
            for (var k = 0; k < 8; k++) crc = (crc & 1) != 0 ? 0xedb88320 ^ crc >> 1 : crc >> 1;
        }
        return ~crc;
    }
}
