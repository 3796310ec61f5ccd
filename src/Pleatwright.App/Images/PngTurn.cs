using System.Buffers.Binary;
using SkiaSharp;

namespace Pleatwright.App.Images;

/// <summary>How a PNG is to be turned, which the decoder does not read.</summary>
internal static class PngTurn
{
    private const ushort OrientationTag = 0x0112;

    /// <summary>What the Exif data of a PNG say; null where it is no PNG or they say nothing.</summary>
    // PNG (third edition), 11.3.3.6: the chunk eXIf holds Exif data from the byte order on. Exif 2.3, 4.6.2: entries of twelve bytes, the value of a short in the first two of four.
    public static SKEncodedOrigin? Of(ReadOnlySpan<byte> png)
    {
        if (!png.StartsWith((ReadOnlySpan<byte>)[0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return null;
        for (var at = 8; at + 12 <= png.Length;)
        {
            var length = BinaryPrimitives.ReadUInt32BigEndian(png[at..]);
            if (length > png.Length - at - 12) return null;
            if (png.Slice(at + 4, 4).SequenceEqual("eXIf"u8)) return Orientation(png.Slice(at + 8, (int)length));
            at += 12 + (int)length;
        }
        return null;
    }

    private static SKEncodedOrigin? Orientation(ReadOnlySpan<byte> exif)
    {
        if (exif.Length < 8 || !(exif.StartsWith("MM\0*"u8) || exif.StartsWith("II*\0"u8))) return null;
        var big = exif[0] == (byte)'M';
        var from = Int32(exif[4..]);
        if (from > (uint)exif.Length - 2) return null;
        var entries = exif[((int)from + 2)..];
        for (var left = Int16(exif[(int)from..]); left > 0 && entries.Length >= 12; left--, entries = entries[12..])
            if (Int16(entries) == OrientationTag) return Int16(entries[8..]) is >= 1 and <= 8 and var origin ? (SKEncodedOrigin)origin : null;
        return null;

        ushort Int16(ReadOnlySpan<byte> bytes) => big ? BinaryPrimitives.ReadUInt16BigEndian(bytes) : BinaryPrimitives.ReadUInt16LittleEndian(bytes);
        uint Int32(ReadOnlySpan<byte> bytes) => big ? BinaryPrimitives.ReadUInt32BigEndian(bytes) : BinaryPrimitives.ReadUInt32LittleEndian(bytes);
    }
}
