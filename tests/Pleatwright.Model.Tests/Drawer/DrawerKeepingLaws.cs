using System.Globalization;
using System.Text;
using CsCheck;
using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Shelf;
using Pleatwright.Tests.Keeping;
using Pleatwright.Thread;

namespace Pleatwright.Model.Tests.Drawer;

/// <summary>
/// Whatever is done with the drawer at three benches, whatever the clock does, and whatever fails, is slow, is full, loses its answer or is killed: no exception, every
/// state of a figure that was put in is kept, nobody's is written over, no figure is there twice, and a minute after the trouble all of it is on the shelf.
/// </summary>
public class DrawerKeepingLaws(ITestOutputHelper output)
{
    private const int Acts = 24;

    private static readonly Gen<Act> AnAct = Gen.Frequency(
        (16, Gen.Const(Act.Keep)), (22, Gen.Const(Act.Change)), (6, Gen.Const(Act.Look)), (5, Gen.Const(Act.Rename)), (5, Gen.Const(Act.TakeOut)), (4, Gen.Const(Act.PutBack)), (4, Gen.Const(Act.Restore)),
        (5, Gen.Const(Act.BringIn)), (3, Gen.Const(Act.ByHand)), (6, Gen.Const(Act.Reload)), (3, Gen.Const(Act.Close)), (5, Gen.Const(Act.Kill)), (3, Gen.Const(Act.Hide)), (9, Gen.Const(Act.Wait)),
        (4, Gen.Const(Act.Long)), (2, Gen.Const(Act.SetClock)), (5, Gen.Const(Act.Stop)), (5, Gen.Const(Act.Start)), (3, Gen.Const(Act.NoStore)), (10, Gen.Const(Act.Trouble)));

    private static readonly Gen<Step> AStep = Gen.Select(AnAct, Gen.Int[0, 2], Gen.Int[0, 7], Gen.Enum<Fault>().Array[0, 4], Gen.Int[0, 1])
        .Select((act, who, which, faults, where) => new Step(act, who, which, faults, where));

    private enum Act
    {
        /// <summary>A figure that was not there is put in.</summary>
        Keep,

        /// <summary>One that this bench sees there is put back changed.</summary>
        Change,

        Look, Rename, TakeOut, PutBack, Restore, BringIn,

        /// <summary>Another program writes a figure's file in other spaces.</summary>
        ByHand,

        Reload, Close, Kill, Hide, Wait, Long, SetClock, Stop, Start, NoStore, Trouble,
    }

    private sealed record Step(Act Act, int Who, int Which, Fault[] Faults, int Where)
    {
        public override string ToString() => $"{Act} {Who} {Which} [{string.Join(' ', Faults)}] {Where}";
    }

    private static int Runs => Environment.GetEnvironmentVariable("PLEATWRIGHT_ENDURANCE") is { Length: > 0 } ? 20_000 : 150;

    [Fact]
    public void Whatever_is_done_and_whatever_fails_no_state_of_a_figure_is_lost()
    {
        var (tried, kept) = (0, 0);
        AStep.Array[1, Acts].Sample(steps =>
        {
            var world = new World(put: steps.Any(s => s.Act is Act.PutBack or Act.Restore));
            foreach (var step in steps) world.Take(step);
            world.End();
            tried += steps.Length;
            kept += world.Held;
        }, iter: Runs, threads: 1, print: s => string.Join("\n", s.Select(x => x.ToString())));
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{tried} acts tried in {Runs} sequences; {kept} states accounted for"));
        Assert.True(tried > 8 * Runs && kept > 2 * Runs); // the law would say little of few acts
    }

    /// <summary>A figure told from every other by the name of its thread.</summary>
    private static KeptFigure Made(string word, int number, string? id = null)
    {
        var kept = new KeptFigure(new Figure("boat", ["r"]), [new Floss(new ThreadKey('r'), word, new Colour((byte)(number >> 8), (byte)number, 7), 4)], Gauge.Common);
        return kept with { Id = id ?? kept.State };
    }

    /// <summary>Two tabs of one browser and one of another, on one shelf.</summary>
    private sealed class World
    {
        private const double LastMoment = 1, TroubleLasts = 4;

        private readonly AShelf at = new() { WithDrawer = true };
        private readonly FakeBrowser elsewhere;
        private readonly ABench[] benches;
        private readonly bool putBack;
        private readonly Dictionary<string, double> put = []; // words of states put in, and when
        private double troubled = double.NegativeInfinity;
        private readonly Dictionary<string, string?> over = []; // by the word of a state, the state it was made from
        private readonly List<string> writtenOver = [];
        private bool refused;
        private int made;

