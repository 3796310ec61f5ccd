using Pleatwright.App.Commands;
using Pleatwright.Letters;
using Pleatwright.Picture;
using SkiaSharp;

namespace Pleatwright.App.Images;

/// <summary>A font: from a file of its own, or installed; its letters drawn as pictures.</summary>
internal sealed class FontFile : ILetterPictures
{
    /// <summary>The largest file taken in: 64 MB.</summary>
    public const long MostBytes = 64L * 1024 * 1024;

    private const float Capital = 192; // pixels: some ten to a line of the smallest letters
    private const int MostAcross = 4096; // pixels of one letter; what is larger is broken, or made to do harm

    private readonly SKTypeface typeface;
    private readonly SKFont font;

    private FontFile(string name, SKTypeface typeface)
    {
        (Name, this.typeface) = (name, typeface);
        font = new SKFont(typeface, Capital) { Hinting = SKFontHinting.None, Subpixel = true, Edging = SKFontEdging.Antialias };
        // As large as makes a capital H the height wanted; a font without one is taken by its own measure.
        using var capital = font.GetGlyph('H') is var glyph and not 0 ? font.GetGlyphPath(glyph) : null;
        var high = capital is { Bounds.Height: > 0 and < 10 * Capital } ? capital.Bounds.Height : Capital * 0.7f;
        font.Size = Capital * Capital / high;
    }

    /// <inheritdoc/>
    public string Name { get; }

    /// <inheritdoc/>
    public double CapitalHeight => Capital;

    /// <summary>Opens a font.</summary>
    /// <param name="named">A file, or the name of an installed family.</param>
    /// <exception cref="UsageException">There is none, or it cannot be read; the message is one line that says which.</exception>
    public static FontFile Open(string named)
    {
        if (!File.Exists(named) && !Directory.Exists(named) && Path.GetFileName(named) == named && Installed(named) is { } installed) return new FontFile(named, installed);
        return Read(named, InputFile.Read(named, "a font file, or the name of an installed font", MostBytes));
    }

    /// <summary>Reads a font from its bytes; the name is for messages.</summary>
    /// <exception cref="UsageException">It is no font, or is broken.</exception>
    public static FontFile Read(string name, byte[] bytes)
    {
        using var data = SKData.CreateCopy(bytes);
        var typeface = bytes.Length == 0 ? null : SKTypeface.FromData(data);
        return typeface is { GlyphCount: > 0 } ? new FontFile(Path.GetFileName(name), typeface)
            : throw new UsageException($"{name}: this is no font that can be read here, or it is broken; use a TrueType or OpenType file.");
    }

    private static SKTypeface? Installed(string family)
    {
        if (SKFontManager.Default.FontFamilies.FirstOrDefault(f => f.Equals(family, StringComparison.OrdinalIgnoreCase)) is { } found) return SKFontManager.Default.MatchFamily(found);
        // The library as it is built for Linux knows no installed fonts: the files are looked through, those first that are called like the family.
        var start = family.Replace(" ", "");
        SKTypeface? best = null;
        foreach (var file in Files().OrderBy(f => !Path.GetFileName(f).StartsWith(start, StringComparison.OrdinalIgnoreCase)).ThenBy(f => f, StringComparer.Ordinal).Take(MostFiles))
        {
            var typeface = SKTypeface.FromFile(file);
            if (typeface is null) continue;
            if (!typeface.FamilyName.Equals(family, StringComparison.OrdinalIgnoreCase)) { typeface.Dispose(); continue; }
            if (typeface.FontStyle is { Weight: (int)SKFontStyleWeight.Normal, Slant: SKFontStyleSlant.Upright, Width: (int)SKFontStyleWidth.Normal }) return typeface;
            best ??= typeface;
        }
        return best;
    }

    private const int MostFiles = 5000;

    private static IEnumerable<string> Files()
    {
        var home = Environment.GetFolderPath(Environment.SpecialFolder.UserProfile);
        string[] folders = ["/usr/share/fonts", "/usr/local/share/fonts", Path.Combine(home, ".fonts"), Path.Combine(home, ".local/share/fonts")];
        var all = new EnumerationOptions { RecurseSubdirectories = true, IgnoreInaccessible = true, MaxRecursionDepth = 8 };
        return folders.Where(Directory.Exists).SelectMany(f => Directory.EnumerateFiles(f, "*", all))
            .Where(f => Path.GetExtension(f).ToLowerInvariant() is ".ttf" or ".otf" or ".ttc");
    }

    /// <inheritdoc/>
    public LetterPicture? Of(string character)
    {
        var glyph = font.GetGlyph(char.ConvertToUtf32(character, 0));
        if (glyph == 0) return null;
        using var path = font.GetGlyphPath(glyph);
        if (path is null || path.IsEmpty) return null;
        var bounds = path.TightBounds;
        if (!(bounds.Width is > 0 and < MostAcross && bounds.Height is > 0 and < MostAcross && Math.Abs(bounds.Top) < MostAcross)) throw new ArgumentException($"“{character}” of {Name} cannot be drawn: the font is broken");
        int width = (int)Math.Ceiling(bounds.Width) + 2, height = (int)Math.Ceiling(bounds.Height) + 2;
        using var bitmap = new SKBitmap(new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Unpremul));
        using var canvas = new SKCanvas(bitmap);
        using var paint = new SKPaint { Color = SKColors.Black, IsAntialias = true };
        canvas.Clear(SKColors.Transparent);
        canvas.Translate(1 - bounds.Left, 1 - bounds.Top);
        canvas.DrawPath(path, paint);
        canvas.Flush();
        return new LetterPicture(new Raster(width, height, bitmap.Bytes), (int)Math.Round(1 - bounds.Top));
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        font.Dispose();
        typeface.Dispose();
    }
}
