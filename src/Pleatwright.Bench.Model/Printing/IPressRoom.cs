using System.Collections.Immutable;
using Pleatwright.Plate;

namespace Pleatwright.Bench.Model.Printing;

/// <summary>Where prints are made, off the hand's path: in the browser a worker. One job at a time; what is cancelled is stopped there, too.</summary>
public interface IPressRoom
{
    /// <summary>Lays a print out.</summary>
    /// <param name="ask">What is asked for, as text.</param>
    /// <param name="told">Told of each page as it is ready.</param>
    /// <param name="cancel">Says that it is wanted no more.</param>
    /// <returns>The pictures that its pages lack, and why there is no print, as a sentence, or empty.</returns>
    /// <exception cref="OperationCanceledException">It was wanted no more.</exception>
    Task<(ImmutableArray<LackingPicture> Lacking, string Fault)> MakeAsync(string ask, Action<PrintedPage> told, CancellationToken cancel);

    /// <summary>Paints a picture that pages lack, beside all else.</summary>
    /// <returns>A JPEG file; null where it cannot be painted.</returns>
    /// <exception cref="OperationCanceledException">It was wanted no more.</exception>
    Task<byte[]?> PaintAsync(LackingPicture picture, CancellationToken cancel);

    /// <summary>Gives the print made last a picture that it lacks.</summary>
    /// <param name="picture">Which, from 0.</param>
    /// <param name="jpeg">The picture.</param>
    /// <param name="told">Told of each page that shows it.</param>
    /// <param name="cancel">Says that it is wanted no more.</param>
    /// <exception cref="OperationCanceledException">It was wanted no more.</exception>
    Task GiveAsync(int picture, byte[] jpeg, Action<PrintedPage> told, CancellationToken cancel);

    /// <summary>Writes the print made last in a format.</summary>
    /// <returns>The address of the file, or why there is none, as a sentence.</returns>
    /// <exception cref="OperationCanceledException">It was wanted no more.</exception>
    Task<(string Address, string Fault)> WriteAsync(string ending, string mediaType, CancellationToken cancel);

    /// <summary>Lets the address of a page or a file go.</summary>
    void LetGo(string address);

    /// <summary>Hands a file to the maker, and lets its address go once it is taken.</summary>
    void Save(string address, string name);

    /// <summary>Whether the browser would take a file now without being asked again.</summary>
    bool MaySave();
}

/// <summary>Prints where there is no worker: in the page, which breathes between two pages.</summary>
/// <param name="time">The clock.</param>
/// <param name="addressOf">The address under which bytes of a media type are shown.</param>
public sealed class HerePress(TimeProvider time, Func<string, byte[], string> addressOf)
{
    private static readonly TimeSpan Breath = TimeSpan.FromMilliseconds(1);

    private readonly PressWork work = new();

    /// <summary>As <see cref="IPressRoom.MakeAsync"/>.</summary>
    public async Task<(ImmutableArray<LackingPicture> Lacking, string Fault)> MakeAsync(string ask, Action<PrintedPage> told, CancellationToken cancel)
    {
        if (work.Make(ask) is { Length: > 0 } fault) return ([], fault);
        for (var i = 0; i < work.Pages; i++)
        {
            told(PageOf(i));
            await Task.Delay(Breath, time, cancel);
        }
        return (LackingPicture.Read(work.Lacking()), "");
    }

    /// <summary>As <see cref="IPressRoom.GiveAsync"/>.</summary>
    public void Give(int picture, byte[] jpeg, Action<PrintedPage> told)
    {
        foreach (var page in work.Give(picture, jpeg)) told(PageOf(page));
    }

    /// <summary>As <see cref="IPressRoom.WriteAsync"/>.</summary>
    public async Task<(string Address, string Fault)> WriteAsync(string ending, string mediaType, CancellationToken cancel)
    {
        await Task.Delay(30 * Breath, time, cancel); // the page shows that it is at work
        try { return (addressOf(mediaType, work.Write(ending)), ""); }
        catch (PlateTooLargeException e) { return ("", e.Message); }
    }

    private PrintedPage PageOf(int page) => PrintedPage.Read(work.Words(page), addressOf(PrintedPage.MediaType, work.Picture(page)));
}
