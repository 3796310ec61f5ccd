namespace Pleatwright.Typefaces;

/// <summary>The font files, TrueType; their licences lie beside them.</summary>
public static class FontFile
{
    /// <summary>Reads one.</summary>
    /// <param name="name">Its file name, as "NunitoSans-Bold.ttf".</param>
    /// <exception cref="ArgumentException">There is none of that name.</exception>
    public static byte[] Read(string name)
    {
        using var stream = typeof(FontFile).Assembly.GetManifestResourceStream(name) ?? throw new ArgumentException($"There is no font {name}.", nameof(name));
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
