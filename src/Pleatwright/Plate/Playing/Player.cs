namespace Pleatwright.Plate.Playing;

/// <summary>The script that plays films on a page; the bench loads the same file.</summary>
internal static class Player
{
    /// <summary>It as a plain script, which makes <c>filmPlayer</c>; as a module it ends with an export.</summary>
    public static string Script { get; } = Read("player.js") is var script && script.LastIndexOf("export ", StringComparison.Ordinal) is var at and > 0 ? script[..at] : script;

    /// <summary>A text that lies in the assembly.</summary>
    public static string Read(string name)
    {
        using var stream = typeof(Player).Assembly.GetManifestResourceStream(name) ?? throw new InvalidOperationException($"{name} is not in the assembly.");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd().Replace("\r\n", "\n", StringComparison.Ordinal);
    }
}
