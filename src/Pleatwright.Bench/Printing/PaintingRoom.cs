using System.Runtime.InteropServices.JavaScript;
using Pleatwright.Bench.Model.Printing;

namespace Pleatwright.Bench.Printing;

/// <summary>Paints pictures to take away in a worker of the page, one at a time.</summary>
internal static partial class PaintingRoom
{
    private static Task? loaded;

    /// <summary>Paints.</summary>
    /// <param name="piece">The piece file.</param>
    /// <param name="portrait">What is chosen.</param>
    /// <param name="told">Told how much is done, 0 to 1, and the address of a picture to be shown meanwhile, empty where there is no new one.</param>
    /// <returns>The address of the picture; a sentence why there is none; or nothing when it was stopped.</returns>
    public static async Task<(string? Address, string Fault)> PaintAsync(string piece, Portrait portrait, Action<double, string> told)
    {
        await (loaded ??= JSHost.ImportAsync("picturing", "../picturing.js"));
        var answer = await Paint(piece, portrait.Figure ?? "", portrait.Width, told);
        return answer is null ? (null, "") : answer.StartsWith("blob:", StringComparison.Ordinal) ? (answer, "") : (null, answer);
    }

    /// <summary>Stops what is painted now.</summary>
    public static void Stop()
    {
        if (loaded is { IsCompletedSuccessfully: true }) StopNow();
    }

    /// <summary>Paints small and soon, one picture after another, beside whatever else is done: for a page that shows it.</summary>
    /// <param name="piece">The piece file.</param>
    /// <param name="part">Its part; see <see cref="Portrait.PaintSoon"/>.</param>
    /// <param name="widest">Pixels across, at most.</param>
    /// <param name="samples">Samples to a millimetre, at least.</param>
    /// <param name="cancel">Says that it is wanted no more.</param>
    /// <returns>A JPEG file as a data address; null where there is none.</returns>
    public static async Task<string?> PaintSoonAsync(string piece, double[] part, int widest, float samples, CancellationToken cancel = default)
    {
        await (loaded ??= JSHost.ImportAsync("picturing", "../picturing.js"));
        if (cancel.IsCancellationRequested) return null;
        var ticket = ++tickets;
        using (cancel.Register(() => Forget(ticket))) return await Soon(ticket, piece, part, widest, samples);
    }

    private static int tickets;

    /// <summary>Paints what lies under the needle, beside whatever else is done; null where it is wanted no more when its turn comes, or cannot be had.</summary>
    /// <param name="lying">It as text; see <see cref="Plate.Playing.Lying.Write"/>.</param>
    /// <param name="after">Whether as it lies after its moves; else before them.</param>
    /// <param name="wanted">Whether it is still wanted.</param>
    public static async Task<string?> PaintCloseAsync(string lying, bool after, Func<bool> wanted)
    {
        await (loaded ??= JSHost.ImportAsync("picturing", "../picturing.js"));
        return await Close(++tickets, lying, after, Portrait.MostPixelsSoon, Portrait.SoonSamples, wanted);
    }

    /// <summary>Hands a picture to the browser as a file.</summary>
    [JSImport("save", "picturing")]
    public static partial void Save(string address, string name);

    /// <summary>Lets a picture go.</summary>
    [JSImport("letGo", "picturing")]
    public static partial void LetGo(string address);

    [JSImport("paint", "picturing")]
    private static partial Task<string?> Paint(string piece, string figure, int width, [JSMarshalAs<JSType.Function<JSType.Number, JSType.String>>] Action<double, string> told);

    [JSImport("soon", "picturing")]
    private static partial Task<string?> Soon(int ticket, string piece, double[] part, int widest, double samples);

    [JSImport("forget", "picturing")]
    private static partial void Forget(int ticket);

    [JSImport("close", "picturing")]
    private static partial Task<string?> Close(int ticket, string lying, bool after, int most, double samples, [JSMarshalAs<JSType.Function<JSType.Boolean>>] Func<bool> wanted);

    [JSImport("stop", "picturing")]
    private static partial void StopNow();
}

/// <summary>The worker's side: what planner.js calls.</summary>
internal static partial class PictureWorker
{
    /// <summary>Paints a picture of a piece file.</summary>
    /// <returns>Why there is none; empty when it was painted.</returns>
    [JSExport]
    internal static string Paint(string piece, string figure, int width) =>
        new Portrait(figure.Length == 0 ? null : figure, width).Paint(Smocking.Lay(Smocking.Read(piece)), Begun, (first, rows) => Told(first, rows));

    /// <summary>Paints a part of a piece file small and soon.</summary>
    [JSExport]
    internal static void PaintSoon(string piece, double[] part, int widest, double samples) =>
        Portrait.PaintSoon(Smocking.Lay(Smocking.Read(piece)), part, widest, (float)samples, Begun, (first, rows) => Told(first, rows));

    /// <summary>Paints what lies under the needle in some moves.</summary>
    [JSExport]
    internal static void PaintClose(string lying, bool after, int most, double samples) => Portrait.PaintClose(lying, after, most, (float)samples, Begun, (first, rows) => Told(first, rows));

    [JSImport("begun", "planner")]
    private static partial void Begun(int width, int height);

    [JSImport("painted", "planner")]
    private static partial void Told(int first, [JSMarshalAs<JSType.MemoryView>] Span<byte> rows);
}
