using Pleatwright.Bench.Model.Table.Verbs;
using Pleatwright.Chart;

namespace Pleatwright.Bench.Model.Table;

/// <summary>All that the hand does over the cloth of the table: pointers, wheel and keys, as the page reports them.</summary>
public sealed class Handwork : IDisposable
{
    private const string Space = " ";

    private readonly Workplace at;
    private readonly Pointing pointing;
    private bool spaceWaits; // Space is down, and has moved nothing yet

    /// <summary>Over the cloth of a place.</summary>
    public Handwork(Workplace at, TimeProvider time)
    {
        this.at = at;
        pointing = new Pointing(at.Cloth, new Gesture(at), time, at.Desk.Say);
        pointing.MovedBySpace += () => spaceWaits = false;
        pointing.Finger += Look;
    }

    /// <summary>What a finger that draws covers; null while none does.</summary>
    public Loupe? Loupe { get; private set; }

    /// <summary>Raised when the loupe came, moved or went.</summary>
    public event Action? LoupeMoved;

    private void Look((double X, double Y)? finger)
    {
        if (finger is null && Loupe is null) return;
        var (desk, needle) = (at.Desk, at.Needle);
        Loupe = finger is { } f && at.Cloth.Free is { } free
            ? Loupe.Over(f.X, f.Y, free, desk.Piece.Working.Hand, Where.Aim(desk.Work, needle.Valley, needle.Row, needle.Thread))
            : null;
        LoupeMoved?.Invoke();
    }

    /// <summary>Hears of one event; what it is called is the page's business (see hand.js).</summary>
    /// <returns>Whether it was taken, so that the page does nothing of its own.</returns>
    public bool Hear(string what, string words)
    {
        if (what == "blur") spaceWaits = false;
        return what switch
        {
            "keydown" => KeyDown(words),
            "keyup" => KeyUp(words),
            _ => pointing.Hear(what, words),
        };
    }

    // Space stitches when it is lifted, for held it moves the cloth; another key pressed meanwhile comes after the stitch.
    private bool KeyDown(string key)
    {
        if (key == Space)
        {
            if (!pointing.Space) (pointing.Space, spaceWaits) = (true, true);
            return true;
        }
        Stitch();
        return KeyNames.Press(key, at);
    }

    private bool KeyUp(string key)
    {
        if (key != Space) return false;
        pointing.Space = false;
        Stitch();
        return true;
    }

    private void Stitch()
    {
        if (!spaceWaits) return;
        spaceWaits = false;
        KeyNames.Press(Space, at);
    }

    /// <inheritdoc/>
    public void Dispose() => pointing.Dispose();
}
