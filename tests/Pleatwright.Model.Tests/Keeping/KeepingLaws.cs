using System.Globalization;
using System.Text;
using CsCheck;
using Pleatwright.Bench.Model;
using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Shelf;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Keeping;

/// <summary>
/// Whatever two makers do on one shelf, whatever the clock does, and whatever fails, is slow, is full, loses its answer, is killed or is changed
/// by another meanwhile: no exception, nothing lost, nobody's work written over, and when the trouble is over all of it is on the shelf within a
/// minute of the clock.
/// </summary>
public class KeepingLaws(ITestOutputHelper output)
{
    private const int Acts = 24;

    private static readonly Gen<Act> AnAct = Gen.Frequency(
        (26, Gen.Const(Act.Edit)), (5, Gen.Const(Act.Stroke)), (8, Gen.Const(Act.Undo)), (6, Gen.Const(Act.Redo)), (8, Gen.Const(Act.Open)), (5, Gen.Const(Act.OpenHeld)), (3, Gen.Const(Act.Example)),
        (5, Gen.Const(Act.New)), (4, Gen.Const(Act.Rename)), (3, Gen.Const(Act.Delete)), (3, Gen.Const(Act.UndoDelete)), (3, Gen.Const(Act.PutBack)), (4, Gen.Const(Act.KeepNow)),
        (4, Gen.Const(Act.KeepAsNew)), (3, Gen.Const(Act.TakeTheirs)), (6, Gen.Const(Act.Reload)), (3, Gen.Const(Act.Close)), (5, Gen.Const(Act.Kill)), (3, Gen.Const(Act.Hide)),
        (8, Gen.Const(Act.Stash)), (2, Gen.Const(Act.UndoStash)), (2, Gen.Const(Act.ByHand)), (9, Gen.Const(Act.Wait)), (4, Gen.Const(Act.Long)), (3, Gen.Const(Act.Asleep)),
        (2, Gen.Const(Act.SetClock)), (5, Gen.Const(Act.Stop)), (5, Gen.Const(Act.Start)), (3, Gen.Const(Act.NoStore)), (10, Gen.Const(Act.Trouble)));

    private static readonly Gen<Step> AStep = Gen.Select(AnAct, Gen.Int[0, 2], Gen.Int[0, 7], Gen.Enum<Fault>().Array[0, 4], Gen.Int[0, 2])
        .Select((act, who, which, faults, where) => new Step(act, who, which, faults, where));

    private enum Act
    {
        Edit,

        /// <summary>A stroke is begun and not ended.</summary>
        Stroke,

        Undo, Redo, Open, OpenHeld, Example, New, Rename, Delete, UndoDelete, PutBack, KeepNow, KeepAsNew, TakeTheirs, Reload, Close,

        /// <summary>The tab is gone and another opened in its place; the page never heard that it was to go.</summary>
        Kill,

        Hide, Stash, UndoStash,

        /// <summary>Another program writes a piece's file.</summary>
        ByHand,

        Wait, Long,

        /// <summary>The machine sleeps: hours pass at once.</summary>
        Asleep,

        /// <summary>The clock is set back or forth.</summary>
        SetClock,

        Stop, Start, NoStore, Trouble,
    }

    private sealed record Step(Act Act, int Who, int Which, Fault[] Faults, int Where)
    {
        public override string ToString() => $"{Act} {Who} {Which} [{string.Join(' ', Faults)}] {Where}";
    }

    [Fact]
    public void Whatever_is_done_and_whatever_fails_nothing_is_lost()
    {
        var (tried, ended, kept, killed) = (0, 0, 0, 0);
        AStep.Array[1, Acts].Sample(steps =>
        {
            var world = new World();
            foreach (var step in steps) world.Take(step);
            world.End();
            tried += steps.Length;
            ended++;
            kept += world.Held;
            killed += steps.Count(s => s.Act == Act.Kill);
        }, iter: Runs, threads: 1, print: s => string.Join("\n", s.Select(x => x.ToString())));
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{tried} acts tried in {ended} sequences, {killed} kills; {kept} moments and stash edits accounted for"));
        Assert.True(tried > 8 * Runs && kept > Runs); // the law would say little of few acts
    }

