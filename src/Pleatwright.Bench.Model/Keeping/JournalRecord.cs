using System.Collections.Immutable;
using System.Text;
using Pleatwright.Chart.Edit;
using Pleatwright.Files;
using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>What a journal holds of a piece: its moments as text, the present, and how it stood with the shelf.</summary>
public sealed class JournalRecord
{
    private readonly JournalText text;

    private JournalRecord(JournalText text)
    {
        this.text = text;
        At = Math.Min(text.At, Count - 1); // a note that never came through may leave fewer moments than were counted
        Standing = Standing.Read(text.Base, text.More);
        Edition = Edition.Of(Now);
    }

    /// <summary>A record as the store gave it; null when it holds nothing.</summary>
    public static JournalRecord? Of(JournalText? text) => text is { Moments.Count: > 0, At: >= 0 } ? new JournalRecord(text) : null;

    /// <summary>Moments held.</summary>
    public int Count => text.Moments.Count;

    /// <summary>Which is the present, from 0.</summary>
    public int At { get; }

    /// <summary>How it stood with the shelf when the journal was last written.</summary>
    public Standing Standing { get; }

    /// <summary>The text of the present.</summary>
    public byte[] Now => Encoding.UTF8.GetBytes(text.Moments[At].Text);

    /// <summary>The edition of the present.</summary>
    public Edition Edition { get; }

    /// <summary>Whether the shelf had the present when the journal was last written.</summary>
    public bool IsClean => Standing.IsClean(Edition);

    /// <summary>One moment, read.</summary>
    /// <exception cref="PieceFormatException">An older or newer bench wrote what this one cannot read.</exception>
    public Moment Read(int index) => new(Smocking.Read(text.Moments[index].Text), text.Moments[index].Edit);

    /// <summary>The moments from one number on, read.</summary>
    /// <exception cref="PieceFormatException">An older or newer bench wrote what this one cannot read.</exception>
    public ImmutableArray<Moment> ReadFrom(int index) => [.. Enumerable.Range(index, Count - index).Select(Read)];
}
