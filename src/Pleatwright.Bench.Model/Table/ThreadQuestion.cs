using System.Collections.Immutable;
using Pleatwright.Chart.Edit;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Table;

/// <summary>Threads in doubt, put to the maker before anything of a figure or a copy from elsewhere is laid. Nothing is done until they are answered.</summary>
public sealed class ThreadQuestion
{
    private readonly Action<IReadOnlyDictionary<ThreadKey, ThreadKey?>> act;
    private readonly Dictionary<ThreadKey, ThreadKey?> answers;

    /// <summary>The threads in doubt of what comes, for a form that asks of them among other things.</summary>
    internal static ThreadQuestion Of(ImmutableArray<Floss> own, string what, IEnumerable<Floss> threads) =>
        new(what, [.. ThreadMatching.Of(own, threads).Where(m => m.Fit == ThreadFit.InDoubt)], _ => { });

    private ThreadQuestion(string what, ImmutableArray<ThreadMatch> inDoubt, Action<IReadOnlyDictionary<ThreadKey, ThreadKey?>> act)
    {
        (What, InDoubt, this.act) = (what, inDoubt, act);
        answers = inDoubt.ToDictionary(m => m.From.Key, m => (ThreadKey?)m.Choices[0].Thread.Key); // the likeliest, until the maker says
    }

    /// <summary>What comes: a figure's name, or "what was copied".</summary>
    public string What { get; }

    /// <summary>The threads in doubt, each with what may be taken for it.</summary>
    public ImmutableArray<ThreadMatch> InDoubt { get; }

    /// <summary>What is answered of a thread that comes: one of the piece's, or null for a thread of its own.</summary>
    public ThreadKey? Answer(ThreadMatch match) => answers[match.From.Key];

    /// <summary>Answers of one thread.</summary>
    public void Choose(ThreadMatch match, ThreadKey? own)
    {
        answers[match.From.Key] = own;
        Chosen?.Invoke();
    }

    /// <summary>Raised after every answer.</summary>
    internal event Action? Chosen;

    /// <summary>What is answered so far.</summary>
    internal IReadOnlyDictionary<ThreadKey, ThreadKey?> Answers => answers;

    /// <summary>Does what waited for the answers.</summary>
    public void Done() => act(answers);

    /// <summary>"sail red, 4 strands".</summary>
    public static string Words(ThreadMatch match) => DrawerWords.Question(match);

    /// <summary>"brick red (b): a near colour".</summary>
    public static string Words(ThreadMatch match, ThreadChoice choice) => DrawerWords.Choice(match, choice);

    /// <summary>"None of them: sail red comes along as a thread of its own".</summary>
    public static string AsOwn(ThreadMatch match) => DrawerWords.AsOwn(match);

    /// <summary>Does something with threads from elsewhere, once those in doubt are answered; at once where none is.</summary>
    /// <param name="desk">The table.</param>
    /// <param name="needle">Asks.</param>
    /// <param name="what">What comes.</param>
    /// <param name="threads">Its threads.</param>
    /// <param name="act">What is done, with the answers.</param>
    internal static void Before(Desk desk, Needle needle, string what, IEnumerable<Floss> threads, Action<IReadOnlyDictionary<ThreadKey, ThreadKey?>> act)
    {
        var inDoubt = Of(desk.Piece.Threads, what, threads).InDoubt;
        if (inDoubt.IsEmpty) act(ImmutableDictionary<ThreadKey, ThreadKey?>.Empty);
        else needle.Ask(Question.Match, new ThreadQuestion(what, inDoubt, act));
    }
}
