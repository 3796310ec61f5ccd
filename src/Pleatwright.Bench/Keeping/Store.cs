using System.Runtime.InteropServices.JavaScript;

namespace Pleatwright.Bench.Keeping;

/// <summary>The browser's storage, as wwwroot/store.js offers it.</summary>
internal static partial class Store
{
    public static Task LoadAsync() => JSHost.ImportAsync("store", "../store.js");

    [JSImport("files", "store")]
    public static partial Task<string> FilesAsync(string folder);

    [JSImport("folders", "store")]
    public static partial Task<string> FoldersAsync(string folder);

    [JSImport("read", "store")]
    public static partial Task<string?> ReadAsync(string path);

    [JSImport("write", "store")]
    public static partial Task WriteAsync(string path, string text);

    [JSImport("move", "store")]
    public static partial Task MoveAsync(string from, string to);

    [JSImport("remove", "store")]
    public static partial Task RemoveAsync(string path);

    [JSImport("hold", "store")]
    public static partial Task<int> HoldAsync();

    [JSImport("release", "store")]
    public static partial void Release(int hold);

    [JSImport("persist", "store")]
    public static partial Task<bool> PersistAsync();

    [JSImport("journalPut", "store")]
    public static partial Task JournalPutAsync(string piece, int from, int count, int at, string standing, string[] pairs, string? more);

    [JSImport("journalLeave", "store")]
    public static partial void JournalLeave(string piece, int from, int count, int at, string standing, string[] pairs, string? more);

    [JSImport("journalGet", "store")]
    public static partial Task<string?> JournalGetAsync(string piece);

    [JSImport("journalHeads", "store")]
    public static partial Task<string> JournalHeadsAsync();

    [JSImport("journalPresent", "store")]
    public static partial Task<string?> JournalPresentAsync(string piece);

    [JSImport("journalClear", "store")]
    public static partial Task JournalClearAsync(string piece);

    [JSImport("journalMove", "store")]
    public static partial Task JournalMoveAsync(string from, string to);

    [JSImport("claim", "store")]
    public static partial Task<bool> ClaimAsync(string piece);

    [JSImport("letGo", "store")]
    public static partial void LetGo(string piece);

    [JSImport("remembered", "store")]
    public static partial Task<string?> RememberedAsync(string name);

    [JSImport("remember", "store")]
    public static partial Task RememberAsync(string name, string? text);

    [JSImport("replace", "store")]
    public static partial Task<bool> ReplaceAsync(string name, string? was, string? text);

    /// <summary>How often the browser has cleared all that was kept since the page was opened.</summary>
    [JSImport("clearings", "store")]
    public static partial int Clearings();

    /// <summary>A small setting; may be lost with a kill.</summary>
    [JSImport("setting", "store")]
    public static partial string? Setting(string name);

    [JSImport("setSetting", "store")]
    public static partial void SetSetting(string name, string? value);

    /// <summary>A small setting of this tab.</summary>
    [JSImport("ofTab", "store")]
    public static partial string? OfTab(string name);

    [JSImport("setOfTab", "store")]
    public static partial void SetOfTab(string name, string? value);

    [JSImport("onLeave", "store")]
    public static partial void OnLeave([JSMarshalAs<JSType.Function>] Action act);

    /// <summary>Hands the maker a file.</summary>
    [JSImport("download", "store")]
    public static partial void Download(string name, string type, byte[] content);

    /// <summary>Whether the browser would take a file now without being asked again.</summary>
    [JSImport("mayDownload", "store")]
    public static partial bool MayDownload();

    /// <summary>An address in this page under which a text can be shown as a picture, until it is let go.</summary>
    [JSImport("pictureOf", "store")]
    public static partial string PictureOf(string type, string text);

    [JSImport("letPictureGo", "store")]
    public static partial void LetPictureGo(string address);
}