        public World(bool put)
        {
            putBack = put;
            elsewhere = new FakeBrowser(at.Faults);
            at.FigureWrote = Wrote;
            benches = [at.Open(), at.Open(), at.Open(browser: elsewhere)];
            foreach (var bench in benches) at.Thread.Do(bench.Drawer.OpenAsync);
        }

        public int Held => put.Count;

        public void Take(Step step)
        {
            var bench = benches[step.Who];
            var word = $"{step.Act} {++made}";
            var troubles = at.Faults.JournalTroubles;
            switch (step.Act)
            {
                case Act.Keep: Put(bench, Made(word, made), null); break;
                case Act.Change: Change(bench, step.Which, word); break;
                case Act.Look: Try(bench.Drawer.LookAsync); break;
                case Act.Rename: With(bench, step.Which, f => bench.Drawer.RenameAsync(f, step.Which % 2 == 0 ? "boat" : word)); break;
                case Act.TakeOut: With(bench, step.Which, bench.Drawer.TakeOutAsync); break;
                case Act.PutBack: if (bench.Drawer.TakenOut is { Count: > 0 } gone) Try(() => bench.Drawer.PutBackAsync(gone[step.Which % gone.Count].Name)); break;
                case Act.Restore: With(bench, step.Which, f => RestoreAsync(bench, f, step.Which)); break;
                case Act.BringIn: BringIn(bench, word); break;
                case Act.ByHand: ByHand(step.Which); break;
                case Act.Reload: Reopen(step.Who, true); break;
                case Act.Close:
                    if (step is { Who: < 2, Which: > 3 }) Close(1 - step.Who, false); // both tabs are gone before one is opened, which finds what both left
                    Reopen(step.Who, false);
                    if (step is { Who: < 2, Which: > 3 }) Open(1 - step.Who, null);
                    break;
                case Act.Kill: Reopen(step.Who, false, killed: true); break;
                case Act.Hide: at.Thread.Do(bench.Tab.Hide); break;
                case Act.Wait: at.Thread.Pass(0.02 * (1 + step.Which * step.Which)); break;
                case Act.Long: at.Thread.Pass(30 * (1 + step.Which), 1); break;
                case Act.SetClock: at.Thread.SetClock(TimeSpan.FromHours(step.Which - 3.5)); break;
                case Act.Stop: at.Faults.Stopped = true; break;
                case Act.Start: at.Faults.Stopped = false; break;
                case Act.NoStore: at.Faults.NoStore = !at.Faults.NoStore; break;
                case Act.Trouble: (step.Where == 0 ? (Action<IEnumerable<Fault>>)(f => at.Faults.OnDisk(f)) : f => at.Faults.OnWire(f))(step.Faults); break;
            }
            refused |= at.Faults.NoStore; // what is not taken cannot be forgotten either
            if (at.Faults.NoStore || at.Faults.JournalTroubles > troubles) troubled = at.Thread.Passed;
            NothingLost($"when {step} was done");
        }

        public void End()
        {
            at.Faults.Stop();
            at.Thread.Pass(60, 0.25);
            NothingLost("in the end");
            var there = OnShelf();
            Assert.Equal([], put.Keys.Where(w => !there.Any(t => Holds(t, w)))); // all of it on the shelf, in its place or among the versions
            foreach (var bench in benches)
            {
                Assert.Equal(Kept.Safe, bench.Drawer.State);
                Try(bench.Drawer.LookAsync);
                Assert.All(bench.Drawer.All, f => Assert.NotNull(f.Edition)); // nothing is on its way any more
            }
            if (!refused) Assert.DoesNotContain(at.Browser.AllRemembered.Concat(elsewhere.AllRemembered), r => r.Key.StartsWith("figures", StringComparison.Ordinal));
            var ids = Standing().Select(f => f.Kept.Id).ToList();
            if (!putBack) Assert.Equal(ids.Count, ids.Distinct().Count()); // no twins, whatever answers were lost; put back by its maker beside one begun anew, it lies there twice
        }

        private void Put(ABench bench, KeptFigure kept, string? over)
        {
            at.Thread.Do(() => bench.Drawer.Put(kept, over));
            put[kept.Threads[0].Name] = at.Thread.Passed;
            this.over[kept.Threads[0].Name] = over;
        }