    private static int Runs => Environment.GetEnvironmentVariable("PLEATWRIGHT_ENDURANCE") is { Length: > 0 } ? 20_000 : 200;

    /// <summary>Two tabs of one browser and one of another, on one shelf.</summary>
    private sealed class World
    {
        private const double LastMoment = 1, Trouble = 4; // seconds: what a kill may take, and how long trouble with the storage has its effect

        private static readonly double[] Waits = [0.02, 0.1, 0.15, 0.4, 0.75, 1, 2, 6], Sleeps = [60, 130, 600, 3600, 30_000, 86_400, 700_000, 40_000_000], Sets = [-3600, -1, 1, 3600, -86_400, 86_400, -0.7, 0.7];

        private readonly AShelf at = new();
        private readonly FakeBrowser elsewhere;
        private readonly ABench[] benches;
        private readonly Dictionary<string, double> kept = []; // texts that became a moment, and when; not those that their makers undid and drew over
        private readonly Dictionary<string, double> stashed = []; // threads put into the stash
        private readonly HashSet<string> doubted = []; // files that were to be deleted, with no answer
        private double troubled = double.NegativeInfinity; // when this browser's storage met trouble last
        private int troubles, made;
        private string before = "";

        public World()
        {
            elsewhere = new FakeBrowser(at.Faults);
            benches = [at.Open(), at.Open(), at.Open(browser: elsewhere)];
        }

        /// <summary>Moments and stash edits accounted for.</summary>
        public int Held => kept.Count + stashed.Count;

        public void Take(Step step)
        {
            var bench = benches[step.Who];
            if (step.Act is not (Act.Undo or Act.Redo))
                foreach (var gone in bench.Desk.History.Future) kept.Remove(PieceWriter.Write(gone.Piece)); // undone by its maker, and perhaps drawn over now
            var (opened, drawn) = (bench.Desk.History.Past.Reverse().FirstOrDefault() ?? bench.Desk.History.Now, bench.Desk.History);
            var stroke = bench.IsDrawing ? PieceWriter.Write(bench.Desk.Piece) : null;
            var word = $"{step.Act} {++made}";
            switch (step.Act)
            {
                case Act.Edit: Edit(bench, word); break;
                case Act.Stroke:
                    at.Thread.Do(bench.Desk.KeepDraft);
                    bench.Stroke(word);
                    Kept(bench.Desk.Piece);
                    break;
                case Act.Undo: Back(bench); break;
                case Act.Redo: at.Thread.Do(bench.Desk.Redo); break;
                case Act.Open: Try(async () => { if (await NameAsync(bench, step.Which) is { } name) await bench.Keeper.OpenAsync(name); }); break;
                case Act.OpenHeld: Try(async () => { if (await HeldAsync(bench, step.Which) is { } held) await bench.Keeper.OpenAsync(held); }); break;
                case Act.Example: Try(() => bench.Keeper.OpenExampleAsync(Examples.Names.First())); break;
                case Act.New:
                    Try(() => bench.Keeper.NewAsync(ABench.Small(word)));
                    if (bench.Title == word) Kept(bench.Desk.History.Now.Piece);
                    break;
                case Act.Rename: Try(async () => { if (await NameAsync(bench, step.Which) is { } name) await bench.Keeper.RenameAsync(name, word, readable: true); }); break;
                case Act.Delete:
                    Try(async () =>
                    {
                        if (await NameAsync(bench, step.Which) is not { } name) return;
                        try { await bench.Keeper.DeleteAsync(name); }
                        catch (ShelfException e) when (e.Trouble == ShelfTrouble.Unavailable)
                        {
                            doubted.Add(name.FileName); // its maker was told that nobody answers, and will look
                            throw;
                        }
                    });
                    break;
                case Act.UndoDelete: Try(async () => { if ((await bench.Keeper.Shelf.ListAsync()).Deleted is [var gone, ..]) await bench.Keeper.Shelf.UndoDeleteAsync(PieceName.Parse(gone.Name)); }); break;
                case Act.PutBack:
                    Try(async () =>
                    {
                        if (await NameAsync(bench, step.Which) is not { } name) return;
                        if (await bench.Keeper.Shelf.VersionsAsync(name) is [var latest, ..]) await bench.Keeper.RestoreAsync(name, latest.Number);
                    });
                    break;
                case Act.KeepNow: Try(bench.Keeper.KeepNowAsync); break;
                case Act.KeepAsNew: Try(bench.Keeper.KeepAsNewAsync); break;
                case Act.TakeTheirs: if (bench.Keeper.State == Bench.Model.Keeping.Kept.Parted) Try(bench.Keeper.TakeTheirsAsync); break;
                case Act.Reload: Reopen(step.Who, reloaded: true); break;
                case Act.Close: Reopen(step.Who, reloaded: false); break;
                case Act.Kill: Reopen(step.Who, reloaded: step.Which < 4, killed: true); break;
                case Act.Hide: at.Thread.Do(bench.Tab.Hide); break;
                case Act.Stash: Put(bench, word); break;
                case Act.UndoStash: UndoStash(bench); break;
                case Act.ByHand: ByHand(step.Which, word); break;
                case Act.Wait: at.Thread.Pass(Waits[step.Which]); break;
                case Act.Long: at.Thread.Pass(step.Which * 3); break;
                case Act.Asleep: at.Thread.Pass(Sleeps[step.Which], Sleeps[step.Which]); break;
                case Act.SetClock: at.Thread.SetClock(TimeSpan.FromSeconds(Sets[step.Which])); break;
                case Act.Stop: at.Faults.Stopped = true; break;
                case Act.Start: at.Faults.Stopped = false; break;
                case Act.NoStore: at.Faults.NoStore = step.Which < 3; break;
                case Act.Trouble:
                    if (step.Where == 0) at.Faults.OnDisk(step.Faults);
                    else if (step.Where == 1) at.Faults.OnWire(step.Faults);
                    else at.Faults.OnJournal(step.Faults);
                    break;
            }
            if (stroke is not null && !ReferenceEquals(drawn, bench.Desk.History) && kept.ContainsKey(stroke)) kept[stroke] = at.Thread.Passed; // a moment from now on
            if (benches[step.Who] == bench && !ReferenceEquals(drawn, bench.Desk.History) && ReferenceEquals(opened, bench.Desk.History.Past.Reverse().FirstOrDefault()))
                Kept(bench.Desk.History.Now.Piece); // whatever act it was, it made a moment
            if ((at.Faults.NoStore || at.Faults.JournalTroubles > troubles) && Everywhere() is var there) // where the browser stores nothing, a piece that is safe on the shelf is put away without its way back
                foreach (var gone in (stroke is null ? drawn.Past : drawn.Past.Append(drawn.Now)).Select(m => PieceWriter.Write(m.Piece)).Where(text => !there.Contains(text)).ToList()) kept.Remove(gone);
            if (at.Faults.NoStore || at.Faults.JournalTroubles > troubles) (troubled, troubles) = (at.Thread.Passed, at.Faults.JournalTroubles);
            NothingLost($"after {step}");
        }

