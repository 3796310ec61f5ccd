using System.Buffers;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace Pleatwright.Files;

/// <summary>How every file of ours is written: indented, one line break everywhere, letters as they are.</summary>
internal static class JsonOut
{
    private static readonly JsonWriterOptions Options = new()
    {
        Indented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, // the file is read as JSON, never pasted into a page
    };

    /// <summary>What is written as UTF-8, ending with a line break.</summary>
    public static byte[] Utf8(Action<Utf8JsonWriter> write)
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, Options)) write(json);
        return [.. buffer.WrittenSpan, (byte)'\n'];
    }
}
