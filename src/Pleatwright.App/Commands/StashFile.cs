using System.Collections.Immutable;
using CsvHelper;
using Pleatwright.Files;
using Pleatwright.Thread;

namespace Pleatwright.App.Commands;

/// <summary>The maker's threads from a file: a piece file's, or a CSV's with the columns name and colour.</summary>
internal static class StashFile
{
    private const int MostThreads = 2000;

    /// <summary>Reads the threads.</summary>
    /// <exception cref="UsageException">It cannot be read; the message names file and line.</exception>
    public static ImmutableArray<Floss> Read(string path)
    {
        var threads = path.EndsWith(".json", StringComparison.OrdinalIgnoreCase) ? PieceFile.Read(path).Threads : ReadCsv(path);
        return threads.IsEmpty ? throw new UsageException($"{path}: it names no threads.") : threads;
    }

    private static ImmutableArray<Floss> ReadCsv(string path)
    {
        try
        {
            if (!File.Exists(path)) throw new UsageException($"{path}: there is no such file.");
            if (new FileInfo(path).Length > PieceReader.MostBytes) throw new UsageException($"{path}: the file is larger than any stash.");
            using var csv = CsvReader.Create(File.ReadAllBytes(path), new CsvReaderOptions { TrackLineNumbers = true });
            csv.ReadHeader();
            if (!csv.TryGetFieldIndex("name", out var name) || !csv.TryGetFieldIndex("colour", out var shade))
                throw new UsageException($"{path}:1:1: a stash has a first line that names its columns, name and colour among them.");
            var threads = ImmutableArray.CreateBuilder<Floss>();
            while (csv.Read())
            {
                var text = csv.GetString(shade).Trim();
                if (!Colour.TryParse(text, out var colour)) throw new UsageException($"{path}:{csv.LineNumber}:1: “{text}” is not a colour; write it as #rrggbb.");
                if (threads.Count == MostThreads) throw new UsageException($"{path}:{csv.LineNumber}:1: more than {MostThreads} threads.");
                threads.Add(new Floss(new ThreadKey('a'), csv.GetString(name).Trim(), colour, Floss.DefaultStrands));
            }
            return threads.ToImmutable();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or CsvFormatException)
        {
            throw new UsageException($"{path}: it cannot be read: {e.Message.Split('\n')[0]}");
        }
    }
}
