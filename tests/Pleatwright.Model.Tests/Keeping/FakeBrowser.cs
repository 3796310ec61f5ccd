using Pleatwright.Bench.Model.Keeping;

namespace Pleatwright.Tests.Keeping;

/// <summary>
/// One browser's storage, which outlives its tabs: journals by moment and head, as store.js keeps them, so that a note built on one that
/// never came through shows as the hole it leaves.
/// </summary>
public sealed class FakeBrowser(Faults faults)
{
    private readonly Faults faults = faults;
    private readonly Dictionary<(string Key, int Number), MomentText> moments = [];
    private readonly Dictionary<string, JournalHead> heads = [];
    private readonly Dictionary<string, string> remembered = [], settings = [];
    private readonly Dictionary<string, JournalNote> leaving = [];
    private readonly Dictionary<string, Tab> claims = [];

    /// <summary>The keys of the journals it holds.</summary>
    public IEnumerable<string> Keys => heads.Keys;

    /// <summary>The journals in words, for a law that was broken.</summary>
    public string Told => string.Join("; ", heads.Values.Select(h => $"{h.Key.Replace('\n', '|')} at {h.At} of {h.Count}: {string.Join(", ", moments.Where(m => m.Key.Key == h.Key).OrderBy(m => m.Key.Number).Select(m => Pleatwright.Files.PieceReader.Read(m.Value.Text).Title))}"));

    /// <summary>Every text of every journal.</summary>
    public IEnumerable<string> Texts => [.. moments.Values.Select(m => m.Text), .. leaving.Values.SelectMany(n => n.Moments).Select(m => m.Text)];

    /// <summary>Every text any tab ever sent from here, which is therefore ours even when its maker undid it and drew over it.</summary>
    public HashSet<string> Sent { get; } = [];

    /// <summary>Every small text it remembers, by its name.</summary>
    public ILookup<string, string> AllRemembered => remembered.Concat(settings).ToLookup(r => r.Key, r => r.Value);

    /// <summary>What is remembered under a name.</summary>
    public string? Remembered(string name) => remembered.GetValueOrDefault(name);

    /// <summary>Lays a journal as an older bench did.</summary>
    public void Lay(string key, JournalNote note) => Write(key, note);

    /// <summary>A tab; one reloaded goes on with what was its own.</summary>
    public Tab Open(Tab? reloaded = null) => new(this, reloaded);

    /// <summary>The browser clears all that it holds, as it may where room runs short; its tabs stay open.</summary>
    public void Clear()
    {
        moments.Clear();
        heads.Clear();
        remembered.Clear();
        settings.Clear();
        leaving.Clear();
        clearings++;
    }

    private int clearings;

    private void Write(string key, JournalNote note)
    {
        foreach (var gone in moments.Keys.Where(k => k.Key == key && k.Number >= note.Count).ToList()) moments.Remove(gone);
        for (var i = 0; i < note.Moments.Count; i++) moments[(key, note.From + i)] = note.Moments[i];
        heads[key] = new JournalHead(key, note.Count, note.At, note.Base, note.More);
    }

    private void Forget(string key)
    {
        foreach (var gone in moments.Keys.Where(k => k.Key == key).ToList()) moments.Remove(gone);
        heads.Remove(key);
    }

    private void BringIn(string key)
    {
        if (leaving.Remove(key, out var note)) Write(key, note);
    }

    /// <summary>A tab of the browser.</summary>
    public sealed class Tab : IMemory, IJournalStore
    {
        private readonly FakeBrowser of;
        private readonly Dictionary<string, string> own = [];
        private Action? leave;
        private Task last = Task.CompletedTask;
        private bool closed;
        private readonly int cleared;

        internal Tab(FakeBrowser of, Tab? reloaded)
        {
            (this.of, cleared) = (of, of.clearings);
            if (reloaded is not null) own = new(reloaded.own);
        }

        /// <summary>The tab is closed or reloaded: the page hears of it, unless it is killed; nothing it still writes comes through.</summary>
        public void Close(bool killed = false)
        {
            if (!killed) leave?.Invoke();
            closed = true;
            foreach (var claim in of.claims.Where(c => c.Value == this).ToList()) of.claims.Remove(claim.Key);
        }

