using System.CommandLine;
using System.Formats.Tar;
using System.Security.Cryptography;
using System.Text;
using Pleatwright.App.Host;
using Pleatwright.Files;
using Pleatwright.Shelf;

namespace Pleatwright.App.Commands;

/// <summary>What a command may write over without being told so by <c>--force</c>.</summary>
internal enum Replaces
{
    /// <summary>Nothing: what is written may be changed by hand afterwards, as a piece is.</summary>
    Nothing,

    /// <summary>What a command made before, which can be made again, as a plate is; never a piece, a stash, a picture or what it is made from.</summary>
    WhatCommandsMade,
}

/// <summary>
/// The one way in which a command writes a file. It is refused before any long work where it could not be written or would replace what it was not told to; it is
/// written whole or not at all; and on a shelf under the shelf's own lock, with what stood there kept as a version.
/// </summary>
internal sealed class OutputFile
{
    private readonly bool force;
    private readonly Replaces replaces;
    private readonly string[] inputs;

    private OutputFile(string path, bool force, Replaces replaces, string[] inputs) => (Path, this.force, this.replaces, this.inputs) = (path, force, replaces, inputs);

    /// <summary>Its name as it was given.</summary>
    public string Path { get; }

    /// <summary>The option that lets a file be written over.</summary>
    public static Option<bool> ForceOption() => new("--force") { Description = "Write over a file that is there." };

    /// <summary>The file of a name that was given.</summary>
    /// <param name="path">The name.</param>
    /// <param name="force">Whether <c>--force</c> was given.</param>
    /// <param name="replaces">What may be written over without it.</param>
    /// <param name="inputs">What it is made from; null for none.</param>
    /// <exception cref="UsageException">It cannot be written, or stands there and was not told to be replaced.</exception>
    public static OutputFile Named(string path, bool force, Replaces replaces, params string?[] inputs)
    {
        if (path.Length == 0 || path.Contains('\0')) throw new UsageException("the file to write has no usable name.");
        if (Directory.Exists(path)) throw new UsageException($"{path}: this is a folder; name a file to write.");
        if (FileNames.Unseen(System.IO.Path.GetFileName(path)) is { } unseen) throw new UsageException($"{Visible(path)}: this name holds what cannot be seen ({unseen}); name the file without it.");
        var folder = System.IO.Path.GetDirectoryName(System.IO.Path.GetFullPath(path))!;
        if (!Directory.Exists(folder)) throw new UsageException($"{path}: there is no folder {folder}.");
        var output = new OutputFile(path, force, replaces, [.. inputs.OfType<string>()]);
        output.CheckWhatStands();
        return output;
    }

    /// <summary>Writes all of it or nothing.</summary>
    /// <exception cref="UsageException">It cannot be written; what stood there is untouched and nothing is left behind.</exception>
    public Task WriteAsync(ReadOnlyMemory<byte> contents, CancellationToken cancel) => DoAsync(_ => contents, reads: false, cancel);

    /// <summary>Reads what stands there and writes what follows from it, so that two who do so at once both have their say.</summary>
    /// <param name="change">From what stands there (null for nothing) to what shall.</param>
    /// <param name="cancel">Gives up before anything is written.</param>
    /// <exception cref="UsageException">It cannot be written; what stood there is untouched and nothing is left behind.</exception>
    public Task ChangeAsync(Func<byte[]?, ReadOnlyMemory<byte>> change, CancellationToken cancel) => DoAsync(change, reads: true, cancel);

