using System.Buffers.Binary;
using SkiaSharp;

namespace Pleatwright.App.Images;

/// <summary>An animated WebP (RFC 9649, sections 2.5 to 2.7): each frame is encoded by the library, and the container round them is written here.</summary>
internal sealed class AnimatedWebp : IAnimation
{
    private const int Quality = 85;

    private readonly MemoryStream frames = new();
    private int width, height;

    /// <inheritdoc/>
    public void Add(SKImage frame, int milliseconds)
    {
        (width, height) = (frame.Width, frame.Height);
        using var encoded = frame.Encode(SKEncodedImageFormat.Webp, Quality);
        var data = encoded.AsSpan();
        var image = Images(data);
        Span<byte> head = stackalloc byte[16];
        Int24(head[6..], width - 1);
        Int24(head[9..], height - 1);
        Int24(head[12..], Math.Clamp(milliseconds, 1, 0xffffff));
        head[15] = 2; // set over what is there, without blending
        Span<byte> size = stackalloc byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(size, head.Length + image.Length);
        frames.Write("ANMF"u8);
        frames.Write(size);
        frames.Write(head);
        frames.Write(image);
    }

    /// <inheritdoc/>
    public byte[] Finish()
    {
        using var file = new MemoryStream();
        Span<byte> extended = stackalloc byte[10];
        extended.Clear();
        extended[0] = 0x02; // animated
        Int24(extended[4..], width - 1);
        Int24(extended[7..], height - 1);
        file.Write("RIFF\0\0\0\0WEBP"u8);
        Chunk(file, "VP8X"u8, extended);
        Chunk(file, "ANIM"u8, [0xff, 0xff, 0xff, 0xff, 0, 0]); // white behind it, again and again
        frames.Position = 0;
        frames.CopyTo(file);
        // Its maker, so that the same command may write it again.
        Chunk(file, "XMP "u8, "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\"><rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\"><rdf:Description xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\" xmp:CreatorTool=\"Pleatwright\"/></rdf:RDF></x:xmpmeta>"u8);
        var written = file.ToArray();
        written[20] |= 0x04; // XMP is there
        BinaryPrimitives.WriteInt32LittleEndian(written.AsSpan(4), written.Length - 8);
        return written;
    }

    // The chunks of the image itself, whole: VP8 or VP8L, and ALPH where there is one.
    private static ReadOnlySpan<byte> Images(ReadOnlySpan<byte> webp)
    {
        var at = 12;
        while (at + 8 <= webp.Length && webp.Slice(at, 4) is var kind && !(kind.StartsWith("VP8 "u8) || kind.StartsWith("VP8L"u8) || kind.StartsWith("ALPH"u8)))
            at += 8 + (BinaryPrimitives.ReadInt32LittleEndian(webp[(at + 4)..]) + 1 & ~1);
        return webp[at..];
    }

    private static void Chunk(Stream file, ReadOnlySpan<byte> kind, ReadOnlySpan<byte> data)
    {
        Span<byte> size = stackalloc byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(size, data.Length);
        file.Write(kind);
        file.Write(size);
        file.Write(data);
        if ((data.Length & 1) == 1) file.WriteByte(0);
    }

    private static void Int24(Span<byte> to, int number)
    {
        to[0] = (byte)number;
        to[1] = (byte)(number >> 8);
        to[2] = (byte)(number >> 16);
    }
}