        /// <summary>The trouble is over: within a minute all is on the shelf, or parted and waiting for a word.</summary>
        public void End()
        {
            at.Faults.Stop();
            foreach (var bench in benches) at.Thread.Do(bench.Desk.KeepDraft);
            at.Thread.Pass(70, 0.2);
            foreach (var bench in benches)
            {
                var (state, name) = (bench.Keeper.State, $"“{bench.Title}” of bench {Array.IndexOf(benches, bench)}");
                Assert.True(state is Bench.Model.Keeping.Kept.Safe or Bench.Model.Keeping.Kept.Parted or Bench.Model.Keeping.Kept.Example, $"{name} is {state}: {bench.Keeper.Trouble}");
                if (state == Bench.Model.Keeping.Kept.Safe) Stands(bench, name);
                Assert.True(bench.Basket.Trouble.Length == 0 || !bench.Basket.CanEdit, bench.Basket.Trouble);
                IReadOnlyList<HeldPiece> held = [];
                at.Thread.Do(async () => held = await bench.Keeper.HeldAsync());
                Assert.DoesNotContain(held, h => h.Stand == HeldStand.Waiting && !benches.Any(b => b.Keeper.IsOnTable(h)));
            }
            NothingLost("when all has settled");
            foreach (var who in new[] { 0, 1, 2 }) // and a reload of everything changes nothing
            {
                var (title, state) = (benches[who].Title, benches[who].Keeper.State);
                Reopen(who, reloaded: true);
                at.Thread.Pass(8, 0.2);
                if (state == Bench.Model.Keeping.Kept.Parted)
                {
                    Assert.Equal(title, benches[who].Title);
                    Assert.True(benches[who].Keeper.State == state || There(benches[who]) is { } there && PieceReader.Read(there).Title == title, $"“{title}” of bench {who} had parted and is {benches[who].Keeper.State}");
                }
                Try(benches[who].Basket.OpenAsync);
                at.Thread.Pass(1);
            }
            NothingLost("when all has settled and was loaded again");
            foreach (var browser in new[] { at.Browser, elsewhere }) Assert.DoesNotContain(browser.AllRemembered, r => r.Key.StartsWith("stash ", StringComparison.Ordinal));
            Assert.DoesNotContain(stashed.Keys, thread => !OnShelf().Any(text => Holds(text, thread)));
        }

