using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Plate.Playing;

namespace Pleatwright.Bench.Model.Showing;

/// <summary>
/// The stitch in motion: which step or move is shown, which of its moves, and what follows when one has been played. The page plays one move at a time and tells when it has ended.
/// </summary>
/// <param name="desk">The piece on the table.</param>
public sealed class Stage(Desk desk)
{
    private static readonly ImmutableArray<double> Paces = [1, 0.5, 0.25];

    private Film? film;
    private int pace;
    private Direction? told; // of the piece; null while a lesson is shown
    private Lesson lesson = Lesson.All[0];
    private WorkingOrder? order;

    /// <summary>Raised when what is shown or how it is played has changed.</summary>
    public event Action? Changed;

    /// <summary>The moves of the craft that can be shown by themselves.</summary>
    public static ImmutableArray<string> Lessons { get; } = [.. Lesson.All.Select(l => l.Name)];

    /// <summary>The film as the player reads it; another text for each film.</summary>
    public string Data { get; private set; } = "";

    // Parts of what lies under the needle that were not handed out to be painted yet.
    private List<Lying> unpainted = [];

    /// <summary>The next part of what lies under the needle to be painted, each once for every film: of those left, the one under the needle or the next after it. Null when there is none.</summary>
    internal Lying? ToPaint()
    {
        if (unpainted.Count == 0) return null;
        var at = Math.Max(0, unpainted.FindIndex(p => p.Last >= At));
        var part = unpainted[at];
        unpainted.RemoveAt(at);
        return part;
    }

    /// <summary>What is shown.</summary>
    public string Title => film?.Title ?? "";

    /// <summary>The lesson shown; empty while it is a step of the piece.</summary>
    public string LessonName => told is null ? lesson.Name : "";

    /// <summary>The number of the step shown among those of the runs; 0 for anything else.</summary>
    public int Step => told?.Step?.Number ?? 0;

    /// <summary>Steps of the runs that there are to show.</summary>
    public int Steps => (order ?? desk.Order).Steps.Length;

    /// <summary>Moves of it.</summary>
    public int Moves => film?.Takes.Length ?? 0;

    /// <summary>The move shown, from 0.</summary>
    public int At { get; private set; }

    /// <summary>How often a move was begun: the page plays it from its beginning whenever this is another.</summary>
    public int Begun { get; private set; }

    /// <summary>Whether it is being played.</summary>
    public bool Playing { get; private set; }

    /// <summary>Whether the same move is played again and again.</summary>
    public bool Loops { get; private set; }

    /// <summary>How fast, over the usual pace.</summary>
    public double Pace => Paces[pace];

    /// <summary>Whether it fills the screen, in large type, for a class.</summary>
    public bool Presenting { get; private set; }

    /// <summary>Whether nothing moves, because the maker's system asks for that: each move is a still then.</summary>
    public bool Still { get; private set; }

    /// <summary>Whether the work is held sideways.</summary>
    public bool Sideways { get; private set; }

    /// <summary>Whether all of it is seen from the back.</summary>
    public bool FromBack { get; private set; }

    /// <summary>What is said of the move.</summary>
    public string Caption => film is { } f ? f.Takes[At].Caption : "";

    /// <summary>"3 of 11".</summary>
    public string Number => $"{Words.Of(At + 1)} of {Words.Of(Moves)}";

    /// <summary>"Stitch 3 of 11"; empty for a move that makes none.</summary>
    public string StitchNumber => film is { } f ? Film.Number(f.Takes[At]) : "";

    /// <summary>What the key says that changes the pace.</summary>
    public string PaceWord => pace switch { 0 => "Slower", 1 => "Slower still", _ => "Usual pace" };

    /// <summary>Shows a step of an order.</summary>
    /// <param name="of">The order.</param>
    /// <param name="step">The step as the directions tell it.</param>
    /// <param name="sideways">Whether the work is held sideways.</param>
    public void Show(WorkingOrder of, Direction step, bool sideways)
    {
        (order, told, Sideways) = (of, step, sideways);
        Make();
    }

    /// <summary>Shows the step of the runs with a number; held to those there are.</summary>
    public void ShowStep(int number)
    {
        var of = order ?? desk.Order;
        if (of.Steps.IsEmpty) return;
        number = Math.Clamp(number, 1, of.Steps.Length);
        Show(of, Directions.Write(of, Levels).First(d => d.Kind == DirectionKind.Step && d.Step?.Number == number), Sideways);
    }

    /// <summary>Shows the step that works a cable; nothing where there is none.</summary>
    public void ShowAt(Valley valley, CableRow row)
    {
        order = desk.Order;
        if (order.Steps.FirstOrDefault(s => s.Row == row && Math.Min(s.From.Number, s.To.Number) <= valley.Number && valley.Number <= Math.Max(s.From.Number, s.To.Number)) is { } step) ShowStep(step.Number);
        else if (film is null) Make();
    }

    /// <summary>Shows a move of the craft by itself; the one shown before where there is none of the name.</summary>
    public void Learn(string name)
    {
        if (Lesson.Named(name) is { } named) (lesson, told) = (named, null);
        Make();
    }

