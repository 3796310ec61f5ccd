using System.Runtime.InteropServices.JavaScript;

namespace Pleatwright.Bench.Tracing;

/// <summary>The picture in the page: what is chosen, dropped or pasted comes in through it.</summary>
internal static partial class PicturePane
{
    private static bool loaded;

    public static async Task LoadAsync()
    {
        if (loaded) return;
        await JSHost.ImportAsync("picture", "../picture.js");
        loaded = true;
    }

    /// <summary>Listens over an element; the callbacks hear of a picture's width, height and name, of a refusal, of a part marked out as x,y,w,h.</summary>
    [JSImport("listen", "picture")]
    public static partial void Listen(string hostId,
        [JSMarshalAs<JSType.Function<JSType.Number, JSType.Number, JSType.String>>] Action<int, int, string> onPicture,
        [JSMarshalAs<JSType.Function<JSType.String>>] Action<string> onRefused,
        [JSMarshalAs<JSType.Function<JSType.String>>] Action<string> onCrop);

    /// <summary>Listens over an element; the callbacks hear of a picture, of a refusal, and of a spot pressed in it or moved by the arrow keys.</summary>
    [JSImport("listenSpot", "picture")]
    public static partial void ListenSpot(string hostId,
        [JSMarshalAs<JSType.Function<JSType.Number, JSType.Number, JSType.String>>] Action<int, int, string> onPicture,
        [JSMarshalAs<JSType.Function<JSType.String>>] Action<string> onRefused,
        [JSMarshalAs<JSType.Function<JSType.Number, JSType.Number>>] Action<int, int> onSpot);

    /// <summary>Shows the ring round a spot, in pixels of the picture.</summary>
    [JSImport("showSpot", "picture")]
    public static partial void ShowSpot(string hostId, int x, int y, int radius);

    [JSImport("leave", "picture")]
    public static partial void Leave();

    /// <summary>The pixels of the picture last taken.</summary>
    [JSImport("pixels", "picture")]
    public static partial void Pixels([JSMarshalAs<JSType.MemoryView>] Span<byte> rgba);

    /// <summary>Shows a picture and the part to trace; a width of 0 for the whole.</summary>
    [JSImport("show", "picture")]
    public static partial void Show(string hostId, int width, int height, [JSMarshalAs<JSType.MemoryView>] Span<byte> rgba, int x, int y, int w, int h);
}
