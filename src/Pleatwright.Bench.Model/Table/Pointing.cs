namespace Pleatwright.Bench.Model.Table;

/// <summary>What a drawing pointer works on.</summary>
public interface IStrokes
{
    /// <summary>Whether a stroke can begin at a place in pixels: on the cloth.</summary>
    bool CanBegin(double x, double y);

    /// <summary>A stroke begins.</summary>
    /// <param name="x">Pixels from the view's left.</param>
    /// <param name="y">Pixels from the view's top.</param>
    /// <param name="held">Keys held.</param>
    /// <param name="other">Whether with the other button, or the other end of the pen.</param>
    void Begin(double x, double y, Held held, bool other);

    /// <summary>It goes on.</summary>
    void GoOn(double x, double y);

    /// <summary>It is done.</summary>
    void End();

    /// <summary>It was not meant: all is as it was before it began.</summary>
    void TakeBack();
}

/// <summary>
/// The pointer's mind: what mouse, fingers and pen mean. A mouse and a pen draw at once; the middle button, held Space and bare
/// ground move the cloth. One finger draws once it clearly means to, two move the cloth and bring it nearer, and take back what
/// the first had begun. While a pen is near or was used lately fingers only move the cloth, and a palm is nothing.
/// </summary>
public sealed class Pointing : IDisposable
{
    /// <summary>How long one finger rests before it draws. Our own choice: two fingers of a pinch come down within it.</summary>
    public static readonly TimeSpan Meaning = TimeSpan.FromMilliseconds(140);

    /// <summary>How long after a pen was last near fingers still only move the cloth. Our own choice.</summary>
    public static readonly TimeSpan Lately = TimeSpan.FromSeconds(20);

    /// <summary>Pixels one finger goes before it draws without waiting. Our own choice.</summary>
    public const double ClearMove = 10;

    /// <summary>Pixels across from which on what touches is a palm and no finger. Our own choice.</summary>
    public const double Palm = 60;

    private enum Mode { Idle, Waiting, Drawing, Moving, Pinching }

    private sealed class Contact(PointerKind kind, double x, double y, Held held)
    {
        public PointerKind Kind => kind;

        public Held Held => held;

        public (double X, double Y) Began { get; } = (x, y);

        public (double X, double Y) At { get; set; } = (x, y);

        /// <summary>It means nothing until it is lifted: a palm, or a pointer too many.</summary>
        public bool Ignored { get; set; }
    }

    private readonly ICloth cloth;
    private readonly IStrokes? strokes;
    private readonly TimeProvider time;
    private readonly Action<string> say;
    private readonly ITimer timer;
    private readonly Dictionary<int, Contact> contacts = [];
    private Mode mode;
    private int lead; // the pointer that waits, draws or moves
    private (int A, int B) pair;
    private (double Gap, double X, double Y) pinch;
    private long? penSeen;
    private bool toldOfPen;

