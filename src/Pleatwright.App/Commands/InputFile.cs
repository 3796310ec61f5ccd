namespace Pleatwright.App.Commands;

/// <summary>Files that are read: whole, and no larger than they can rightly be.</summary>
internal static class InputFile
{
    private const int Chunk = 64 * 1024;

    /// <summary>Reads a file, a pipe too.</summary>
    /// <param name="path">Where it is.</param>
    /// <param name="wanted">What should be named, as "a piece file".</param>
    /// <param name="most">The most bytes that are read.</param>
    /// <exception cref="UsageException">It is not there, is a folder, is too large or cannot be read; the message is one line that says which.</exception>
    public static byte[] Read(string path, string wanted, long most)
    {
        try
        {
            if (Directory.Exists(path)) throw new UsageException($"{path}: this is a folder; name {wanted}.");
            if (!File.Exists(path)) throw new UsageException($"{path}: there is no such file.");
            using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0);
            if (file.CanSeek && file.Length > most) throw TooLarge(path, most);
            using var read = new MemoryStream();
            var chunk = new byte[Chunk];
            for (int taken; (taken = file.Read(chunk)) > 0;)
            {
                read.Write(chunk, 0, taken);
                if (read.Length > most) throw TooLarge(path, most); // a pipe does not say beforehand, and may never end
            }
            return read.ToArray();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new UsageException($"{path}: it cannot be read: {e.Message.Split('\n')[0]}");
        }
    }

    private static UsageException TooLarge(string path, long most) => new($"{path}: the file is larger than {most / 1024 / 1024} MB, more than is read here.");
}
