using System.Runtime.InteropServices.JavaScript;

namespace Pleatwright.Bench.Showing;

/// <summary>What the stage asks of the page: that a move is played, that the screen is filled, that a film is recorded.</summary>
internal static partial class ShowPage
{
    public static Task LoadAsync() => JSHost.ImportAsync("show", "../show.js");

    /// <summary>Shows films on a canvas; told when a move has been played, and whether the system asks for less motion.</summary>
    [JSImport("open", "show")]
    public static partial void Open(string canvas, string film, [JSMarshalAs<JSType.Function<JSType.Number>>] Action<int> ended, [JSMarshalAs<JSType.Function<JSType.Boolean>>] Action<bool> still, [JSMarshalAs<JSType.Function>] Action left);

    /// <summary>Hands over a part of what lies under the needle, painted before its moves and after them; the film it is of is told, so that one shown no more takes none.</summary>
    [JSImport("lying", "show")]
    public static partial void Lying(string film, int first, int last, double[] box, string before, string after);

    [JSImport("close", "show")]
    public static partial void Close();

    /// <summary>Shows a move: played from its beginning, or held at its stillest.</summary>
    [JSImport("act", "show")]
    public static partial void Act(int move, int begun, bool playing, double pace);

    /// <summary>Fills the screen with an element, or gives it back.</summary>
    [JSImport("present", "show")]
    public static partial void Present(string element, bool on);

    /// <summary>Records the film and saves it; told how much is done, 0 to 1. What it comes to: the file's name, or empty where it was stopped, or a word on why not.</summary>
    [JSImport("record", "show")]
    public static partial Task<string> RecordAsync(string name, double pace, [JSMarshalAs<JSType.Function<JSType.Number>>] Action<double> told);

    [JSImport("stopRecording", "show")]
    public static partial void StopRecording();
}