        // What is said to be on the shelf stands there, unless somebody else has been at it since.
        private void Stands(ABench bench, string name)
        {
            if (at.Files.LastBy(bench.Keeper.Name!.Value.FileName) != bench.Tab) return;
            var there = There(bench);
            if (there is null && doubted.Contains(bench.Keeper.Name.Value.FileName)) return;
            // Where its journal could not be read, the piece came from the shelf, and an errand of this very tab then brought there what the journal held.
            if (there is not null && Encoding.UTF8.GetString(there) is var text && bench.Tab.Of.Texts.Contains(text)
                && !bench.Desk.History.Past.Append(bench.Desk.History.Now).Concat(bench.Desk.History.Future).Any(m => PieceWriter.Write(m.Piece) == text)) return;
            Assert.True(there is not null && PieceWriter.Write(PieceReader.Read(there)) == PieceWriter.Write(bench.Desk.History.Now.Piece),
                $"{name} is said to be safe; there stands {(there is null ? "nothing" : PieceReader.Read(there).Title)}");
        }

        private byte[]? There(ABench bench) => bench.Keeper.Name is { } name ? at.Files.All.FirstOrDefault(f => f.Path == name.FileName).Text : null;

        private void Edit(ABench bench, string word)
        {
            bench.Retitle(word);
            Kept(bench.Desk.History.Now.Piece);
        }

        private void Back(ABench bench)
        {
            at.Thread.Do(bench.Desk.KeepDraft);
            if (!bench.Desk.History.CanUndo) return;
            var before = bench.Desk.History.Now.Piece;
            at.Thread.Do(bench.Desk.Undo);
            at.Thread.Do(bench.Desk.Redo);
            Assert.Same(before, bench.Desk.History.Now.Piece);
            at.Thread.Do(bench.Desk.Undo);
        }

        private void Put(ABench bench, string word)
        {
            Try(bench.Basket.OpenAsync);
            at.Thread.Do(() => bench.Basket.Do(word, s => s with { Threads = s.Threads.Add(new StashThread(word, Colour.Parse("#8c2f39"), 1)) }));
            if (bench.Basket.CanEdit) stashed[word] = at.Thread.Passed;
        }

        private void UndoStash(ABench bench)
        {
            if (!bench.Basket.CanUndo) return;
            var before = bench.Basket.Stash;
            at.Thread.Do(bench.Basket.Undo);
            foreach (var gone in before.Threads.Except(bench.Basket.Stash.Threads)) stashed.Remove(gone.Name); // by its maker
            at.Thread.Do(bench.Basket.Redo);
            Assert.Equal(before, bench.Basket.Stash);
            at.Thread.Do(bench.Basket.Undo);
        }

        private void Kept(Piece piece) => kept.TryAdd(PieceWriter.Write(piece), at.Thread.Passed);

        private void Reopen(int who, bool reloaded, bool killed = false)
        {
            var bench = benches[who];
            if (killed && bench.IsDrawing) kept.Remove(PieceWriter.Write(bench.Desk.Piece));
            bench.Close(killed);
            // A page that is left in the moment in which neither shelf nor browser takes anything takes its last edits with it; one that is
            // killed, the last moment, and what the browser's storage was slow to take or refused.
            if (at.Faults.NoStore) Forgive(bench, since: double.NegativeInfinity);
            else if (killed) Forgive(bench, since: at.Thread.Passed - LastMoment);
            var browser = who == 2 ? elsewhere : at.Browser;
            benches[who] = at.Open(reloaded ? bench.Tab : null, browser);
            if (!bench.Titles.Contains(benches[who].Title)) // what another made of it came on top, and what was undone is gone as with any edit
                foreach (var gone in bench.Desk.History.Future) kept.Remove(PieceWriter.Write(gone.Piece));
        }

