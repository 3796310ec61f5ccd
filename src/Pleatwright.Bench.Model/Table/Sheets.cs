namespace Pleatwright.Bench.Model.Table;

/// <summary>The sheet that lies over the table, one at a time.</summary>
public sealed class Sheets : IDisposable
{
    private readonly Needle needle;

    public Sheets(Needle needle)
    {
        this.needle = needle;
        needle.Asked += Ask;
    }

    /// <summary>What is asked; null when no sheet lies there.</summary>
    public Question? Open { get; private set; }

    /// <summary>Which sheet it is of all there were: a sheet that is put away late must not take the next with it.</summary>
    public int Turn { get; private set; }

    /// <summary>Raised when a sheet came or went.</summary>
    public event Action? Changed;

    /// <summary>A sheet was put away.</summary>
    /// <param name="turn">Which; one that has been followed by another is gone already.</param>
    public void PutAway(int turn)
    {
        if (turn != Turn || Open is null) return;
        Open = null;
        Changed?.Invoke();
    }

    /// <summary>Its title.</summary>
    public string Title => Open switch
    {
        Question.Do => "What can be done here",
        Question.Keys => "Keys at the table",
        Question.Thread => needle.Subject is Pleatwright.Thread.ThreadKey key ? $"Thread {key}" : "Another thread",
        Question.Cloth => "The cloth",
        Question.Gauge => "Another gauge",
        Question.Swatch => "Swatches",
        Question.Sizes => "Sizes",
        Question.Credit => "Whose design it is",
        Question.Figure => "Place and repeat",
        Question.Letters => "Letters",
        Question.Run => "A run by steps",
        Question.Accent => needle.Subject is int ? "Change the accent" : "An accent",
        Question.Band => needle.Subject is int ? "Change the band" : "A band from side to side",
        Question.Match => $"Which threads for {(needle.Subject as ThreadQuestion)?.What}?",
        Question.Coming => "Out of your drawer",
        Question.Newer => $"{needle.Subject} has changed in your drawer",
        Question.WhichStays => "The drawer has it otherwise by now",
        _ => "",
    };

    private void Ask(Question question)
    {
        Open = question;
        Turn++;
        Changed?.Invoke();
    }

    /// <inheritdoc/>
    public void Dispose() => needle.Asked -= Ask;
}
