using CsCheck;
using Microsoft.Extensions.Time.Testing;
using Pleatwright.Files;
using Pleatwright.Shelf;
using Pleatwright.Tests.Endurance;

namespace Pleatwright.Tests.Shelf;

/// <summary>
/// Whatever a maker does with a shelf, and whatever befalls its disk at any one call: what the shelf answered for is there, standing or among what can be put back. On a
/// disk that said it had written what it had not when the power failed, one text may be lost: no program can do better.
/// </summary>
public class FickleStoreLaws
{
    // To some disks several of these are one file.
    private static readonly string[] Names = ["Boot", "boot", "Möwe", "Mo\u0308we", "MÖWE"];

    private enum Act { Create, Save, SaveByItself, Rename, Delete, PutBack, Restore, Copy, SaveLate }

    private static readonly Gen<(Act Act, int Name, int Other)[]> Acts =
        Gen.Select(Gen.Int[0, 8].Select(a => (Act)a), Gen.Int[0, 4], Gen.Int[0, 4]).Array[1, 24];

    [Theory]
    [InlineData(Fate.Sound)]
    [InlineData(Fate.Fails)]
    [InlineData(Fate.LosesTheAnswer)]
    [InlineData(Fate.Dies)]
    [InlineData(Fate.Tears)]
    [InlineData(Fate.Lies)]
    [InlineData(Fate.Reorders)]
    public void What_the_shelf_answered_for_is_there_whatever_befalls_the_disk(Fate fate) =>
        Gen.Select(Acts, Gen.Int[1, 30], Gen.Bool).Sample((acts, at, oneFile) =>
        {
            var clock = new FakeTimeProvider(new DateTimeOffset(2026, 3, 2, 10, 0, 0, TimeSpan.Zero));
            var store = new FickleStore(clock, fate, at, oneFile);
            var shelf = new FileShelf(store, clock);
            List<string> kept = []; // every title the shelf has answered for, oldest first
            var number = 0;
            foreach (var (act, name, other) in acts)
            {
                clock.Advance(TimeSpan.FromMinutes(3)); // a version is due with every save
                var title = $"{act} {++number}";
                try
                {
                    if (Do(shelf, act, PieceName.Parse(Names[name]), PieceName.Parse(Names[other]), title)) kept.Add(title);
                }
                catch (ShelfException) { } // said; and it may have been done
                if (store.IsDead) break;
            }
            var again = store.Again();
            var there = again.All.Where(f => f.Path.EndsWith(PieceName.Ending, StringComparison.Ordinal)).Select(f => TitleOf(f.Text)).ToHashSet();
            var lost = kept.Where(t => !there.Contains(t)).ToList();
            Assert.True(lost.Count <= (fate is Fate.Lies or Fate.Reorders ? 1 : 0), $"{string.Join(", ", lost)}: nowhere");
            // And it is found by who looks: the shelf can be listed, and what stands on it opened or told of.
            var contents = new FileShelf(again, clock).ListAsync().Result;
            foreach (var piece in contents.Pieces.Where(p => p.Usable)) Assert.NotEmpty(new FileShelf(again, clock).LoadAsync(PieceName.Parse(piece.Name)).Result.Text);
            foreach (var gone in contents.Deleted) Assert.NotEmpty(new FileShelf(again, clock).VersionsAsync(PieceName.Parse(gone.Name)).Result);
        }, iter: Long.Of(400, 100_000));

    // What it answers with a new text that it kept.
    private static bool Do(FileShelf shelf, Act act, PieceName name, PieceName other, string title)
    {
        var text = System.Text.Encoding.UTF8.GetBytes($$"""{ "pleatwright": 1, "title": "{{title}}", "cloth": { "form": "panel", "finishedWidth": "4 in", "gatheringRows": 3 } }""");
        switch (act)
        {
            case Act.Create: shelf.CreateAsync(name, text).GetAwaiter().GetResult(); return true;
            case Act.Save or Act.SaveByItself:
                var over = shelf.LoadAsync(name).GetAwaiter().GetResult().Edition;
                shelf.SaveAsync(name, text, over, act == Act.Save ? SaveKind.Kept : SaveKind.Auto).GetAwaiter().GetResult();
                return true;
            case Act.SaveLate: // over what stands there no more: it stays, and what comes is kept beside it
                var stands = shelf.LoadAsync(name).GetAwaiter().GetResult().Edition;
                try { shelf.SaveAsync(name, text, new Edition(new string('0', 32)), SaveKind.Kept).GetAwaiter().GetResult(); }
                catch (ShelfException e) when (e.Trouble == ShelfTrouble.Conflict) { return true; }
                Assert.Fail($"{name} was written over unseen, {stands}");
                return false;
            case Act.Rename: shelf.RenameAsync(name, other).GetAwaiter().GetResult(); return false;
            case Act.Delete: shelf.DeleteAsync(name).GetAwaiter().GetResult(); return false;
            case Act.PutBack: shelf.UndoDeleteAsync(name).GetAwaiter().GetResult(); return false;
            case Act.Restore: shelf.RestoreAsync(name, 1).GetAwaiter().GetResult(); return false;
            default: shelf.DuplicateAsync(name).GetAwaiter().GetResult(); return false;
        }
    }

    private static string TitleOf(byte[] text)
    {
        try { return PieceReader.Read(text).Title; }
        catch (PieceFormatException) { return ""; } // torn
    }
}
