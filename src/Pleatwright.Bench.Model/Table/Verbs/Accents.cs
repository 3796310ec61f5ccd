using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Edit;

namespace Pleatwright.Bench.Model.Table.Verbs;

/// <summary>Putting accents on, and what can be done with the one under the hand.</summary>
public static class Accents
{
    private const string Group = "Accents and bands";
    private const int FirstKey = 4; // 1 to 3 look at the cloth

    internal const string NoneHere = "There is no accent here to take off.";

    public static IEnumerable<Verb> All { get; } =
    [
        .. Accent.All.Select(a => new Verb(Group, $"Put a {a.Name} here", KeyOf(a), at => Put(at, a.Name)) { Can = at => at.Needle.Thread is not null }),
        Of("Change the accent here…", "@", (at, laid) => at.Needle.Ask(Question.Accent, laid.Index)) with { Short = "Change accent" },
        Of("Work the accent here in the thread in hand", "$", (at, laid) => at.Desk.Edit("an accent in another thread", p => at.Needle.AccentRecoloured(p, laid.Index)), at => at.Needle.Thread is not null) with { Short = "This thread" },
        Of("Take the accent here off", "!", TakeOff) with { Short = "Take accent off" },
        new(Group, "Change the band here…", ";", at => at.Needle.Ask(Question.Band, BandAt(at))) { Short = "Change band", Can = at => BandAt(at) is not null },
    ];

    /// <summary>The key that puts an accent on.</summary>
    public static string KeyOf(Accent accent) => (FirstKey + Accent.All.IndexOf(accent)).ToString(System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>The accent under the hand.</summary>
    public static LaidAccent? At(Workplace at) => At(at.Desk, at.Needle);

    /// <summary>The accent under the hand.</summary>
    public static LaidAccent? At(Desk desk, Needle needle) => desk.Work.Accents.IsEmpty ? null : Accenting.At(desk.Work, needle.Valley, needle.Row);

    /// <summary>Puts an accent where the hand is, in the thread in hand.</summary>
    public static void Put(Workplace at, string accent) =>
        at.Desk.Edit($"a {accent}", p => at.Needle.Accented(p, accent, at.Needle.Valley, at.Needle.Row));

    /// <summary>Takes an accent off with all its copies.</summary>
    public static void TakeOff(Workplace at, LaidAccent laid) => at.Desk.Edit("an accent taken off", p => at.Needle.AccentOff(p, laid.Index));

    private static int? BandAt(Workplace at) => Bands.IndexAt(at.Desk.Work, at.Needle.Valley, at.Needle.Row);

    private static Verb Of(string words, string key, Action<Workplace, LaidAccent> act, Func<Workplace, bool>? can = null) =>
        new(Group, words, key, at => { if (At(at) is { } laid) act(at, laid); }) { Can = at => At(at) is not null && (can is null || can(at)) };
}
