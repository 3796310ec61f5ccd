using System.Runtime.InteropServices.JavaScript;

namespace Pleatwright.Bench.Stitching;

/// <summary>What the chair asks of the page: that the screen stays awake.</summary>
internal static partial class Chair
{
    public static Task LoadAsync() => JSHost.ImportAsync("chair", "../chair.js");

    /// <summary>Asks for the screen to stay awake, or lets it sleep; whether it is kept awake now.</summary>
    [JSImport("stayAwake", "chair")]
    public static partial Task<bool> StayAwakeAsync(bool on);

    /// <summary>A short soft sound; another when an item is done.</summary>
    [JSImport("sound", "chair")]
    public static partial void Sound(bool ended);
}