        /// <summary>The browser it is of.</summary>
        public FakeBrowser Of => of;

        /// <summary>Whether it is closed.</summary>
        public bool Closed => closed;

        public int Clearings => of.clearings - cleared;

        /// <summary>The tab is put out of sight, and comes back.</summary>
        public void Hide() => leave?.Invoke();

        public async Task<string?> RememberedAsync(string name)
        {
            await MomentAsync();
            return of.remembered.GetValueOrDefault(name);
        }

        public async Task RememberAsync(string name, string? text)
        {
            await MomentAsync();
            if (!of.faults.NoStore) Set(of.remembered, name, text);
        }

        public async Task<bool> ReplaceAsync(string name, string? was, string? text)
        {
            await MomentAsync();
            if (of.faults.NoStore) return true;
            if (of.remembered.GetValueOrDefault(name) != was) return false;
            Set(of.remembered, name, text);
            return true;
        }

        public string? Setting(string name) => of.settings.GetValueOrDefault(name);

        public void SetSetting(string name, string? value)
        {
            if (!closed) Set(of.settings, name, value);
        }

        public string? OfTab(string name) => own.GetValueOrDefault(name);

        public void SetOfTab(string name, string? value) => Set(own, name, value);

        public void OnLeave(Action act) => leave += act;

        public Task<JournalText?> GetAsync(string key) => Do(() =>
        {
            of.BringIn(key);
            return of.heads.TryGetValue(key, out var head)
                ? new JournalText(head.At, head.Base, [.. of.moments.Where(m => m.Key.Key == key).OrderBy(m => m.Key.Number).Select(m => m.Value)], head.More) : null;
        });

        public Task<IReadOnlyList<JournalHead>> HeadsAsync() => Do<IReadOnlyList<JournalHead>>(() =>
        {
            foreach (var key in of.leaving.Keys.ToList()) of.BringIn(key);
            return [.. of.heads.Values.OrderBy(h => h.Key, StringComparer.Ordinal)];
        });

        public Task<string?> PresentAsync(string key) => Do(() => of.heads.TryGetValue(key, out var head) ? of.moments.GetValueOrDefault((key, head.At))?.Text : null);

        public Task PutAsync(string key, JournalNote note) => Do(() =>
        {
            of.leaving.Remove(key);
            of.Write(key, note);
            return true;
        });

        public void Leave(string key, JournalNote note)
        {
            if (!closed && !of.faults.NoStore) of.leaving[key] = note;
        }

        public Task ClearAsync(string key) => Do(() =>
        {
            of.leaving.Remove(key);
            of.Forget(key);
            return true;
        });

        public Task MoveAsync(string from, string to) => Do(() =>
        {
            of.BringIn(from);
            if (!of.heads.TryGetValue(from, out var head)) return true;
            of.Forget(to);
            foreach (var moment in of.moments.Where(m => m.Key.Key == from).ToList()) of.moments[(to, moment.Key.Number)] = moment.Value;
            of.heads[to] = head with { Key = to };
            of.Forget(from);
            return true;
        });

        public Task<bool> ClaimAsync(string key)
        {
            if (closed || (of.claims.TryGetValue(key, out var tab) && tab != this)) return Task.FromResult(false);
            of.claims[key] = this;
            return Task.FromResult(true);
        }

        public void LetGo(string key)
        {
            if (of.claims.TryGetValue(key, out var tab) && tab == this) of.claims.Remove(key);
        }

        private async Task<T> Do<T>(Func<T> act)
        {
            await of.faults.OnJournalAsync();
            await GoneAsync();
            return act();
        }

        // The browser's storage takes its moment, one wish after another, and a page may be gone before it is over.
        private async Task MomentAsync()
        {
            await (last = AfterAsync(last));
            await GoneAsync();

            async Task AfterAsync(Task before)
            {
                await of.faults.MomentAsync();
                await before;
            }
        }

        private Task GoneAsync() => closed ? new TaskCompletionSource().Task : Task.CompletedTask; // the page is gone; nothing goes on

        private static void Set(Dictionary<string, string> to, string name, string? value)
        {
            if (value is null) to.Remove(name);
            else to[name] = value;
        }
    }
}