        // What is saved takes the place of the state it was made from, or of itself under another name.
        private void Wrote(PieceName name, byte[]? before)
        {
            if (before is null) return;
            var (was, now) = (FigureReader.Read(before), FigureReader.Read(at.Files.All.First(f => f.Path == name + FigureReader.Ending).Text));
            if (was.State != now.State && over.GetValueOrDefault(now.Threads[0].Name) != was.State) writtenOver.Add($"{was.Threads[0].Name} by {now.Threads[0].Name}");
        }

        private void Change(ABench bench, int which, string word)
        {
            if (Seen(bench, which) is { Kept: { } kept }) Put(bench, Made(word, made, kept.Id), kept.State);
        }

        private void BringIn(ABench bench, string word)
        {
            var kept = Made(word, made);
            at.Thread.Do(async () =>
            {
                try
                {
                    Assert.Null(await bench.Drawer.BringInAsync(FigureWriter.WriteUtf8(kept)));
                    put[word] = at.Thread.Passed;
                }
                catch (ShelfException) { }
            });
        }

        private async Task RestoreAsync(ABench bench, DrawerFigure figure, int which)
        {
            var versions = await bench.Drawer.Shelf.VersionsAsync(PieceName.Parse(figure.Name));
            if (versions.Count > 0) await bench.Drawer.RestoreAsync(figure, versions[which % versions.Count].Number);
        }

        // Another program that writes the very same in other spaces changes nothing that anyone could lose.
        private void ByHand(int which)
        {
            var files = Standing().ToList();
            if (files.Count == 0) return;
            var (path, kept) = files[which % files.Count];
            at.Files.Put(path, Encoding.UTF8.GetBytes(" " + FigureWriter.Write(kept)));
        }

        private IEnumerable<(string Path, KeptFigure Kept)> Standing() =>
            at.Files.All.Where(f => !f.Path.StartsWith('.') && f.Path.EndsWith(FigureReader.Ending, StringComparison.Ordinal)).Select(f => (f.Path, FigureReader.Read(f.Text)));

        private void With(ABench bench, int which, Func<DrawerFigure, Task> act)
        {
            if (Seen(bench, which) is { } figure) Try(() => act(figure));
        }

        private static DrawerFigure? Seen(ABench bench, int which) => bench.Drawer.All.Count == 0 ? null : bench.Drawer.All[which % bench.Drawer.All.Count];

        private void Try(Func<Task> act) => at.Thread.Do(async () =>
        {
            try { await act(); }
            catch (ShelfException) { }
        });

        private void Reopen(int who, bool reloaded, bool killed = false)
        {
            Close(who, killed);
            Open(who, reloaded ? benches[who].Tab : null);
        }

        private void Open(int who, FakeBrowser.Tab? reloaded)
        {
            benches[who] = at.Open(reloaded, who == 2 ? elsewhere : at.Browser);
            Try(benches[who].Drawer.OpenAsync);
        }

        private void Close(int who, bool killed)
        {
            var bench = benches[who];
            bench.Close(killed);
            var there = Everywhere(but: bench);
            foreach (var (word, when) in put.ToList())
                if ((at.Faults.NoStore || (killed && (when > at.Thread.Passed - LastMoment || when < troubled + TroubleLasts))) && !there.Any(t => Holds(t, word)))
                    put.Remove(word);
        }

        private List<string> OnShelf() => [.. at.Files.All.Where(f => f.Path.EndsWith(FigureReader.Ending, StringComparison.Ordinal)).Select(f => Encoding.UTF8.GetString(f.Text))];

        private List<string> Everywhere(ABench? but = null) =>
        [
            .. OnShelf(), .. at.Browser.AllRemembered.SelectMany(r => r), .. elsewhere.AllRemembered.SelectMany(r => r),
            .. from bench in benches where bench != but from kept in bench.Drawer.OnTheWay select FigureWriter.Write(kept),
        ];

        private static bool Holds(string text, string word) => text.Contains($"\"{word}\"", StringComparison.Ordinal);

        private void NothingLost(string when)
        {
            Assert.True(writtenOver.Count == 0, $"written over {when}: {string.Join(", ", writtenOver)}");
            var there = Everywhere();
            Assert.True(put.Keys.Where(w => !there.Any(t => Holds(t, w))).ToList() is [], $"lost {when}: {string.Join(", ", put.Keys.Where(w => !there.Any(t => Holds(t, w))))}");
        }
    }
}