    /// <summary>Opens with what was shown last; anew where the piece has changed since.</summary>
    public void Open()
    {
        if (told is not null && order is not null && !ReferenceEquals(order.Work, desk.Work) && !ReferenceEquals(order, desk.Order))
        {
            // What was shown is of another piece, or of it as it was.
            (told, order) = (null, null);
            film = null;
        }
        if (film is null) Make();
    }

    /// <summary>Holds the work upright or sideways.</summary>
    public void Hold(bool sideways)
    {
        if (Sideways == sideways) return;
        Sideways = sideways;
        if (told is not null && order is not null) told = Again(told);
        Remake();
    }

    /// <summary>Sees it from where the needle is, or all of it from the back.</summary>
    public void SeeFromBack(bool back)
    {
        if (FromBack == back) return;
        FromBack = back;
        Remake();
    }

    /// <summary>Plays, or stops. Where nothing may move it goes on to the next still.</summary>
    public void Play()
    {
        if (film is null) return;
        if (Still)
        {
            GoTo(At + 1 < Moves ? At + 1 : 0);
            return;
        }
        Playing = !Playing;
        if (Playing)
        {
            if (At == Moves - 1 && ended) At = 0;
            Begun++;
        }
        ended = false;
        Changed?.Invoke();
    }

    private bool ended;

    /// <summary>Goes to the next pace: slower, slower still, and back to the usual one.</summary>
    public void Slower()
    {
        pace = (pace + 1) % Paces.Length;
        Changed?.Invoke();
    }

    /// <summary>Goes back one move.</summary>
    public void Back() => GoTo(At - 1);

    /// <summary>Goes on one move.</summary>
    public void Next() => GoTo(At + 1);

    /// <summary>Goes to a move; held to those there are.</summary>
    public void GoTo(int move)
    {
        if (film is null) return;
        At = Math.Clamp(move, 0, Moves - 1);
        ended = false;
        Begun++;
        Changed?.Invoke();
    }

    /// <summary>Plays the same move again and again, or goes on.</summary>
    public void Loop()
    {
        Loops = !Loops;
        Changed?.Invoke();
    }

    /// <summary>Fills the screen for a class, or gives it back.</summary>
    public void Present(bool on)
    {
        if (Presenting == on) return;
        Presenting = on;
        Changed?.Invoke();
    }

    /// <summary>Whether the maker's system asks for less motion.</summary>
    public void BeStill(bool still)
    {
        if (Still == still) return;
        Still = still;
        if (still) Playing = false;
        Changed?.Invoke();
    }

    /// <summary>A move has been played to its end.</summary>
    /// <param name="begun">Which beginning of a move has ended; one that is no longer played changes nothing.</param>
    public void Ended(int begun)
    {
        if (!Playing || begun != Begun) return;
        if (Loops) Begun++;
        else if (At + 1 < Moves)
        {
            At++;
            Begun++;
        }
        else (Playing, ended) = (false, true);
        Changed?.Invoke();
    }

    /// <summary>A key; whether it was one of the stage's.</summary>
    public bool Press(string key)
    {
        switch (key)
        {
            case " ": Play(); return true;
            case "ArrowLeft": Back(); return true;
            case "ArrowRight": Next(); return true;
            case "s": Slower(); return true;
            case "l": Loop(); return true;
            case "p": Present(!Presenting); return true;
            case "Escape" when Presenting: Present(false); return true;
            default: return false;
        }
    }

    /// <summary>What a film of it is called.</summary>
    public string FileName => string.Concat(Title.ToLowerInvariant().Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-'));

    /// <summary>What is said when a recording has ended.</summary>
    /// <param name="said">The file's name; empty where it was stopped; else why there is none.</param>
    public static string Recorded(string said) => said.Length == 0 ? "The recording was stopped; nothing is kept of it." : said.EndsWith('.') ? said : $"The film is saved as {said}.";

    private LevelWords Levels => Sideways ? LevelWords.LeftRight : LevelWords.UpDown;

    // The same step, told for the way the work is now held.
    private Direction Again(Direction step) => Directions.Write(order!, Levels).FirstOrDefault(d => d.Kind == DirectionKind.Step && d.Step == step.Step && ReferenceEquals(d.Band, step.Band) && d.Back == step.Back && d.Accents.SequenceEqual(step.Accents)) ?? step;

    private void Remake()
    {
        var (at, moves) = (At, Moves);
        Make();
        if (Moves != moves) return;
        At = at;
        Changed?.Invoke();
    }

    private void Make()
    {
        var (made, gauge) = told is not null && order is not null
            ? (Film.Of(order, [told], Levels, TitleOf(told), FromBack), order.Work.Pleating.Gauge)
            : lesson.Film(desk.Piece.Working.Hand, Levels, FromBack);
        film = made;
        Data = FilmData.Of(made, gauge);
        unpainted = [.. Lying.Of(made, PaintedAspect, PaintedWidest)];
        (At, Playing, ended) = (0, false, false);
        Begun++;
        Changed?.Invoke();
    }

    // A worker of the browser paints few pixels at a time: about as much as a screen or a phone held upright shows.
    private const double PaintedAspect = 0.8, PaintedWidest = 13;

    private string TitleOf(Direction step) =>
        step.Step is { } run ? $"Step {Words.Of(run.Number)} of {Words.Of(order!.Steps.Length)}"
        : step.Band is { } band ? $"Band: {band.Band.Stitch.Name}"
        : step.Back is { } back ? $"On the back, {back.Row}" : "Accents";
}