    private async Task DoAsync(Func<byte[]?, ReadOnlyMemory<byte>> change, bool reads, CancellationToken cancel)
    {
        try
        {
            var full = System.IO.Path.GetFullPath(Path);
            if (AtomicFile.IsDevice(full))
            {
                await AtomicFile.WriteAsync(full, change(null), over: true, cancel);
                return;
            }
            var folder = System.IO.Path.GetDirectoryName(full)!;
            var store = Directory.Exists(System.IO.Path.Combine(folder, FileShelf.VersionsFolder)) ? new FolderStore(folder, TimeProvider.System) : null;
            AtomicFile.SweepLeftovers(folder, DateTimeOffset.UtcNow);
            await using var held = store is not null ? await store.HoldAsync(cancel) : reads ? await HoldAsync(full, cancel) : null;
            CheckWhatStands(); // it may have come there during the work
            var stands = File.Exists(full);
            var standing = stands && (reads || store is not null) ? InputFile.Read(full, "a file", PieceReader.MostBytes) : null;
            var contents = change(standing);
            if (store is not null && standing is not null && !contents.Span.SequenceEqual(standing)
                && VersionFolder.Of(store, TimeProvider.System, System.IO.Path.GetFileName(full)) is { } versions)
                await versions.KeepAsync(standing, KeptBecause.Saved, cancel);
            await AtomicFile.WriteAsync(full, contents, over: stands || force, cancel);
        }
        catch (ShelfException e)
        {
            throw new UsageException($"{Path}: it cannot be written: {e.Message}");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new UsageException($"{Path}: it cannot be written: {AtomicFile.Why(e)}");
        }
    }

    private void CheckWhatStands()
    {
        var file = new FileInfo(Path);
        if (file.LinkTarget is not null && !AtomicFile.IsDevice(file.FullName))
        {
            file = file.ResolveLinkTarget(returnFinalTarget: true) is FileInfo { Exists: true } target ? target
                : throw new UsageException($"{Path}: this is a link that leads nowhere; name the file itself.");
        }
        if (AtomicFile.IsDevice(file.FullName)) return; // written to as it stands, as /dev/null is
        if (!file.Exists) return;
        if (file.Length == 0 && !IsPlainFile(file.FullName)) throw new UsageException($"{Path}: this is no plain file (a pipe, a socket or a device); name another.");
        if (IsForReading(file)) throw new UsageException($"{Path}: this file may only be read; make it writable, or name another.");
        if (force) return;
        if (inputs.Any(i => IsSame(i, file))) throw new UsageException($"{Path}: this is what it is made from; name another file, or write over it with --force.");
        if (file.Length == 0 && replaces != Replaces.Nothing) return;
        if (replaces == Replaces.Nothing) throw new UsageException($"{Path}: there is a file of this name; --force writes over it.");
        if (!Standing.IsMade(file.FullName)) throw new UsageException($"{Path}: this file was not made by this command; --force writes over it.");
    }

    private static bool IsSame(string input, FileInfo output)
    {
        var file = new FileInfo(input);
        if (file.LinkTarget is not null && file.ResolveLinkTarget(returnFinalTarget: true) is FileInfo target) file = target;
        return FileNames.OneFile.Equals(file.FullName, output.FullName) && file.Exists;
    }

    // To whoever may do everything on a machine no file seems for reading alone; its marks are asked, too.
    private static bool IsForReading(FileInfo file) => file.IsReadOnly
        || (!OperatingSystem.IsWindows() && (file.UnixFileMode & (UnixFileMode.UserWrite | UnixFileMode.GroupWrite | UnixFileMode.OtherWrite)) == 0);

    // The platform tells only its own archiver what kind of file it is; of a file that is empty there is nothing to read. A socket no archive takes.
    private static bool IsPlainFile(string path)
    {
        if (OperatingSystem.IsWindows()) return true;
        try
        {
            using var told = new MemoryStream();
            using (var archive = new TarWriter(told, leaveOpen: true)) archive.WriteEntry(path, "it");
            told.Position = 0;
            using var read = new TarReader(told);
            return read.GetNextEntry() is { EntryType: TarEntryType.RegularFile or TarEntryType.V7RegularFile };
        }
        catch (Exception e) when (e is IOException or InvalidOperationException or NotSupportedException)
        {
            return false;
        }
    }

    // Beside files that are on no shelf nothing is put: what is locked lies among the passing files of the machine, under a name made of theirs, and goes again.
    private static async Task<IAsyncDisposable> HoldAsync(string full, CancellationToken cancel)
    {
        var folder = System.IO.Path.GetTempPath();
        LockFile.Sweep(folder, "pleatwright-*.lock", DateTimeOffset.UtcNow.AddDays(-1));
        var mark = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(full)))[..24];
        return await LockFile.HoldAsync(System.IO.Path.Combine(folder, $"pleatwright-{mark}.lock"), passes: true, TimeProvider.System, cancel);
    }

    private static string Visible(string path) => string.Concat(path.EnumerateRunes().Where(r => !FileNames.IsUnseen(r)));
}
