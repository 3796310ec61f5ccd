using Pleatwright.App;
using Pleatwright.Shelf;

namespace Pleatwright.Tests.Host;

/// <summary>One writer at a time, and nothing left behind.</summary>
public sealed class LockFileTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("locks").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Only_one_holds_it_at_a_time_and_one_that_passes_is_gone_afterwards(bool passes)
    {
        var path = Path.Combine(folder, "it.lock");
        var (inside, turns) = (0, 0);
        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(async () =>
        {
            for (var turn = 0; turn < 20; turn++)
            {
                await using var held = await LockFile.HoldAsync(path, passes, TimeProvider.System, CancellationToken.None);
                Assert.Equal(1, Interlocked.Increment(ref inside));
                await Task.Yield();
                Interlocked.Decrement(ref inside);
                Interlocked.Increment(ref turns);
            }
        })));
        Assert.Equal(80, turns);
        Assert.Equal(!passes, File.Exists(path));
    }

    [Fact]
    public async Task Old_ones_that_nobody_holds_are_swept()
    {
        string left = Path.Combine(folder, "left.lock"), held = Path.Combine(folder, "held.lock"), young = Path.Combine(folder, "young.lock");
        await File.WriteAllTextAsync(left, "");
        await File.WriteAllTextAsync(young, "");
        await using var hold = await LockFile.HoldAsync(held, passes: false, TimeProvider.System, CancellationToken.None);
        foreach (var old in (string[])[left, held]) File.SetLastWriteTimeUtc(old, DateTime.UtcNow.AddDays(-3));
        LockFile.Sweep(folder, "*.lock", DateTimeOffset.UtcNow.AddDays(-1));
        Assert.Equal(["held.lock", "young.lock"], Directory.GetFiles(folder).Select(Path.GetFileName).Order());
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task No_link_is_followed(bool passes)
    {
        var elsewhere = Path.Combine(folder, "elsewhere");
        File.CreateSymbolicLink(Path.Combine(folder, "it.lock"), elsewhere);
        await Assert.ThrowsAsync<ShelfException>(() => LockFile.HoldAsync(Path.Combine(folder, "it.lock"), passes, TimeProvider.System, CancellationToken.None));
        Assert.False(File.Exists(elsewhere));
    }
}
