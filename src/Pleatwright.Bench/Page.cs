using System.Runtime.InteropServices.JavaScript;

namespace Pleatwright.Bench;

/// <summary>The few things the bench asks of the page itself.</summary>
public static partial class Page
{
    /// <summary>Keys pressed anywhere but where text is typed; the callback says whether it took the key.</summary>
    [JSImport("listen", "hand")]
    public static partial void Listen([JSMarshalAs<JSType.Function<JSType.String, JSType.Boolean>>] Func<string, bool> onKey);

    /// <summary>Opens a dialog over the rest of the page, or docked beside it.</summary>
    [JSImport("showDialog", "hand")]
    public static partial void ShowDialog(string id, bool docked);

    [JSImport("closeDialog", "hand")]
    public static partial void CloseDialog(string id);

    /// <summary>Goes to a view of this name.</summary>
    [JSImport("go", "hand")]
    public static partial void Go(string view);

    [JSImport("focus", "hand")]
    public static partial void Focus(string id);

    [JSImport("bringIntoView", "hand")]
    public static partial void BringIntoView(string id);

    /// <summary>Milliseconds since the page began.</summary>
    [JSImport("now", "hand")]
    public static partial double Now();

    /// <summary>"light", "dark", or empty to follow the system.</summary>
    [JSImport("theme", "hand")]
    public static partial string Theme();

    [JSImport("setTheme", "hand")]
    public static partial void SetTheme(string name);
}
