using System.Diagnostics;
using System.Net;
using Pleatwright.App;
using Pleatwright.App.Host;
using Pleatwright.Tests.Host;

namespace Pleatwright.Tests.Endurance;

/// <summary>Disks that will not take any more: a clear word, and what stood there stands.</summary>
public class DiskTests
{
    [Fact]
    public async Task A_full_disk_is_said_in_one_line_and_the_device_still_stands()
    {
        var folder = Directory.CreateTempSubdirectory("full").FullName;
        var link = Path.Combine(folder, "plate.txt");
        File.CreateSymbolicLink(link, "/dev/full"); // the system's own disk that is always full
        var outcome = Commands.Program.Run("plate", Commands.Program.Example("first-pennant"), "-o", link);
        Assert.Equal(2, outcome.Exit);
        Assert.StartsWith($"pleatwright: {link}: it cannot be written: there is no room left on the disk.", outcome.Complaint, StringComparison.Ordinal);
        using var test = Process.Start("test", ["-c", "/dev/full"]);
        await test.WaitForExitAsync();
        Assert.Equal(0, test.ExitCode);
        Directory.Delete(folder, recursive: true);
    }

    // On a real disk of a quarter of a megabyte where the system lets a test mount one, and always on one whose refusal is put in its mouth.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_shelf_on_a_full_disk_keeps_what_stood_there_and_says_so(bool mounted)
    {
        var folder = Directory.CreateTempSubdirectory("shelf").FullName;
        var versions = Path.Combine(folder, ".versions");
        using (var disk = mounted ? SmallDisk.Mount(versions) : null)
        {
            await using var shelf = await ServedShelf.StartAsync(disk is null ? new FolderStore(folder, TimeProvider.System, FullAt(versions)) : new FolderStore(folder, TimeProvider.System));
            var tag = await shelf.CreateAsync("Gull");
            var large = ServedShelf.Titled("Gull") + new string(' ', 900_000);
            using var answer = await shelf.SaveAsync("Gull", large, tag);
            Assert.Equal(HttpStatusCode.NoContent, answer.StatusCode);
            using var refused = await shelf.SaveAsync("Gull", ServedShelf.Titled("Crab"), answer.Headers.ETag!); // would keep the large one first
            Assert.Equal(HttpStatusCode.InsufficientStorage, refused.StatusCode);
            Assert.Contains("no room left", await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
            Assert.Equal(large, await File.ReadAllTextAsync(shelf.FileOf("Gull")));
        }
        Directory.Delete(folder, recursive: true);
    }

    // What a Unix kernel says of a full disk: error 28, ENOSPC (POSIX.1; the number is Linux's and macOS's); Windows has 112.
    private static FolderStore.FileWriter FullAt(string folder) => (path, content, cancel) =>
        path.StartsWith(folder, StringComparison.Ordinal) && content.Length > 256 * 1024
            ? throw new IOException("No space left on device", OperatingSystem.IsWindows() ? unchecked((int)0x80070070) : 28)
            : AtomicFile.WriteAsync(path, content, cancel);

    [Fact]
    public async Task A_folder_that_may_not_be_written_is_said_at_the_first_save()
    {
        // The kernel's own folder takes no file from anyone, not even from an administrator.
        const string readOnly = "/proc/self";
        var outcome = Commands.Program.Run("plate", Commands.Program.Example("first-pennant"), "-o", readOnly + "/plate.txt");
        Assert.Equal(2, outcome.Exit);
        Assert.StartsWith($"pleatwright: {readOnly}/plate.txt: it cannot be written:", outcome.Complaint, StringComparison.Ordinal);

        await using var shelf = await ServedShelf.StartAsync("/sys/kernel");
        using var answer = await shelf.Client.PostAsync("/api/shelf/pieces?name=Gull", ServedShelf.Json(ServedShelf.Piece));
        Assert.False(answer.IsSuccessStatusCode);
        Assert.Contains("nothing was changed", await answer.Content.ReadAsStringAsync(), StringComparison.OrdinalIgnoreCase);
    }

    /// <summary>A disk of a quarter of a megabyte, in a folder.</summary>
    private sealed class SmallDisk : IDisposable
    {
        private readonly string folder;

        private SmallDisk(string folder) => this.folder = folder;

        public static SmallDisk? Mount(string folder)
        {
            Directory.CreateDirectory(folder);
            return Run("mount", "-t", "tmpfs", "-o", "size=256k", "tmpfs", folder) ? new SmallDisk(folder) : null;
        }

        public void Dispose() => Run("umount", folder);

        private static bool Run(string program, params string[] arguments)
        {
            try
            {
                using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
                process.WaitForExit();
                return process.ExitCode == 0;
            }
            catch (System.ComponentModel.Win32Exception)
            {
                return false;
            }
        }
    }
}