    /// <summary>A mind for one cloth.</summary>
    /// <param name="cloth">The cloth it moves.</param>
    /// <param name="strokes">What it draws on; null where nothing is drawn and every pointer moves the cloth.</param>
    /// <param name="time">The clock.</param>
    /// <param name="say">Tells the maker something.</param>
    public Pointing(ICloth cloth, IStrokes? strokes, TimeProvider time, Action<string> say)
    {
        (this.cloth, this.strokes, this.time, this.say) = (cloth, strokes, time, say);
        timer = time.CreateTimer(_ => Rested(), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
    }

    /// <summary>Whether Space is held: pointers move the cloth then.</summary>
    public bool Space { get; set; }

    /// <summary>Raised when a pointer began to move the cloth because Space is held.</summary>
    public event Action? MovedBySpace;

    /// <summary>Raised as a finger draws, with the place under it; null once it no longer does.</summary>
    public event Action<(double X, double Y)?>? Finger;

    /// <summary>Whether a stroke is being drawn.</summary>
    public bool IsDrawing => mode == Mode.Drawing;

    /// <summary>Hears of one event as the page tells it: "pointer", "wheel" or "blur"; see hand.js.</summary>
    /// <returns>Whether it was one.</returns>
    public bool Hear(string what, string words)
    {
        switch (what)
        {
            case "pointer" when PointerReport.Read(words) is { } report: On(report); return true;
            case "wheel" when WheelReport.Read(words) is { } wheel: On(wheel); return true;
            case "blur": LetGo(); return true;
            default: return false;
        }
    }

    /// <summary>Hears of one event.</summary>
    public void On(PointerReport report)
    {
        if (report.Kind == PointerKind.Pen) penSeen = time.GetTimestamp();
        switch (report.Move)
        {
            case PointerMove.Down: Down(report); break;
            case PointerMove.Move: Moved(report); break;
            case PointerMove.Up: Lift(report.Id, taken: false); break;
            case PointerMove.Cancel: Lift(report.Id, taken: true); break;
        }
    }

    /// <summary>Hears of the wheel: it moves the cloth; with Ctrl it brings it nearer, with Shift it goes across.</summary>
    public void On(WheelReport wheel)
    {
        if (wheel.Held.HasFlag(Held.Ctrl)) cloth.ZoomAt(Math.Exp(Math.Clamp(-wheel.Down * 0.004, -2, 2)), wheel.X, wheel.Y);
        else if (wheel.Held.HasFlag(Held.Shift) && wheel.Across == 0) cloth.Pan(-wheel.Down, 0);
        else cloth.Pan(-wheel.Across, -wheel.Down);
    }

    /// <summary>Lets every pointer go, as when the page loses them; a stroke under way is kept.</summary>
    public void LetGo()
    {
        Stop(keep: true);
        contacts.Clear();
        Space = false;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        LetGo();
        timer.Dispose();
    }

    private bool PenLately => penSeen is { } seen && time.GetElapsedTime(seen) < Lately;

    private int[] Fingers => [.. contacts.Where(c => c.Value is { Kind: PointerKind.Touch, Ignored: false }).Select(c => c.Key)];

    private void Down(PointerReport e)
    {
        if (contacts.ContainsKey(e.Id)) Lift(e.Id, taken: true); // its end was never told
        var contact = new Contact(e.Kind, e.X, e.Y, e.Held);
        if (e.Kind == PointerKind.Touch) Touched(e, contact);
        else Pressed(e, contact);
    }

    private void Pressed(PointerReport e, Contact contact)
    {
        if (e.Kind == PointerKind.Pen)
        {
            // What lies on the glass beside a pen is the hand that holds it.
            if (contacts.Values.Any(c => c is { Kind: PointerKind.Touch, Ignored: false })) Stop(keep: false);
            foreach (var touch in contacts.Values.Where(c => c.Kind == PointerKind.Touch)) touch.Ignored = true;
        }
        contacts[e.Id] = contact;
        if (mode != Mode.Idle) { contact.Ignored = true; return; }
        lead = e.Id;
        if (Space) { MovedBySpace?.Invoke(); mode = Mode.Moving; }
        else if (e.Buttons.HasFlag(PointerButtons.Middle) || !CanDraw(e.X, e.Y)) mode = Mode.Moving;
        else Draw(contact, (e.Buttons & (PointerButtons.Other | PointerButtons.Eraser)) != 0);
    }

    private void Touched(PointerReport e, Contact contact)
    {
        var busy = contacts.Values.Any(c => c is { Ignored: false, Kind: not PointerKind.Touch });
        contacts[e.Id] = contact;
        if (busy || e.Size >= Palm) { contact.Ignored = true; return; }
        var fingers = Fingers;
        if (fingers.Length == 2)
        {
            Stop(keep: false);
            (mode, pair) = (Mode.Pinching, (fingers[0], fingers[1]));
            pinch = Span();
        }
        else if (fingers.Length == 1)
        {
            lead = e.Id;
            if (Space) { MovedBySpace?.Invoke(); mode = Mode.Moving; }
            else if (!CanDraw(e.X, e.Y)) mode = Mode.Moving;
            else if (PenLately)
            {
                mode = Mode.Moving;
                if (!toldOfPen) say("The pen draws; fingers move the cloth.");
                toldOfPen = true;
            }
            else
            {
                mode = Mode.Waiting;
                timer.Change(Meaning, Timeout.InfiniteTimeSpan);
            }
        }
    }

    private bool CanDraw(double x, double y) => strokes is not null && strokes.CanBegin(x, y);

    private void Moved(PointerReport e)
    {
        if (!contacts.TryGetValue(e.Id, out var contact)) return; // held over the cloth
        if (e is { Kind: PointerKind.Mouse, Buttons: PointerButtons.None }) { Lift(e.Id, taken: false); return; } // lifted outside the page
        var before = contact.At;
        contact.At = (e.X, e.Y);
        if (contact.Ignored) return;
        if (e.Kind == PointerKind.Touch && e.Size >= Palm)
        {
            // A finger that spreads was the edge of a palm.
            contact.Ignored = true;
            if (mode == Mode.Pinching) Repair();
            else if (lead == e.Id) Stop(keep: false);
            return;
        }
        switch (mode)
        {
            case Mode.Waiting when e.Id == lead && Distance(contact.Began, contact.At) >= ClearMove:
                Draw(contact, other: false);
                break;
            case Mode.Drawing when e.Id == lead:
                strokes!.GoOn(e.X, e.Y);
                Told(contact);
                break;
            case Mode.Moving when e.Id == lead:
                cloth.Pan(e.X - before.X, e.Y - before.Y);
                break;
            case Mode.Pinching when e.Id == pair.A || e.Id == pair.B:
                var now = Span();
                cloth.Pan(now.X - pinch.X, now.Y - pinch.Y);
                if (pinch.Gap > 0 && now.Gap > 0) cloth.ZoomAt(now.Gap / pinch.Gap, now.X, now.Y);
                pinch = now;
                break;
        }
    }

    // Taken: the page took the pointer away, and what it was doing was not meant.
    private void Lift(int id, bool taken)
    {
        if (!contacts.Remove(id, out var contact) || contact.Ignored) return;
        if (mode == Mode.Pinching) { Repair(); return; }
        if (id != lead) return;
        if (mode == Mode.Waiting && !taken)
        {
            Draw(contact, other: false); // a tap
            strokes!.End();
            mode = Mode.Idle;
            Finger?.Invoke(null);
        }
        else Stop(keep: !taken);
    }

    // What the fingers left do after a pinch: two go on pinching, one moves the cloth, and draws nothing until it is lifted.
    private void Repair()
    {
        switch (Fingers)
        {
            case [var a, var b, ..]: (pair, pinch) = ((a, b), default); pinch = Span(); break;
            case [var one]: (mode, lead) = (Mode.Moving, one); break;
            default: mode = Mode.Idle; break;
        }
    }

    private void Rested()
    {
        if (mode == Mode.Waiting && contacts.TryGetValue(lead, out var contact)) Draw(contact, other: false);
    }

    private void Draw(Contact contact, bool other)
    {
        timer.Change(Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
        mode = Mode.Drawing;
        strokes!.Begin(contact.Began.X, contact.Began.Y, contact.Held, other);
        if (contact.At != contact.Began) strokes.GoOn(contact.At.X, contact.At.Y);
        Told(contact);
    }

    private void Told(Contact contact)
    {
        if (contact.Kind == PointerKind.Touch) Finger?.Invoke(contact.At);
    }

    private void Stop(bool keep)
    {
        timer.Change(Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
        var was = mode;
        mode = Mode.Idle;
        if (was != Mode.Drawing) return;
        if (keep) strokes!.End();
        else strokes!.TakeBack();
        Finger?.Invoke(null);
    }

    private (double Gap, double X, double Y) Span()
    {
        var (a, b) = (contacts[pair.A].At, contacts[pair.B].At);
        return (Distance(a, b), (a.X + b.X) / 2, (a.Y + b.Y) / 2);
    }

    private static double Distance((double X, double Y) a, (double X, double Y) b) => Math.Sqrt((a.X - b.X) * (a.X - b.X) + (a.Y - b.Y) * (a.Y - b.Y));
}