        private void Forgive(ABench bench, double since)
        {
            var there = Everywhere(but: bench);
            Forgive(kept, text => !there.Contains(text), since);
            Forgive(stashed, thread => !Stashes(but: bench).Any(text => Holds(text, thread)), since);
        }

        private void Forgive(Dictionary<string, double> of, Func<string, bool> gone, double since)
        {
            foreach (var (what, when) in of.ToList())
                if ((when > since || when < troubled + Trouble) && gone(what))
                    of.Remove(what);
        }

        private void ByHand(int which, string word)
        {
            var files = at.Files.All.Where(f => !f.Path.StartsWith('.') && f.Path.EndsWith(PieceName.Ending, StringComparison.Ordinal)).ToList();
            if (files.Count == 0) return;
            var (path, text) = files[which % files.Count];
            kept.Remove(Encoding.UTF8.GetString(text)); // another program keeps no version of what it writes over
            at.Files.Put(path, PieceWriter.WriteUtf8(PieceReader.Read(text) with { Title = word }));
        }

        private async Task<PieceName?> NameAsync(ABench bench, int which)
        {
            var pieces = (await bench.Keeper.Shelf.ListAsync()).Pieces;
            return pieces.Count == 0 ? null : PieceName.Parse(pieces[which % pieces.Count].Name);
        }

        private static async Task<HeldPiece?> HeldAsync(ABench bench, int which) => await bench.Keeper.HeldAsync() is { Count: > 0 } held ? held[which % held.Count] : null;

        // What the shelf refuses is told; nothing else may be thrown.
        private void Try(Func<Task> act) => at.Thread.Do(async () =>
        {
            try { await act(); }
            catch (ShelfException) { }
        });

        private IEnumerable<string> OnShelf() => at.Files.All.Select(f => Encoding.UTF8.GetString(f.Text));

        private HashSet<string> Everywhere(ABench? but = null) =>
        [
            .. OnShelf(), .. at.Browser.Texts, .. elsewhere.Texts,
            .. from bench in benches where bench != but from moment in bench.Desk.History.Past.Append(bench.Desk.History.Now).Concat(bench.Desk.History.Future) select PieceWriter.Write(moment.Piece),
            .. from bench in benches where bench != but && bench.IsDrawing select PieceWriter.Write(bench.Desk.Piece),
        ];

        // Where the stash may stand: on the shelf, remembered until it gets there, on the table.
        private List<string> Stashes(ABench? but = null) =>
        [
            .. OnShelf(), .. at.Browser.AllRemembered.SelectMany(r => r), .. elsewhere.AllRemembered.SelectMany(r => r), .. from bench in benches where bench != but select StashWriter.Write(bench.Basket.Stash),
        ];

        private string Told() => $"{string.Join("; ", benches.Select((b, i) => $"bench {i} has {b.Title} as {b.Keeper.Key.Replace('\n', '|')}, {b.Keeper.State}, of {string.Join(", ", b.Titles)}"))}\n{at.Browser.Told}\n{elsewhere.Told}";

        private static bool Holds(string text, string thread) => text.Contains($"\"{thread}\"", StringComparison.Ordinal);

        private void NothingLost(string when)
        {
            Assert.True(at.WrittenOver.Count == 0, $"written over {when}: {string.Join(", ", at.WrittenOver)}");
            var there = Everywhere();
            var lost = kept.Keys.Where(text => !there.Contains(text)).Select(text => PieceReader.Read(text).Title).ToList();
            if (stashed.Count > 0 && Stashes() is var stashes) lost.AddRange(stashed.Keys.Where(thread => !stashes.Any(text => Holds(text, thread))));
            Assert.True(lost.Count == 0, $"lost {when}: {string.Join(", ", lost)}\nbefore {before}\nnow {Told()}");
            if (when.StartsWith("when", StringComparison.Ordinal)) before = Told();
        }
    }
}
