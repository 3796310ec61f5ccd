using System.Buffers.Binary;
using SkiaSharp;

namespace Pleatwright.App.Images;

/// <summary>An animated picture, frame by frame.</summary>
internal interface IAnimation
{
    /// <summary>Adds a frame.</summary>
    /// <param name="frame">What is shown; all of one size.</param>
    /// <param name="milliseconds">How long, at least 1.</param>
    void Add(SKImage frame, int milliseconds);

    /// <summary>The whole file; at least one frame was added.</summary>
    byte[] Finish();
}

/// <summary>An animated PNG (PNG Specification, third edition, W3C 2025: acTL in 11.3.4.1, fcTL in 11.3.4.2, fdAT in 11.3.4.3). A frame holds what has changed since the one before.</summary>
internal sealed class AnimatedPng : IAnimation
{
    private static readonly byte[] Signature = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

    private readonly MemoryStream frames = new();
    private byte[] header = [];
    private byte[] before = [];
    private uint sequence;
    private int count;

    /// <inheritdoc/>
    public void Add(SKImage frame, int milliseconds)
    {
        using var map = frame.PeekPixels();
        var pixels = map.GetPixelSpan().ToArray();
        var changed = count == 0 ? SKRectI.Create(frame.Width, frame.Height) : Changed(pixels, frame.Width, frame.Height);
        before = pixels;
        using var part = count == 0 ? null : frame.Subset(changed);
        using var encoded = (part ?? frame).Encode(SKEncodedImageFormat.Png, 100);
        Span<byte> control = stackalloc byte[26];
        BinaryPrimitives.WriteUInt32BigEndian(control, sequence++);
        BinaryPrimitives.WriteInt32BigEndian(control[4..], changed.Width);
        BinaryPrimitives.WriteInt32BigEndian(control[8..], changed.Height);
        BinaryPrimitives.WriteInt32BigEndian(control[12..], changed.Left);
        BinaryPrimitives.WriteInt32BigEndian(control[16..], changed.Top);
        BinaryPrimitives.WriteUInt16BigEndian(control[20..], (ushort)Math.Clamp(milliseconds, 1, ushort.MaxValue));
        BinaryPrimitives.WriteUInt16BigEndian(control[22..], 1000);
        // nothing is disposed of, and the frame is set over what is there
        Write(frames, "fcTL"u8, control);
        foreach (var (kind, data) in Chunks(encoded.AsSpan().ToArray()))
        {
            if (kind == "IHDR")
            {
                if (count == 0) header = data;
                else if (!data.AsSpan(8).SequenceEqual(header.AsSpan(8))) throw new InvalidOperationException("The frames are not of one kind.");
            }
            if (kind != "IDAT") continue;
            if (count == 0) Write(frames, "IDAT"u8, data);
            else
            {
                var numbered = new byte[4 + data.Length];
                BinaryPrimitives.WriteUInt32BigEndian(numbered, sequence++);
                data.CopyTo(numbered, 4);
                Write(frames, "fdAT"u8, numbered);
            }
        }
        count++;
    }

    /// <inheritdoc/>
    public byte[] Finish()
    {
        using var file = new MemoryStream();
        file.Write(Signature);
        Write(file, "IHDR"u8, header);
        Write(file, "sRGB"u8, [0]);
        Write(file, "tEXt"u8, "Software\0Pleatwright"u8);
        Span<byte> control = stackalloc byte[8]; // so many frames, again and again
        BinaryPrimitives.WriteInt32BigEndian(control, count);
        control[4..].Clear();
        Write(file, "acTL"u8, control);
        frames.Position = 0;
        frames.CopyTo(file);
        Write(file, "IEND"u8, []);
        return file.ToArray();
    }

    // The least rectangle that holds what is unlike the frame before; one pixel where nothing is.
    private SKRectI Changed(byte[] pixels, int wide, int high)
    {
        var stride = 4 * wide;
        int top = 0, bottom = high;
        while (top < high && Row(top)) top++;
        if (top == high) return SKRectI.Create(1, 1);
        while (Row(bottom - 1)) bottom--;
        int left = wide, right = 0;
        for (var y = top; y < bottom; y++)
        {
            ReadOnlySpan<byte> a = pixels.AsSpan(y * stride, stride), b = before.AsSpan(y * stride, stride);
            var same = a.CommonPrefixLength(b);
            if (same == stride) continue;
            left = Math.Min(left, same / 4);
            var last = stride - 1;
            while (a[last] == b[last]) last--;
            right = Math.Max(right, last / 4 + 1);
        }
        return new SKRectI(left, top, right, bottom);

        bool Row(int y) => pixels.AsSpan(y * stride, stride).SequenceEqual(before.AsSpan(y * stride, stride));
    }

    private static IEnumerable<(string Kind, byte[] Data)> Chunks(byte[] png)
    {
        for (var at = Signature.Length; at + 12 <= png.Length;)
        {
            var length = BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(at));
            yield return (System.Text.Encoding.ASCII.GetString(png, at + 4, 4), png[(at + 8)..(at + 8 + length)]);
            at += 12 + length;
        }
    }

    private static void Write(Stream file, ReadOnlySpan<byte> kind, ReadOnlySpan<byte> data)
    {
        Span<byte> number = stackalloc byte[4];
        BinaryPrimitives.WriteInt32BigEndian(number, data.Length);
        file.Write(number);
        file.Write(kind);
        file.Write(data);
        BinaryPrimitives.WriteUInt32BigEndian(number, Crc(kind, data));
        file.Write(number);
    }

    // The cyclic redundancy check of PNG, annex D: that of ISO 3309.
    private static uint Crc(ReadOnlySpan<byte> kind, ReadOnlySpan<byte> data)
    {
        var crc = uint.MaxValue;
        foreach (var octet in kind) crc = Table[(crc ^ octet) & 0xff] ^ (crc >> 8);
        foreach (var octet in data) crc = Table[(crc ^ octet) & 0xff] ^ (crc >> 8);
        return ~crc;
    }

    private static readonly uint[] Table = [.. Enumerable.Range(0, 256).Select(n =>
    {
        var c = (uint)n;
        for (var bit = 0; bit < 8; bit++) c = (c & 1) != 0 ? 0xedb88320 ^ (c >> 1) : c >> 1;
        return c;
    })];
}
