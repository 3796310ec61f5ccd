using System.Text;
using Pleatwright.App.Host;
using Pleatwright.Files;
using Pleatwright.Shelf;
using Pleatwright.Tests.Host;

namespace Pleatwright.Tests.Endurance;

/// <summary>A clock set back muddles nothing: versions stay in the order they were made, and go on being made.</summary>
public class ClockTests
{
    [Fact]
    public async Task Versions_keep_their_order_and_go_on_when_the_clock_is_set_back()
    {
        var folder = Directory.CreateTempSubdirectory("shelf").FullName;
        var clock = new WallClock { Now = new DateTimeOffset(2026, 5, 3, 9, 0, 0, TimeSpan.Zero) };
        var shelf = new FileShelf(new FolderStore(folder, clock), clock);
        var piece = await shelf.CreateAsync(PieceName.Parse("Gull"), Text("0"));
        var edition = piece.Edition;
        for (var save = 1; save <= 6; save++)
        {
            clock.Now -= TimeSpan.FromDays(200); // a flat battery, each time
            clock.Steady += FileShelf.AutoVersionEvery;
            edition = await shelf.SaveAsync(piece.Name, Text($"{save}"), edition, SaveKind.Auto);
        }
        var versions = await shelf.VersionsAsync(piece.Name);
        var titles = new List<string>();
        foreach (var version in versions.OrderBy(v => v.Number)) titles.Add(PieceReader.Read(await shelf.LoadVersionAsync(piece.Name, version.Number)).Title);
        Assert.Equal(["0", "1", "2", "3", "4", "5"], titles);
        Assert.Equal("6", PieceReader.Read((await shelf.LoadAsync(piece.Name)).Text).Title);
        await shelf.RestoreAsync(piece.Name, versions.Min(v => v.Number));
        Assert.Equal("0", PieceReader.Read((await shelf.LoadAsync(piece.Name)).Text).Title);
        Directory.Delete(folder, recursive: true);
    }

    private static byte[] Text(string title) => Encoding.UTF8.GetBytes(ServedShelf.Titled(title));

    private sealed class WallClock : TimeProvider
    {
        public DateTimeOffset Now { get; set; }

        public TimeSpan Steady { get; set; }

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public override DateTimeOffset GetUtcNow() => Now;

        public override long GetTimestamp() => Steady.Ticks;
    }
}
