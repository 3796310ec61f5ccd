using System.Buffers;
using JpegLibrary;
using Pleatwright.Picture;

namespace Pleatwright.Stitched;

/// <summary>Pictures as JPEG (ISO/IEC 10918-1): YCbCr by JFIF (ISO/IEC 10918-5), colours at half the fineness of light and shade.</summary>
internal static class JpegFile
{
    /// <summary>How finely light is told, 1 to 100: where a stitched picture begins to look alike at arm's length, seen by eye.</summary>
    private const int Quality = 82;

    /// <summary>Encodes a picture; the same picture always gives the same bytes.</summary>
    public static byte[] Write(Raster picture)
    {
        var encoder = new JpegEncoder();
        encoder.SetQuantizationTable(JpegStandardQuantizationTable.ScaleByQuality(JpegStandardQuantizationTable.GetLuminanceTable(JpegElementPrecision.Precision8Bit, 0), Quality));
        encoder.SetQuantizationTable(JpegStandardQuantizationTable.ScaleByQuality(JpegStandardQuantizationTable.GetChrominanceTable(JpegElementPrecision.Precision8Bit, 1), Quality));
        // Tables are made for the picture, which saves a tenth.
        encoder.SetHuffmanTable(true, 0);
        encoder.SetHuffmanTable(false, 0);
        encoder.SetHuffmanTable(true, 1);
        encoder.SetHuffmanTable(false, 1);
        encoder.AddComponent(1, 0, 0, 0, 2, 2);
        encoder.AddComponent(2, 1, 1, 1, 1, 1);
        encoder.AddComponent(3, 1, 1, 1, 1, 1);
        encoder.SetInputReader(new Blocks(picture));
        var written = new ArrayBufferWriter<byte>(picture.Width * picture.Height / 4 + 1024);
        encoder.SetOutput(written);
        encoder.Encode();
        var body = written.WrittenSpan[2..]; // after the mark that begins every picture
        return [0xff, 0xd8, .. Jfif, .. body];
    }

    // The segment that says it is YCbCr, and nothing of its size on paper.
    private static ReadOnlySpan<byte> Jfif => [0xff, 0xe0, 0, 16, (byte)'J', (byte)'F', (byte)'I', (byte)'F', 0, 1, 2, 0, 0, 1, 0, 1, 0, 0];

    private sealed class Blocks(Raster picture) : JpegBlockInputReader
    {
        private const int Side = 8;

        public override int Width => picture.Width;

        public override int Height => picture.Height;

        public override void ReadBlock(ref short blockRef, int componentIndex, int x, int y)
        {
            var block = System.Runtime.InteropServices.MemoryMarshal.CreateSpan(ref blockRef, Side * Side);
            for (var j = 0; j < Side; j++)
            {
                var row = picture.Row(Math.Min(y + j, picture.Height - 1));
                for (var i = 0; i < Side; i++)
                {
                    var p = row.Slice(4 * Math.Min(x + i, picture.Width - 1), 3);
                    block[j * Side + i] = (short)Math.Clamp((int)MathF.Round(componentIndex switch
                    {
                        0 => 0.299f * p[0] + 0.587f * p[1] + 0.114f * p[2],
                        1 => 128 - 0.168736f * p[0] - 0.331264f * p[1] + 0.5f * p[2],
                        _ => 128 + 0.5f * p[0] - 0.418688f * p[1] - 0.081312f * p[2],
                    }), 0, 255);
                }
            }
        }
    }
}
