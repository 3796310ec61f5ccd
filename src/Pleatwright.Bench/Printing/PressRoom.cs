using System.Collections.Immutable;
using System.Runtime.InteropServices.JavaScript;
using Pleatwright.Bench.Keeping;
using Pleatwright.Bench.Model.Printing;
using Pleatwright.Plate;

namespace Pleatwright.Bench.Printing;

/// <summary>Prints in the worker; where there is none, in the page.</summary>
internal sealed class PressRoom(TimeProvider time, Later later) : IPressRoom
{
    private readonly HerePress here = new(time, Workshop.AddressOf);
    private readonly Dictionary<int, byte[]> given = []; // of the print made last, should the worker have been ended with it
    private string ask = "";
    private int number;
    private bool isHere;

    public async Task<(ImmutableArray<LackingPicture> Lacking, string Fault)> MakeAsync(string ask, Action<PrintedPage> told, CancellationToken cancel)
    {
        (this.ask, isHere) = (ask, false);
        number++;
        given.Clear();
        if (await Workshop.DoAsync("print", ask, number, [], (words, address) => told(PrintedPage.Read(words, address)), cancel) is { } answer)
            return answer.Fault.Length > 0 ? ([], answer.Fault) : (LackingPicture.Read(answer.Text), "");
        isHere = true;
        if (await later.PrintingAsync() is { Length: > 0 } missing) return ([], missing);
        cancel.ThrowIfCancellationRequested();
        return await here.MakeAsync(ask, told, cancel);
    }

    public async Task<byte[]?> PaintAsync(LackingPicture picture, CancellationToken cancel)
    {
        const string Before = "data:image/jpeg;base64,";
        var address = await PaintingRoom.PaintSoonAsync(picture.Piece, picture.Part, picture.Wide, Portrait.SoonSamples, cancel);
        return address is not null && address.StartsWith(Before, StringComparison.Ordinal) ? Convert.FromBase64String(address[Before.Length..]) : null;
    }

    public async Task GiveAsync(int picture, byte[] jpeg, Action<PrintedPage> told, CancellationToken cancel)
    {
        given[picture] = jpeg;
        if (isHere) here.Give(picture, jpeg, told);
        else await AgainAsync("give", $"{picture}", jpeg, (words, address) => told(PrintedPage.Read(words, address)), cancel);
    }

    public async Task<(string Address, string Fault)> WriteAsync(string ending, string mediaType, CancellationToken cancel)
    {
        if (isHere) return await here.WriteAsync(ending, mediaType, cancel);
        var written = "";
        var fault = await AgainAsync("write", $"{ending} {mediaType}", [], (_, address) => written = address, cancel);
        return (written, fault);
    }

    // A worker that was ended while it wrote has lost the print: it is made again, its pages shown already.
    private async Task<string> AgainAsync(string kind, string text, byte[] bytes, Action<string, string> told, CancellationToken cancel)
    {
        for (var goes = 0; ; goes++)
        {
            if (await Workshop.DoAsync(kind, text, number, bytes, told, cancel) is not { } answer) return Lost;
            if (answer.Mark != '~') return answer.Fault;
            if (goes > 0) return Lost;
            if (await Workshop.DoAsync("print", ask, number, [], (_, address) => LetGo(address), cancel) is not { Mark: '+' }) return Lost;
            foreach (var (picture, jpeg) in given) await Workshop.DoAsync("give", $"{picture}", number, jpeg, (_, address) => LetGo(address), cancel);
        }
    }

    private const string Lost = "It could not be made again. Choose anything of it anew.";

    public void LetGo(string address) => Store.LetPictureGo(address);

    public void Save(string address, string name) => Workshop.HandOver(address, name);

    public bool MaySave() => Store.MayDownload();
}

/// <summary>The worker's side: what planner.js calls.</summary>
internal static partial class PressWorker
{
    private static readonly PressWork Work = new();
    private static int held; // the number of the print that is held; 0 for none
    private static byte[] written = [];

    /// <summary>What prints, to be fetched first.</summary>
    [JSExport]
    internal static string[] Parts() => Later.Printing;

    [JSExport]
    internal static string Make(string ask, int number)
    {
        held = 0;
        var fault = Work.Make(ask);
        if (fault.Length == 0) held = number;
        return fault;
    }

    [JSExport]
    internal static bool Has(int number) => held == number;

    [JSExport]
    internal static int Pages() => Work.Pages;

    [JSExport]
    internal static string Words(int page) => Work.Words(page);

    [JSExport]
    internal static byte[] Picture(int page) => Work.Picture(page);

    [JSExport]
    internal static string Lacking() => Work.Lacking();

    [JSExport]
    internal static int[] Give(int picture, byte[] jpeg) => Work.Give(picture, jpeg);

    [JSExport]
    internal static string Write(string ending)
    {
        try
        {
            written = Work.Write(ending);
            return "";
        }
        catch (PlateTooLargeException e) { return e.Message; }
    }

    [JSExport]
    internal static byte[] Written()
    {
        var bytes = written;
        written = [];
        return bytes;
    }

    [JSExport]
    internal static void Drop()
    {
        held = 0;
        Work.Drop();
    }
}
